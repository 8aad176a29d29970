"""Who carries what in a held position: forces at supports and net moments at joints.

Forces are shares of body weight, moments are (share of body weight) × m, so
that one table serves every mass. The supports share the load so that the sum
of squares of (moment / what the joint can hold) is least: least joint effort.
"""

from dataclasses import dataclass, field
from functools import cache

import numpy as np

from roundwright.body.bounded_least_squares import least_squares
from roundwright.body.build import Floats
from roundwright.body.joints import SIDES
from roundwright.body.landmarks import SEGMENTS
from roundwright.body.pose_goals import GRIP_POINTS, touched_points
from roundwright.body.posture_words import Surface
from roundwright.body.segment_table import GRAVITY_M_S2, STRENGTH_NM_PER_KG
from roundwright.body.skeleton import FRAME_INDEX, PARENTS
from roundwright.body.solved import HANDS, SolvedKey
from roundwright.body.tolerances import GATE_IMBALANCE_M

JOINT_FRAMES: dict[str, str] = {
    "ankle": "foot",
    "knee": "shank",
    "hip": "thigh",
    "shoulder": "upper_arm",
    "elbow": "forearm",
    "wrist": "hand",
}
"""Sided joints, and the frame that begins at each."""
BEND_AXES: dict[str, tuple[str, int, float]] = {
    "ankle": ("shank", 1, -1.0),
    "knee": ("thigh", 1, 1.0),
    "hip": ("pelvis", 1, -1.0),
    "shoulder": ("chest", 1, -1.0),
    "elbow": ("upper_arm", 1, -1.0),
    "wrist": ("forearm", 0, 1.0),
}
"""About which axis (of which frame, which of its three, sign) a joint bends; the wrist's sign
is for the left side."""
JOINTS: tuple[str, ...] = (
    "lumbar",
    *(f"{joint}_{side}" for side in SIDES for joint in JOINT_FRAMES),
)

EQUILIBRIUM_WEIGHT = 2e4
"""Forces must balance: a miss of 1 mm weighs as much as twenty joints at their limit."""
SLIP_COST, WALL_SLIP_COST = 0.15, 3.0
EVENNESS_COST = 0.02
SHARE_WEIGHT = 20.0
"""Costs of pushing along a surface (a wall is leant on, not hung from), of uneven loads, and the
pull of an author's share."""
FRICTION_FLAG = 0.6
LIGHT_PRESS = 0.05
"""A touch with less than this share of the weight is not judged for slipping."""
SLIP_ROUNDS = 6
"""A touch that would slip pushes less sideways: its cost is doubled, at most so often."""


@dataclass(frozen=True)
class Held:
    """A held position of one body with one load: forces and moments."""

    touches: dict[str, Floats]
    """Force on the body at each touch, share of body weight, (3,)."""
    bend: dict[str, float]
    """Moment that bends (+) or straightens (-) a joint, share of body weight × m."""
    total: dict[str, float]
    """Size of the whole moment at a joint, share of body weight × m."""
    imbalance_m: float
    """How far the weight is from being carried: the miss of the equilibrium, m."""
    friction: float
    """Largest sideways by inward force at a touch."""

    @property
    def is_balanced(self) -> bool:
        """Whether moments may be published."""
        return self.imbalance_m <= GATE_IMBALANCE_M

    @property
    def slips(self) -> bool:
        """Whether a touch pushes sideways by more than 0.6 of its pressure."""
        return self.friction > FRICTION_FLAG

    def share(self, stem: str) -> float:
        """Give the share of weight on the touches of a name ('palm', 'foot'), upwards."""
        return float(sum(f[2] for name, f in self.touches.items() if name.startswith(stem)))


@dataclass(frozen=True)
class _Force:
    """One point that can push on the body."""

    touch: str
    point: int
    axes: Floats
    """Columns: inward, and two directions along the surface."""
    slip_cost: float


@dataclass
class _System:
    """Rows of the least-squares problem: what forces do, and what gravity asks of them."""

    effects: Floats
    body: Floats
    """What the body alone asks, one for each row."""
    load: Floats
    """What a dumbbell of one body mass in each loaded hand asks further."""
    slip_rows: list[int] = field(default_factory=list)
    """First of the two sideways rows of each force."""


