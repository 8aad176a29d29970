"""A plan as arrays: who works in which window, for how long, and what the change before it asks.

Nothing is drawn here; `play` stretches these seconds by the drawn factors.
"""

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from roundwright.foundation.errors import BadInputError
from roundwright.foundation.faults import Fault
from roundwright.foundation.quantities import BP
from roundwright.goals.class_wish import ClassFormat
from roundwright.library.vocabulary import Demand
from roundwright.plan.core import Cell, CellState, Core, Window, WindowKind
from roundwright.plan.counts_of_version import passes_of, seconds_of
from roundwright.plan.eased_in import dose_of
from roundwright.plan.problem import Problem
from roundwright.rehearsal.kit_reach import Key, KitUse, Reach, Units, reaches

Floats = NDArray[np.float64]
Whole = NDArray[np.intp]
FLOOR_DEGREE = 2
"""From this degree of rising from the floor on a movement is done on the floor; our choice."""


@dataclass(frozen=True, slots=True)
class Sets:
    """The sets of one work window, one entry a person who works in it (n of them).

    `seconds` is what the set takes at factor 1 in a play, s: for counted sets with the
    round's slowing and the last third's, for timed sets as planned. `expected` is
    the reps (passes) that a timed set is planned to hold, 0 for counted ones;
    `stretch` is what pace, round and last third do to the seconds of a rep.
    """

    people: Whole
    positions: Whole
    columns: Whole
    seconds: Floats
    counted: NDArray[np.bool_]
    second_half: NDArray[np.bool_]
    expected: Floats
    stretch: Floats


@dataclass(frozen=True, slots=True)
class Moves:
    """What people do in one change: seconds besides the queue, and who goes to the rack.

    `stays_s` is the longest of those who do not go to the rack; `walkers`
    go there, `walk_s` being their seconds without the queue.
    """

    stays_s: float
    walkers: Whole
    walk_s: Floats


@dataclass(frozen=True, slots=True)
class PlayedWindow:
    """One window: how long as planned, and what is done in it."""

    kind: WindowKind
    round: int
    planned_s: int
    swap_s: int = 0
    sets: Sets | None = None
    moves: Moves | None = None


@dataclass(frozen=True, slots=True)
class PlayedClass:
    """A plan ready to be played. People are in order of their ids."""

    people: tuple[str, ...]
    rounds: int
    positions: int
    windows: tuple[PlayedWindow, ...]


def played_class(core: Core, problem: Problem) -> PlayedClass:
    """Read a plan for playing.

    Parameters
    ----------
    core : Core
        The plan.
    problem : Problem
        What it answers to: library, people, kit and figures.

    Returns
    -------
    PlayedClass
        Windows in order of the timeline.

    Raises
    ------
    BadInputError
        When the plan names what its problem does not hold, or a window does not
        say where each group works.
    """
    reader = _Reader(core, problem)
    return PlayedClass(reader.people, core.class_.rounds, core.class_.positions, reader.windows())


