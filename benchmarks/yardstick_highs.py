"""The yardstick: the set model with the coupling in it, as one mixed-integer model for HiGHS.

One binary an exercise, one a way of a person to do it; kit capacity is multiplied by the
exercise's binary, versions and masses in use are aggregated by person before they bound
their binaries: the tightest single model we know. Ways that another way of the same person
beats in price and in every resource are left out first.
"""

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass, field
from typing import Any

import highspy

from roundwright.optimise.planning.set_table import SetTable, Way

Terms = list[tuple[int, float]]
INFINITY = highspy.kHighsInf


@dataclass(frozen=True)
class SetAnswer:
    """What a yardstick found: price and set, a bound that holds, and whether it is proof."""

    price: int | None
    bound: float
    is_proven: bool
    chosen: frozenset[int] = field(default_factory=frozenset)
    columns: int = 0
    rows: int = 0


def worth_listing(ways: tuple[Way, ...]) -> list[Way]:
    """Leave out ways that another beats or equals in price and in every resource."""
    kept: list[Way] = []
    for way in sorted(ways, key=lambda w: (w.price, w.contacts, w.low_hops, w.kit)):
        if not any(_beats(other, way) for other in kept):
            kept.append(way)
    return kept


def _beats(one: Way, other: Way) -> bool:
    kit = dict(other.kit)
    return (
        one.price <= other.price
        and one.contacts <= other.contacts
        and one.low_hops <= other.low_hops
        and set(one.versions) <= set(other.versions)
        and one.mass_g in (0, other.mass_g)
        and all(units <= kit.get(item, 0) for item, units in one.kit)
    )


class Model:
    """Columns and rows, collected and passed to HiGHS at once."""

    def __init__(self) -> None:
        self.costs: list[float] = []
        self.lower: list[float] = []
        self.upper: list[float] = []
        self.integer: list[bool] = []
        self.rows: list[tuple[float, Terms, float]] = []

    def column(
        self, upper: float, price: float = 0, integer: bool = True, lower: float = 0.0
    ) -> int:
        self.costs.append(float(price))
        self.lower.append(lower)
        self.upper.append(upper)
        self.integer.append(integer)
        return len(self.costs) - 1

    def row(self, lower: float, terms: Iterable[tuple[int, float]], upper: float) -> None:
        added: dict[int, float] = defaultdict(float)
        for column, factor in terms:
            added[column] += factor
        self.rows.append((lower, list(added.items()), upper))

    def solve(self, limit_s: float) -> tuple[Any, list[float]]:
        """Give HiGHS's info and the values of the columns (empty where there are none)."""
        solver: Any = highspy.Highs()  # type: ignore[no-untyped-call]
        for name, value in (
            ("output_flag", False),
            ("threads", 1),
            ("mip_rel_gap", 0.0),
            ("mip_abs_gap", 0.5),
            ("time_limit", limit_s),
        ):
            solver.setOptionValue(name, value)
        lp = highspy.HighsLp()
        lp.num_col_, lp.num_row_ = len(self.costs), len(self.rows)
        lp.col_cost_, lp.col_lower_, lp.col_upper_ = self.costs, self.lower, self.upper
        lp.integrality_ = [
            highspy.HighsVarType.kInteger if i else highspy.HighsVarType.kContinuous
            for i in self.integer
        ]
        lp.row_lower_ = [row[0] for row in self.rows]
        lp.row_upper_ = [row[2] for row in self.rows]
        starts: list[int] = [0]
        columns: list[int] = []
        factors: list[float] = []
        for _, terms, _ in self.rows:
            columns += [column for column, _ in terms]
            factors += [factor for _, factor in terms]
            starts.append(len(columns))
        lp.a_matrix_.format_ = highspy.MatrixFormat.kRowwise
        lp.a_matrix_.start_ = starts
        lp.a_matrix_.index_ = columns
        lp.a_matrix_.value_ = factors
        solver.passModel(lp)
        solver.run()
        return solver, list(solver.getSolution().col_value)


def add_set_rules(table: SetTable, model: Model, picks: list[int]) -> None:
    """Add the rows of a set: how many, of which, and the prices of balance."""
    rules, most = table.rules, table.most_held_against
    everything = range(len(picks))

    def at_most(limit: float, which: Iterable[int]) -> None:
        terms = [(picks[e], 1.0) for e in which]
        if len(terms) > limit:
            model.row(-INFINITY, terms, limit)

    model.row(rules.places, [(s, 1.0) for s in picks], rules.places)
    for e in rules.kept:
        model.row(1.0, [(picks[e], 1.0)], 1.0)
    for line in set(table.line):
        at_most(1, [e for e in everything if table.line[e] == line])
    for k in set(table.pattern):
        at_most(most["pattern", k], [e for e in everything if table.pattern[e] == k])
    at_most(most["jumping", 0], [e for e in everything if table.jumping[e]])
    at_most(most["combination", 0], [e for e in everything if table.combination[e]])
    loaded = [(picks[e], 1.0) for e in everything if table.loaded[e]]
    model.row(most["loaded", 0], loaded, INFINITY)
    for need in rules.needs:
        model.row(1.0, [(picks[e], 1.0) for e in need], INFINITY)
    for shown in rules.besides:
        model.row(-INFINITY, [(picks[e], 1.0) for e in shown], rules.places - 1)
    for signs, before, price in (
        (table.push_pull, table.push_pull_before, table.prices.push_pull),
        (table.knee_hip, table.knee_hip_before, table.prices.knee_hip),
    ):
        apart = model.column(INFINITY, price, integer=False)
        terms = [(picks[e], float(sign)) for e, sign in enumerate(signs) if sign]
        model.row(-INFINITY, [*terms, (apart, -1.0)], -before)
        model.row(before, [(apart, 1.0), *terms], INFINITY)
    if table.seconds_left is not None:
        seconds = [(s, float(table.least_seconds[e])) for e, s in enumerate(picks)]
        model.row(-INFINITY, seconds, table.seconds_left)


