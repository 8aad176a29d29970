"""The floor plan as a drawing: one ink, to scale, the same for paper and page."""

from xml.sax.saxutils import escape, quoteattr

from roundwright.documents.sheet_parts import FloorPlan, Place, WallMark
from roundwright.foundation.words import say

INK = "#1c1b19"
FAINT = "#8a857b"
WORDS_MM = 600
"""Height of words beside a mark, mm of the room."""
HALF_A_LETTER = 0.27
"""Half the mean width of a letter as a share of its height; our choice."""


def floor_plan_svg(plan: FloorPlan) -> str:
    """Draw the room in mm: places with numbers, what stands at each, front and coach."""
    pad = 150
    size = f"{-pad} {-pad} {plan.length_mm + 2 * pad} {plan.width_mm + 2 * pad}"
    parts = [
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="{size}" role="img" '
        f'aria-label={quoteattr(plan.words)} font-family="Barlow">',
        _rect(0, 0, plan.length_mm, plan.width_mm, stroke=90),
        f'<line x1="0" y1="{plan.front_mm}" x2="{plan.length_mm}" y2="{plan.front_mm}" '
        f'stroke="{FAINT}" stroke-width="30" stroke-dasharray="200 160"/>',
        _text(plan.length_mm // 2, plan.front_mm // 2 + 220, _front(plan), 640, "500"),
    ]
    parts += [_wall_mark(mark, plan) for mark in plan.marks]
    for place in plan.places:
        parts.append(_place(place))
    parts.append("</svg>")
    return "".join(parts)


def _front(plan: FloorPlan) -> str:
    """Say who stands in front; the rack too, where nothing says that it is elsewhere."""
    return say("coach") if any(mark.kind == "rack" for mark in plan.marks) else say("coach · rack")


def _wall_mark(mark: WallMark, plan: FloorPlan) -> str:
    """Draw a door as an opening, an exit with a double line, the rack filled, a cross for help."""
    x, y, width, depth = mark.x_mm, mark.y_mm, mark.width_mm, mark.depth_mm
    fill = INK if mark.kind == "rack" else "#ffffff"
    drawn = [_rect(x, y, width, depth, stroke=60, fill=fill)]
    if mark.kind == "emergency_exit":
        drawn.append(_rect(x + 110, y + 110, width - 220, depth - 220, stroke=40))
    middle_x, middle_y = x + width // 2, y + depth // 2
    if mark.kind == "defibrillator":
        drawn.append(f'<path d="M{middle_x - 120} {middle_y}h240M{middle_x} {middle_y - 120}v240" ')
        drawn.append(f"{_line(70)}/>")
    return "".join(drawn) + _mark_words(mark, plan)


def _mark_words(mark: WallMark, plan: FloorPlan) -> str:
    """Write a mark's words beside it, inside the room; along a side wall they are turned."""
    half = int(len(mark.words) * WORDS_MM * HALF_A_LETTER)
    x = _within(mark.x_mm + mark.width_mm // 2, half, plan.length_mm)
    y = _within(mark.y_mm + mark.depth_mm // 2, half, plan.width_mm)
    if mark.wall == "front":
        return _text(x, mark.y_mm + mark.depth_mm + 560, mark.words, WORDS_MM, "500")
    if mark.wall == "back":
        return _text(x, mark.y_mm - 160, mark.words, WORDS_MM, "500")
    x = mark.x_mm + mark.width_mm + 560 if mark.wall == "left" else mark.x_mm - 160
    return _text(x, y, mark.words, WORDS_MM, "500", f' transform="rotate(-90 {x} {y})"')


def _within(middle: int, half: int, length: int) -> int:
    """Move the middle of words away from a corner as far as they need; short walls stay."""
    return min(max(middle, half), length - half) if 2 * half <= length else middle


def _place(place: Place) -> str:
    inset = 90
    x, y = place.x_mm + inset, place.y_mm + inset
    width, depth = place.width_mm - 2 * inset, place.depth_mm - 2 * inset
    middle = place.x_mm + place.width_mm // 2
    drawn = [
        _rect(x, y, width, depth, stroke=40),
        _text(middle, y + 1120, str(place.number), 1050, "600"),
    ]
    marks = {"bench": _bench, "box": _box, "chair": _chair, "mat": _mat}
    slot = width // max(1, len(place.items))
    for index, item in enumerate(place.items):
        drawn.append(marks[item](x + index * slot + slot // 2, y + depth - 500))
    return "".join(drawn)


def _bench(x: int, y: int) -> str:
    return _rect(x - 320, y - 90, 640, 220, stroke=30, fill=INK)


def _box(x: int, y: int) -> str:
    return _rect(x - 200, y - 200, 400, 400, stroke=50)


def _chair(x: int, y: int) -> str:
    return f'<path d="M{x - 160} {y - 260}v480M{x - 160} {y}h320v220" {_line(60)}/>'


def _mat(x: int, y: int) -> str:
    return f'<path d="M{x - 300} {y}q75 -120 150 0t150 0t150 0t150 0" {_line(50)}/>'


def _line(width: int) -> str:
    return f'fill="none" stroke="{INK}" stroke-width="{width}"'


def _rect(x: int, y: int, width: int, height: int, *, stroke: int, fill: str = "none") -> str:
    return (
        f'<rect x="{x}" y="{y}" width="{width}" height="{height}" fill="{fill}" '
        f'stroke="{INK}" stroke-width="{stroke}"/>'
    )


def _text(x: int, y: int, words: str, size: int, weight: str, more: str = "") -> str:
    return (
        f'<text x="{x}" y="{y}" font-size="{size}" font-weight="{weight}" '
        f'text-anchor="middle" fill="{INK}"{more}>{escape(words)}</text>'
    )
