"""How far a position is from its goals, and how that changes with each freedom.

Every goal gives rows of (miss / tolerance); the solver makes their squares small.
"""

from dataclasses import dataclass, field

import numpy as np

from roundwright.body.build import Floats
from roundwright.body.joints import ANGLES, COUNT, INDEX, NAMES, ROOT, SIDES
from roundwright.body.landmarks import SEGMENTS
from roundwright.body.pose_goals import GRIP_POINTS, TOGETHER_GAP, Goals
from roundwright.body.skeleton import FRAME_INDEX, Placed, Skeleton
from roundwright.body.support_area import edge_gaps
from roundwright.body.tolerances import REST_DEG, REST_DEG_ELSE, TOLERANCE_M, TOLERANCE_RAD

SKIN = (
    "head_back", "forehead",
    *(f"{p}_{s}" for s in SIDES for p in (
        "heel", "ball_in", "ball_out", "toe_tip", "foot_top", "knee", "shin", "seat", "hip_side",
        "upper_back", "chest", "shoulder", "elbow", "wrist", "palm_heel", "grip", "finger_tips")),
)  # fmt: skip
"""Points that may not go below the floor."""

LEAST_RAD = np.radians([f.least_deg for f in ANGLES])
MOST_RAD = np.radians([f.most_deg for f in ANGLES])
_ROOTS = len(ROOT)

_REST_WEIGHTS = np.concatenate(
    [
        np.full(_ROOTS, 0.0),
        1.0
        / np.radians(
            [REST_DEG.get(n.removesuffix("_left").removesuffix("_right"), REST_DEG_ELSE)
             for n in NAMES[_ROOTS:]]
        ),
    ]
)  # fmt: skip

_UP = np.array([0.0, 0.0, 1.0])
_NEAR_TRUNK = (("wrist", 0.085), ("grip", 0.085), ("elbow", 0.075))
_NEAR_THIGH = 0.062
"""How near to the middle of trunk and thigh an arm may come, fractions of stature; our choice."""


@dataclass
class Rows:
    """Rows of one evaluation: misses (n, rows) and their slopes (n, rows, freedoms)."""

    misses: list[Floats] = field(default_factory=list)
    slopes: list[Floats] = field(default_factory=list)

    def add(self, miss: Floats, slope: Floats) -> None:
        """Add rows."""
        self.misses.append(miss)
        self.slopes.append(slope)


