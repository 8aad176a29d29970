"""Solves a posture: all its key positions for some bodies, with hands and feet staying put."""

from dataclasses import dataclass

import numpy as np

from roundwright.body.bases import TURNS, resting
from roundwright.body.build import Bodies, BodySex, Floats, bodies_of
from roundwright.body.joints import INDEX, ROOT, SIDES
from roundwright.body.landmarks import landmarks_of
from roundwright.body.pose_goals import Goals, PointGoal, goals_of, touched_points
from roundwright.body.pose_merge import FullPose, full_pose
from roundwright.body.posture import Posture, Touch
from roundwright.body.posture_words import Hold, Surface
from roundwright.body.residuals import Asked
from roundwright.body.skeleton import FRAME_INDEX, Placed, Skeleton
from roundwright.body.solver import Found, search
from roundwright.body.tolerances import GATE_CONTACT_M, TOLERANCE_M
from roundwright.foundation.seeds import generator

USUAL_LOAD_SHARE = {Hold.EACH: 0.10, Hold.LEFT: 0.12, Hold.RIGHT: 0.12, Hold.TOGETHER: 0.15}
"""Mass of one dumbbell as a share of body mass with which a position is balanced; our choice."""
REFERENCE = (BodySex.MALE, 1.70)
"""The body that is solved first; all others begin from it."""
SHAKEN_STARTS, SHAKE_RAD = 4, 0.30
"""Further starts for the reference body, with every angle changed by chance about so much."""
GOOD_COST = 12.0
ALIKE, DEARER = 0.02, 1.3
"""A position that costs more than the first figure is searched for from further starts, until the
cheapest is found twice (within the second); one that is begun from another body's position may cost
the third as much."""
HANDS: dict[Hold, tuple[float, float]] = {
    Hold.NONE: (0.0, 0.0),
    Hold.EACH: (1.0, 1.0),
    Hold.LEFT: (1.0, 0.0),
    Hold.RIGHT: (0.0, 1.0),
    Hold.TOGETHER: (0.5, 0.5),
}
"""Dumbbells in the left and the right hand."""


@dataclass(frozen=True)
class SolvedKey:
    """One key position of some bodies."""

    pose: FullPose
    goals: Goals
    asked: Asked
    q: Floats
    placed: Placed
    cost: Floats

    def point(self, name: str) -> Floats:
        """Give a landmark's place, shape (n, 3), m."""
        at: Floats = self.placed.points[:, self.asked.skeleton.marks.index[name]]
        return at


@dataclass(frozen=True)
class SolvedPosture:
    """All key positions of a posture for some bodies."""

    posture: Posture
    bodies: Bodies
    keys: tuple[SolvedKey, ...]


def solve_posture(
    posture: Posture, bodies: Bodies, like: SolvedPosture | None = None
) -> SolvedPosture:
    """Solve the key positions of a posture.

    Parameters
    ----------
    posture : Posture
        What the author said.
    bodies : Bodies
        For whom.
    like : SolvedPosture, optional
        The same posture solved for one other body: where to start from.

    Returns
    -------
    SolvedPosture
        Not yet judged: see `pose_faults`.

    Notes
    -----
    Without `like` the posture is first solved for one reference body, so that everybody's
    position belongs to one family and not to whatever the search happens to find.
    """
    if like is None:
        like = _solve_all(posture, bodies_of([REFERENCE]), None)
    return _solve_all(posture, bodies, like)


def _solve_all(posture: Posture, bodies: Bodies, like: SolvedPosture | None) -> SolvedPosture:
    poses = [full_pose(posture, key) for key in posture.key]
    order = solving_order(posture)
    keys: dict[int, SolvedKey] = {}
    for place, before in order:
        model = None if like is None else like.keys[place]
        keys[place] = _solve_key(posture, bodies, poses[place], keys.get(before), model)
    return SolvedPosture(posture, bodies, tuple(keys[i] for i in range(len(poses))))


def solving_order(posture: Posture) -> list[tuple[int, int]]:
    """Give (key, key before it) in the order of solving; -1 where none is before."""
    first, count = posture.anchor, len(posture.key)
    order = [(first, -1)]
    order += [(i, i - 1) for i in range(first + 1, count)]
    order += [(i, i + 1) for i in range(first - 1, -1, -1)]
    return order


def skeleton_for(goals: Goals, bodies: Bodies) -> Skeleton:
    """Give the skeleton of some bodies with the extra points of some goals."""
    base = TURNS[goals.base]
    if not goals.extras:
        return Skeleton(bodies, base)
    marks = landmarks_of(bodies, FRAME_INDEX)
    names = list(FRAME_INDEX)
    extra = []
    for name, by, away in goals.extras:
        place = marks.index[by]
        frame, offset = names[marks.frames[place]], marks.offsets[:, place]
        if by.startswith("shoulder_"):
            frame = by.replace("shoulder", "girdle")
            sign = 1.0 if by.endswith(SIDES[0]) else -1.0
            offset = np.zeros((bodies.count, 3))
            offset[:, 1] = sign * bodies.lengths_m["shoulder_out"]
        extra.append((name, frame, offset + away))
    return Skeleton(bodies, base, extra)


def what_is_asked(
    posture: Posture, bodies: Bodies, pose: FullPose, before: SolvedKey | None
) -> tuple[Goals, Asked]:
    """Give the goals of a key position, after the one solved before it, and their rows."""
    goals = goals_of(pose, posture, bodies)
    if before is not None and not pose.dynamic:
        lock(goals, pose, before)
    skeleton = skeleton_for(goals, bodies)
    asked = Asked(
        skeleton,
        goals,
        None if before is None or pose.dynamic else before.q,
        np.full(bodies.count, USUAL_LOAD_SHARE.get(pose.hold, 0.0)),
        HANDS[pose.hold],
    )
    return goals, asked


