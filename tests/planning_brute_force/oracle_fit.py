"""The best of a concrete class in one format: every arrangement, every choice of everyone.

Nothing is left out but what a plain sum of least prices and least seconds rules out.
"""

from collections import Counter
from dataclasses import dataclass, field
from itertools import product

from roundwright.goals.class_wish import AfterLastRound, ClassFormat
from roundwright.plan.core import CellState
from roundwright.plan.problem import Problem
from tests.brute_force.oracle_allowed import bursts_of
from tests.brute_force.oracle_options import (
    Option,
    burst_options,
    lifted_masses,
    place_options,
)
from tests.brute_force.oracle_people import dosage, own_counts
from tests.planning_brute_force.oracle_arrangements import Arrangement, arrangements
from tests.planning_brute_force.oracle_class_price import class_price

Interval = tuple[int, int]
Value = tuple[int, int]
OptionBook = dict[tuple[object, ...], list[Option]]
"""Options of a place, by all that they depend on besides people, kit and rules."""


@dataclass(frozen=True)
class Way:
    """What one person does of the whole class: price, and by interval seconds and kit."""

    price: int
    seconds: dict[Interval, int]
    uses: dict[Interval, dict[str, int]]
    burst_items: dict[str, int]
    burst_rounds: int
    listings: tuple[frozenset[tuple[str, ...]], ...]
    """Listings of versions by position (from 0)."""
    options: tuple[Option, ...]
    """By interval."""

    @property
    def key(self) -> object:
        """All that others can see of it, without the price."""
        return (
            tuple(sorted(self.seconds.items())),
            tuple((k, tuple(sorted(u.items()))) for k, u in sorted(self.uses.items())),
            tuple(sorted(self.burst_items.items())),
            self.listings,
        )


@dataclass(frozen=True)
class Best:
    """The least (overrun, price), and an arrangement and ways that give it."""

    value: Value
    arrangement: Arrangement
    ways: dict[str, Way] = field(hash=False)


def turned(problem: Problem, offset: int) -> Problem:
    """The class as a group with this offset meets it: its first position first."""
    spec = problem.spec
    order = spec.exercises[offset:] + spec.exercises[:offset]
    new_place = {e.position: k for k, e in enumerate(order, start=1)}
    keep = tuple(
        c.model_copy(update={"position": new_place[c.position]})
        for c in spec.keep
        if c.position in new_place
    )
    exercises = tuple(e.model_copy(update={"position": k}) for k, e in enumerate(order, start=1))
    changes = {"exercises": exercises, "keep": keep, "format": ClassFormat.TOGETHER}
    return problem.model_copy(update={"spec": spec.model_copy(update=changes)})


def booked_options(book: OptionBook, problem: Problem, person_id: str) -> list[list[Option]]:
    """Options place by place; those of an equal place of another order are looked up."""
    places, found = problem.spec.positions, []
    counts = own_counts(problem, person_id)
    for t, (exercise, count) in enumerate(
        zip(problem.spec.exercises, counts, strict=True), start=1
    ):
        kept = [c for c in problem.spec.keep if c.position == t and c.person == person_id]
        key = (
            *(person_id, exercise.exercise_id, exercise.count, count, problem.spec.rounds),
            *(t == 1, t == places, places, tuple(kept)),
        )
        if key not in book:
            book[key] = place_options(problem, person_id, t)
        found.append(book[key])
    return found