class Asked:
    """The goals of one key position for a skeleton, as rows.

    Parameters
    ----------
    skeleton : Skeleton
        The bodies, with the extra points of the goals.
    goals : Goals
        What is asked.
    before : array or None
        Freedoms of the key solved before, shape (n, freedoms): a weak pull.
    carried : array
        Shape (n,): mass in each loaded hand as a share of body mass.
    hands : tuple of float
        1 for each hand (left, right) that holds a load, else 0; both hands on one: a half each.
    """

    def __init__(
        self,
        skeleton: Skeleton,
        goals: Goals,
        before: Floats | None,
        carried: Floats,
        hands: tuple[float, float],
    ) -> None:
        self.skeleton, self.goals, self.before = skeleton, goals, before
        index = skeleton.marks.index
        bodies = skeleton.bodies
        shares = [
            bodies.mass_shares[s.removesuffix("_left").removesuffix("_right")] for s in SEGMENTS
        ]
        loads = [carried * hands[0], carried * hands[1]]
        self.mass_points = np.append(skeleton.marks.centres, [index[name] for name in GRIP_POINTS])
        masses = np.stack([*shares, *loads], axis=1)
        self.masses = masses / masses.sum(axis=1, keepdims=True)
        self._points = np.array([index[g.point] for g in goals.points], dtype=int)
        self._axes = np.array([g.axis for g in goals.points]).reshape(-1, 3)
        self.targets = self._targets()
        self._weights = np.array([1 / g.tolerance_m for g in goals.points])
        self._skin = np.array([index[name] for name in SKIN])
        self._skin_radii = skeleton.marks.radii[:, self._skin]
        self._meets = np.array([(index[a], index[b]) for a, b, _ in goals.meets], dtype=int)
        self._direction_frames = np.array(
            [FRAME_INDEX[goal.frame] for goal in goals.directions], dtype=int
        )
        self._bars = _bars(index)
        used = {*self._points, *self._meets.ravel(), *self._skin, *self.mass_points}
        used |= {each for a, b, p, _ in self._bars for each in (a, b, p)}
        self._needed = np.array(sorted(used), dtype=int)
        self._supports = np.array([index[name] for name in goals.supports], dtype=int)

    def _targets(self) -> Floats:
        marks = self.skeleton.marks
        values = []
        for goal in self.goals.points:
            radius = marks.radii[:, marks.index[goal.point]] if goal.contact else 0.0
            values.append(goal.value_m + (radius if goal.axis[2] > 0 else -radius))
        n = self.skeleton.bodies.count
        return np.stack(values, axis=1) if values else np.zeros((n, 0))

    def rows(self, q: Floats, slack: float, with_slopes: bool) -> tuple[Floats, Floats | None]:
        """Give misses and slopes at a position.

        Parameters
        ----------
        q : array
            Freedoms, shape (n, freedoms).
        slack : float
            Factor on the tolerance of points: above 1 while far away.
        with_slopes : bool
            Whether slopes are wanted.
        """
        placed = self.skeleton.place(q)
        out = Rows()
        view = _View(self.skeleton, placed, self._needed, with_slopes)
        self._joint_rows(out, q)
        self._point_rows(out, view, slack)
        self._direction_rows(out, view)
        self._floor_rows(out, view, slack)
        self._balance_rows(out, view, slack)
        self._apart_rows(out, view)
        misses = np.concatenate(out.misses, axis=1)
        return misses, np.concatenate(out.slopes, axis=1) if with_slopes else None

    def centre(self, placed: Placed) -> Floats:
        """Give the centre of mass of body and load, shape (n, 3)."""
        at = placed.points[:, self.mass_points]
        return np.array((self.masses[..., None] * at).sum(axis=1))

    def _joint_rows(self, out: Rows, q: Floats) -> None:
        n = len(q)
        goals = self.goals
        weights = (_REST_WEIGHTS if goals.rest_weights is None else goals.rest_weights).copy()
        target = np.broadcast_to(goals.resting, (n, COUNT)).copy()
        for freedom, angle in goals.bent.items():
            weights[freedom] = 1 / TOLERANCE_RAD["said"]
            target[:, freedom] = angle
        if goals.rest_weights is None:
            weights[:2] = 1 / TOLERANCE_M["origin"]
            weights[[INDEX["root_roll"], INDEX["root_yaw"]]] = 1 / TOLERANCE_RAD["facing"]
        unit = np.broadcast_to(np.eye(COUNT), (n, COUNT, COUNT))
        out.add((q - target) * weights, unit * weights[:, None])
        if self.before is not None:
            w = 1 / TOLERANCE_RAD["before"]
            out.add((q - self.before)[:, _ROOTS:] * w, unit[:, _ROOTS:] * w)
        angles = q[:, _ROOTS:]
        over = np.maximum(angles - MOST_RAD, 0) - np.maximum(LEAST_RAD - angles, 0)
        w = 1 / TOLERANCE_RAD["range"]
        out.add(over * w, unit[:, _ROOTS:] * ((over != 0) * w)[..., None])

    def _point_rows(self, out: Rows, view: "_View", slack: float) -> None:
        w = self._weights / slack
        if len(self._points):
            at = (view.points[:, self._points] * self._axes).sum(axis=-1)
            miss = at - self.targets
            out.add(miss * w, view.along(self._points, self._axes, w))
        for a, b in self._meets:
            w1 = 1 / TOLERANCE_M["put"]
            difference = view.points[:, a] - view.points[:, b]
            out.add(difference * w1, (view.slope(a) - view.slope(b)) * w1)
        if self.goals.hands_together:
            index = self.skeleton.marks.index
            a, b = (index[name] for name in GRIP_POINTS)
            w1 = 1 / TOLERANCE_M["put"]
            gap = TOGETHER_GAP * self.skeleton.bodies.stature_m[:, None]
            side = view.placed.turns[:, FRAME_INDEX["chest"], :, 1]
            miss = view.points[:, a] - view.points[:, b] - gap * side
            slope = view.slope(a) - view.slope(b)
            chest = np.array([FRAME_INDEX["chest"]])
            slope = slope - gap[..., None] * view.turning(chest, side[:, None])[:, 0]
            out.add(miss * w1, slope * w1)

    def _direction_rows(self, out: Rows, view: "_View") -> None:
        goals = self.goals.directions
        if not goals:
            return
        local = np.array([goal.local for goal in goals])
        d = (view.placed.turns[:, self._direction_frames] @ local[..., None])[..., 0]
        slopes = view.turning(self._direction_frames, d)
        for i, goal in enumerate(goals):
            w = 1 / goal.tolerance
            if goal.target is None:
                out.add(d[:, i, 2:] * w, slopes[:, i, 2:] * w)
            elif goal.plane is not None:
                miss = (d[:, i] @ goal.plane)[:, None]
                out.add(miss * w, (goal.plane @ slopes[:, i])[:, None] * w)
            else:
                out.add((d[:, i] - goal.target) * w, slopes[:, i] * w)

    def _floor_rows(self, out: Rows, view: "_View", slack: float) -> None:
        under = view.points[:, self._skin, 2] - self._skin_radii
        active = np.flatnonzero((under < 0).any(axis=0))
        if not len(active):
            return
        w = 1 / TOLERANCE_M["floor"] / slack
        miss = np.minimum(under[:, active], 0) * w
        slope = view.along(self._skin[active], np.broadcast_to(_UP, (len(active), 3)), w)
        out.add(miss, slope * (miss < 0)[..., None])

    def _balance_rows(self, out: Rows, view: "_View", slack: float) -> None:
        if not self.goals.balance or not len(self._supports):
            return
        centre = np.einsum("nk,nkc->nc", self.masses, view.points[:, self.mass_points])
        margin = 0.018 * self.skeleton.bodies.stature_m
        self._share_rows(out, view, centre)
        gaps = edge_gaps(view.points[:, self._supports, :2], centre[:, :2], margin)
        w = 1 / TOLERANCE_M["balance"] / slack
        miss = gaps.short_m * w
        if not view.with_slopes:
            out.add(miss, np.zeros((*miss.shape, COUNT)))
            return
        moved = view.many(self.mass_points)
        flat = moved[:, :, :2].reshape(len(moved), moved.shape[1], -1)
        centre_slope = (self.masses[:, None] @ flat).reshape(-1, 2, COUNT)
        feet = view.many(self._supports)[:, :, :2]
        n, rows, _ = gaps.shares.shape
        edges = (gaps.shares @ feet.reshape(n, feet.shape[1], -1)).reshape(n, rows, 2, COUNT)
        slope = ((centre_slope[:, None] - edges) * gaps.normals[..., None]).sum(axis=2)
        out.add(miss, slope * w * (miss != 0)[..., None])

    def _share_rows(self, out: Rows, view: "_View", centre: Floats) -> None:
        """Bring the centre of mass where the author's shares of the weight put it."""
        if not self.goals.shares:
            return
        index = self.skeleton.marks.index
        points = np.array([index[name] for name in self.goals.shares])
        parts = np.array(list(self.goals.shares.values()))
        wanted = np.einsum("k,nkc->nc", parts, view.points[:, points, :2])
        w = 1 / TOLERANCE_M["share"]
        slope = np.einsum("nk,nkcf->ncf", self.masses, view.many(self.mass_points))[:, :2]
        slope = slope - np.einsum("k,nkcf->ncf", parts, view.many(points))[:, :2]
        out.add((centre[:, :2] - wanted) * w, slope * w)

    def _apart_rows(self, out: Rows, view: "_View") -> None:
        """Keep arms and hands out of the trunk, and hands out of the thighs."""
        h = self.skeleton.bodies.stature_m
        points = view.points
        a, b, p = (np.array([bar[i] for bar in self._bars]) for i in range(3))
        radii = np.array([bar[3] for bar in self._bars]) * h[:, None]
        along = points[:, b] - points[:, a]
        part = ((points[:, p] - points[:, a]) * along).sum(axis=-1) / (along**2).sum(axis=-1)
        part = np.clip(part, 0, 1)[..., None]
        away = points[:, p] - points[:, a] - part * along
        distance = np.sqrt((away**2).sum(axis=-1))
        miss = np.minimum(distance - radii, 0) / TOLERANCE_M["apart"]
        for i in np.flatnonzero((miss < 0).any(axis=0)):
            unit = away[:, i] / np.maximum(distance[:, i], 1e-6)[:, None]
            moved = view.slope(p[i]) - (1 - part[:, i, :, None]) * view.slope(a[i])
            moved = moved - part[:, i, :, None] * view.slope(b[i])
            slope = (unit[:, :, None] * moved).sum(axis=1) / TOLERANCE_M["apart"]
            out.add(miss[:, i, None], (slope * (miss[:, i] < 0)[:, None])[:, None])


