"""Where everything is: joint angles in, places and their derivatives out (forward kinematics).

Body axes: x forward, y to the left, z up. A frame is one rigid part; a step
is one turning of a frame, by a vector that is linear in one to three freedoms.
All arrays begin with the body's index.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache

import numpy as np

from roundwright.body.build import Bodies, Floats
from roundwright.body.joints import COUNT, INDEX, SIDES
from roundwright.body.landmarks import Landmarks, landmarks_of

LOWER_BACK_PART = 0.6
"""Share of the back's bending that is at its lower joint; our choice."""

FRAMES: tuple[tuple[str, str], ...] = (
    ("pelvis", ""),
    ("middle", "pelvis"),
    ("chest", "middle"),
    ("head", "chest"),
    *(
        (f"{part}_{side}", f"{parent}_{side}" if parent not in ("chest", "pelvis") else parent)
        for side in SIDES
        for part, parent in (
            ("girdle", "chest"),
            ("upper_arm", "girdle"),
            ("forearm", "upper_arm"),
            ("hand", "forearm"),
            ("thigh", "pelvis"),
            ("shank", "thigh"),
            ("foot", "shank"),
            ("toes", "foot"),
        )
    ),
)
FRAME_INDEX = {name: place for place, (name, _) in enumerate(FRAMES)}
PARENTS = tuple(FRAME_INDEX[parent] if parent else -1 for _, parent in FRAMES)

_X, _Y, _Z = np.eye(3)


@dataclass(frozen=True)
class _Steps:
    """The turnings in order: frame of each, and how freedoms make its vector."""

    frames: tuple[int, ...]
    maps: Floats
    """Shape (steps, 3, freedoms): rotation vector in radians from freedoms in radians."""
    pair_steps: np.ndarray
    """Step of each (step, freedom) pair that is not zero."""
    pair_axes: Floats
    """Column of the map of each pair, shape (pairs, 3)."""
    pair_sums: Floats
    """Shape (pairs, freedoms): adds pairs up to freedoms."""
    moves: Floats
    """Shape (pairs, frames): 1 where the pair's step turns that frame."""


@cache
def _steps() -> _Steps:
    rows: list[tuple[str, dict[str, Floats]]] = [
        ("pelvis", {"root_roll": _X, "root_pitch": _Y, "root_yaw": _Z})
    ]
    for frame, part in (("middle", LOWER_BACK_PART), ("chest", 1 - LOWER_BACK_PART)):
        rows.append((frame, {"back": part * _Y, "back_side": -part * _X}))
        rows.append((frame, {"back_turn": part * _Z}))
    rows += [("head", {"head_turn": _Z}), ("head", {"head": _Y})]
    for side, sign in zip(SIDES, (1.0, -1.0), strict=True):
        s = f"_{side}"
        rows += [
            (f"girdle{s}", {f"shrug{s}": sign * _X, f"reach{s}": -sign * _Z}),
            (f"upper_arm{s}", {f"shoulder{s}": -_Y, f"shoulder_out{s}": sign * _X}),
            (f"upper_arm{s}", {f"shoulder_turn{s}": sign * _Z}),
            (f"forearm{s}", {f"elbow{s}": -_Y}),
            (f"forearm{s}", {f"forearm{s}": -sign * _Z}),
            (f"hand{s}", {f"wrist{s}": sign * _X, f"wrist_side{s}": _Y}),
            (f"thigh{s}", {f"hip{s}": -_Y, f"hip_out{s}": sign * _X}),
            (f"thigh{s}", {f"hip_turn{s}": sign * _Z}),
            (f"shank{s}", {f"knee{s}": _Y}),
            (f"foot{s}", {f"ankle{s}": -_Y, f"foot_edge{s}": sign * _X}),
            (f"toes{s}", {f"toes{s}": -_Y}),
        ]
    maps = np.zeros((len(rows), 3, COUNT))
    pairs: list[tuple[int, int]] = []
    for step, (_, axes) in enumerate(rows):
        for name, axis in axes.items():
            maps[step, :, INDEX[name]] = axis
            pairs.append((step, INDEX[name]))
    frames = tuple(FRAME_INDEX[frame] for frame, _ in rows)
    sums = np.zeros((len(pairs), COUNT))
    sums[np.arange(len(pairs)), [freedom for _, freedom in pairs]] = 1.0
    moves = np.array([[_is_under(f, frames[s]) for f in range(len(FRAMES))] for s, _ in pairs])
    return _Steps(
        frames=frames,
        maps=maps,
        pair_steps=np.array([step for step, _ in pairs]),
        pair_axes=np.array([maps[step, :, freedom] for step, freedom in pairs]),
        pair_sums=sums,
        moves=moves.astype(np.float64),
    )


