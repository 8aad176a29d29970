"""Positions between two key positions: angles run from one to the other while contacts stay put.

What touches in both keys at one place is held there; a foot or hand that goes
elsewhere is carried over in an arc; where both feet go at once, it is a hop.
These are for moving pictures only: nothing is weighed in them.
"""

from dataclasses import dataclass

import numpy as np

from roundwright.body.bases import TURNS
from roundwright.body.build import Floats
from roundwright.body.joints import COUNT, ROOT, SIDES
from roundwright.body.pose_goals import Goals, PointGoal, touched_points
from roundwright.body.posture_words import split_side
from roundwright.body.residuals import SKIN, Asked
from roundwright.body.skeleton import Placed, turned
from roundwright.body.solved import SolvedKey, SolvedPosture, skeleton_for
from roundwright.body.solver import search

FEW, MANY = 8, 16
"""Positions between two keys; the larger number for hops."""
STEP_LIFT, HOP_LIFT = 0.05, 0.09
"""How high a foot is carried, fractions of stature; our choice."""
SAME_PLACE_M = 0.010

GATE_SLIDE_M = 0.010
GATE_DIP_M = 0.005
GATE_BONE = 0.03

_TOLERANCE = {"root_place_m": 0.06, "root_turn_rad": 0.15, "angle_rad": 0.12}

BONES: tuple[tuple[str, str], ...] = (
    *(
        (f"{a}_{s}", f"{b}_{s}")
        for s in SIDES
        for a, b in (
            ("shoulder", "elbow"), ("elbow", "wrist"), ("hip", "knee"), ("knee", "ankle"),
        )
    ),
)  # fmt: skip
"""Parts that may not shrink when coordinates are run from one frame to the next."""


@dataclass(frozen=True)
class Transition:
    """The way from one key position to another: both ends and what lies between, in order."""

    keys: tuple[int, int]
    frames: Placed
    """First and last are the key positions themselves."""
    between: SolvedKey
    """What lies between alone, one row for each frame."""
    held: tuple[str, ...]
    """Points that stay where they are."""
    is_hop: bool
    body: int


def transition(solved: SolvedPosture, start: int, end: int, body: int = 0) -> Transition:
    """Solve the positions between two key positions of one body."""
    a, b = solved.keys[start], solved.keys[end]
    places = _touching(a, b, body)
    held = tuple(n for n, (p, q) in places.items() if np.linalg.norm(p - q) < SAME_PLACE_M)
    goes = {n: ends for n, ends in places.items() if n not in held}
    is_hop = _is_hop(a, b, goes)
    count = MANY if is_hop else FEW
    times = np.arange(1, count + 1) / (count + 1)
    eased = times * times * (3 - 2 * times)
    bodies = solved.bodies.repeated(body, count)
    h = float(solved.bodies.stature_m[body])
    first, last = a.q[body], _in_base(b, a, body)
    path = first + eased[:, None] * (last - first)
    lift = np.sin(np.pi * times) * h * (HOP_LIFT if is_hop else STEP_LIFT)
    if is_hop:
        path[:, 2] += lift
    goals = Goals(base=a.goals.base, resting=path, rest_weights=_weights(), balance=False)
    for name, (p, q) in places.items():
        at = p + eased[:, None] * (q - p)
        if name not in held:
            rise = np.maximum(0, q[2] - p[2]) * (np.minimum(1, 1.7 * eased) - eased)
            rise += np.maximum(0, p[2] - q[2]) * (eased - np.maximum(0, 1.7 * eased - 0.7))
            at[:, 2] += lift + rise
        tolerance = 0.0015 if name in held else 0.008
        for axis in range(3):
            goals.points.append(PointGoal(name, np.eye(3)[axis], at[:, axis], tolerance))
    skeleton = skeleton_for(goals, bodies)
    asked = Asked(skeleton, goals, None, np.zeros(count), (0.0, 0.0))
    found = search(asked, path, a.pose.is_symmetric and b.pose.is_symmetric)
    between = SolvedKey(a.pose, goals, asked, found.q, skeleton.place(found.q), found.cost)
    frames = _joined(a, between.placed, b, body)
    return Transition((start, end), frames, between, held, is_hop, body)


