"""Page two: where people or stations stand, a proposal to scale in the room's rectangle.

Sizes are common practice, no source: a place of 2 by 2.5 m, an aisle of 1 m,
1.5 m kept free before the rack and the coach, 1 m before a door.
"""

from collections.abc import Iterable
from dataclasses import dataclass

from roundwright.documents.kit_list import items_of
from roundwright.documents.plan_view import PlanView
from roundwright.documents.sheet_parts import FloorPlan, Place, WallMark
from roundwright.foundation.words import one_or_more, say, say_number
from roundwright.goals.class_wish import ClassFormat
from roundwright.kit.inventory import Fixture, FixtureKind, Room, Wall

PLACE_WIDTH_MM = 2000
PLACE_DEPTH_MM = 2500
AISLE_MM = 1000
FRONT_MM = 1500
MARK_DEPTH_MM = 350
FIXTURE_WORDS = {
    FixtureKind.DOOR: "door",
    FixtureKind.EMERGENCY_EXIT: "exit",
    FixtureKind.RACK: "rack",
    FixtureKind.DEFIBRILLATOR: "defibrillator",
}


@dataclass(frozen=True, slots=True)
class _Floor:
    """The part of the room in which places may lie, mm from its front left corner."""

    length: int
    width: int
    left: int
    right: int
    back: int

    @property
    def free_length(self) -> int:
        return self.length - self.left - self.right

    @property
    def free_depth(self) -> int:
        return self.width - FRONT_MM - self.back


def floor_plan(view: PlanView) -> FloorPlan:
    """Place everyone, or every station, facing the coach; aisles, doors and rack kept free."""
    room = view.problem.room
    floor = _floor(room)
    if view.core.class_.format is ClassFormat.STATIONS:
        places, unplaced, words = _stations(view, floor)
    else:
        places, unplaced, words = _rows(view, floor)
    return FloorPlan(
        length_mm=floor.length,
        width_mm=floor.width,
        front_mm=FRONT_MM,
        aisle_mm=AISLE_MM,
        places=places,
        unplaced=unplaced,
        words=say(
            "{room}: {places}, aisles 1 m, front 1.5 m free.",
            room=_room_words(floor),
            places=words,
        )
        + _unplaced_words(unplaced),
        marks=tuple(_mark(one, floor) for one in room.fixture),
    )


def empty_floor(room: Room) -> FloorPlan:
    """Give a room without anybody in it: its walls, and what is at them."""
    floor = _floor(room)
    return FloorPlan(
        length_mm=floor.length,
        width_mm=floor.width,
        front_mm=FRONT_MM,
        aisle_mm=AISLE_MM,
        places=(),
        unplaced=(),
        words=_room_words(floor),
        marks=tuple(_mark(one, floor) for one in room.fixture),
    )


def _room_words(floor: _Floor) -> str:
    length, width = f"{floor.length / 1000:g}", f"{floor.width / 1000:g}"
    return say("Room {length} × {width} m", length=say_number(length), width=say_number(width))


def _floor(room: Room) -> _Floor:
    length, width = max(room.length, room.width), min(room.length, room.width)

    def free(wall: Wall, least: int) -> int:
        kinds = {one.kind for one in room.fixture if one.wall is wall}
        if FixtureKind.RACK in kinds:
            return max(least, FRONT_MM)
        return max(least, AISLE_MM) if kinds else least

    return _Floor(
        length=length,
        width=width,
        left=free(Wall.LEFT, AISLE_MM),
        right=free(Wall.RIGHT, AISLE_MM),
        back=free(Wall.BACK, 0),
    )