def _is_under(frame: int, above: int) -> bool:
    while frame != -1:
        if frame == above:
            return True
        frame = PARENTS[frame]
    return False


def turned(vectors: Floats) -> tuple[Floats, Floats]:
    """Give the rotation of each rotation vector, and its left derivative; shapes (..., 3, 3)."""
    angle = np.sqrt((vectors**2).sum(axis=-1))
    safe = np.maximum(angle, 1e-7)
    cross = _cross_matrix(vectors)
    square = cross @ cross
    small = angle < 1e-4
    one = np.where(small, 1 - angle**2 / 6, np.sin(safe) / safe)
    two = np.where(small, 0.5 - angle**2 / 24, (1 - np.cos(safe)) / safe**2)
    three = np.where(small, 1 / 6 - angle**2 / 120, (safe - np.sin(safe)) / safe**3)
    unit = np.eye(3)
    a, b, c = (each[..., None, None] for each in (one, two, three))
    return unit + a * cross + b * square, unit + b * cross + c * square


def _cross_matrix(v: Floats) -> Floats:
    out = np.zeros((*v.shape, 3))
    out[..., 0, 1], out[..., 0, 2] = -v[..., 2], v[..., 1]
    out[..., 1, 0], out[..., 1, 2] = v[..., 2], -v[..., 0]
    out[..., 2, 0], out[..., 2, 1] = -v[..., 1], v[..., 0]
    return out


@dataclass(frozen=True)
class Placed:
    """Bodies in one position each: frames, points and, if asked, derivatives."""

    origins: Floats
    """Shape (n, frames, 3), m."""
    turns: Floats
    """Shape (n, frames, 3, 3): columns are the frame's axes in the world."""
    points: Floats
    """Shape (n, points, 3), m, in the order of the landmarks."""
    axes: Floats
    """Shape (n, pairs, 3): world axis of each (step, freedom) pair."""
    axis_origins: Floats
    """Shape (n, pairs, 3)."""


