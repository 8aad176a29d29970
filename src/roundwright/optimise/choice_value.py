"""What a whole choice costs, takes and uses, counted in integers from the choice itself.

The solver's own objective is never reported: every figure comes from here.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from roundwright.goals.class_wish import ClassFormat
from roundwright.optimise.instance import Alternative, Instance, Signature
from roundwright.optimise.kit_choice import KitKey
from roundwright.plan.core import Window
from roundwright.plan.cost_table import CostTable
from roundwright.plan.timeline import has_burst_after, make_timeline, total_s

Choice = tuple[tuple[int, ...], ...]
"""The number of the chosen alternative, by person index and place index."""


@dataclass(frozen=True, slots=True)
class Groups:
    """Who works with whom. Together: one group, one half. Pairs: places 1, 3 and 2 of a group.

    `offsets` and `rotating` (stations or staggered groups) are set where groups
    stand at different positions.
    """

    members: tuple[tuple[int, ...], ...]
    in_pairs: bool
    offsets: tuple[int, ...] = ()
    rotating: ClassFormat | None = None

    @property
    def format(self) -> ClassFormat:
        """The format as the plan names it."""
        if self.rotating is not None:
            return self.rotating
        return ClassFormat.PAIRS if self.in_pairs else ClassFormat.TOGETHER

    def halves(self) -> tuple[tuple[tuple[int, ...], ...], ...]:
        """Give for each group those who work at once: one part together, two in pairs."""
        if not self.in_pairs:
            return tuple((group,) for group in self.members)
        return tuple((group[0::2], group[1::2]) for group in self.members)


def together(people: int) -> Groups:
    """Give the one group of everyone."""
    return Groups((tuple(range(people)),), in_pairs=False)


def chosen(instance: Instance, choice: Choice, person: int, place: int) -> Alternative:
    """Give the alternative that a choice names."""
    return instance.table[person][place][choice[person][place]]


def price_of(instance: Instance, choice: Choice, groups: Groups) -> int:
    """Give the price of section 8, every term counted."""
    costs = instance.problem.costs
    people = range(len(instance.people))
    total = sum(
        chosen(instance, choice, p, k).price for p in people for k in range(instance.places)
    )
    for place in range(instance.positions):
        seen = {s for p in people for s in chosen(instance, choice, p, place).signatures}
        total += versions_price(seen, costs, instance.problem.rules.most_versions)
    for p in people:
        masses = {chosen(instance, choice, p, k).mass_g for k in range(instance.positions)} - {0}
        total += costs.third_mass * max(0, len(masses) - 2)
    return total + first_timers_price(instance, groups)


def versions_price(seen: Iterable[Signature], costs: CostTable, most: int) -> int:
    """Price the different versions at one position."""
    count = len(set(seen))
    return costs.further_version * max(0, count - 1) + costs.crowded_version * max(0, count - most)


def first_timers_price(instance: Instance, groups: Groups) -> int:
    """Price the groups in which two or more first-timers are partners."""
    if not groups.in_pairs:
        return 0
    crowded = sum(
        sum(instance.doses[p].is_first_timer for p in group) >= 2 for group in groups.members
    )
    return instance.problem.costs.first_timer_pair * crowded


@dataclass(frozen=True, slots=True)
class KitSpan:
    """The fullest window of an interval, before or in the last round of the class.

    `places` gives the place of each person who is in it.
    """

    places: Mapping[int, int]
    last: bool
    is_burst: bool


def kit_spans(instance: Instance) -> tuple[KitSpan, ...]:
    """Give the windows that bind: others hold fewer people with the same kit."""
    spec = instance.problem.spec
    spans = []
    for interval in range(instance.places):
        is_burst = interval == instance.positions
        main_rounds = [
            n
            for n in range(1, spec.rounds + 1)
            if (has_burst_after(spec, n, spec.rounds) if is_burst else True)
            and not instance.is_last(interval, n)
        ]
        if main_rounds:
            spans.append(_span(instance, interval, main_rounds[0], last=False))
        if instance.is_last(interval, spec.rounds):
            spans.append(_span(instance, interval, spec.rounds, last=True))
    return tuple(span for span in spans if span.places)


def _span(instance: Instance, interval: int, round_number: int, *, last: bool) -> KitSpan:
    is_burst = interval == instance.positions
    places = {
        p: interval if is_burst else instance.place_in(p, interval)
        for p in range(len(instance.people))
        if instance.is_in(p, round_number)
    }
    return KitSpan(places, last, is_burst)


def span_groups(span: KitSpan, groups: Groups) -> tuple[tuple[tuple[int, ...], ...], ...]:
    """Give the people of a span by group and half; in a burst everyone works at once."""
    if span.is_burst:
        return ((tuple(sorted(span.places)),),)
    return tuple(
        tuple(tuple(p for p in half if p in span.places) for half in halves)
        for halves in groups.halves()
    )


def kit_use(instance: Instance, choice: Choice, groups: Groups, span: KitSpan) -> dict[KitKey, int]:
    """Give the units in use: each group counts with the larger of its halves."""
    used: dict[KitKey, int] = {}
    for halves in span_groups(span, groups):
        most: dict[KitKey, int] = {}
        for half in halves:
            mine: dict[KitKey, int] = {}
            for p in half:
                for key, units in chosen(instance, choice, p, span.places[p]).kit_in(span.last):
                    mine[key] = mine.get(key, 0) + units
            for key, units in mine.items():
                most[key] = max(most.get(key, 0), units)
        for key, units in most.items():
            used[key] = used.get(key, 0) + units
    return used


def is_feasible(instance: Instance, choice: Choice, groups: Groups) -> bool:
    """Say whether kit, landings and low hops are all within their limits."""
    for p, dose in enumerate(instance.doses):
        mine = [chosen(instance, choice, p, k) for k in range(instance.places)]
        if sum(a.contacts for a in mine) > dose.contact_limit:
            return False
        if sum(a.low_hops for a in mine) > dose.low_hop_limit:
            return False
    return all(
        units <= instance.counts[key]
        for span in kit_spans(instance)
        for key, units in kit_use(instance, choice, groups, span).items()
    )


def work_rows(instance: Instance) -> Iterator[tuple[int, int, tuple[int, ...]]]:
    """Give every work window with somebody in it: (round, interval, people)."""
    works = [[any(a.works for a in options) for options in row] for row in instance.table]
    for round_number in range(1, instance.problem.spec.rounds + 1):
        inside = [p for p in range(len(instance.people)) if instance.is_in(p, round_number)]
        for interval in range(instance.positions):
            people = tuple(p for p in inside if works[p][instance.place_in(p, interval)])
            if people:
                yield round_number, interval, people


def halves_of(
    instance: Instance, choice: Choice, groups: Groups
) -> dict[tuple[int, int], tuple[int, ...]]:
    """Give the seconds of each work window, by (round, interval), both from 1."""
    parts = groups.halves()
    number = len(parts[0])
    half_of = {p: half for part in parts for half in range(number) for p in part[half]}
    halves: dict[tuple[int, int], tuple[int, ...]] = {}
    alike: dict[tuple[int, bool, tuple[int, ...]], tuple[int, ...]] = {}
    for round_number, interval, people in work_rows(instance):
        last = instance.is_last(interval, round_number)
        key = (interval, last, people)
        if key not in alike:
            longest = [0] * number
            for p in people:
                taken = chosen(instance, choice, p, instance.place_in(p, interval))
                longest[half_of[p]] = max(longest[half_of[p]], taken.seconds_in(last))
            alike[key] = tuple(longest)
        halves[round_number, interval + 1] = alike[key]
    return halves


def timeline_of(instance: Instance, choice: Choice, groups: Groups) -> tuple[Window, ...]:
    """Give the timeline of a choice."""
    spec = instance.problem.spec
    halves = halves_of(instance, choice, groups)
    return make_timeline(
        spec, groups.format, spec.rounds, halves, len(groups.members), groups.offsets
    )


def overrun_of(instance: Instance, choice: Choice, groups: Groups) -> int:
    """Give by how much the class is longer than its slot, s."""
    length = total_s(timeline_of(instance, choice, groups))
    return max(0, length - instance.problem.spec.slot_s)


def fixed_seconds(
    instance: Instance, rows: Sequence[tuple[int, int, tuple[int, ...]]], groups: Groups
) -> int:
    """Give all that the class takes besides work itself, s: changes, swaps, bursts, rests."""
    spec = instance.problem.spec
    ones: Mapping[tuple[int, int], tuple[int, ...]] = {
        (n, interval + 1): (1, 0) if groups.in_pairs else (1,) for n, interval, _ in rows
    }
    return total_s(make_timeline(spec, groups.format, spec.rounds, ones)) - len(rows)
