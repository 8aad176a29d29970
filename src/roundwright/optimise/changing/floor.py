"""One person's best, exactly, in what all others leave: kit, time, versions in the room (C4).

No solver: places are gone through one by one, and what cannot beat the best known is left.
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

from roundwright.optimise.changing.old_plan import Marked
from roundwright.optimise.changing.today import Today
from roundwright.optimise.choice_value import (
    Groups,
    KitSpan,
    kit_spans,
    span_groups,
    versions_price,
)
from roundwright.optimise.instance import Instance, Role, Signature, role_of
from roundwright.optimise.kit_choice import KitKey
from roundwright.plan.timeline import make_timeline, total_s

MOST_STEPS = 20_000
"""How many part choices of one person are looked at; our choice."""

_Longest = tuple[tuple[list[tuple[int, int]], list[tuple[int, int]]], frozenset[int]]
"""Of each half of a window the two longest, with who they are; and everybody who works."""
_Halves = tuple[list[int], bool]
"""Seconds of the longest in each half of a window, and whether anybody works in it."""
Rank = tuple[int, int, int, int, int]
"""Left out, overrun, disturbed, cells, points: of one person, in the order of harm."""


@dataclass(frozen=True, slots=True)
class Window:
    """A kind of work window: who is in it, and how often it comes in the class."""

    interval: int
    last: bool
    people: tuple[int, ...]
    places: tuple[int, ...]
    """Of each of them, where they are in it."""
    times: int


@dataclass(frozen=True, slots=True)
class _Way:
    alternative: Marked
    price: int
    more_s: int
    mass_g: int
    contacts: int
    low_hops: int


@dataclass(frozen=True, slots=True)
class Chosen:
    """What is best for one person; `is_exact` False where the search was cut short."""

    taken: tuple[Marked, ...]
    rank: Rank
    is_exact: bool


class Floor:
    """Who does what so far, for one grouping; a place not chosen yet counts for nothing."""

    def __init__(self, today: Today, groups: Groups) -> None:
        self.today = today
        self.groups = groups
        people = range(len(today.people))
        offsets = [0] * len(today.people)
        if groups.rotating is not None:
            for members, offset in zip(groups.members, groups.offsets, strict=True):
                for p in members:
                    offsets[p] = offset
        self.offsets = tuple(offsets)
        self.empty = Instance(
            today.problem,
            today.people,
            today.doses,
            (),
            today.rack.counts,
            self.offsets if groups.rotating is not None else (),
        )
        self.spans = kit_spans(self.empty)
        self.taken: list[list[Marked | None]] = [[None] * self.empty.places for _ in people]
        self._half_of = {
            p: half for halves in groups.halves() for half, part in enumerate(halves) for p in part
        }
        self.windows = tuple(self._windows())
        self._longest: list[_Longest | None] = [None] * len(self.windows)
        spec = today.problem.spec
        self._around_s = total_s(make_timeline(spec, groups.format, spec.rounds, {}))
        self._change_s = spec.change_s + (spec.partner_swap_s if groups.in_pairs else 0)

    def role(self, person: int, at: int) -> Role:
        """Give what a place is to a person's group."""
        return role_of(at, self.offsets[person], self.today.positions)

    def _windows(self) -> Iterator[Window]:
        empty = self.empty
        times: dict[tuple[int, bool, tuple[int, ...]], int] = {}
        for round_number in range(1, empty.problem.spec.rounds + 1):
            people = tuple(p for p in range(len(empty.people)) if empty.is_in(p, round_number))
            for interval in range(empty.positions) if people else ():
                key = (interval, empty.is_last(interval, round_number), people)
                times[key] = times.get(key, 0) + 1
        for (interval, last, people), n in times.items():
            places = tuple(empty.place_in(p, interval) for p in people)
            yield Window(interval, last, people, places, n)

    def use(self, span: KitSpan) -> dict[KitKey, int]:
        """Give the units in use in a span: each group counts with the larger of its halves."""
        used: dict[KitKey, int] = {}
        if span.is_burst or not self.groups.in_pairs:
            for p, place in span.places.items():
                self._add(used, p, place, span.last)
            return used
        for halves in span_groups(span, self.groups):
            most: dict[KitKey, int] = {}
            for half in halves:
                mine: dict[KitKey, int] = {}
                for p in half:
                    self._add(mine, p, span.places[p], span.last)
                for key, units in mine.items():
                    most[key] = max(most.get(key, 0), units)
            for key, units in most.items():
                used[key] = used.get(key, 0) + units
        return used

    def _add(self, used: dict[KitKey, int], person: int, place: int, last: bool) -> None:
        taken = self.taken[person][place]
        for key, units in taken.kit_in(last) if taken is not None else ():
            used[key] = used.get(key, 0) + units

    def _room(self, person: int, span: KitSpan) -> dict[KitKey, int]:
        """Give what of each kit in use a person may take in a span; what is not named is all there.

        In pairs a group uses the larger of its halves: what the partner's half has in use already
        is taken for free.
        """
        counts = self.empty.counts
        if span.is_burst or not self.groups.in_pairs:
            return {key: counts.get(key, 0) - n for key, n in self.use(span).items()}
        mine: dict[KitKey, int] = {}
        others: dict[KitKey, int] = {}
        for halves in span_groups(span, self.groups):
            most: dict[KitKey, int] = {}
            is_own = any(person in half for half in halves)
            for half in halves:
                used: dict[KitKey, int] = {}
                for p in half:
                    self._add(used, p, span.places[p], span.last)
                if is_own and person in half:
                    mine = used
                elif not is_own:
                    for key, units in used.items():
                        most[key] = max(most.get(key, 0), units)
            for key, units in most.items():
                others[key] = others.get(key, 0) + units
        return {
            key: counts.get(key, 0) - others.get(key, 0) - mine.get(key, 0)
            for key in others.keys() | mine.keys()
        }

    def best_for(self, person: int, offers: Sequence[Sequence[Marked]]) -> Chosen | None:
        """Give the best of one person by place, all others as they are; None where nothing fits.

        Parameters
        ----------
        offers : by place
            What may be taken; a place that is to stay offers one alternative.
        """
        halves = [self._without(number, person) for number in range(len(self.windows))]
        mine = self.taken[person]
        self.taken[person] = [None] * self.empty.places
        ways = self._ways(person, offers, halves)
        others_s = self._length_s(halves)
        self.taken[person] = mine
        if any(not places for places in ways):
            return None
        return self._search(person, ways, others_s)

    def _ways(
        self, person: int, offers: Sequence[Sequence[Marked]], halves: Sequence[_Halves]
    ) -> list[list[_Way]]:
        costs, most = self.today.problem.costs, self.today.problem.rules.most_versions
        rooms: dict[int, list[tuple[bool, dict[KitKey, int]]]] = {}
        for span in self.spans:
            if person in span.places:
                room = (span.last, self._room(person, span))
                rooms.setdefault(span.places[person], []).append(room)
        counts = self.empty.counts
        more_s = self._lengthening(person, halves)
        made = []
        for place, options in enumerate(offers):
            seen = self._seen(place)
            shown = versions_price(seen, costs, most)
            here = []
            for a in options:
                if any(
                    n > room.get(key, counts[key])
                    for last, room in rooms.get(place, ())
                    for key, n in a.kit_in(last)
                ):
                    continue
                new = versions_price(seen | a.signatures, costs, most) - shown
                here.append(
                    _Way(a, a.price + new, more_s(place, a), a.mass_g, a.contacts, a.low_hops)
                )
            made.append(here)
        return made

    def _seen(self, place: int) -> set[Signature]:
        if place == self.empty.positions:
            return set()
        found: set[Signature] = set()
        for row in self.taken:
            taken = row[place]
            if taken is not None:
                found |= taken.signatures
        return found

    def _lengthening(self, person: int, halves: Sequence[_Halves]) -> Callable[[int, Marked], int]:
        """Give by how much an alternative lengthens the class, s, as a function of place and it."""
        by_place: dict[int, list[tuple[bool, int, int, bool]]] = {}
        half = self._half_of[person]
        for window, (longest_by_half, works) in zip(self.windows, halves, strict=True):
            if person not in window.people:
                continue
            place = self.empty.place_in(person, window.interval)
            longest = longest_by_half[half]
            by_place.setdefault(place, []).append((window.last, window.times, longest, works))

        def more_s(place: int, a: Marked) -> int:
            total = 0
            for last, times, longest, works in by_place.get(place, ()):
                total += times * max(0, a.seconds_in(last) - longest)
                if a.works and not works:
                    total += times * self._change_s
            return total

        return more_s

    def put(self, person: int, place: int, taken: Marked | None) -> None:
        """Have somebody do something at a place, or nothing that counts."""
        self.taken[person][place] = taken
        self._longest = [None] * len(self.windows)

    def _without(self, number: int, person: int) -> _Halves:
        """Give the longest of each half of a window when one person does nothing in it."""
        longest = self._longest[number]
        if longest is None:
            longest = self._longest[number] = self._read(self.windows[number])
        halves, working = longest
        seconds = [next((s for s, p in two if p != person), 0) for two in halves]
        return seconds, bool(working - {person})

    def _read(self, window: Window) -> _Longest:
        halves: tuple[list[tuple[int, int]], list[tuple[int, int]]] = ([], [])
        working: set[int] = set()
        for p, place in zip(window.people, window.places, strict=True):
            taken = self.taken[p][place]
            if taken is None or not taken.works:
                continue
            working.add(p)
            two = halves[self._half_of[p]]
            two.append((taken.seconds_in(window.last), p))
            two.sort(reverse=True)
            del two[2:]
        return halves, frozenset(working)

    def _length_s(self, halves: Sequence[_Halves]) -> int:
        total = self._around_s
        for window, (longest, works) in zip(self.windows, halves, strict=True):
            total += window.times * (sum(longest) + (self._change_s if works else 0))
        return total

    def _search(self, person: int, ways: list[list[_Way]], others_s: int) -> Chosen | None:
        problem, dose = self.today.problem, self.today.doses[person]
        allowed_s = problem.spec.slot_s + self.today.old.overrun_s
        third = problem.costs.third_mass
        if len({w.mass_g for places in ways for w in places} - {0}) < 3:
            third = 0
        frees = (
            others_s + sum(max(w.more_s for w in places) for places in ways) <= allowed_s,
            sum(max(w.contacts for w in places) for places in ways) <= dose.contact_limit,
            sum(max(w.low_hops for w in places) for places in ways) <= dose.low_hop_limit,
        )
        reduced = [_reduced(places, frees, bool(third)) for places in ways]
        places = len(reduced)
        rest = [(0, 0, 0, 0, 0, 0)] * (places + 1)
        for k in range(places - 1, -1, -1):
            least = [
                min(values)
                for values in zip(
                    *(
                        (
                            w.alternative.left_out,
                            w.more_s,
                            w.alternative.changed,
                            w.price,
                            w.contacts,
                            w.low_hops,
                        )
                        for w in reduced[k]
                    ),
                    strict=True,
                )
            ]
            rest[k] = tuple(a + b for a, b in zip(least, rest[k + 1], strict=True))
        best: tuple[Rank, tuple[_Way, ...]] | None = None
        steps = 0

        def go_on(
            k: int, so_far: tuple[int, int, int, int, int, int], way: tuple[_Way, ...]
        ) -> None:
            nonlocal best, steps
            steps += 1
            left, more, changed, price, contacts, hops = (
                a + b for a, b in zip(so_far, rest[k], strict=True)
            )
            if contacts > dose.contact_limit or hops > dose.low_hop_limit:
                return
            masses = 0
            if third:
                masses = third * max(0, len({w.mass_g for w in way} - {0}) - 2)
            rank = (
                left,
                max(0, others_s + more - allowed_s),
                int(changed > 0),
                changed,
                price + masses,
            )
            if best is not None and rank >= best[0]:
                return
            if k == places:
                best = (rank, way)
                return
            if steps > MOST_STEPS and best is not None:
                return
            for w in reduced[k]:
                a = w.alternative
                go_on(
                    k + 1,
                    (
                        so_far[0] + a.left_out,
                        so_far[1] + w.more_s,
                        so_far[2] + a.changed,
                        so_far[3] + w.price,
                        so_far[4] + w.contacts,
                        so_far[5] + w.low_hops,
                    ),
                    (*way, w),
                )

        go_on(0, (0, 0, 0, 0, 0, 0), ())
        if best is None:
            return None
        return Chosen(tuple(w.alternative for w in best[1]), best[0], steps <= MOST_STEPS)


def _reduced(places: list[_Way], frees: tuple[bool, bool, bool], masses: bool) -> list[_Way]:
    """Keep, of ways that ask for the same, the best; what never binds is not told apart."""
    best: dict[tuple[int, int, int, int], _Way] = {}
    for w in places:
        key = (
            0 if frees[0] else w.more_s,
            0 if frees[1] else w.contacts,
            0 if frees[2] else w.low_hops,
            w.mass_g if masses else 0,
        )
        if key not in best or _order(w) < _order(best[key]):
            best[key] = w
    return sorted(best.values(), key=_order)


def _order(way: _Way) -> tuple[int, int, int]:
    return (way.alternative.left_out, way.alternative.changed, way.price)