class Skeleton:
    """The frames and points of some bodies, ready to be placed by joint angles.

    Parameters
    ----------
    bodies : Bodies
        Whose lengths.
    base : array
        Shape (3, 3): which way up the body starts.
    extra : sequence
        Further points: name, frame, place in it for each body, shape (n, 3).
    """

    def __init__(
        self, bodies: Bodies, base: Floats, extra: Sequence[tuple[str, str, Floats]] = ()
    ) -> None:
        self.bodies = bodies
        self.base = base
        self.marks: Landmarks = landmarks_of(bodies, FRAME_INDEX, extra)
        self.offsets = _offsets(bodies)
        steps = _steps()
        self._step_groups = [
            [i for i, f in enumerate(steps.frames) if f == frame] for frame in range(len(FRAMES))
        ]
        self.moves_points = steps.moves[:, self.marks.frames]

    def place(self, q: Floats) -> Placed:
        """Place the bodies.

        Parameters
        ----------
        q : array
            Shape (n, freedoms): m and radians.
        """
        steps = _steps()
        n = len(q)
        turns, lefts = turned(np.einsum("sij,nj->nsi", steps.maps, q))
        world = np.empty((n, len(FRAMES), 3, 3))
        origins = np.empty((n, len(FRAMES), 3))
        before = np.empty((n, len(steps.frames), 3, 3))
        for frame, parent in enumerate(PARENTS):
            if parent < 0:
                here = np.broadcast_to(self.base, (n, 3, 3))
                origins[:, frame] = q[:, :3]
            else:
                here = world[:, parent]
                offset = self.offsets[:, frame]
                origins[:, frame] = origins[:, parent] + (here @ offset[..., None])[..., 0]
            for step in self._step_groups[frame]:
                before[:, step] = here
                here = here @ turns[:, step]
            world[:, frame] = here
        marks = self.marks
        local = (world[:, marks.frames] @ marks.offsets[..., None])[..., 0]
        axes = before[:, steps.pair_steps] @ (
            lefts[:, steps.pair_steps] @ steps.pair_axes[None, :, :, None]
        )
        return Placed(
            origins=origins,
            turns=world,
            points=origins[:, marks.frames] + local,
            axes=axes[..., 0],
            axis_origins=origins[:, np.array(steps.frames)[steps.pair_steps]],
        )

    def point_slopes(self, placed: Placed, chosen: np.ndarray) -> Floats:
        """Give how chosen points move with each freedom; shape (n, chosen, 3, freedoms)."""
        moves = self.moves_points[:, chosen].T
        arms = placed.points[:, chosen, None] - placed.axis_origins[:, None]
        moved = _cross_to_front(placed.axes[:, None], arms) * moves[None, :, None, :]
        slopes: Floats = moved @ _steps().pair_sums
        slopes[..., 0, 0] += 1.0
        slopes[..., 1, 1] += 1.0
        slopes[..., 2, 2] += 1.0
        return slopes

    def direction_slopes(self, placed: Placed, frames: np.ndarray, directions: Floats) -> Floats:
        """Give how directions fixed in frames turn.

        Parameters
        ----------
        placed : Placed
            Where the bodies are.
        frames : array of int
            Shape (k,).
        directions : array
            Shape (n, k, 3), in the room.

        Returns
        -------
        array
            Shape (n, k, 3, freedoms).
        """
        steps = _steps()
        moved = _cross_to_front(placed.axes[:, None], directions[:, :, None])
        moved *= steps.moves[:, frames].T[None, :, None, :]
        slopes: Floats = moved @ steps.pair_sums
        return slopes


def _cross_to_front(a: Floats, b: Floats) -> Floats:
    """Give cross products of (..., pairs, 3) with the vector's own axis moved before the pairs."""
    out = np.empty((*np.broadcast_shapes(a.shape, b.shape)[:-2], 3, a.shape[-2]))
    out[..., 0, :] = a[..., 1] * b[..., 2] - a[..., 2] * b[..., 1]
    out[..., 1, :] = a[..., 2] * b[..., 0] - a[..., 0] * b[..., 2]
    out[..., 2, :] = a[..., 0] * b[..., 1] - a[..., 1] * b[..., 0]
    return out


def _offsets(bodies: Bodies) -> Floats:
    """Give each frame's origin in its parent; shape (n, frames, 3)."""
    m = bodies.lengths_m
    out = np.zeros((bodies.count, len(FRAMES), 3))
    out[:, FRAME_INDEX["middle"], 2] = m["lower_trunk"]
    out[:, FRAME_INDEX["chest"], 2] = m["middle_trunk"]
    out[:, FRAME_INDEX["head"], 2] = m["neck_up"]
    for side, sign in zip(SIDES, (1.0, -1.0), strict=True):
        at = {part: FRAME_INDEX[f"{part}_{side}"] for part in _LIMB_PARTS}
        out[:, at["girdle"], 1] = sign * m["girdle_out"]
        out[:, at["girdle"], 2] = m["shoulder_up"]
        out[:, at["upper_arm"], 1] = sign * m["shoulder_out"]
        out[:, at["forearm"], 2] = -m["upper_arm"]
        out[:, at["hand"], 2] = -m["forearm"]
        out[:, at["thigh"], 1] = sign * m["hip_out"]
        out[:, at["shank"], 2] = -m["thigh"]
        out[:, at["foot"], 2] = -m["shank"]
        out[:, at["toes"], 0] = m["ball_ahead"]
        out[:, at["toes"], 2] = -m["ankle_up"]
    return out


_LIMB_PARTS = ("girdle", "upper_arm", "forearm", "hand", "thigh", "shank", "foot", "toes")
