"""A plan's cells in a coach's words: version, load, count, rounds and what decides the load."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta

from roundwright.foundation import shown
from roundwright.goals.class_wish import Count, CountUnit
from roundwright.plan.core import Cell, CellState, Core
from roundwright.plan.problem import Problem
from roundwright.services.names import Names

COUNT_WORDS: Mapping[CountUnit, str] = {
    CountUnit.REPS: "{} reps",
    CountUnit.REPS_PER_SIDE: "{} a side",
    CountUnit.REPS_ALTERNATING: "{} alternating",
    CountUnit.SECONDS: "{} s",
    CountUnit.SECONDS_PER_SIDE: "{} s a side",
}
NOTHING = "–"


@dataclass(frozen=True, slots=True)
class CellRow:
    """One line of the table: what one person does at one place."""

    person: str
    version: str
    load: str
    count: str
    rounds: str
    note: str


def count_words(count: Count) -> str:
    """Give a count as it is said: '12 a side'."""
    return COUNT_WORDS[count.unit].format(count.value)


def load_words(units: int, unit_mass_g: int, mass_unit: str) -> str:
    """Give a load as it is fetched from the rack: 'pair of 6 kg', 'one 8 kg'."""
    if units == 0 or unit_mass_g == 0:
        return NOTHING
    return f"{'pair of' if units == 2 else 'one'} {shown.mass(unit_mass_g, mass_unit)}"


def version_words(cell: Cell, names: Names) -> str:
    """Give a version by the names of its movements, each once, in order."""
    movements = list(dict.fromkeys(step.movement_id for step in cell.steps))
    return ", ".join(names.movement(movement) for movement in movements) or NOTHING


def note_words(cell: Cell, names: Names) -> str:
    """Give what a coach should know of a cell: who decides the load, or why it is another one."""
    if cell.state is CellState.SIT_OUT:
        return "no version fits: sits out"
    notes = []
    if cell.state is CellState.SUBSTITUTE:
        notes.append("another exercise: needs your yes")
    movements = {step.movement_id for step in cell.steps}
    if cell.limited_by is not None and len(movements) > 1 and cell.unit_mass_g:
        notes.append(f"the {names.part(cell.exercise_id, cell.limited_by).lower()} decides")
    if cell.kept:
        notes.append("kept")
    return ", ".join(notes)


def rows_at(core: Core, position: int, names: Names, mass_unit: str) -> list[CellRow]:
    """Give the rows of one place of the round, by person, then round; like rounds in one row."""
    rounds = {dose.person_id: dose.rounds for dose in core.people}
    cells = sorted(
        (c for c in core.cells if c.position == position),
        key=lambda c: (names.person(c.person_id), c.person_id, c.round),
    )
    alike: dict[Cell, list[int]] = {}
    for cell in cells:
        done = [cell.round] if cell.round else list(rounds.get(cell.person_id, ()))
        alike.setdefault(cell.model_copy(update={"round": 0}), []).extend(done)
    return [
        CellRow(
            person=names.person(cell.person_id),
            version=version_words(cell, names),
            load=load_words(cell.units, cell.unit_mass_g, mass_unit),
            count=count_words(cell.count) if cell.count else NOTHING,
            rounds=rounds_words(done),
            note=note_words(cell, names),
        )
        for cell, done in alike.items()
    ]


def rounds_words(rounds: Sequence[int]) -> str:
    """Give round numbers as they are said: '1 to 3', '1, 2'."""
    if len(rounds) > 2 and list(rounds) == list(range(rounds[0], rounds[-1] + 1)):
        return f"{rounds[0]} to {rounds[-1]}"
    return ", ".join(str(r) for r in rounds)


def finish_words(core: Core, total_s: int) -> str:
    """Say when the class ends, and when its slot does."""
    start = datetime.combine(core.class_.starts_on, core.class_.starts_at_local)
    ends = start + timedelta(seconds=total_s)
    slot_ends = start + timedelta(seconds=core.class_.slot_s)
    return (
        f"{shown.clock(total_s)} of {shown.clock(core.class_.slot_s)}:"
        f" starts {start:%H:%M}, ends {ends:%H:%M}, slot ends {slot_ends:%H:%M}"
    )


def heading_words(core: Core, problem: Problem) -> str:
    """Give the class's name, day, place and form on one line."""
    booked = core.class_
    rounds = "1 round" if booked.rounds == 1 else f"{booked.rounds} rounds"
    return (
        f"{problem.spec.name}, {booked.starts_on:%a} {booked.starts_on.isoformat()}"
        f" {booked.starts_at_local:%H:%M}, {problem.room.name}, {booked.format.value}, {rounds}"
    )