def _rows(view: PlanView, floor: _Floor) -> tuple[tuple[Place, ...], tuple[str, ...], str]:
    """Place people in rows, partners and groups side by side."""
    per_row = max(0, floor.free_length // PLACE_WIDTH_MM)
    # The last row needs no aisle behind it but the one that is kept for a door.
    most_rows = _fitting(floor.free_depth, PLACE_DEPTH_MM)
    people = view.order[: per_row * most_rows]
    rows = -(-len(people) // per_row) if per_row and people else 0
    in_row = -(-len(people) // rows) if rows else 0
    if view.in_pairs and in_row % 2 and in_row < per_row:
        in_row += 1
    left = floor.left + (floor.free_length - in_row * PLACE_WIDTH_MM) // 2
    places = tuple(
        Place(
            number=index + 1,
            name=view.name(person_id),
            x_mm=left + index % in_row * PLACE_WIDTH_MM,
            y_mm=FRONT_MM + index // in_row * (PLACE_DEPTH_MM + AISLE_MM),
            width_mm=PLACE_WIDTH_MM,
            depth_mm=PLACE_DEPTH_MM,
            items=items_of(view, person_id),
        )
        for index, person_id in enumerate(people)
    )
    words = one_or_more(
        rows,
        "{places} places of 2 × 2.5 m in 1 row",
        "{places} places of 2 × 2.5 m in {n} rows",
        places=len(places),
    )
    return places, tuple(view.name(p) for p in view.order[len(people) :]), words


def _stations(view: PlanView, floor: _Floor) -> tuple[tuple[Place, ...], tuple[str, ...], str]:
    """Place stations in a loop, so that the next number is never far."""
    exercises = sorted(view.core.exercises, key=lambda e: e.position)
    at_once = max((len(group) for group in view.core.class_.groups), default=1)
    width, depth = _station_size(floor, at_once, len(exercises))
    per_row = _fitting(floor.free_length, width)
    shown = exercises[: per_row * _fitting(floor.free_depth, depth)]
    used_rows = -(-len(shown) // per_row) if per_row and shown else 0
    in_row = -(-len(shown) // used_rows) if used_rows else 0
    row_length = in_row * width + max(0, in_row - 1) * AISLE_MM
    left = floor.left + (floor.free_length - row_length) // 2
    places = []
    for index, exercise in enumerate(shown):
        row, column = divmod(index, in_row)
        column = column if row % 2 == 0 else in_row - 1 - column
        places.append(
            Place(
                number=exercise.position,
                name=view.library.exercise_name(exercise.exercise_id),
                x_mm=left + column * (width + AISLE_MM),
                y_mm=FRONT_MM + row * (depth + AISLE_MM),
                width_mm=width,
                depth_mm=depth,
                items=items_of(view, position=exercise.position),
                is_station=True,
            )
        )
    unplaced = tuple(say("station {n}", n=e.position) for e in exercises[len(shown) :])
    words = one_or_more(
        at_once,
        "{stations} stations of {size} for up to one person each",
        "{stations} stations of {size} for up to {n} people each",
        stations=len(places),
        size=say_number(f"{width / 1000:g} × {depth / 1000:g} m"),
    )
    return tuple(places), unplaced, words


def _station_size(floor: _Floor, at_once: int, stations: int) -> tuple[int, int]:
    """Give width and depth of a station: the shape of which most fit, of those the squarest."""
    shapes = [
        (across * PLACE_WIDTH_MM, -(-at_once // across) * PLACE_DEPTH_MM)
        for across in range(1, at_once + 1)
    ]

    def worth(shape: tuple[int, int]) -> tuple[int, int]:
        width, depth = shape
        many = _fitting(floor.free_length, width) * _fitting(floor.free_depth, depth)
        return min(many, stations), -abs(width - depth)

    return max(shapes, key=worth)


def _fitting(free_mm: int, one_mm: int) -> int:
    """Give how many fit side by side with an aisle between two of them."""
    return max(0, (free_mm + AISLE_MM) // (one_mm + AISLE_MM))


def _mark(one: Fixture, floor: _Floor) -> WallMark:
    """Lay a fixture along its wall, inside the room."""
    along = one.wall in (Wall.FRONT, Wall.BACK)
    deep = MARK_DEPTH_MM
    x = one.at if along else (0 if one.wall is Wall.LEFT else floor.length - deep)
    y = one.at if not along else (0 if one.wall is Wall.FRONT else floor.width - deep)
    return WallMark(
        kind=one.kind.value,
        wall=one.wall.value,
        words=say(FIXTURE_WORDS[one.kind]),
        x_mm=x,
        y_mm=y,
        width_mm=one.width if along else deep,
        depth_mm=deep if along else one.width,
    )


def _unplaced_words(unplaced: Iterable[str]) -> str:
    names = list(unplaced)
    if not names:
        return ""
    return " " + one_or_more(
        len(names),
        "1 more does not fit at this spacing: {names}.",
        "{n} more do not fit at this spacing: {names}.",
        names=", ".join(names),
    )