def _solve_key(
    posture: Posture,
    bodies: Bodies,
    pose: FullPose,
    before: SolvedKey | None,
    like: SolvedKey | None,
) -> SolvedKey:
    goals, asked = what_is_asked(posture, bodies, pose, before)
    skeleton = asked.skeleton
    start = None if like is None else like.q
    like_cost = None if like is None else float(like.cost[0])
    symmetric = pose.is_symmetric and (before is None or before.pose.is_symmetric)
    best: Found | None = None
    for i, q in enumerate(_starts(bodies, goals, before, start, skeleton)):
        found = search(asked, q, symmetric, is_near=start is not None and i == 0)
        if best is None:
            best, again = found, False
        else:
            again = bool((np.abs(found.cost - best.cost) < ALIKE * best.cost).all())
            better = found.cost < best.cost
            best = Found(
                np.where(better[:, None], found.q, best.q),
                np.where(better, found.cost, best.cost),
                best.steps + found.steps,
            )
        touches = worst_contact_m(asked, skeleton.place(best.q)).max() < 0.8 * GATE_CONTACT_M
        good = GOOD_COST if like_cost is None else DEARER * like_cost + GOOD_COST / 4
        if touches and (again or best.cost.max() < good):
            break
    assert best is not None
    return SolvedKey(pose, goals, asked, best.q, skeleton.place(best.q), best.cost)


def worst_contact_m(asked: Asked, placed: Placed) -> Floats:
    """Give each body's worst miss among what should touch, m."""
    marks = asked.skeleton.marks
    out = np.zeros(asked.skeleton.bodies.count)
    for goal, value in zip(asked.goals.points, asked.targets.T, strict=True):
        if goal.contact:
            at = placed.points[:, marks.index[goal.point]] @ goal.axis
            out = np.maximum(out, np.abs(at - value))
    return out


def lock(goals: Goals, pose: FullPose, before: SolvedKey) -> None:
    """Keep what touches in both positions where it was in the one before."""
    held = {
        point: touch for name, touch in before.pose.touch.items() for point in touched_points(name)
    }
    for name, touch in pose.touch.items():
        for point in touched_points(name):
            was = held.get(point)
            if was is None or touch.moves or was.on is not touch.on or _is_elsewhere(touch, was):
                continue
            at = before.point(point)
            for axis in _along(touch.on, goals, point):
                goals.points.append(PointGoal(point, axis, at @ axis, TOLERANCE_M["lock"]))


def _is_elsewhere(touch: Touch, was: Touch) -> bool:
    new = (touch.forward, touch.out, touch.up)
    return any(
        a is not None and a != b for a, b in zip(new, (was.forward, was.out, was.up), strict=True)
    )


def _along(surface: Surface, goals: Goals, point: str) -> list[Floats]:
    ways = [np.eye(3)[i] for i in range(3)]
    if surface is not Surface.WALL:
        return ways[:2]
    into = next(g.axis for g in goals.points if g.point == point and g.contact)
    return [way for way in ways if abs(way @ into) < 0.5]


def _starts(
    bodies: Bodies,
    goals: Goals,
    before: SolvedKey | None,
    start: Floats | None,
    skeleton: Skeleton,
) -> list[Floats]:
    """Give where to begin, the likeliest first; never from a straight elbow or knee."""
    n = bodies.count
    rest = np.broadcast_to(resting(goals.base), (n, len(INDEX))).copy()
    follows = before is not None and before.goals.base is goals.base
    from_before = before.q.copy() if before is not None and follows else rest
    out = []
    if start is not None:
        out.append(np.broadcast_to(start, (n, len(INDEX))).copy())
    for base, bend in ((from_before, 0.0), (rest, 0.0), (rest, 0.7), (from_before, 0.7)):
        q = base.copy()
        for side in SIDES:
            for name, least in (("elbow", 0.25), ("knee", 0.08)):
                q[:, INDEX[f"{name}_{side}"]] = np.maximum(q[:, INDEX[f"{name}_{side}"]], least)
            if bend:
                q[:, INDEX[f"hip_{side}"]] += bend
                q[:, INDEX[f"knee_{side}"]] += bend
                q[:, INDEX[f"elbow_{side}"]] += 2 * bend
                q[:, INDEX[f"shoulder_{side}"]] += bend
        out.append(_begun(q, goals, skeleton))
    if start is None:
        for i in range(SHAKEN_STARTS):
            shake = generator(1, "posture starts", i).normal(size=len(INDEX)) * SHAKE_RAD
            shake[: len(ROOT)] = 0.0
            out.append(_begun((from_before if i % 2 else rest) + shake, goals, skeleton))
    return out


def _begun(q: Floats, goals: Goals, skeleton: Skeleton) -> Floats:
    """Put said angles into a start, and set it down."""
    for freedom, angle in (goals.begin | goals.bent).items():
        q[:, freedom] = angle
    return _set_down(q, goals, skeleton)


def _set_down(q: Floats, goals: Goals, skeleton: Skeleton) -> Floats:
    """Move a body up or down until what should touch, or be at a height, is about there."""
    upright = [g for g in goals.points if g.axis[2] > 0]
    contacts = [g for g in upright if g.contact] or upright
    if not contacts:
        return q
    placed = skeleton.place(q)
    marks = skeleton.marks
    gaps = [g.value_m - placed.points[:, marks.index[g.point], 2] for g in contacts]
    q[:, 2] += np.mean(gaps, axis=0)
    return q