def ways_of(problem: Problem, person_id: str, offset: int, book: OptionBook) -> list[Way]:
    """Everything that a person of a group with this offset may do, the cheapest of equals."""
    mine, spec = turned(problem, offset), problem.spec
    dose, places = dosage(problem, person_id), spec.positions
    cheapest: dict[object, Way] = {}
    by_interval = booked_options(book, mine, person_id)
    bursts = burst_options(mine, person_id)
    for options in product(*by_interval):
        masses = max(0, len(lifted_masses(options)) - 2)
        own_price = sum(o.price for o in options) + problem.costs.third_mass * masses
        seconds: dict[Interval, int] = {}
        uses: dict[Interval, dict[str, int]] = {}
        contacts = low_hops = 0
        listings: list[frozenset[tuple[str, ...]]] = [frozenset()] * places
        for t, option in enumerate(options, start=1):
            if option.state is CellState.DO:
                listings[(t - 1 + offset) % places] = frozenset(
                    d.version.signature for d in (option.main, option.tail) if d is not None
                )
            for round_number in range(1, dose.rounds + 1):
                doing = option.in_round(round_number, spec.rounds)
                if doing is not None:
                    contacts += doing.version.contacts
                    low_hops += doing.version.low_hops
                    seconds[round_number, t] = doing.version.seconds
                    uses[round_number, t] = doing.uses
        for burst in bursts:
            if contacts + burst.contacts > dose.contact_limit:
                continue
            if low_hops + burst.low_hops > dose.low_hop_limit:
                continue
            way = Way(
                price=own_price + burst.price,
                seconds=seconds,
                uses=uses,
                burst_items=dict(burst.items),
                burst_rounds=bursts_of(mine, person_id),
                listings=tuple(listings),
                options=options,
            )
            if way.key not in cheapest or way.price < cheapest[way.key].price:
                cheapest[way.key] = way
    return sorted(cheapest.values(), key=lambda w: w.price)


def class_seconds(
    problem: Problem,
    form: ClassFormat,
    halves: dict[str, int],
    work: dict[str, dict[Interval, int]],
) -> int:
    """The length of the class when everyone works so long in each interval."""
    spec = problem.spec
    total = spec.warm_up_s + spec.demonstration_s + spec.cool_down_s
    for round_number in range(1, spec.rounds + 1):
        for t in range(1, spec.positions + 1):
            longest = [0, 0]
            anybody = False
            for person_id, seconds in work.items():
                if (round_number, t) in seconds:
                    anybody = True
                    half = halves[person_id]
                    longest[half] = max(longest[half], seconds[round_number, t])
            if anybody:
                swap = spec.partner_swap_s if form is ClassFormat.PAIRS else 0
                total += sum(longest) + swap + spec.change_s
        last = round_number == spec.rounds
        if spec.burst and not (last and spec.after_last_round is AfterLastRound.NOTHING):
            total += spec.burst.length_s
        if not last or spec.after_last_round is AfterLastRound.BURST_AND_REST:
            total += spec.rest_s
    return total


def kit_is_enough(problem: Problem, arrangement: Arrangement, ways: dict[str, Way]) -> bool:
    """Count each interval; in pairs a group uses the larger of its two halves."""
    stock = {f"@{d.unit_mass_g}": d.count for d in problem.kit.dumbbells if d.in_use}
    stock |= {item.id: item.count for item in problem.kit.items if item.in_use}
    halves = arrangement.half_of
    for interval in {i for way in ways.values() for i in way.uses}:
        needed: Counter[str] = Counter()
        for group in arrangement.groups:
            of_half = (Counter[str](), Counter[str]())
            for person_id in group:
                of_half[halves[person_id]].update(ways[person_id].uses.get(interval, {}))
            needed.update(of_half[0] | of_half[1])
        if any(units > stock[item] for item, units in needed.items()):
            return False
    for round_number in range(1, problem.spec.rounds + 1):
        skipping: Counter[str] = Counter()
        for way in ways.values():
            if round_number <= way.burst_rounds:
                skipping.update(way.burst_items)
        if any(units > stock[item] for item, units in skipping.items()):
            return False
    return True


def versions_price(problem: Problem, ways: dict[str, Way]) -> int:
    """Each further version at a position, more where the room is crowded with them."""
    costs, total = problem.costs, 0
    for k in range(problem.spec.positions):
        number = len({listing for way in ways.values() for listing in way.listings[k]})
        total += costs.further_version * max(0, number - 1)
        total += costs.crowded_version * max(0, number - problem.rules.most_versions)
    return total


