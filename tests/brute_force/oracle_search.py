"""The best of everything: every choice of every person, every grouping (sections 8 to 10)."""

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import permutations, product
from math import prod

from roundwright.goals.class_wish import AfterLastRound, ClassFormat
from roundwright.plan.core import CellState
from roundwright.plan.problem import Problem
from tests.brute_force.oracle_allowed import bursts_of
from tests.brute_force.oracle_options import (
    Burst,
    Option,
    burst_options,
    lifted_masses,
    place_options,
)
from tests.brute_force.oracle_people import dosage

Place = tuple[int, int]
Group = tuple[str, ...]


@dataclass(frozen=True)
class OwnPlan:
    """All that one person does in the class."""

    options: tuple[Option, ...]
    burst: Burst
    price: int
    seconds: dict[Place, int]
    uses: dict[Place, dict[str, int]]
    burst_rounds: int


@dataclass(frozen=True)
class Best:
    """The least (overrun, price) with the form, the groups and the choices that give it."""

    overrun_s: int
    price: int
    format: ClassFormat
    groups: tuple[Group, ...]
    plans: dict[str, OwnPlan]


@dataclass
class Space:
    """All own plans of all people."""

    problem: Problem
    own: dict[str, list[OwnPlan]]

    @property
    def size(self) -> int:
        """How many combinations there are, without the groupings."""
        return prod(len(plans) for plans in self.own.values())


def _own_plan(
    problem: Problem, person_id: str, options: tuple[Option, ...], burst: Burst
) -> OwnPlan | None:
    """Put one person's choices together; None where contacts or low hops are too many."""
    dose, spec = dosage(problem, person_id), problem.spec
    contacts, low_hops = burst.contacts, burst.low_hops
    seconds: dict[Place, int] = {}
    uses: dict[Place, dict[str, int]] = {}
    for position, option in enumerate(options, start=1):
        for round_number in range(1, dose.rounds + 1):
            doing = option.in_round(round_number, spec.rounds)
            if doing is None:
                continue
            contacts += doing.version.contacts
            low_hops += doing.version.low_hops
            seconds[round_number, position] = doing.version.seconds
            uses[round_number, position] = doing.uses
    if contacts > dose.contact_limit or low_hops > dose.low_hop_limit:
        return None
    price = sum(o.price for o in options) + burst.price
    price += problem.costs.third_mass * max(0, len(lifted_masses(options)) - 2)
    return OwnPlan(options, burst, price, seconds, uses, bursts_of(problem, person_id))


def space_of(problem: Problem) -> Space:
    """List everyone's own plans."""
    own = {}
    for person_id in problem.taking_part:
        places = [place_options(problem, person_id, k + 1) for k in range(problem.spec.positions)]
        plans = [
            _own_plan(problem, person_id, options, burst)
            for options in product(*places)
            for burst in burst_options(problem, person_id)
        ]
        own[person_id] = [plan for plan in plans if plan is not None]
    return Space(problem, own)


def groupings(people: tuple[str, ...]) -> Iterator[tuple[Group, ...]]:
    """Every grouping in pairs, with who goes first, and in a three who goes second."""
    seen = set()
    for order in permutations(people):
        cut = len(order) if len(order) < 2 or len(order) % 2 == 0 else len(order) - 3
        groups = [order[i : i + 2] for i in range(0, cut, 2)]
        if cut < len(order):
            first, second, third = order[cut:]
            groups.append((min(first, third), second, max(first, third)))
        key = tuple(sorted(groups))
        if key not in seen:
            seen.add(key)
            yield key


def half_of(group: Group, person_id: str) -> int:
    """0 for who works in the first half of the window, 1 for who works in the second."""
    return group.index(person_id) % 2


