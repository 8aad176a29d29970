"""What a solver is asked for in one key position: a list of goals with their tolerances.

A tolerance is the miss that counts as one; all goals are weighed by it.
"""

from dataclasses import dataclass, field

import numpy as np

from roundwright.body.bases import TURNS, resting
from roundwright.body.build import Bodies, Floats
from roundwright.body.joints import INDEX, SIDES
from roundwright.body.pose_merge import FullPose
from roundwright.body.posture import Place, Posture, Touch
from roundwright.body.posture_words import (
    AIM_FRAMES,
    AIM_MIDDLE,
    DIRECTIONS,
    PLACES,
    POINTS_MIDDLE,
    PUT_POINTS,
    TOUCH_MIDDLE,
    TOUCH_POINTS,
    Base,
    Hold,
    Surface,
    split_side,
)
from roundwright.body.surfaces import heights_m, wall_plane
from roundwright.body.tolerances import TOLERANCE_M, TOLERANCE_RAD

GRIP_POINTS = tuple(f"grip_{side}" for side in SIDES)
TOGETHER_GAP = 0.050
"""Distance of two hands on one dumbbell, fraction of stature; our choice."""


@dataclass
class PointGoal:
    """A point's place along a direction of the room: exactly, or at least."""

    point: str
    axis: Floats
    """Unit vector, shape (3,)."""
    value_m: Floats
    """Shape (n,)."""
    tolerance_m: float
    at_least: bool = False
    contact: bool = False


@dataclass
class DirectionGoal:
    """Where a direction fixed in a frame should point; with `level`, nowhere up or down."""

    frame: str
    local: Floats
    target: Floats | None
    tolerance: float
    name: str = ""
    plane: Floats | None = None
    """If given, only the part of the miss along this direction of the room counts."""


@dataclass
class Goals:
    """All goals of one key position, for some bodies."""

    base: Base = Base.STANDING
    bent: dict[int, float] = field(default_factory=dict)
    """Said angles by freedom, radians."""
    begin: dict[int, float] = field(default_factory=dict)
    """Angles to begin the search from, radians: a flat hand begins bent back."""
    resting: Floats = field(default_factory=lambda: np.zeros(0))
    """Freedoms at rest: (freedoms,), or one row for each body."""
    rest_weights: Floats | None = None
    """How strongly rest pulls, (freedoms,); None for the usual pull."""
    points: list[PointGoal] = field(default_factory=list)
    directions: list[DirectionGoal] = field(default_factory=list)
    meets: list[tuple[str, str, str]] = field(default_factory=list)
    """A point, the extra point it should be at, and the words for it."""
    extras: list[tuple[str, str, Floats]] = field(default_factory=list)
    """Extra points: name, the point they go by, and how far from it in its part's axes."""
    hands_together: bool = False
    supports: list[str] = field(default_factory=list)
    """Points that carry weight; the centre of mass is kept over them."""
    shares: dict[str, float] = field(default_factory=dict)
    """Part of the weight on each supporting point, where the author decided it; else empty."""
    balance: bool = True


def touched_points(name: str) -> list[str]:
    """Give the landmarks of a touch name that carries its side."""
    if name in TOUCH_MIDDLE:
        return list(TOUCH_MIDDLE[name])
    stem, side = split_side(name)
    return [f"{point}_{side}" for point in TOUCH_POINTS[stem]]


def goals_of(pose: FullPose, posture: Posture, bodies: Bodies) -> Goals:
    """Turn the words of a key position into goals for some bodies."""
    goals = Goals(base=pose.base, resting=resting(pose.base), balance=not pose.dynamic)
    for name, degrees in pose.angles.items():
        goals.bent[INDEX[name]] = float(np.radians(degrees))
    for name, touch in pose.touch.items():
        _touch(goals, posture, bodies, name, touch)
    for name, aim in pose.aim.items():
        goals.directions.append(_aimed(name, aim))
    for name, place in pose.put.items():
        _put(goals, bodies, name, place)
    for name, fraction in pose.height.items():
        value = fraction * bodies.stature_m
        goals.points.append(PointGoal(name, _UP, value, TOLERANCE_M["height"]))
    if pose.lean is not None:
        _lean(goals, pose.lean)
    elif pose.dynamic:
        upright = TURNS[pose.base] @ _UP
        goals.directions.append(DirectionGoal("pelvis", _UP, upright, TOLERANCE_RAD["flight"]))
    goals.shares = _shares(pose)
    goals.hands_together = pose.hold is Hold.TOGETHER
    return goals


def _shares(pose: FullPose) -> dict[str, float]:
    """Spread the author's shares over the points of each touch, and the rest over the others."""
    if not pose.weight:
        return {}
    others = [n for n, t in pose.touch.items() if n not in pose.weight and not t.light]
    left = max(0.0, 1.0 - sum(pose.weight.values())) / max(1, len(others))
    parts = {**dict.fromkeys(others, left), **pose.weight}
    whole = sum(parts.values()) or 1.0
    out: dict[str, float] = {}
    for name, part in parts.items():
        points = touched_points(name)
        weights = (
            _FOOT_PARTS if len(points) == len(_FOOT_PARTS) else [1 / len(points)] * len(points)
        )
        out |= {p: part / whole * w for p, w in zip(points, weights, strict=True)}
    return out


_FOOT_PARTS = (0.5, 0.25, 0.25)
"""A flat foot or palm is pressed at its middle: half on the heel, half on the ball."""
_UP = np.array([0.0, 0.0, 1.0])
_AHEAD = np.array([1.0, 0.0, 0.0])
_LEFT = np.array([0.0, 1.0, 0.0])


