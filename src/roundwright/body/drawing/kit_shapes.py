"""Kit and room as flat shapes: dumbbells, benches, boxes, chairs, walls, bands, ropes."""

from dataclasses import dataclass

import numpy as np

from roundwright.body.build import Floats
from roundwright.body.drawing.figure import Seen
from roundwright.body.drawing.shapes import hull_path, number
from roundwright.body.pose_goals import touched_points
from roundwright.body.posture import PROP_OF, Bench, Box, Chair, Props, Wall
from roundwright.body.posture_words import Surface, split_side
from roundwright.body.solved import SolvedKey, SolvedPosture
from roundwright.body.surfaces import CHAIR_BACK_M, MAT_M, wall_plane


@dataclass(frozen=True)
class Shape:
    """One flat shape: path, how it is inked, and how near it is."""

    path: str
    ink: str
    """`load`, `kit`, `kit_top`, `line`, `mat`, `wall` or `wall_touch`."""
    near: float


@dataclass(frozen=True)
class Standing:
    """Where kit stands in the room, m: the same in all key positions."""

    places: dict[str, tuple[float, float]]
    """Middle of each prop, forward and left."""
    mat: tuple[float, float, float, float] | None
    """Least and most forward, least and most left."""


BENCH_LENGTH_M, BENCH_WIDTH_M = 1.20, 0.30
BOX_SIDE_M = 0.50
SEAT_M = 0.42
MAT_WIDTH_M = 0.60
"""Usual sizes, our choice."""


def standing_kit(solved: SolvedPosture, body: int) -> Standing:
    """Find where kit stands: under what touches it in any key position."""
    touched: dict[str, list[Floats]] = {}
    on_mat: list[Floats] = []
    for key in solved.keys:
        for name, touch in key.pose.touch.items():
            points = [key.point(p)[body] for p in touched_points(name)]
            if touch.on in PROP_OF:
                touched.setdefault(PROP_OF[touch.on], []).extend(points)
            elif touch.on is Surface.MAT:
                on_mat += points
    props = solved.posture.props
    places = {}
    for name, points in touched.items():
        prop = getattr(props, name)
        shift = getattr(prop, "shift", (0.0, 0.0)) if prop is not None else (0.0, 0.0)
        row = np.array(points)
        middle = (row.min(axis=0) + row.max(axis=0)) / 2
        places[name] = (float(middle[0] + shift[0]), float(middle[1] + shift[1]))
    mat = None
    if on_mat:
        every = np.array([p for key in solved.keys for p in key.placed.points[body]])
        middle = float(np.mean([p[1] for p in on_mat]))
        half = MAT_WIDTH_M / 2
        mat = (every[:, 0].min(), every[:, 0].max(), middle - half, middle + half)
    return Standing(places, mat)


def kit_shapes(
    seen: Seen, solved: SolvedPosture, standing: Standing, key: SolvedKey | None = None
) -> list[Shape]:
    """Give the shapes of everything in the room, and where a key position touches the wall."""
    props = solved.posture.props
    shapes: list[Shape] = []
    if standing.mat is not None:
        x0, x1, y0, y1 = standing.mat
        flat = _block(seen, (x0 + x1) / 2, (y0 + y1) / 2, x1 - x0 + 0.1, y1 - y0, 0, MAT_M)
        shapes.append(Shape(flat[0].path, "mat", -1e6))
    for name, (x, y) in standing.places.items():
        if name == "bench":
            shapes += _bench(seen, props.bench or Bench(), x, y)
        elif name == "box":
            box = props.box or Box()
            shapes += _block(seen, x, y, BOX_SIDE_M, BOX_SIDE_M, 0, box.height)
        elif name == "chair":
            shapes += _chair(seen, props, x, y)
    if props.wall is not None or "wall" in standing.places:
        shapes.append(_wall(seen, props))
        shapes += _wall_touches(seen, props, key) if key is not None else []
    return shapes


