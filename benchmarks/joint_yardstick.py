"""The yardstick: one joint mixed-integer model of a whole class, written from the page alone.

Every option of every person at every place and in the burst, and every coupling, at once,
without any thought on how to make it quick. Options come from the tests' brute force, which
shares no code with the maker of plans. Together only: pairs would need the groupings too.
"""

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

import highspy
from tests.brute_force.oracle_allowed import bursts_of
from tests.brute_force.oracle_options import Burst, Doing, Option, burst_options, place_options
from tests.brute_force.oracle_people import dosage

from roundwright.goals.class_wish import AfterLastRound
from roundwright.plan.core import CellState
from roundwright.plan.problem import Problem

Terms = list[tuple[int, float]]
INFINITY = highspy.kHighsInf


@dataclass(frozen=True)
class Listed:
    """Everything that can be chosen, by person."""

    places: dict[str, list[list[Option]]]
    bursts: dict[str, list[Burst]]


@dataclass(frozen=True)
class Answer:
    """The least (overrun, price), or None twice where there is no plan."""

    overrun_s: int | None
    price: int | None
    columns: int
    rows: int


class JointModel:
    """Columns and rows as they are added."""

    def __init__(self) -> None:
        self.solver: Any = highspy.Highs()  # type: ignore[no-untyped-call]
        self.solver.setOptionValue("output_flag", False)
        self.solver.setOptionValue("threads", 1)
        self.solver.setOptionValue("mip_rel_gap", 0.0)
        self.solver.setOptionValue("mip_abs_gap", 0.5)
        self.price: Terms = []
        self.columns = 0
        self.rows = 0

    def column(self, upper: float, price: int = 0, integer: bool = True) -> int:
        self.solver.addVar(0.0, upper)
        if integer:
            self.solver.changeColIntegrality(self.columns, highspy.HighsVarType.kInteger)
        if price:
            self.price.append((self.columns, float(price)))
        self.columns += 1
        return self.columns - 1

    def row(self, lower: float, terms: Iterable[tuple[int, float]], upper: float) -> None:
        added: dict[int, float] = defaultdict(float)
        for column, factor in terms:
            added[column] += factor
        if added:
            self.solver.addRow(lower, upper, len(added), list(added), list(added.values()))
            self.rows += 1

    def least(self, terms: Terms) -> int | None:
        """Minimise; None where nothing is feasible."""
        for column in range(self.columns):
            self.solver.changeColCost(column, 0.0)
        for column, factor in terms:
            self.solver.changeColCost(column, factor)
        self.solver.run()
        status = self.solver.getModelStatus()
        if status == highspy.HighsModelStatus.kInfeasible:
            return None
        if status != highspy.HighsModelStatus.kOptimal:
            raise RuntimeError(f"the yardstick ended with {status}")
        return round(float(self.solver.getInfo().objective_function_value))


def list_options(problem: Problem) -> Listed:
    """List what can be chosen."""
    positions = range(1, problem.spec.positions + 1)
    people = problem.taking_part
    return Listed(
        {p: [place_options(problem, p, k) for k in positions] for p in people},
        {p: burst_options(problem, p) for p in people},
    )


def _fixed_seconds(problem: Problem, listed: Listed) -> int:
    """All seconds but those of the work windows. Who sits out has no other option there."""
    spec = problem.spec
    total = spec.warm_up_s + spec.demonstration_s + spec.cool_down_s
    for round_number in range(1, spec.rounds + 1):
        for index in range(spec.positions):
            at_work = any(
                dosage(problem, p).rounds >= round_number
                and places[index]
                and places[index][0].state is not CellState.SIT_OUT
                for p, places in listed.places.items()
            )
            total += spec.change_s if at_work else 0
        last = round_number == spec.rounds
        if spec.burst and not (last and spec.after_last_round is AfterLastRound.NOTHING):
            total += spec.burst.length_s
        if not last or spec.after_last_round is AfterLastRound.BURST_AND_REST:
            total += spec.rest_s
    return total


