"""Page two: where people stand, a proposal to scale in the room's rectangle.

Sizes are common practice, no source: a place of 2 by 2.5 m, an aisle of 1 m,
1.5 m kept free before the rack and the coach.
"""

from roundwright.documents.kit_list import items_of
from roundwright.documents.plan_view import PlanView
from roundwright.documents.sheet_parts import FloorPlan, Place

PLACE_WIDTH_MM = 2000
PLACE_DEPTH_MM = 2500
AISLE_MM = 1000
FRONT_MM = 1500


def floor_plan(view: PlanView) -> FloorPlan:
    """Place everyone in rows facing the coach, partners side by side, aisles kept free."""
    room = view.problem.room
    length, width = max(room.length, room.width), min(room.length, room.width)
    per_row = max(0, (length - 2 * AISLE_MM) // PLACE_WIDTH_MM)
    rows = max(0, (width - FRONT_MM) // (PLACE_DEPTH_MM + AISLE_MM))
    people = view.order[: per_row * rows]
    used_rows = -(-len(people) // per_row) if per_row and people else 0
    in_row = -(-len(people) // used_rows) if used_rows else 0
    if view.in_pairs and in_row % 2 and in_row < per_row:
        in_row += 1
    places = []
    for index, person_id in enumerate(people):
        row, column = divmod(index, in_row)
        left = (length - in_row * PLACE_WIDTH_MM) // 2
        places.append(
            Place(
                number=index + 1,
                name=view.name(person_id),
                x_mm=left + column * PLACE_WIDTH_MM,
                y_mm=FRONT_MM + row * (PLACE_DEPTH_MM + AISLE_MM),
                width_mm=PLACE_WIDTH_MM,
                depth_mm=PLACE_DEPTH_MM,
                items=items_of(view, person_id),
            )
        )
    unplaced = tuple(view.name(p) for p in view.order[len(people) :])
    return FloorPlan(
        length_mm=length,
        width_mm=width,
        front_mm=FRONT_MM,
        aisle_mm=AISLE_MM,
        places=tuple(places),
        unplaced=unplaced,
        words=_words(length, width, len(places), used_rows, len(unplaced)),
    )


def _words(length: int, width: int, placed: int, rows: int, unplaced: int) -> str:
    size = f"Room {length / 1000:g} × {width / 1000:g} m"
    places = f"{placed} places of 2 × 2.5 m in {rows} row{'s' if rows != 1 else ''}"
    more = f"; {unplaced} more do not fit at this spacing" if unplaced else ""
    return f"{size}: {places}, aisles 1 m, front 1.5 m free{more}."
