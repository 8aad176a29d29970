"""One play of a class as an event simulation, written from the pages alone: the oracle.

People, coach and rack are processes and resources; each dumbbell and item is a token that lies
somewhere. It shares no code with `roundwright.rehearsal` but the drawn factors; planned
seconds come from the gate's own recount.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, field

import simpy

from roundwright.goals.class_wish import ClassFormat
from roundwright.library.vocabulary import Demand
from roundwright.plan.core import Cell, CellState, Core, Window, WindowKind
from roundwright.plan.gate.people_limits import pace_factor
from roundwright.plan.gate.recount import Listing, seconds_of
from roundwright.plan.problem import Problem

Factor = Callable[[int, int, int], float]
"""Of round, position and person (index by id)."""
RACK = -1


@dataclass
class Token:
    """One dumbbell or item: where it lies (a place, or the rack), and when it was last used."""

    key: int | str
    at: int = RACK
    used_in: int = -1


@dataclass
class Played:
    """What one play came to."""

    lengths: list[float] = field(default_factory=list)
    starts: list[float] = field(default_factory=list)
    waiting: dict[str, float] = field(default_factory=dict)


def kit_of(cell: Cell, core: Core) -> dict[int | str, int]:
    found: dict[int | str, int] = {}
    if cell.unit_mass_g:
        found[cell.unit_mass_g] = cell.units
    if core.class_.format is not ClassFormat.STATIONS:
        for item in cell.kit:
            found[item.item_id] = item.units
    return found


class Simulation:
    """A class on its way: `run` gives what came of it."""

    def __init__(self, core: Core, problem: Problem, factor: Factor) -> None:
        self.core, self.problem, self.factor = core, problem, factor
        self.env = simpy.Environment()
        self.rack = simpy.PriorityResource(self.env, capacity=1)
        self.ids = sorted(d.person_id for d in core.people)
        self.dose = {d.person_id: d for d in core.people}
        self.places = [[p] for p in self.ids]
        self.late_half: set[str] = set()
        if core.class_.format is ClassFormat.PAIRS:
            self.places = [list(group) for group in core.class_.groups]
            self.late_half = {group[1] for group in core.class_.groups if len(group) > 1}
        self.tokens = [
            Token(d.unit_mass_g) for d in problem.kit.dumbbells if d.in_use for _ in range(d.count)
        ]
        self.tokens += [
            Token(item.id)
            for item in problem.kit.items
            if item.in_use and item.room in (None, problem.room.id)
            for _ in range(item.count)
        ]
        self.played = Played(waiting=dict.fromkeys(self.ids, 0.0))
        self.use_number = -1
        self.walks: dict[str, simpy.Event] = {}

    def run(self) -> Played:
        self._set_out()
        self.env.process(self._coach())
        self.env.run()
        return self.played

    def _coach(self) -> Iterator[simpy.Event]:
        timeline = self.core.timeline
        steps: dict[str, tuple[bool, float]] = {}
        hold = None
        for n, window in enumerate(timeline):
            start = self.env.now
            self.played.starts.append(start)
            if window.kind is WindowKind.WORK:
                if n == 0 or timeline[n - 1].kind is not WindowKind.CHANGE:
                    self._fetch(window)
                if n + 1 < len(timeline) and timeline[n + 1].kind is WindowKind.CHANGE:
                    after = timeline[n + 2] if n + 2 < len(timeline) else None
                    hold = self.rack.request(priority=(-1.0, -1))
                    steps = self._fetch(after, leaving=window)
                yield from self._work(window, steps)
            elif window.kind is WindowKind.CHANGE:
                if hold is not None:
                    self.rack.release(hold)
                yield from self._change(window, steps)
                steps = {}
            else:
                if (
                    window.kind is WindowKind.BURST
                    and timeline[n - 1].kind is not WindowKind.CHANGE
                ):
                    self._fetch(window)
                yield self.env.timeout(window.length_s)
            self.played.lengths.append(self.env.now - start)

    # work

    def _cells(self, window: Window | None) -> dict[str, Cell]:
        found: dict[str, Cell] = {}
        if window is None or window.kind is not WindowKind.WORK:
            return found
        for group, position in zip(self.core.class_.groups, window.positions, strict=True):
            for person in group:
                for cell in self.core.cells:
                    mine = cell.person_id == person and cell.position == position
                    if mine and cell.round in (0, window.round):
                        done = window.round in self.dose[person].rounds
                        if done and cell.state is not CellState.SIT_OUT:
                            found[person] = cell
        return found

    def _seconds(self, person: str, cell: Cell, round_number: int) -> float:
        problem, rules = self.problem, self.problem.rules
        library = problem.library
        assert cell.count is not None
        listing = Listing(
            cell.steps,
            tuple(library.movements[s.movement_id] for s in cell.steps),
            library.combinations.get(cell.exercise_id or ""),
        )
        pace = pace_factor(problem.people[person], rules)
        planned = seconds_of(listing, cell.count, pace, problem.spec.side_change_s)
        if cell.count.is_timed:
            return float(planned)
        drawn = self.factor(round_number, cell.position, self.ids.index(person))
        slower = 1 + (round_number - 1) * rules.round_slower_bp / 10_000
        return planned * drawn * slower * (2 + rules.last_third_bp / 10_000) / 3

    def _work(self, window: Window, steps: dict[str, tuple[bool, float]]) -> Iterator[simpy.Event]:
        cells = self._cells(window)
        for person in self.ids:
            if person not in cells:
                self._finished(person, steps)
        first = [p for p in cells if p not in self.late_half]
        second = [p for p in cells if p in self.late_half]
        yield from self._half(first, cells, window.round, steps)
        if self.core.class_.format is ClassFormat.PAIRS:
            yield self.env.timeout(window.length_s - sum(window.halves_s))
            yield from self._half(second, cells, window.round, steps)

    def _half(
        self,
        people: list[str],
        cells: dict[str, Cell],
        round_number: int,
        steps: dict[str, tuple[bool, float]],
    ) -> Iterator[simpy.Event]:
        ended: dict[str, float] = {}

        def one(person: str) -> Iterator[simpy.Event]:
            yield self.env.timeout(self._seconds(person, cells[person], round_number))
            ended[person] = self.env.now
            self._finished(person, steps)

        yield self.env.all_of([self.env.process(one(p)) for p in people])
        for person in people:
            self.played.waiting[person] += self.env.now - ended[person]

    def _finished(self, person: str, steps: dict[str, tuple[bool, float]]) -> None:
        """Whoever is done and lacks kit lines up; the coach keeps the rack until the change."""
        if steps.get(person, (False, 0.0))[0]:
            priority = (self.env.now, self.ids.index(person))
            self.walks[person] = self.rack.request(priority=priority)

    # change

    def _change(
        self, window: Window, steps: dict[str, tuple[bool, float]]
    ) -> Iterator[simpy.Event]:
        start = self.env.now

        def one(person: str, walks: bool, seconds: float) -> Iterator[simpy.Event]:
            if walks:
                turn = self.walks.pop(person)
                yield turn
                self.played.waiting[person] += self.env.now - start
                self.env.process(self._leave(turn))
            yield self.env.timeout(seconds)

        yield self.env.all_of(
            [self.env.process(one(p, *how)) for p, how in steps.items()]
            + [self.env.timeout(window.length_s)]
        )

    def _leave(self, turn: simpy.Event) -> Iterator[simpy.Event]:
        yield self.env.timeout(3)
        self.rack.release(turn)

    # kit

    def _uses(self, window: Window | None) -> dict[str, dict[int | str, int]]:
        if window is not None and window.kind is WindowKind.BURST:
            return {
                p: {k.item_id: k.units for k in self.dose[p].burst_kit}
                for p in self.ids
                if self.dose[p].burst and window.round in self.dose[p].rounds
            }
        return {p: kit_of(cell, self.core) for p, cell in self._cells(window).items()}

    def _set_out(self) -> None:
        """Lay out before the class what each place will first need and the rack still has."""
        for window in self.core.timeline:
            if window.kind not in (WindowKind.WORK, WindowKind.BURST):
                continue
            uses = self._uses(window)
            together = window.kind is WindowKind.BURST
            for number, place in enumerate(self.places):
                halves: list[list[str]] = [[], []]
                for person in place:
                    if person in uses:
                        halves[not together and person in self.late_half].append(person)
                wanted: dict[int | str, int] = {}
                for half in halves:
                    for key, units in self._sum(uses, half).items():
                        wanted[key] = max(units, wanted.get(key, 0))
                for key, units in wanted.items():
                    here = sum(t.key == key and t.at == number for t in self.tokens)
                    spare = [t for t in self.tokens if t.key == key and t.at == RACK]
                    for token in spare[: max(0, units - here)]:
                        token.at = number

    def _fetch(
        self, window: Window | None, leaving: Window | None = None
    ) -> dict[str, tuple[bool, float]]:
        """Say who walks and for how long before a window, and bring the tokens to their places."""
        if window is None or window.kind not in (WindowKind.WORK, WindowKind.BURST):
            return {}
        uses = self._uses(window)
        together = window.kind is WindowKind.BURST
        steps: dict[str, tuple[bool, float]] = {}
        needs: list[dict[int | str, int]] = []
        for number, place in enumerate(self.places):
            early = [p for p in place if p in uses and (together or p not in self.late_half)]
            late = [p for p in place if p in uses and p not in early]
            sums = [self._sum(uses, half) for half in (early, late)]
            needs.append({k: max(s.get(k, 0) for s in sums) for s in sums for k in s})
            for half in (early, late):
                self._serve(number, half, uses, steps, leaving, window)
        self._bring(needs)
        self.use_number += 1
        for number, need in enumerate(needs):
            for key, units in need.items():
                at_place = [t for t in self.tokens if t.key == key and t.at == number]
                at_place.sort(key=lambda t: -t.used_in)
                for token in at_place[:units]:
                    token.used_in = self.use_number
        return steps

    @staticmethod
    def _sum(uses: dict[str, dict[int | str, int]], people: list[str]) -> dict[int | str, int]:
        total: dict[int | str, int] = {}
        for person in people:
            for key, units in uses[person].items():
                total[key] = total.get(key, 0) + units
        return total

    def _serve(
        self,
        place: int,
        people: list[str],
        uses: dict[str, dict[int | str, int]],
        steps: dict[str, tuple[bool, float]],
        leaving: Window | None,
        window: Window,
    ) -> None:
        rules = self.problem.rules
        mine = sorted((t for t in self.tokens if t.at == place), key=lambda t: -t.used_in)
        for person in people:
            walks = swaps = False
            for key, units in uses[person].items():
                there = [t for t in mine if t.key == key][:units]
                if len(there) < units:
                    walks = True
                    continue
                swaps = swaps or any(t.used_in != self.use_number for t in there)
                mine = [t for t in mine if all(t is not other for other in there)]
            seconds = 0.0
            if walks:
                first_round = leaving is not None and leaving.round == 1
                seconds = rules.rack_trip_s + (rules.first_time_s if first_round else 0)
            elif swaps:
                seconds = rules.swap_here_s
            if self._rises(person, leaving, window):
                seconds += rules.floor_up_s
            steps[person] = (walks, seconds)

    def _bring(self, needs: list[dict[int | str, int]]) -> None:
        for place, need in enumerate(needs):
            for key, units in need.items():
                for giver in [RACK, *(n for n in range(len(self.places)) if n != place)]:
                    have = [t for t in self.tokens if t.key == key and t.at == place]
                    theirs = [t for t in self.tokens if t.key == key and t.at == giver]
                    theirs.sort(key=lambda t: t.used_in)
                    keep = 0 if giver == RACK else needs[giver].get(key, 0)
                    for token in theirs[: max(0, min(units - len(have), len(theirs) - keep))]:
                        token.at = place

    def _rises(self, person: str, leaving: Window | None, window: Window) -> bool:
        movements = self.problem.library.movements
        before = self._cells(leaving).get(person)
        after = self._cells(window).get(person)

        def low(names: list[str]) -> bool:
            return any(movements[m].demands.get(Demand.FLOOR_RISE, 0) >= 2 for m in names)

        burst = self.dose[person].burst
        then = [s.movement_id for s in after.steps] if after else [burst] if burst else []
        return before is not None and low([s.movement_id for s in before.steps]) and not low(then)
