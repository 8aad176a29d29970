"""What an answer does, as a key with figures and ids; the words are in `said_words`. Never why."""

from dataclasses import replace
from typing import Literal

from pydantic import Field

from roundwright.foundation.identifiers import Slug
from roundwright.foundation.model import Stored
from roundwright.plan.changing.change import (
    Banned,
    BurstCut,
    CellFreed,
    CellSet,
    Change,
    ExercisesReordered,
    ExerciseSwapped,
    KitBack,
    KitLost,
    PersonCame,
    PersonLeft,
    PersonLimited,
    RepsCut,
    RestsCut,
    RoundDropped,
    SatOut,
    SeveralCuts,
    SlotChanged,
    SubstituteSet,
)
from roundwright.plan.changing.disturbed import BURST, disturbance
from roundwright.plan.changing.restate import Restated
from roundwright.plan.core import Cell, CellState, Core

MOST_NAMED = 3
"""So many people are named in a sentence, then a number (C5)."""

Doing = Literal["exercise", "version", "load", "count", "kit", "rest", "burst", "works"]


class PersonSaid(Stored):
    """What changes for one person: at which places, and what it is where it is one place only."""

    person: Slug
    positions: tuple[int, ...] = Field(description="of the new plan; 0 is the burst")
    doing: Doing | None = Field(default=None, description="null: several places")
    movements: tuple[Slug, ...] = ()
    unit_mass_g: int = 0
    units: int = 0


class Swapped(Stored):
    """A place at which the tool put another exercise."""

    position: int
    exercise_id: Slug


class Said(Stored):
    """One answer: what was asked (key with figures), and who changes what."""

    key: str
    person: Slug | None = None
    position: int | None = None
    item: str = Field(default="", description="an exercise, version or kit item")
    order: tuple[Slug, ...] = ()
    figures: dict[str, int] = Field(default_factory=dict)
    parts: tuple["Said", ...] = ()
    swapped: tuple[Swapped, ...] = Field(default=(), description="by the tool, to answer it")
    own: PersonSaid | None = Field(default=None, description="of the person who is named")
    people: tuple[PersonSaid, ...] = Field(default=(), description="who else changes")


def said_of(change: Change, asked: Restated, before: Core, after: Core) -> Said:
    """Give what an answer does.

    Parameters
    ----------
    change, asked
        What was asked, and the problem it was restated to, with the places named that the
        tool gave another exercise.
    before, after : Core
        The plan without and with it.
    """
    said = _asked(change, after)
    cells = disturbance(before, after, replace(asked, persons=frozenset())).cells
    found = {
        person: _person_said(asked, before, after, person, sorted(cells[person]))
        for person in sorted(cells)
    }
    own = found.pop(said.person, None) if said.person is not None else None
    swapped = tuple(
        Swapped(position=e.position, exercise_id=e.exercise_id)
        for e in after.exercises
        if e.position not in asked.came_from
        and (said.key, said.position) != ("exercise_swapped", e.position)
    )
    return said.model_copy(update={"swapped": swapped, "own": own, "people": tuple(found.values())})


def _asked(change: Change, after: Core) -> Said:
    match change:
        case PersonLeft() | PersonCame() | PersonLimited():
            return Said(key=change.kind, person=change.person)
        case KitLost() | KitBack():
            return Said(
                key=change.kind,
                item=change.item_id or "",
                figures={"units": change.units, "unit_mass_g": change.unit_mass_g},
            )
        case SlotChanged(slot_s=slot_s):
            return Said(key=change.kind, figures={"slot_s": slot_s})
        case ExerciseSwapped(position=position):
            stands = next(e.exercise_id for e in after.exercises if e.position == position)
            return Said(key=change.kind, position=position, item=stands)
        case ExercisesReordered():
            places = sorted(after.exercises, key=lambda e: e.position)
            return Said(key=change.kind, order=tuple(e.exercise_id for e in places))
        case Banned(slug=slug):
            return Said(key=change.kind, item=slug)
        case CellSet() | CellFreed() | SatOut():
            return Said(key=change.kind, person=change.person, position=change.position)
        case SubstituteSet():
            return Said(
                key=change.kind,
                person=change.person,
                position=change.position,
                item=change.exercise_id,
            )
        case RoundDropped():
            return Said(key=change.kind, figures={"rounds": after.class_.rounds})
        case RestsCut(rest_s=rest_s, change_s=change_s):
            return Said(key=change.kind, figures={"rest_s": rest_s, "change_s": change_s})
        case RepsCut(share_bp=share_bp):
            return Said(key=change.kind, figures={"share_bp": share_bp})
        case BurstCut(length_s=length_s):
            return Said(key=change.kind, figures={} if length_s is None else {"length_s": length_s})
        case SeveralCuts(cuts=cuts):
            return Said(key=change.kind, parts=tuple(_asked(cut, after) for cut in cuts))


def _person_said(
    asked: Restated, before: Core, after: Core, person: str, places: list[int]
) -> PersonSaid:
    bare = PersonSaid(person=person, positions=tuple(places))
    if len(places) != 1:
        return bare
    if places == [BURST]:
        burst = next(d.burst for d in after.people if d.person_id == person)
        return bare.model_copy(update={"doing": "burst", "movements": (burst,) if burst else ()})
    was = _cells(before, person, asked.came_from.get(places[0], 0))
    now = _cells(after, person, places[0])
    if not now:
        return bare
    was_done = [_bare(cell) for cell in was]
    cell = next((c for c in now if _bare(c) not in was_done), now[-1])
    return bare.model_copy(
        update={
            "doing": _doing(was[-1] if was else None, cell),
            "movements": tuple(dict.fromkeys(cell.signature)),
            "unit_mass_g": cell.unit_mass_g,
            "units": cell.units,
        }
    )


def _doing(was: Cell | None, now: Cell) -> Doing:
    if now.state is CellState.SIT_OUT:
        return "rest"
    if was is None or was.state is CellState.SIT_OUT:
        return "works"
    if was.exercise_id != now.exercise_id:
        return "exercise"
    if was.signature != now.signature:
        return "version"
    if (was.unit_mass_g, was.units) != (now.unit_mass_g, now.units):
        return "load"
    return "count" if was.count != now.count else "kit"


def _cells(core: Core, person: str, position: int) -> list[Cell]:
    mine = [c for c in core.cells if (c.person_id, c.position) == (person, position)]
    return sorted(mine, key=lambda c: c.round)


def _bare(cell: Cell) -> object:
    return (
        *(cell.state, cell.exercise_id, cell.steps, cell.count),
        *(cell.unit_mass_g, cell.units, cell.kit),
    )