def _weights() -> Floats:
    out = np.full(COUNT, 1 / _TOLERANCE["angle_rad"])
    out[:3] = 1 / _TOLERANCE["root_place_m"]
    out[3 : len(ROOT)] = 1 / _TOLERANCE["root_turn_rad"]
    return out


def _touching(a: SolvedKey, b: SolvedKey, body: int) -> dict[str, tuple[Floats, Floats]]:
    """Give points that touch in both keys, with their places."""
    names = [{p for name in key.pose.touch for p in touched_points(name)} for key in (a, b)]
    both = sorted(names[0] & names[1])
    return {name: (a.point(name)[body], b.point(name)[body]) for name in both}


def _is_hop(a: SolvedKey, b: SolvedKey, goes: dict[str, tuple[Floats, Floats]]) -> bool:
    if a.pose.dynamic or b.pose.dynamic:
        return True
    sides = {split_side(name)[1] for name in goes if name.startswith(("heel", "ball", "toe"))}
    others = {p for name in a.pose.touch for p in touched_points(name)} - set(goes)
    return sides == set(SIDES) and not others


def _in_base(b: SolvedKey, a: SolvedKey, body: int) -> Floats:
    """Give the freedoms of b as if it began from the base of a."""
    q: Floats = b.q[body].copy()
    if a.goals.base is b.goals.base:
        return q
    turn = TURNS[a.goals.base].T @ TURNS[b.goals.base] @ turned(q[3:6])[0]
    q[3:6] = _vector_of(turn)
    return q


def _vector_of(turn: Floats) -> Floats:
    """Give the rotation vector of a rotation matrix."""
    cos = float(np.clip((np.trace(turn) - 1) / 2, -1, 1))
    angle = float(np.arccos(cos))
    if angle < 1e-9:
        return np.zeros(3)
    if angle > np.pi - 1e-6:
        square = (turn + np.eye(3)) / 2
        axis: Floats = square[:, int(np.argmax(np.diag(square)))]
        return np.array(angle * axis / np.linalg.norm(axis))
    skew = np.array([turn[2, 1] - turn[1, 2], turn[0, 2] - turn[2, 0], turn[1, 0] - turn[0, 1]])
    return np.array(angle * skew / (2 * np.sin(angle)))


def _joined(a: SolvedKey, between: Placed, b: SolvedKey, body: int) -> Placed:
    """Join frames of both ends and between; extra points of a key's own goals are left out."""
    count = between.points.shape[1]
    rows = []
    for name in ("origins", "turns", "points", "axes", "axis_origins"):
        ends = [getattr(key.placed, name)[body : body + 1] for key in (a, b)]
        if name == "points":
            ends = [end[:, :count] for end in ends]
        rows.append(np.concatenate([ends[0], getattr(between, name), ends[1]]))
    return Placed(*rows)


@dataclass(frozen=True)
class MotionFault:
    """A transition that may not be shown, and why."""

    gate: str
    """`slide`, `dip` or `bone`."""
    part: str
    miss: float


def motion_faults(solved: SolvedPosture, way: Transition) -> tuple[MotionFault, ...]:
    """Judge a transition: nothing held may slide, nothing may dip, no bone may shrink."""
    marks = solved.keys[way.keys[0]].asked.skeleton.marks
    points = way.frames.points
    found = []
    for name in way.held:
        at = points[:, marks.index[name]]
        slide = float(np.linalg.norm(at - at[0], axis=1).max())
        if slide > GATE_SLIDE_M:
            found.append(MotionFault("slide", name, slide))
    for name in SKIN:
        place = marks.index[name]
        dip = float((marks.radii[way.body, place] - points[:, place, 2]).max())
        if dip > GATE_DIP_M:
            found.append(MotionFault("dip", name, dip))
    for start, end in BONES:
        bone = points[:, marks.index[start]] - points[:, marks.index[end]]
        length = float(np.linalg.norm(bone[0]))
        middle = np.linalg.norm((bone[1:] + bone[:-1]) / 2, axis=1)
        shrink = float(np.abs(middle - length).max()) / length
        if shrink > GATE_BONE:
            found.append(MotionFault("bone", start, shrink))
    return tuple(found)