def solve_jointly(problem: Problem, listed: Listed) -> Answer:
    """Build the one model and solve it twice: least overrun, then least price."""
    spec, costs, model = problem.spec, problem.costs, JointModel()
    if not all(options for places in listed.places.values() for options in places):
        return Answer(None, None, 0, 0)
    kit: dict[tuple[int, int, str], Terms] = defaultdict(list)
    listings: dict[tuple[int, tuple[str, ...]], list[int]] = defaultdict(list)
    windows: dict[tuple[int, int], int] = {}
    for person_id, places in listed.places.items():
        dose = dosage(problem, person_id)
        contacts: Terms = []
        low_hops: Terms = []
        masses: dict[int, list[int]] = defaultdict(list)
        for index, options in enumerate(places):
            chosen: Terms = []
            time: dict[int, Terms] = defaultdict(list)
            for option in options:
                x = model.column(1.0, option.price)
                chosen.append((x, 1.0))
                both = [d for d in (option.main, option.tail) if d is not None]
                if option.state is CellState.DO:
                    for listing in {d.version.signature for d in both}:
                        listings[index, listing].append(x)
                for mass in {d.mass_g for d in both if d.mass_g}:
                    masses[mass].append(x)
                for round_number in range(1, dose.rounds + 1):
                    doing: Doing | None = option.in_round(round_number, spec.rounds)
                    if doing is None:
                        continue
                    time[round_number].append((x, float(doing.version.seconds)))
                    contacts.append((x, float(doing.version.contacts)))
                    low_hops.append((x, float(doing.version.low_hops)))
                    for item, units in doing.uses.items():
                        kit[round_number, index, item].append((x, float(units)))
            model.row(1.0, chosen, 1.0)
            for round_number, terms in time.items():
                if (round_number, index) not in windows:
                    windows[round_number, index] = model.column(INFINITY, integer=False)
                window = windows[round_number, index]
                model.row(0.0, [(window, 1.0), *((x, -s) for x, s in terms)], INFINITY)
        chosen = []
        for burst in listed.bursts[person_id]:
            x = model.column(1.0, burst.price)
            chosen.append((x, 1.0))
            contacts.append((x, float(burst.contacts)))
            low_hops.append((x, float(burst.low_hops)))
            for round_number in range(1, bursts_of(problem, person_id) + 1):
                for item, units in burst.items:
                    kit[round_number, -1, item].append((x, float(units)))
        model.row(1.0, chosen, 1.0)
        model.row(-INFINITY, contacts, float(dose.contact_limit))
        model.row(-INFINITY, low_hops, float(dose.low_hop_limit))
        used = [_any_of(model, columns) for columns in masses.values()]
        if len(used) > 2:
            beyond = model.column(INFINITY, costs.third_mass)
            model.row(-2.0, [(beyond, 1.0), *((u, -1.0) for u in used)], INFINITY)
    _price_versions(problem, model, listings)
    _bound_kit(problem, model, kit)
    overrun = model.column(INFINITY, integer=False)
    spare = float(_fixed_seconds(problem, listed) - spec.slot_s)
    model.row(spare, [(overrun, 1.0), *((w, -1.0) for w in windows.values())], INFINITY)
    least_overrun = model.least([(overrun, 1.0)])
    if least_overrun is None:
        return Answer(None, None, model.columns, model.rows)
    model.row(-INFINITY, [(overrun, 1.0)], least_overrun + 0.5)
    return Answer(least_overrun, model.least(model.price), model.columns, model.rows)


def _any_of(model: JointModel, columns: list[int]) -> int:
    """Give a binary that is at least each of the columns."""
    used = model.column(1.0)
    for x in columns:
        model.row(0.0, [(used, 1.0), (x, -1.0)], INFINITY)
    return used


def _price_versions(
    problem: Problem, model: JointModel, listings: dict[tuple[int, tuple[str, ...]], list[int]]
) -> None:
    at_place: dict[int, list[int]] = defaultdict(list)
    for (index, _), columns in listings.items():
        at_place[index].append(_any_of(model, columns))
    for used in at_place.values():
        for free, price in (
            (1, problem.costs.further_version),
            (problem.rules.most_versions, problem.costs.crowded_version),
        ):
            beyond = model.column(INFINITY, price)
            model.row(-float(free), [(beyond, 1.0), *((u, -1.0) for u in used)], INFINITY)


def _bound_kit(problem: Problem, model: JointModel, kit: dict[tuple[int, int, str], Terms]) -> None:
    stock = {f"@{d.unit_mass_g}": d.count for d in problem.kit.dumbbells}
    stock |= {item.id: item.count for item in problem.kit.items}
    for (_, _, item), terms in kit.items():
        model.row(-INFINITY, terms, float(stock[item]))
