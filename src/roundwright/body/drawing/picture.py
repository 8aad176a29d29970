"""One key position as one SVG picture: parts and kit painted from far to near."""

from dataclasses import dataclass
from xml.sax.saxutils import escape

import numpy as np

from roundwright.body.build import Floats
from roundwright.body.drawing.arrows import arrow_path
from roundwright.body.drawing.camera import Camera
from roundwright.body.drawing.figure import Part, Seen, parts_of
from roundwright.body.drawing.kit_shapes import (
    Shape,
    held_shapes,
    kit_shapes,
    line_shapes,
    standing_kit,
)
from roundwright.body.drawing.shapes import number
from roundwright.body.solved import HANDS, SolvedPosture

LARGEST_BYTES = 14_000
INK = "#1d2224"
CLOTH = "#1d2224"
NEAR = "#5b6367"
TRUNK = "#868d90"
FAR = "#dedbd2"
FAR_CLOTH = "#8f9598"
PAPER = "#fbf9f4"
LOAD = "#0c5a60"
KIT = "#5f9498"
KIT_TOP = "#a9c8c8"
FLOOR = "#e4e0d6"
MARGIN = 6.0
ARROW_EDGE = 4.0
"""Half the width of an arrow with its rim, picture units."""


@dataclass(frozen=True)
class Frame:
    """What part of the flat room a picture shows, in picture units (stature is 200)."""

    left: float
    top: float
    width: float
    height: float


def draw_key(
    solved: SolvedPosture,
    place: int,
    *,
    body: int = 0,
    arrow: bool = True,
    frame: Frame | None = None,
    title: str = "",
) -> str:
    """Draw one key position.

    Parameters
    ----------
    solved : SolvedPosture
        The solved posture.
    place : int
        Which key position, from 0.
    body : int
        Which of the bodies.
    arrow : bool
        Whether the way to the next position is shown.
    frame : Frame, optional
        What to show; `frames_of` gives one for each key position, all of one size.
    title : str
        What the picture is called aloud; the key's name when left out.

    Returns
    -------
    str
        SVG text of at most 14,000 bytes.
    """  # fmt: skip
    key = solved.keys[place]
    seen = _seen(solved, place, body)
    hands = HANDS[key.pose.hold]
    kit = kit_shapes(seen, solved, standing_kit(solved, body), key)
    lines = line_shapes(seen, key, solved.posture.props)
    held = held_shapes(seen, key, hands)
    parts = parts_of(seen, (hands[0] > 0, hands[1] > 0))
    frame = frame or frames_of(solved, body)[place]
    trunk = next(part.near for part in parts if part.name == "trunk")
    body_text = [_floor(seen, solved, place, body)]
    body_text += [_shape(s) for s in sorted(kit, key=lambda s: s.near) if s.near <= trunk + 60]
    body_text += [_shape(line) for line in lines if line.near < trunk]
    loads = list(held)
    for part in parts:
        body_text.append(_part(part))
        ready = [s for s in loads if part.name.startswith("forearm") and s.near <= part.near + 12]
        loads = [s for s in loads if s not in ready]
        body_text += [_shape(s) for s in ready]
    body_text += [_shape(s) for s in loads]
    body_text += [_shape(line) for line in lines if line.near >= trunk]
    body_text += [_shape(s) for s in kit if s.near > trunk + 60]
    if arrow:
        body_text.append(_arrow(solved, place, seen, body))
    box = f"{number(frame.left)} {number(frame.top)} {number(frame.width)} {number(frame.height)}"
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="{box}" role="img">'
        f"<title>{escape(title or key.pose.name)}</title>" + "".join(body_text) + "</svg>"
    )


def strip(solved: SolvedPosture, *, body: int = 0) -> list[str]:
    """Draw all key positions of a posture in one scale, each with its arrow."""
    frames = frames_of(solved, body)
    return [draw_key(solved, i, body=body, frame=frame) for i, frame in enumerate(frames)]


def chief_place(solved: SolvedPosture, body: int = 0) -> int:
    """Give the key position that shows a movement best: the one farthest from the first."""
    places = [key.placed.points[body] for key in solved.keys]
    count = min(len(each) for each in places)
    away = [
        float(np.linalg.norm(each[:count] - places[0][:count], axis=1).sum()) for each in places
    ]
    return int(np.argmax(away))


def frames_of(solved: SolvedPosture, body: int = 0) -> list[Frame]:
    """Give what each key position's picture shows: one scale, one size, one floor line."""
    boxes = np.array([_box(solved, place, body) for place in range(len(solved.keys))])
    width = float((boxes[:, 2] - boxes[:, 0]).max()) + 2 * MARGIN
    top, low = float(boxes[:, 1].min()) - MARGIN, float(boxes[:, 3].max()) + MARGIN
    middles = (boxes[:, 0] + boxes[:, 2]) / 2
    return [Frame(float(middle) - width / 2, top, width, low - top) for middle in middles]