def held_shapes(seen: Seen, key: SolvedKey, hands: tuple[float, float]) -> list[Shape]:
    """Give the dumbbells in the hands, and those under hands on the floor."""
    shapes: list[Shape] = []
    if hands == (0.5, 0.5):
        middle = (seen.room("grip_left") + seen.room("grip_right")) / 2
        axis = seen.axis("forearm_left", 2) + seen.axis("forearm_right", 2)
        return _dumbbell(seen, middle, axis / max(float(np.linalg.norm(axis)), 1e-6))
    for side, units in zip(("left", "right"), hands, strict=True):
        touch = key.pose.touch.get(f"fist_{side}")
        if units or (touch is not None and touch.on is Surface.DUMBBELL):
            shapes += _dumbbell(seen, seen.room(f"grip_{side}"), seen.axis(f"hand_{side}", 0))
    return shapes


def _dumbbell(seen: Seen, middle: Floats, axis: Floats) -> list[Shape]:
    side = np.cross(axis, [0.3, 0.5, 0.8])
    side /= np.linalg.norm(side)
    third = np.cross(axis, side)
    turns = np.linspace(0, 2 * np.pi, 12, endpoint=False)[:, None]
    ring = np.cos(turns) * side + np.sin(turns) * third
    near = float(seen.flat(middle)[2])
    shapes = []
    for start, end, radius in (
        (-0.08, 0.08, 0.014),
        (0.062, 0.125, 0.056),
        (-0.062, -0.125, 0.056),
    ):
        rims = np.concatenate(
            [middle + start * axis + radius * ring, middle + end * axis + radius * ring]
        )
        shapes.append(Shape(hull_path(seen.flat(rims)[:, :2]), "load", near))
    return shapes


def _corners(x: float, y: float, length: float, width: float, low: float, high: float) -> Floats:
    return np.array(
        [
            [x + sx * length / 2, y + sy * width / 2, z]
            for z in (low, high)
            for sx, sy in ((-1, -1), (1, -1), (1, 1), (-1, 1))
        ]
    )


def _block(
    seen: Seen, x: float, y: float, length: float, width: float, low: float, high: float
) -> list[Shape]:
    """Give a block: its outline, then its top."""
    flat = seen.flat(_corners(x, y, length, width, low, high))
    near = float(flat[:, 2].mean())
    return [
        Shape(hull_path(flat[:, :2]), "kit", near),
        Shape(hull_path(flat[4:, :2]), "kit_top", near),
    ]


def _bench(seen: Seen, bench: Bench, x: float, y: float) -> list[Shape]:
    long, wide = (BENCH_LENGTH_M, BENCH_WIDTH_M)
    length, width = (long, wide) if bench.along == "forward" else (wide, long)
    shapes: list[Shape] = []
    for part in (-0.42, 0.42):
        fx, fy = (part * long, 0.0) if bench.along == "forward" else (0.0, part * long)
        lx, ly = (0.05, wide) if bench.along == "forward" else (wide, 0.05)
        shapes.append(_block(seen, x + fx, y + fy, lx, ly, 0, bench.height - 0.06)[0])
    return shapes + _block(seen, x, y, length, width, bench.height - 0.07, bench.height)


_FACES = {"forward": (1.0, 0.0), "back": (-1.0, 0.0), "left": (0.0, 1.0), "right": (0.0, -1.0)}


def _chair(seen: Seen, props: Props, x: float, y: float) -> list[Shape]:
    chair = props.chair or Chair()
    ahead = _FACES[chair.faces]
    shapes: list[Shape] = []
    half = SEAT_M / 2 - 0.02
    for sx in (-half, half):
        for sy in (-half, half):
            shapes.append(_block(seen, x + sx, y + sy, 0.035, 0.035, 0, chair.height)[0])
    back_x, back_y = x - ahead[0] * half, y - ahead[1] * half
    thin = (0.035, SEAT_M) if ahead[0] else (SEAT_M, 0.035)
    top = chair.height + CHAIR_BACK_M
    shapes.append(_block(seen, back_x, back_y, *thin, top - 0.24, top)[0])
    for end in (-1.0, 1.0):
        px = back_x + (0.0 if ahead[0] else end * half)
        py = back_y + (end * half if ahead[0] else 0.0)
        shapes.append(_block(seen, px, py, 0.035, 0.035, chair.height, top)[0])
    return shapes + _block(seen, x, y, SEAT_M, SEAT_M, chair.height - 0.04, chair.height)


