"""What a card at a place of the round says: versions from easy to hard, loads, count, one cue.

A card hangs where everybody reads it: no names, and nothing of anybody's health.
"""

from dataclasses import dataclass

from roundwright.documents.page_heading import Heading, heading_of, view_of
from roundwright.documents.plan_view import PlanView
from roundwright.documents.running_order import spoken_movement
from roundwright.documents.spoken import count_words
from roundwright.documents.version_names import Signature, hardness, once
from roundwright.foundation.words import in_sentence, say
from roundwright.hall.hall import Hall
from roundwright.plan.core import Cell, CellState, CoreExercise
from roundwright.plan.gate.checked_plan import CheckedPlan
from roundwright.services.ports import Pictures

MOST_ON_A_HALF = 4
"""Versions that half a page can show with drawings; our choice."""


@dataclass(frozen=True, slots=True)
class Drawing:
    """The picture of one movement: its name, and SVG text, empty where it has no posture."""

    name: str
    picture: str


@dataclass(frozen=True, slots=True)
class CardVersion:
    """One version at a place: 'pair 6 / 8 / 10' is all loads that somebody uses with it."""

    name: str
    loads: str
    drawings: tuple[Drawing, ...]
    is_substitute: bool = False


@dataclass(frozen=True, slots=True)
class Card:
    """One place of the round. `needs_page`: too much for half a page."""

    position: int
    name: str
    count: str
    count_differs: bool
    versions: tuple[CardVersion, ...]
    cue: str
    watch: str
    needs_page: bool


@dataclass(frozen=True, slots=True)
class CardsContent:
    """The cards of a class, in the order of the round."""

    heading: Heading
    cards: tuple[Card, ...]


def cards_of(
    checked: CheckedPlan, hall: Hall, printed_at: str, pictures: Pictures | None = None
) -> CardsContent:
    """Put the station cards of a class together.

    Parameters
    ----------
    checked : CheckedPlan
        A plan that the gate passed in this process; nothing else is printed.
    hall : Hall
        Its name and units.
    printed_at : str
        When, in words.
    pictures : Pictures, optional
        Who draws the movements; without, the cards have none.

    Raises
    ------
    UnsafePlanError
        When given anything that the gate did not seal in this process.
    ChangedMeanwhileError
        When the plan is no longer what it was when the gate passed it.
    """
    view = view_of(checked, hall)
    ordered = sorted(view.core.exercises, key=lambda e: e.position)
    return CardsContent(
        heading=heading_of(view, hall, printed_at),
        cards=tuple(card for e in ordered if (card := _card(view, e, pictures)) is not None),
    )


def drawings_of(
    view: PlanView, signature: Signature, pictures: Pictures | None
) -> tuple[Drawing, ...]:
    """Give a version's movements once each, in order, with their pictures."""
    return tuple(
        Drawing(
            name=view.library.movements[m].name,
            picture=(pictures.small(m) or "") if pictures is not None else "",
        )
        for m in once(signature)
    )


def _card(view: PlanView, exercise: CoreExercise, pictures: Pictures | None) -> Card | None:
    cells = [c for c in view.core.cells if c.position == exercise.position and c.steps]
    groups: dict[tuple[bool, Signature], list[Cell]] = {}
    for cell in cells:
        if cell.state is not CellState.SIT_OUT:
            key = (cell.state is CellState.SUBSTITUTE, once(cell.signature))
            groups.setdefault(key, []).append(cell)
    if not groups:
        return None
    ordered = sorted(groups, key=lambda k: (k[0], hardness(k[1], view.library)))
    spoken = spoken_movement(view, exercise.position)
    counts = {c.count for own, group in groups.items() if not own[0] for c in group if c.count}
    names = [n for _, signature in ordered for n in signature]
    return Card(
        position=exercise.position,
        name=view.library.exercise_name(exercise.exercise_id),
        count=count_words(exercise.count),
        count_differs=any(count != exercise.count for count in counts),
        versions=tuple(
            CardVersion(
                name=version_words(view, signature),
                loads=_loads(view, groups[is_substitute, signature]),
                drawings=drawings_of(view, signature, pictures),
                is_substitute=is_substitute,
            )
            for is_substitute, signature in ordered
        ),
        cue=spoken.teaching.cues[0] if spoken else "",
        watch=spoken.teaching.watch if spoken else "",
        needs_page=len(ordered) > MOST_ON_A_HALF or len(names) > 3 * MOST_ON_A_HALF,
    )


def version_words(view: PlanView, signature: Signature) -> str:
    """Name every movement of a version once: 'Chair sit-to-stand + seated press'."""
    names = [view.library.movements[m].name for m in once(signature)]
    return " + ".join(name if not i else in_sentence(name) for i, name in enumerate(names))


def _loads(view: PlanView, cells: list[Cell]) -> str:
    """Join all loads of a version by how many dumbbells: 'pair 6 / 8 / 10'."""
    held: dict[int, dict[int, str]] = {}
    for cell in cells:
        mass = cell.unit_mass_g if cell.units else 0
        held.setdefault(cell.units if mass else 0, {})[mass] = view.load(cell)
    said = []
    for number in sorted(held):
        first, *more = [held[number][mass] for mass in sorted(held[number])]
        said.append(" / ".join([first, *(words.split(" ", 1)[1] for words in more)]))
    return say(" or ").join(said)
