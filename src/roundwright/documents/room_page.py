"""Kit and floor plan: what stands where, what to set out, in which order and how long it takes.

Minutes of setting up are our own estimate for one pair of hands, no source.
"""

from collections import Counter
from dataclasses import dataclass

from roundwright.documents.floor_plan import floor_plan
from roundwright.documents.kit_list import (
    Piece,
    handover_lines,
    in_order,
    kit_rows,
    most_at_once,
    piece_words,
    pieces_of,
)
from roundwright.documents.page_heading import Heading, heading_of, view_of
from roundwright.documents.piece_lines import piece_kit, piece_kit_rows
from roundwright.documents.plan_view import PlanView
from roundwright.documents.sheet_parts import FloorPlan, KitRow
from roundwright.documents.spoken import load_words, mass_label
from roundwright.foundation.words import one_or_more, say, say_number
from roundwright.hall.hall import Hall
from roundwright.kit.inventory import FixtureKind, Wall
from roundwright.library.vocabulary import KitKind
from roundwright.plan.core import Cell
from roundwright.plan.gate.checked_plan import CheckedPlan

ESTIMATE = "Minutes for one pair of hands: our own estimate, no source."
SHARED = "Partners share a set: what both use stands there once, between them."
CHECK_FLOOR_S, MARK_PLACE_S = 60, 5
SECONDS_A_PIECE: dict[KitKind, int] = {
    KitKind.BENCH: 30,
    KitKind.BOX: 20,
    KitKind.CHAIR: 10,
    KitKind.MAT: 10,
    KitKind.OTHER: 10,
    KitKind.DUMBBELL: 8,
    KitKind.BAND: 5,
    KitKind.ROPE: 5,
}
"""Seconds to fetch and set down one piece, in the order of setting up: what is big comes first."""
PLURALS = {KitKind.BENCH: "benches", KitKind.BOX: "boxes", KitKind.OTHER: "other pieces"}
TO_CHECK = {
    KitKind.BOX: "each stands firm, can neither slide nor tip",
    KitKind.BENCH: "locked, none rocks",
    KitKind.CHAIR: "against a wall or on a surface that grips",
    KitKind.DUMBBELL: "at the places, none in an aisle",
    KitKind.BAND: "look for cracks; anchors hold",
}
"""What to look at when a piece is set out."""
WALLS = {
    Wall.FRONT: "front wall",
    Wall.BACK: "back wall",
    Wall.LEFT: "left wall",
    Wall.RIGHT: "right wall",
}
MARK_PLACES = (
    "Mark 1 place, aisles of 1 m kept free",
    "Mark {n} spots, aisles of 1 m kept free",
)
MARK_STATIONS = (
    "Mark 1 station, aisles of 1 m kept free",
    "Mark {n} stations, aisles of 1 m kept free",
)


@dataclass(frozen=True, slots=True)
class AtPlace:
    """A place on the floor: its number, whose it is or which exercise, and what stands there."""

    number: int
    name: str
    pieces: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class SetUpStep:
    """One step of setting up, and its seconds."""

    words: str
    length_s: int


@dataclass(frozen=True, slots=True)
class RoomContent:
    """The room before the class: plan, places, kit, order of setting up, who hands on what."""

    heading: Heading
    floor: FloorPlan
    places: tuple[AtPlace, ...]
    kit: tuple[KitRow, ...]
    steps: tuple[SetUpStep, ...]
    total: str
    exits: tuple[str, ...]
    handovers: tuple[str, ...]
    estimate: str
    shared: str


def room_of(checked: CheckedPlan, hall: Hall, printed_at: str) -> RoomContent:
    """Put the page of kit and floor together.

    Parameters
    ----------
    checked : CheckedPlan
        A plan that the gate passed in this process; nothing else is printed.
    hall : Hall
        Its name, units and the shown names of its people.
    printed_at : str
        When, in words.

    Raises
    ------
    UnsafePlanError
        When given anything that the gate did not seal in this process.
    ChangedMeanwhileError
        When the plan is no longer what it was when the gate passed it.
    """
    view = view_of(checked, hall)
    floor = floor_plan(view)
    steps = _steps(view, len(floor.places))
    return RoomContent(
        heading=heading_of(view, hall, printed_at),
        floor=floor,
        places=_places(view, floor),
        kit=(*kit_rows(view), *piece_kit_rows(view)),
        steps=steps,
        total=say("about {length}", length=minutes_words(sum(s.length_s for s in steps))),
        exits=_exits(view),
        handovers=handover_lines(view),
        estimate=say(ESTIMATE),
        shared=say(SHARED) if view.in_pairs else "",
    )