def _box(solved: SolvedPosture, place: int, body: int) -> tuple[float, float, float, float]:
    """Give left, top, right and bottom of all that is drawn of a key position but its wall."""
    key = solved.keys[place]
    seen = _seen(solved, place, body)
    points = seen.flat(key.placed.points[body])[:, :2]
    shapes = held_shapes(seen, key, HANDS[key.pose.hold])
    shapes += line_shapes(seen, key, solved.posture.props)
    shapes += kit_shapes(seen, solved, standing_kit(solved, body))
    corners = [_numbers(shape.path) for shape in shapes if shape.ink != "wall"]
    arrow = _numbers(arrow_path(solved, place, seen, body))
    corners += [arrow - ARROW_EDGE, arrow + ARROW_EDGE]
    every = np.concatenate([points - 14, points + 14, *corners])
    (left, top), (right, low) = every.min(axis=0), every.max(axis=0)
    return float(left), float(top), float(right), float(low)


def _numbers(path: str) -> Floats:
    text = path.replace("M", " ").replace("L", " ").replace("C", " ").replace("Z", " ")
    return np.array([float(each) for each in text.split()]).reshape(-1, 2)


def _seen(solved: SolvedPosture, place: int, body: int) -> Seen:
    key = solved.keys[place]
    index = key.asked.skeleton.marks.index
    camera = Camera(solved.posture.view)
    return Seen(key.placed, index, body, camera, float(solved.bodies.stature_m[body]))


def _part(part: Part) -> str:
    """Ink a part: its outline as one, then what is inside."""
    skin, cloth = (FAR, FAR_CLOTH) if part.is_far else (NEAR, CLOTH)
    if part.name == "trunk":
        skin = TRUNK
    edge, width = (INK, 2.0) if part.is_far else (PAPER, 4.5)
    paths = "".join(part.skin + part.cloth)
    text = (
        f'<path d="{paths}" fill="{edge}" stroke="{edge}" stroke-width="{width}" '
        'stroke-linejoin="round"/>'
    )
    inside = [f'<path d="{"".join(part.skin)}" fill="{skin}"/>']
    if part.cloth:
        inside.append(f'<path d="{"".join(part.cloth)}" fill="{cloth}"/>')
    return text + "".join(reversed(inside) if part.cloth_behind else inside)


FILLS = {"load": LOAD, "kit": KIT, "kit_top": KIT_TOP, "mat": "#cfdcd8", "wall": "#d6dedb"}
WALL_SHADE = "#a3b3ae"


def _shape(shape: Shape) -> str:
    if shape.ink == "line":
        return (
            f'<path d="{shape.path}" fill="none" stroke="{PAPER}" stroke-width="7"/>'
            f'<path d="{shape.path}" fill="none" stroke="{LOAD}" stroke-width="3.5"/>'
        )
    if shape.ink == "wall_touch":
        return f'<path d="{shape.path}" fill="{WALL_SHADE}"/>'
    edge = PAPER if shape.ink == "load" else LOAD
    width = 2.5 if shape.ink == "load" else 1.2
    return (
        f'<path d="{shape.path}" fill="{FILLS[shape.ink]}" stroke="{edge}" '
        f'stroke-width="{width}" stroke-linejoin="round" paint-order="stroke"/>'
    )


def _floor(seen: Seen, solved: SolvedPosture, place: int, body: int) -> str:
    """Draw a shadow on the floor under the body."""
    points = solved.keys[place].placed.points[body].copy()
    points[:, 2] = 0.0
    flat = seen.flat(points)
    x0, x1 = float(flat[:, 0].min()) - 8, float(flat[:, 0].max()) + 8
    y0, y1 = float(flat[:, 1].min()) - 4, float(flat[:, 1].max()) + 4
    return (
        f'<ellipse cx="{number((x0 + x1) / 2)}" cy="{number((y0 + y1) / 2)}" '
        f'rx="{number((x1 - x0) / 2)}" ry="{number((y1 - y0) / 2)}" fill="{FLOOR}"/>'
    )


def _arrow(solved: SolvedPosture, place: int, seen: Seen, body: int) -> str:
    path = arrow_path(solved, place, seen, body)
    if not path:
        return ""
    return (
        f'<path d="{path}" fill="none" stroke="{PAPER}" stroke-width="{2 * ARROW_EDGE:g}" '
        f'stroke-linecap="round"/>'
        f'<path d="{path}" fill="none" stroke="{INK}" stroke-width="3.5" '
        f'stroke-linecap="round" stroke-linejoin="round"/>'
    )