def add_people(
    table: SetTable, model: Model, picks: list[int], coupled: bool = True
) -> list[list[list[int]]]:
    """Add everyone's ways, the kit, versions in the room; and what couples exercises.

    Gives the columns of the ways that are worth listing, by exercise and person.
    """
    listed: list[list[list[int]]] = []
    prices, crowd = table.prices, range(len(table.people))
    contacts: list[Terms] = [[] for _ in crowd]
    hops: list[Terms] = [[] for _ in crowd]
    masses: list[dict[int, list[Terms]]] = [defaultdict(list) for _ in crowd]
    for e, s in enumerate(picks):
        listed.append([])
        kit: dict[int, Terms] = defaultdict(list)
        shown: dict[int, int] = {}
        for p in crowd:
            chosen: Terms = []
            by_version: dict[int, Terms] = defaultdict(list)
            by_mass: dict[int, Terms] = defaultdict(list)
            for way in worth_listing(table.alternatives[e][p]):
                x = model.column(1.0, way.price)
                chosen.append((x, 1.0))
                contacts[p].append((x, float(way.contacts)))
                hops[p].append((x, float(way.low_hops)))
                for item, units in way.kit:
                    kit[item].append((x, float(units)))
                for version in way.versions:
                    by_version[version].append((x, -1.0))
                if way.mass_g:
                    by_mass[way.mass_g].append((x, -1.0))
            listed[e].append([x for x, _ in chosen])
            model.row(0.0, [*chosen, (s, -1.0)], 0.0)
            for version, terms in by_version.items():
                if version not in shown:
                    shown[version] = model.column(1.0)
                model.row(0.0, [(shown[version], 1.0), *terms], INFINITY)
            for mass, terms in by_mass.items():
                masses[p][mass].append(terms)
        for item, terms in kit.items():
            room = table.kit_counts[item] * table.kit_factor
            if sum(units for _, units in terms) > room:
                model.row(-INFINITY, [*terms, (s, -float(room))], 0.0)
        for free, price in (
            (1, prices.further_version),
            (prices.most_versions, prices.crowded_version),
        ):
            if len(shown) > free:
                beyond = model.column(INFINITY, price, integer=False)
                seen = [(v, -1.0) for v in shown.values()]
                model.row(0.0, [(beyond, 1.0), *seen, (s, float(free))], INFINITY)
    _add_bursts(table, model, contacts, hops)
    if not coupled:
        return listed
    for p in crowd:
        for limits, used in ((table.contact_limits, contacts), (table.low_hop_limits, hops)):
            terms = [(x, units) for x, units in used[p] if units]
            if terms:
                model.row(-INFINITY, terms, limits[p])
        in_hand = []
        for of_mass in masses[p].values():
            held = model.column(1.0)
            in_hand.append(held)
            for terms in of_mass:
                model.row(0.0, [(held, 1.0), *terms], INFINITY)
        if len(in_hand) > 2:
            third = model.column(INFINITY, prices.third_mass, integer=False)
            model.row(-2.0, [(third, 1.0), *((u, -1.0) for u in in_hand)], INFINITY)
    return listed


def _add_bursts(table: SetTable, model: Model, contacts: list[Terms], hops: list[Terms]) -> None:
    if not table.burst:
        return
    kit: dict[int, Terms] = defaultdict(list)
    for p, ways in enumerate(table.burst):
        chosen: Terms = []
        for way in ways:
            x = model.column(1.0, way.price)
            chosen.append((x, 1.0))
            contacts[p].append((x, float(way.contacts)))
            hops[p].append((x, float(way.low_hops)))
            for item, units in way.kit:
                kit[item].append((x, float(units)))
        model.row(1.0, chosen, 1.0)
    for item, terms in kit.items():
        model.row(-INFINITY, terms, table.kit_counts[item])


def solve_with_highs(table: SetTable, limit_s: float = 120.0, coupled: bool = True) -> SetAnswer:
    """Solve the single model; without the coupling it is the bound that cuts start from."""
    model = Model()
    picks = [
        model.column(1.0 if all(table.alternatives[e]) else 0.0, table.own_price[e])
        for e in range(len(table.exercises))
    ]
    add_set_rules(table, model, picks)
    add_people(table, model, picks, coupled)
    return answer_of(table, model, picks, limit_s)


def answer_of(table: SetTable, model: Model, picks: list[int], limit_s: float) -> SetAnswer:
    """Solve a model and read price, bound and set; every status is looked at."""
    solver, values = model.solve(limit_s)
    status, info = solver.getModelStatus(), solver.getInfo()
    size = (len(model.costs), len(model.rows))
    if status == highspy.HighsModelStatus.kInfeasible:
        return SetAnswer(None, INFINITY, True, frozenset(), *size)
    proven = status == highspy.HighsModelStatus.kOptimal
    if not proven and status != highspy.HighsModelStatus.kTimeLimit:
        raise RuntimeError(f"HiGHS ended with {status}")
    bound = float(info.mip_dual_bound) + table.fixed_price
    has_plan = info.primal_solution_status == highspy.SolutionStatus.kSolutionStatusFeasible
    if not has_plan:
        return SetAnswer(None, bound, False, frozenset(), *size)
    price = round(float(info.objective_function_value)) + table.fixed_price
    chosen = frozenset(e for e, s in enumerate(picks) if values[s] > 0.5)
    return SetAnswer(price, bound, proven, chosen, *size)