class _Reader:
    """Core and problem side by side, looked up by person, round and position."""

    def __init__(self, core: Core, problem: Problem) -> None:
        self.core, self.problem = core, problem
        self.doses = {dose.person_id: dose for dose in core.people}
        self.people = tuple(sorted(self.doses))
        self.index = {person: n for n, person in enumerate(self.people)}
        _refuse_unknown(core, problem)
        self.group = {p: g for g, group in enumerate(core.class_.groups) for p in group}
        self.in_pairs = core.class_.format is ClassFormat.PAIRS
        self.at_stations = core.class_.format is ClassFormat.STATIONS
        self.second = frozenset(
            self.index[p] for group in core.class_.groups for p in group[1:2] if self.in_pairs
        )
        self.cells: dict[tuple[str, int, int], Cell] = {
            (cell.person_id, cell.position, cell.round): cell for cell in core.cells
        }
        self.pace_bp = {
            p: dose_of(problem.people[p], problem.spec, problem.rules).pace_bp for p in self.people
        }

    def windows(self) -> tuple[PlayedWindow, ...]:
        timeline = self.core.timeline
        doing = [self._doing(window) for window in timeline]
        moves = self._moves(doing)
        return tuple(
            PlayedWindow(
                kind=window.kind,
                round=window.round,
                planned_s=window.length_s,
                swap_s=window.length_s - sum(window.halves_s) if window.halves_s else 0,
                sets=self._sets(window, doing[n]) if window.kind is WindowKind.WORK else None,
                moves=moves.get(n),
            )
            for n, window in enumerate(timeline)
        )

    def _doing(self, window: Window) -> dict[int, Cell]:
        """Give who works in a work window, and what."""
        if window.kind is not WindowKind.WORK:
            return {}
        found = {}
        for person, number in self.index.items():
            if window.round not in self.doses[person].rounds:
                continue
            position = window.positions[self.group[person]]
            cell = self.cells.get(
                (person, position, window.round), self.cells.get((person, position, 0))
            )
            if cell is not None and cell.state is not CellState.SIT_OUT and cell.count is not None:
                found[number] = cell
        return found

    def _sets(self, window: Window, doing: Mapping[int, Cell]) -> Sets:
        rules, spec = self.problem.rules, self.problem.spec
        movements = self.problem.library.movements
        slower = 1 + rules.round_slower_bp / BP * (window.round - 1)
        slower *= (2 + rules.last_third_bp / BP) / 3
        rows = []
        for person, cell in doing.items():
            count = cell.count
            if count is None:
                continue
            combination = self.problem.library.combinations.get(cell.exercise_id or "")
            pace_bp = self.pace_bp[self.people[person]]
            planned_s = seconds_of(
                count,
                cell.steps,
                movements,
                combination,
                pace_bp=pace_bp,
                side_change_s=spec.side_change_s,
            )
            set_number = (window.round - 1) * self.core.class_.positions + cell.position - 1
            expected = passes_of(count, cell.steps, movements, combination) if count.is_timed else 0
            rows.append(
                (
                    person,
                    cell.position,
                    set_number * len(self.people) + person,
                    planned_s * (1 if count.is_timed else slower),
                    not count.is_timed,
                    person in self.second,
                    expected,
                    slower * pace_bp / BP,
                )
            )
        columns = list(zip(*rows, strict=True)) or [()] * 8
        return Sets(
            people=np.array(columns[0], np.intp),
            positions=np.array(columns[1], np.intp),
            columns=np.array(columns[2], np.intp),
            seconds=np.array(columns[3], np.float64),
            counted=np.array(columns[4], np.bool_),
            second_half=np.array(columns[5], np.bool_),
            expected=np.array(columns[6], np.float64),
            stretch=np.array(columns[7], np.float64),
        )

    def _moves(self, doing: list[dict[int, Cell]]) -> dict[int, Moves]:
        """Give what is done in each change that leads into work or a burst, by window number."""
        timeline = self.core.timeline
        used = [n for n, w in enumerate(timeline) if w.kind in (WindowKind.WORK, WindowKind.BURST)]
        places: list[tuple[int, ...]] = [(n,) for n in range(len(self.people))]
        if self.in_pairs:
            places = [tuple(self.index[p] for p in group) for group in self.core.class_.groups]
        uses = [self._use(timeline[n], doing[n]) for n in used]
        reach = dict(zip(used, reaches(uses, places, self._counts()), strict=True))
        made: dict[int, Moves] = {}
        for n, window in enumerate(timeline):
            if window.kind is WindowKind.CHANGE:
                before = doing[n - 1] if n else {}
                after = doing[n + 1] if n + 1 < len(timeline) else {}
                risers = frozenset(
                    person
                    for person in reach.get(n + 1, {})
                    if self._on_floor(before.get(person))
                    and not self._burst_or_cell_on_floor(person, after)
                )
                made[n] = self._change(window, reach.get(n + 1, {}), risers)
        return made

    def _change(self, window: Window, reach: Mapping[int, Reach], risers: frozenset[int]) -> Moves:
        rules = self.problem.rules
        walk_s = rules.rack_trip_s + (rules.first_time_s if window.round == 1 else 0)
        up_s = {person: rules.floor_up_s * (person in risers) for person in reach}
        kit_s = {Reach.IN_HAND: 0, Reach.AT_THEIR_PLACE: rules.swap_here_s}
        stays = [kit_s[r] + up_s[p] for p, r in reach.items() if r in kit_s]
        walkers = sorted(p for p, r in reach.items() if r is Reach.RACK)
        return Moves(
            stays_s=float(max([window.length_s, *stays])),
            walkers=np.array(walkers, np.intp),
            walk_s=np.array([walk_s + up_s[p] for p in walkers], np.float64),
        )

    def _use(self, window: Window, doing: Mapping[int, Cell]) -> KitUse:
        if window.kind is WindowKind.BURST:
            return KitUse(
                {
                    self.index[p]: {k.item_id: k.units for k in dose.burst_kit}
                    for p, dose in self.doses.items()
                    if dose.burst is not None and window.round in dose.rounds
                }
            )
        return KitUse({person: self._kit(cell) for person, cell in doing.items()}, self.second)

    def _kit(self, cell: Cell) -> Units:
        kit: dict[Key, int] = {cell.unit_mass_g: cell.units} if cell.unit_mass_g else {}
        if not self.at_stations:
            kit |= {k.item_id: k.units for k in cell.kit}
        return kit

    def _counts(self) -> dict[Key, int]:
        kit, counts = self.problem.kit, dict[Key, int]()
        for d in kit.dumbbells:
            if d.in_use:
                counts[d.unit_mass_g] = counts.get(d.unit_mass_g, 0) + d.count
        for item in kit.items:
            if item.in_use and item.room in (None, self.problem.room.id):
                counts[item.id] = counts.get(item.id, 0) + item.count
        return counts

    def _on_floor(self, cell: Cell | None) -> bool:
        steps = () if cell is None else cell.steps
        return any(self._floor_rise(step.movement_id) >= FLOOR_DEGREE for step in steps)

    def _burst_or_cell_on_floor(self, person: int, after: Mapping[int, Cell]) -> bool:
        if person in after:
            return self._on_floor(after[person])
        burst = self.doses[self.people[person]].burst
        return burst is not None and self._floor_rise(burst) >= FLOOR_DEGREE

    def _floor_rise(self, movement_id: str) -> int:
        return self.problem.library.movements[movement_id].demand(Demand.FLOOR_RISE)


def _refuse_unknown(core: Core, problem: Problem) -> None:
    movements = {step.movement_id for cell in core.cells for step in cell.steps}
    movements |= {dose.burst for dose in core.people if dose.burst}
    people = {dose.person_id for dose in core.people}
    grouped = {p for group in core.class_.groups for p in group}
    faults = [
        _fault("movement", name, "a movement that the plan's own problem holds")
        for name in sorted(movements - problem.library.movements.keys())
    ]
    faults += [
        _fault("person", name, "a person that the plan's own problem holds")
        for name in sorted(people - problem.people.keys())
    ]
    faults += [
        _fault("group", name, "people who take part, each in a group")
        for name in sorted(people ^ grouped)
    ]
    if any(
        len(window.positions) != len(core.class_.groups)
        for window in core.timeline
        if window.kind is WindowKind.WORK
    ):
        faults.append(_fault("timeline", "positions", "a position for each group"))
    if faults:
        raise BadInputError(faults)


def _fault(field: str, value: str, expected: str) -> Fault:
    return Fault(
        code="name.unknown",
        file="the plan",
        field=field,
        value=value,
        expected=expected,
        remedy="Fit the class again; this plan has been changed by hand.",
    )