def _bars(index: dict[str, int]) -> list[tuple[int, int, int, float]]:
    """Give what must stay apart: ends of a thick bar, a point, and their least distance."""
    low, high = index["mass_lower_trunk"], index["mass_upper_trunk"]
    bars = [(low, high, index[f"{p}_{s}"], r) for s in SIDES for p, r in _NEAR_TRUNK]
    return bars + [
        (index[f"hip_{s}"], index[f"knee_{s}"], index[f"{p}_{s}"], _NEAR_THIGH)
        for s in SIDES
        for p in ("wrist", "grip")
    ]


class _View:
    """A placed body with the slopes of the points that are needed."""

    def __init__(
        self, skeleton: Skeleton, placed: Placed, needed: np.ndarray, with_slopes: bool
    ) -> None:
        self.skeleton, self.placed, self.with_slopes = skeleton, placed, with_slopes
        self.points = placed.points
        if with_slopes:
            self._slopes = skeleton.point_slopes(placed, needed)
            self._at = np.zeros(self.points.shape[1], dtype=int)
            self._at[needed] = np.arange(len(needed))

    def many(self, points: np.ndarray) -> Floats:
        """Slopes of some points; shape (n, points, 3, freedoms)."""
        if not self.with_slopes:
            return np.zeros((len(self.points), len(points), 3, COUNT))
        return self._slopes[:, self._at[points]]

    def slope(self, point: int) -> Floats:
        """Slopes of one point; shape (n, 3, freedoms)."""
        if not self.with_slopes:
            return np.zeros((len(self.points), 3, COUNT))
        return self._slopes[:, self._at[point]]

    def along(self, points: np.ndarray, axes: Floats, weights: Floats | float) -> Floats:
        """Slopes of some points along an axis each, weighed; shape (n, points, freedoms)."""
        slopes = (self.many(points) * axes[None, :, :, None]).sum(axis=2)
        return np.array(slopes * np.broadcast_to(weights, (len(points),))[:, None])

    def turning(self, frames: np.ndarray, directions: Floats) -> Floats:
        """Slopes of directions fixed in frames; shape (n, frames, 3, freedoms)."""
        if not self.with_slopes:
            return np.zeros((*directions.shape, COUNT))
        return self.skeleton.direction_slopes(self.placed, frames, directions)