def _wall(seen: Seen, props: Props) -> Shape:
    into, away = wall_plane(props, np.array([seen.h]))
    wall = props.wall or Wall()
    middle = into * (away[0] + 0.04)
    across = (0.08, 1.1) if wall.side in ("front", "back") else (1.1, 0.08)
    block = _block(seen, float(middle[0]), float(middle[1]), *across, 0.0, 1.15 * seen.h)
    return Shape(block[0].path, "wall", -1e6)


TOUCH_RIM_M = 0.055
"""How far the shade on a wall reaches beyond the hand that rests there, by eye."""


def _wall_touches(seen: Seen, props: Props, key: SolvedKey) -> list[Shape]:
    """Give a shade on the wall behind each hand or forearm that touches it."""
    into, away = wall_plane(props, np.array([seen.h]))
    across = np.array([-into[1], into[0], 0.0])
    turns = np.linspace(0, 2 * np.pi, 16, endpoint=False)[:, None]
    ring = TOUCH_RIM_M * (np.cos(turns) * across + np.sin(turns) * np.array([0.0, 0.0, 1.0]))
    shapes = []
    for name, touch in key.pose.touch.items():
        part, side = split_side(name)
        if touch.on is not Surface.WALL or part not in ("palm", "fingers", "fist", "forearm"):
            continue
        ends = touched_points(name)
        ends += [f"finger_tips_{side}"] if part == "palm" else []
        points = np.array([seen.room(end) for end in ends])
        flat = points - np.outer(points @ into - away[0], into)
        rims = (flat[:, None, :] + ring[None, :, :]).reshape(-1, 3)
        shapes.append(Shape(hull_path(seen.flat(rims)[:, :2]), "wall_touch", -1e6))
    return shapes


def line_shapes(seen: Seen, key: SolvedKey, props: Props) -> list[Shape]:
    """Give band and rope as lines."""
    shapes: list[Shape] = []
    hands = [seen.mark(f"grip_{side}") for side in ("left", "right")]
    if props.band is not None:
        band = props.band
        ends = {"hands": hands, "hand_left": hands[:1], "hand_right": hands[1:]}[band.to]
        for i, end in enumerate(ends):
            if band.anchor == "feet":
                foot = ("left", "right")[i if band.to != "hand_right" else 1]
                start = seen.mark(f"ball_in_{foot}")
            else:
                start = seen.flat(np.array(band.anchor))
            path = f"M{number(start[0])} {number(start[1])}L{number(end[0])} {number(end[1])}"
            shapes.append(Shape(path, "line", float(end[2])))
    if key.pose.rope is not None:
        shapes.append(_rope(seen, key, hands))
    return shapes


def _rope(seen: Seen, key: SolvedKey, hands: list[Floats]) -> Shape:
    """Draw the rope as a curve from hand to hand around the body."""
    assert key.pose.rope is not None
    left, right = seen.room("grip_left"), seen.room("grip_right")
    feet = min(float(seen.room(f"toe_tip_{s}")[2]) for s in ("left", "right"))
    hips = seen.room("hips")
    reach = {
        "under": np.array([0.0, 0.0, min(feet, 0.06) - 0.02 - left[2]]),
        "over": np.array([0.0, 0.0, 1.12 * seen.h - left[2] + max(0.0, feet)]),
        "behind": np.array([-0.62 * seen.h, 0.0, 0.1]),
        "front": np.array([0.62 * seen.h, 0.0, -0.1]),
    }[key.pose.rope.value]
    wide = np.array([0.0, 0.10 * seen.h, 0.0])
    a, b = left + 1.33 * reach + wide, right + 1.33 * reach - wide
    a[0] += hips[0] - left[0] if key.pose.rope.value in ("under", "over") else 0.0
    b[0] += hips[0] - right[0] if key.pose.rope.value in ("under", "over") else 0.0
    points = [hands[0], seen.flat(a), seen.flat(b), hands[1]]
    text = [f"{number(p[0])} {number(p[1])}" for p in points]
    return Shape(f"M{text[0]}C{text[1]} {text[2]} {text[3]}", "line", -1e5)