def _touch(goals: Goals, posture: Posture, bodies: Bodies, name: str, touch: Touch) -> None:
    points = touched_points(name)
    stem, side = split_side(name)
    outwards = -1.0 if side == "right" else 1.0
    h = bodies.stature_m
    wall = touch.on is Surface.WALL
    tolerance = TOLERANCE_M["contact"]
    for point in points:
        if wall:
            axis, away = wall_plane(posture.props, h)
            goals.points.append(PointGoal(point, axis, away, tolerance, contact=True))
        else:
            value = heights_m(posture.props, touch.on, bodies.count)
            goals.points.append(PointGoal(point, _UP, value, tolerance, contact=True))
        if not (touch.light or wall):
            goals.supports.append(point)
    if wall and not touch.light:
        goals.balance = False
    at = [(touch.forward, _AHEAD, 1.0), (touch.out, _LEFT, outwards), (touch.up, _UP, 1.0)]
    place = "heel" if stem == "foot" else TOUCH_POINTS.get(stem, (stem,))[0]
    point = f"{place}_{side}" if side else points[0]
    for fraction, axis, sign in at:
        if fraction is not None:
            goals.points.append(PointGoal(point, axis, sign * fraction * h, TOLERANCE_M["place"]))
    into = wall_plane(posture.props, h)[0] if wall else -_UP
    _turn_of_touch(goals, stem, side, touch, into)
    if stem == "shin":
        goals.begin[INDEX[f"knee_{side}"]] = 1.5


def _turn_of_touch(goals: Goals, stem: str, side: str | None, touch: Touch, into: Floats) -> None:
    """Toes lie flat, soles and palms face what they touch and point where the author says."""
    if side is None:
        return
    if stem in ("foot", "ball"):
        toes = DirectionGoal(f"toes_{side}", _AHEAD, None, TOLERANCE_RAD["flat"])
        goals.directions.append(toes)
    if stem == "foot" and goals.base is Base.KNEELING:
        goals.begin[INDEX[f"hip_{side}"]] = 1.5
        goals.begin[INDEX[f"knee_{side}"]] = 1.5
        goals.begin[INDEX[f"ankle_{side}"]] = 0.0
    if stem == "ball" and goals.base in (Base.KNEELING, Base.ALL_FOURS):
        goals.begin[INDEX[f"ankle_{side}"]] = 0.2
        goals.begin[INDEX[f"toes_{side}"]] = 0.9
    if stem == "palm":
        goals.begin[INDEX[f"wrist_{side}"]] = 1.2
        goals.begin[INDEX[f"forearm_{side}"]] = 0.9
        if touch.on is Surface.WALL:
            goals.begin[INDEX[f"shoulder_{side}"]] = 1.3
    if stem not in ("foot", "palm"):
        return
    sign = -1.0 if side == "right" else 1.0
    frame, local = ("foot", _AHEAD) if stem == "foot" else ("hand", -_UP)
    skin = -_UP if stem == "foot" else np.array([0.0, -sign, 0.0])
    faces = DirectionGoal(f"{frame}_{side}", skin, into, TOLERANCE_RAD["faces"])
    goals.directions.append(faces)
    if touch.turn is None and stem == "foot":
        return
    angle = np.radians(touch.turn or 0.0)
    target = np.array([np.cos(angle), sign * np.sin(angle), 0.0])
    if touch.on is Surface.WALL:
        target = np.cos(angle) * _UP + np.sin(angle) * np.array([0.0, sign, 0.0])
    tolerance = TOLERANCE_RAD["loose" if touch.turn is None else "turn"]
    goals.directions.append(DirectionGoal(f"{frame}_{side}", local, target, tolerance))


def _aimed(name: str, aim: str | tuple[float, float, float]) -> DirectionGoal:
    stem, side = split_side(name)
    frame, local = AIM_FRAMES[stem] if side else AIM_MIDDLE[name]
    sign = -1.0 if side == "right" else 1.0
    own = np.array(local, dtype=float) * np.array([1.0, sign, 1.0])
    target: Floats | None = None
    if not isinstance(aim, str) or aim in DIRECTIONS:
        vector = DIRECTIONS[aim] if isinstance(aim, str) else aim
        target = np.array(vector, dtype=float) * np.array([1.0, sign, 1.0])
        target = target / np.linalg.norm(target)
    return DirectionGoal(
        f"{frame}_{side}" if side else frame, own, target, TOLERANCE_RAD["aim"], name
    )


def _lean(goals: Goals, degrees: float) -> None:
    angle = np.radians(degrees)
    target = np.array([np.sin(angle), 0.0, np.cos(angle)])
    across = np.array([np.cos(angle), 0.0, -np.sin(angle)])
    for frame, part in (("chest", 1.0), ("pelvis", 3.0)):
        goals.directions.append(
            DirectionGoal(frame, _UP, target, part * TOLERANCE_RAD["aim"],
                          "lean" if frame == "chest" else "", plane=across)
        )  # fmt: skip


def _put(goals: Goals, bodies: Bodies, name: str, place: str | Place) -> None:
    stem, side = split_side(name)
    point = f"{PUT_POINTS[stem]}_{side}"
    sign = -1.0 if side == "right" else 1.0
    if isinstance(place, str):
        by, offset = PLACES[place]
    else:
        by, offset = place.by, (place.forward, place.out, place.up)
    if by not in POINTS_MIDDLE and split_side(by)[1] is None:
        by = f"{by}_{side}"
    away = np.array(offset) * np.array([1.0, sign, 1.0]) * bodies.stature_m[:, None]
    goals.extras.append((f"place_{name}", by, away))
    goals.meets.append((point, f"place_{name}", name))