def minutes_words(seconds: int) -> str:
    """Say a length of setting up to half a minute, rounded up.

    Examples
    --------
    >>> minutes_words(61), minutes_words(60), minutes_words(20)
    ('1½ min', '1 min', '½ min')
    """
    whole, half = divmod(-(-seconds // 30), 2)
    return f"{whole or ''}{'½' if half else ''} min" if seconds else "0 min"


def _places(view: PlanView, floor: FloorPlan) -> tuple[AtPlace, ...]:
    if any(place.is_station for place in floor.places):
        return tuple(
            AtPlace(place.number, place.name, _at_station(view, place.number))
            for place in floor.places
        )
    shown = {place.number for place in floor.places}
    return tuple(
        AtPlace(number if number in shown else 0, view.name(person_id), _own(view, person_id))
        for number, person_id in enumerate(view.order, start=1)
    )


def _own(view: PlanView, person_id: str) -> tuple[str, ...]:
    cells = [c for c in view.core.cells if c.person_id == person_id]
    items = dict.fromkeys(
        k.item_id
        for found in (*(c.kit for c in cells), view.doses[person_id].burst_kit)
        for k in found
    )
    return (*_loads(view, cells), *_item_names(view, items))


def _at_station(view: PlanView, position: int) -> tuple[str, ...]:
    """Give the most of each piece that one group uses at a station."""
    most: Counter[Piece] = Counter()
    for group in view.core.class_.groups:
        for number in range(1, view.core.class_.rounds + 1):
            used: Counter[Piece] = Counter()
            for person_id in group:
                cell = view.cell(person_id, number, position)
                used += pieces_of(cell) if cell else Counter()
            most |= used
    return tuple(f"{most[p]} × {piece_words(view, p)}" for p in in_order(most))


def _loads(view: PlanView, cells: list[Cell]) -> tuple[str, ...]:
    held = sorted({(c.unit_mass_g, c.units) for c in cells if c.units and c.unit_mass_g})
    labels = {mass: mass_label(mass, view.problem.kit, view.units) for mass, _ in held}
    return tuple(load_words(units, mass, labels, view.units) for mass, units in held)


def _item_names(view: PlanView, items: dict[str, None]) -> tuple[str, ...]:
    return tuple(piece_words(view, ("item", item_id)) for item_id in sorted(items))


def _steps(view: PlanView, places: int) -> tuple[SetUpStep, ...]:
    kinds = {item.id: item.kind for item in view.problem.kit.items}
    needed: Counter[KitKind] = Counter()
    for (what, key), number in most_at_once(view).items():
        needed[KitKind.DUMBBELL if what == "dumbbell" else kinds[str(key)]] += number
    needed |= piece_kit(view)
    at_stations = any(p.is_station for p in floor_plan(view).places)
    one, more = MARK_STATIONS if at_stations else MARK_PLACES
    return (
        SetUpStep(
            say("Walk the room: exits and doors free, floor dry, level and clear"), CHECK_FLOOR_S
        ),
        SetUpStep(one_or_more(places, one, more), MARK_PLACE_S * places),
        *(
            SetUpStep(_set_out(kind, needed[kind]), seconds * needed[kind])
            for kind, seconds in SECONDS_A_PIECE.items()
            if needed[kind]
        ),
    )


def _set_out(kind: KitKind, number: int) -> str:
    words = say(kind.value if number == 1 else PLURALS.get(kind, f"{kind.value}s"))
    check = TO_CHECK.get(kind)
    return f"{number} {words}" + (f": {say(check)}" if check else "")


def _exits(view: PlanView) -> tuple[str, ...]:
    """Say where doors and exits are, or that nobody has entered them."""
    named = {FixtureKind.DOOR: "door", FixtureKind.EMERGENCY_EXIT: "emergency exit"}
    found = tuple(
        say(
            "Keep free: {what}, {wall}, {start} to {end} m",
            what=say(named[one.kind]),
            wall=say(WALLS[one.wall]),
            start=say_number(f"{one.at / 1000:g}"),
            end=say_number(f"{(one.at + one.width) / 1000:g}"),
        )
        for one in view.problem.room.fixture
        if one.kind in named
    )
    nobody = say("No door or exit is entered for this room: find them, and keep them free.")
    return found or (nobody,)
