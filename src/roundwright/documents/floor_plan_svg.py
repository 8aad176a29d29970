"""The floor plan as a drawing: one ink, to scale, the same for paper and page."""

from xml.sax.saxutils import escape, quoteattr

from roundwright.documents.sheet_parts import FloorPlan, Place

INK = "#1c1b19"
FAINT = "#8a857b"


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
        _text(plan.length_mm // 2, plan.front_mm // 2 + 180, "coach · rack", 520, "500"),
    ]
    for place in plan.places:
        parts.append(_place(place))
    parts.append("</svg>")
    return "".join(parts)


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


def _text(x: int, y: int, words: str, size: int, weight: str) -> str:
    return (
        f'<text x="{x}" y="{y}" font-size="{size}" font-weight="{weight}" '
        f'text-anchor="middle" fill="{INK}">{escape(words)}</text>'
    )