def pairs_price(problem: Problem, arrangement: Arrangement) -> int:
    if arrangement.format is not ClassFormat.PAIRS:
        return 0
    new = [sum(problem.people[p].classes == 0 for p in g) for g in arrangement.groups]
    return problem.costs.first_timer_pair * sum(number >= 2 for number in new)


class FitSearch:
    """One concrete class; everyone's ways are listed once for each offset."""

    def __init__(
        self,
        problem: Problem,
        book: OptionBook | None = None,
        listed: dict[tuple[str, int], list[Way]] | None = None,
    ) -> None:
        self.problem = problem
        self.book = {} if book is None else book
        self.listed = {} if listed is None else listed
        self.class_price = class_price(problem)

    def ways(self, person_id: str, offset: int) -> list[Way]:
        key = (person_id, offset)
        if key not in self.listed:
            self.listed[key] = ways_of(self.problem, person_id, offset, self.book)
        return self.listed[key]

    def least_possible(self, arrangement: Arrangement) -> Value | None:
        """No plan of the arrangement is below this; None where someone has no way."""
        offsets = arrangement.offset_of
        listed = {p: self.ways(p, o) for p, o in offsets.items()}
        if not all(listed.values()):
            return None
        quickest = {p: _quickest(ways) for p, ways in listed.items()}
        length = class_seconds(self.problem, arrangement.format, arrangement.half_of, quickest)
        price = sum(ways[0].price for ways in listed.values())
        price += pairs_price(self.problem, arrangement) + self.class_price
        return max(0, length - self.problem.spec.slot_s), price

    def best_of(self, arrangement: Arrangement, below: Value | None) -> Best | None:
        """The best plan of an arrangement that is below a value, if there is any."""
        problem, form, halves = self.problem, arrangement.format, arrangement.half_of
        people = list(arrangement.offset_of)
        listed = [self.ways(p, arrangement.offset_of[p]) for p in people]
        if not all(listed):
            return None
        quickest = [_quickest(ways) for ways in listed]
        rest_price = [sum(ways[0].price for ways in listed[i:]) for i in range(len(people) + 1)]
        fixed = pairs_price(problem, arrangement) + self.class_price
        best: Best | None = None

        def go_on(index: int, chosen: dict[str, Way], price: int) -> None:
            nonlocal best, below
            work = {p: way.seconds for p, way in chosen.items()}
            work |= {p: quickest[i] for i, p in enumerate(people) if i >= index}
            length = class_seconds(problem, form, halves, work)
            value = (max(0, length - problem.spec.slot_s), price + rest_price[index])
            if below is not None and value >= below:
                return
            if not kit_is_enough(problem, arrangement, chosen | _no_use(people[index:])):
                return
            if index == len(people):
                whole = (value[0], price + versions_price(problem, chosen))
                if below is None or whole < below:
                    best, below = Best(whole, arrangement, dict(chosen)), whole
                return
            for way in listed[index]:
                go_on(index + 1, chosen | {people[index]: way}, price + way.price)

        go_on(0, {}, fixed)
        return best


def _quickest(ways: list[Way]) -> dict[Interval, int]:
    """The least seconds of each interval; where some way has no work, there need be none."""
    intervals = set.intersection(*(set(way.seconds) for way in ways))
    return {i: min(way.seconds[i] for way in ways) for i in intervals}


def _no_use(people: list[str]) -> dict[str, Way]:
    return {p: Way(0, {}, {}, {}, 0, (), ()) for p in people}


def best_fit(problem: Problem, form: ClassFormat) -> Best | None:
    """The best plan of a coach's own concrete class in one format."""
    search, best = FitSearch(problem), None
    for arrangement in arrangements(problem, form):
        found = search.best_of(arrangement, best.value if best else None)
        best = found or best
    return best