class HeldPosition:
    """One held key position of one body, ready for any load.

    Parameters
    ----------
    key : SolvedKey
        A solved key position that is not dynamic.
    body : int
        Which of its bodies.
    """

    def __init__(self, key: SolvedKey, body: int) -> None:
        marks = key.asked.skeleton.marks
        self._pose = key.pose
        self._points = key.placed.points[body]
        self._forces = _forces(key)
        self._places = self._points[[f.point for f in self._forces]].reshape(-1, 3)
        self._axes = np.array([f.axes for f in self._forces]).reshape(-1, 3, 3)
        self._origins = np.array(
            [key.placed.origins[body, FRAME_INDEX[_frame_of(j)]] for j in JOINTS]
        )
        self._bends = np.array([_axis(key.placed.turns[body], joint) for joint in JOINTS])
        self._under = np.array([_frames_under(j) for j in JOINTS])[:, marks.frames]
        shares = key.asked.skeleton.bodies.mass_shares
        self._body_weights = [
            (int(p), float(shares[s.removesuffix("_left").removesuffix("_right")][body]))
            for p, s in zip(marks.centres, SEGMENTS, strict=True)
        ]
        self._load_weights = [
            (marks.index[name], units)
            for name, units in zip(GRIP_POINTS, load_at_hands(key), strict=True)
            if units
        ]
        self._system = self._make_system()

    def held(self, load_share: float = 0.0) -> Held:
        """Give forces and moments with a dumbbell of some share of body mass."""
        system = self._system
        effects = system.effects.copy()
        wants = system.body + load_share * system.load
        count = len(self._forces)
        bounded = np.array([True, False, False] * count, dtype=bool)
        for _ in range(SLIP_ROUNDS):
            x = least_squares(effects, wants, bounded).reshape(-1, 3)
            push = np.einsum("kij,kj->ki", self._axes, x)
            sliding = self._sliding(x)
            if not sliding:
                break
            for i, force in enumerate(self._forces):
                if force.touch in sliding:
                    row = system.slip_rows[i]
                    effects[row : row + 2] *= 2.0
        moments = self._gravity(self._body_weights) + load_share * self._gravity(self._load_weights)
        arms = self._places[None] - self._origins[:, None]
        turned = np.cross(arms, push[None]) * self._under_forces()[..., None]
        moments = moments + turned.sum(axis=1)
        pull = self._pull(self._body_weights) + load_share * self._pull(self._load_weights)
        touches: dict[str, Floats] = {}
        for force, each in zip(self._forces, push, strict=True):
            touches[force.touch] = touches.get(force.touch, np.zeros(3)) + each
        return Held(
            touches=touches,
            bend=dict(zip(JOINTS, map(float, (moments * self._bends).sum(axis=1)), strict=True)),
            total=dict(zip(JOINTS, map(float, np.linalg.norm(moments, axis=1)), strict=True)),
            imbalance_m=self._miss(push, pull),
            friction=max(self._slips(x).values(), default=0.0),
        )

    def _make_system(self) -> _System:
        count = 3 * len(self._forces)
        arms = self._places[None] - self._origins[:, None]
        maps = np.cross(arms[:, :, None], np.swapaxes(self._axes, 1, 2)[None])
        maps = maps * self._under_forces()[..., None, None]
        maps = np.moveaxis(maps, 3, 1).reshape(len(JOINTS), 3, count)
        effort = np.array([_effort(j, a) for j, a in zip(JOINTS, self._bends, strict=True)])
        rows = [(effort @ maps).reshape(-1, count)]
        weights = (self._body_weights, self._load_weights)
        asked = [-(effort @ self._gravity(w)[..., None]).reshape(-1) for w in weights]
        balance = np.zeros((6, count))
        for i in range(len(self._forces)):
            balance[:3, 3 * i : 3 * i + 3] = self._axes[i]
            balance[3:, 3 * i : 3 * i + 3] = np.cross(self._places[i], self._axes[i].T).T
        rows.append(EQUILIBRIUM_WEIGHT * balance)
        asked = [
            np.append(a, -EQUILIBRIUM_WEIGHT * self._pull(w))
            for a, w in zip(asked, weights, strict=True)
        ]
        slip_rows = []
        for i in range(len(self._forces)):
            small = np.zeros((3, count))
            slip = self._forces[i].slip_cost
            small[:, 3 * i : 3 * i + 3] = np.diag([EVENNESS_COST, slip, slip])
            slip_rows.append(sum(len(r) for r in rows) + 1)
            rows.append(small)
            asked = [np.append(a, np.zeros(3)) for a in asked]
        for name, share in self._pose.weight.items():
            row = np.zeros((1, count))
            for i, force in enumerate(self._forces):
                if force.touch == name:
                    row[0, 3 * i : 3 * i + 3] = self._axes[i][2]
            rows.append(SHARE_WEIGHT * row)
            whole = [sum(each for _, each in w) for w in weights]
            asked = [
                np.append(a, SHARE_WEIGHT * share * w) for a, w in zip(asked, whole, strict=True)
            ]
        return _System(np.concatenate(rows), asked[0], asked[1], slip_rows)

    def _under_forces(self) -> Floats:
        points = np.array([f.point for f in self._forces], dtype=int)
        return self._under[:, points].astype(np.float64)

    def _gravity(self, weights: list[tuple[int, float]]) -> Floats:
        """Give the moment of gravity at each joint by all that hangs beyond it."""
        out = np.zeros((len(JOINTS), 3))
        for point, weight in weights:
            arms = self._points[point] - self._origins
            moment = np.cross(arms, [0.0, 0.0, -weight])
            out += moment * self._under[:, point, None]
        return out

    def _pull(self, weights: list[tuple[int, float]]) -> Floats:
        out = np.zeros(6)
        for point, weight in weights:
            force = np.array([0.0, 0.0, -weight])
            out[:3] += force
            out[3:] += np.cross(self._points[point], force)
        return out

    def _miss(self, push: Floats, pull: Floats) -> float:
        """Give what is left unbalanced: force and moment about the origin, both as m."""
        left = pull.copy()
        left[:3] += push.sum(axis=0)
        left[3:] += np.cross(self._places, push).sum(axis=0)
        return float(max(np.linalg.norm(left[:3]), np.linalg.norm(left[3:])))

    def _slips(self, x: Floats) -> dict[str, float]:
        """Give sideways by inward force of each touch that carries something."""
        sums: dict[str, Floats] = {}
        for force, each in zip(self._forces, x, strict=True):
            sums[force.touch] = sums.get(force.touch, np.zeros(3)) + each
        return {
            name: float(np.hypot(f[1], f[2]) / f[0])
            for name, f in sums.items()
            if f[0] > LIGHT_PRESS
        }

    def _sliding(self, x: Floats) -> set[str]:
        return {name for name, part in self._slips(x).items() if part > FRICTION_FLAG}