def _class_seconds(
    problem: Problem, chosen: dict[str, OwnPlan], halves: dict[str, int] | None
) -> int:
    spec = problem.spec
    total = spec.warm_up_s + spec.demonstration_s + spec.cool_down_s
    for round_number in range(1, spec.rounds + 1):
        for position in range(1, spec.positions + 1):
            place = (round_number, position)
            working = {
                p: plan.seconds[place] for p, plan in chosen.items() if place in plan.seconds
            }
            if not working:
                continue
            if halves is None:
                total += max(working.values())
            else:
                for half in (0, 1):
                    total += max((s for p, s in working.items() if halves[p] == half), default=0)
                total += spec.partner_swap_s
            total += spec.change_s
        last = round_number == spec.rounds
        if spec.burst is not None and not (
            last and spec.after_last_round is AfterLastRound.NOTHING
        ):
            total += spec.burst.length_s
        if not last or spec.after_last_round is AfterLastRound.BURST_AND_REST:
            total += spec.rest_s
    return total


def _stock(problem: Problem) -> dict[str, int]:
    stock = {f"@{d.unit_mass_g}": d.count for d in problem.kit.dumbbells if d.in_use}
    return stock | {item.id: item.count for item in problem.kit.items if item.in_use}


def _kit_is_enough(problem: Problem, chosen: dict[str, OwnPlan], groups: tuple[Group, ...]) -> bool:
    """Count each window group by group; together, each person is a group."""
    stock = _stock(problem)
    for round_number in range(1, problem.spec.rounds + 1):
        for position in range(1, problem.spec.positions + 1):
            needed: Counter[str] = Counter()
            for group in groups:
                halves = (Counter[str](), Counter[str]())
                for person_id in group:
                    used = chosen[person_id].uses.get((round_number, position), {})
                    halves[half_of(group, person_id)].update(used)
                needed.update(halves[0] | halves[1])
            if any(units > stock[item] for item, units in needed.items()):
                return False
        burst: Counter[str] = Counter()
        for plan in chosen.values():
            if round_number <= plan.burst_rounds:
                burst.update(dict(plan.burst.items))
        if any(units > stock[item] for item, units in burst.items()):
            return False
    return True


def _shared_price(problem: Problem, chosen: dict[str, OwnPlan]) -> int:
    costs, total = problem.costs, 0
    for index in range(problem.spec.positions):
        listings = set()
        for plan in chosen.values():
            option = plan.options[index]
            if option.state is CellState.DO:
                listings |= {d.version.signature for d in (option.main, option.tail) if d}
        total += costs.further_version * max(0, len(listings) - 1)
        total += costs.crowded_version * max(0, len(listings) - problem.rules.most_versions)
    return total


def _best_of_form(space: Space, form: ClassFormat, best: Best | None) -> Best | None:
    problem, people = space.problem, tuple(space.own)
    if form is ClassFormat.TOGETHER:
        ways: list[tuple[Group, ...]] = [tuple((p,) for p in people)]
    else:
        ways = list(groupings(people))
    for picks in product(*space.own.values()):
        chosen = dict(zip(people, picks, strict=True))
        price = sum(plan.price for plan in picks) + _shared_price(problem, chosen)
        for groups in ways:
            pairs_price, halves = price, None
            if form is ClassFormat.PAIRS:
                halves = {p: half_of(g, p) for g in groups for p in g}
                new = [sum(problem.people[p].classes == 0 for p in g) for g in groups]
                pairs_price += problem.costs.first_timer_pair * sum(n >= 2 for n in new)
            overrun = max(0, _class_seconds(problem, chosen, halves) - problem.spec.slot_s)
            found = (overrun, pairs_price)
            if best is not None and found >= (best.overrun_s, best.price):
                continue
            if _kit_is_enough(problem, chosen, groups):
                best = Best(overrun, pairs_price, form, groups, chosen)
    return best


def best_plan(space: Space) -> Best | None:
    """The best plan by the page, or None where the class is impossible."""
    wanted = space.problem.spec.format
    best = None
    for form in (ClassFormat.TOGETHER, ClassFormat.PAIRS):
        if wanted in (form, ClassFormat.ANY):
            best = _best_of_form(space, form, best)
    return best