def newton_metres(moment: float, mass_kg: float) -> float:
    """Turn a moment in (share of body weight × m) into N·m for a body mass."""
    return moment * mass_kg * GRAVITY_M_S2


def load_at_hands(key: SolvedKey) -> tuple[float, float]:
    """Give dumbbells carried in the left and right hand; one that stands on the floor is not."""
    left, right = HANDS[key.pose.hold]
    on_floor = [f"fist_{side}" in key.pose.touch for side in SIDES]
    return (0.0 if on_floor[0] else left, 0.0 if on_floor[1] else right)


def _forces(key: SolvedKey) -> list[_Force]:
    index = key.asked.skeleton.marks.index
    out = []
    for name, touch in key.pose.touch.items():
        if touch.light:
            continue
        for point in touched_points(name):
            inward = np.array([0.0, 0.0, 1.0])
            cost = WALL_SLIP_COST if touch.on is Surface.WALL else SLIP_COST
            if touch.on is Surface.WALL:
                goal = next(g for g in key.goals.points if g.point == point and g.contact)
                inward = -goal.axis
            out.append(_Force(name, index[point], _three_axes(inward), cost))
    return out


def _three_axes(inward: Floats) -> Floats:
    other = np.array([1.0, 0.0, 0.0]) if abs(inward[0]) < 0.9 else np.array([0.0, 1.0, 0.0])
    return np.stack([inward, other, np.cross(inward, other)], axis=1)


def _frame_of(joint: str) -> str:
    if joint == "lumbar":
        return "middle"
    stem, side = joint.rsplit("_", 1)
    return f"{JOINT_FRAMES[stem]}_{side}"


def _axis(turns: Floats, joint: str) -> Floats:
    """Give the axis about which a joint bends, in the room."""
    if joint == "lumbar":
        return np.array(turns[FRAME_INDEX["pelvis"], :, 1])
    stem, side = joint.rsplit("_", 1)
    frame, which, sign = BEND_AXES[stem]
    if frame not in FRAME_INDEX:
        frame = f"{frame}_{side}"
    if stem == "wrist" and side == "right":
        sign = -sign
    return np.array(sign * turns[FRAME_INDEX[frame], :, which])


def _effort(joint: str, axis: Floats) -> Floats:
    """Give the matrix that turns a moment into effort: bending is stronger than other ways."""
    bend, other = STRENGTH_NM_PER_KG[joint.rsplit("_", 1)[0]]
    along = np.outer(axis, axis)
    out: Floats = GRAVITY_M_S2 * (along / bend + (np.eye(3) - along) / other)
    return out


@cache
def _frames_under(joint: str) -> tuple[bool, ...]:
    top = FRAME_INDEX[_frame_of(joint)]
    out = []
    for frame in range(len(PARENTS)):
        at = frame
        while at not in (-1, top):
            at = PARENTS[at]
        out.append(at == top)
    return tuple(out)
