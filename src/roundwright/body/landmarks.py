"""Named points of the body: joints, the skin that touches things, centres of mass.

Each has a frame, a place in it and a radius: a point with a radius touches a
floor when its height is that radius, whichever way the part is turned.
Places and radii are our choice, except centres of mass and joints.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from roundwright.body.build import Bodies, Floats
from roundwright.body.joints import SIDES

SEGMENTS = (
    "head",
    "upper_trunk",
    "middle_trunk",
    "lower_trunk",
    *(
        f"{part}_{side}"
        for side in SIDES
        for part in ("upper_arm", "forearm", "hand", "thigh", "shank", "foot")
    ),
)
"""Segments with a mass, in the order of their centres among the landmarks."""

SEGMENT_FRAMES = {
    "head": "head",
    "upper_trunk": "chest",
    "middle_trunk": "middle",
    "lower_trunk": "pelvis",
}

_MIDDLE: dict[str, tuple[str, tuple[float, float, float], float]] = {
    "hips": ("pelvis", (0, 0, 0), 0.070),
    "head_back": ("head", (-0.002, 0, 0.085), 0.058),
    "forehead": ("head", (0.018, 0, 0.085), 0.058),
    "crown": ("head", (0.010, 0, 0.094), 0.058),
    "breastbone": ("chest", (0.065, 0, 0.050), 0.0),
    "navel": ("middle", (0.060, 0, 0.0), 0.0),
    "belly": ("middle", (0.010, 0, 0.0), 0.052),
    "low_back": ("middle", (-0.012, 0, 0.0), 0.050),
}
"""Frame, place and radius in fractions of stature."""

_SIDED: dict[str, tuple[str, tuple[float, float, float], float]] = {
    "seat": ("pelvis", (-0.012, 0.040, 0.000), 0.050),
    "hip_side": ("pelvis", (0, 0.045, 0.005), 0.050),
    "upper_back": ("chest", (-0.012, 0.050, 0.045), 0.055),
    "chest": ("chest", (0.012, 0.050, 0.040), 0.055),
}


@dataclass(frozen=True)
class Landmarks:
    """All points of some bodies."""

    names: tuple[str, ...]
    index: dict[str, int]
    frames: np.ndarray
    """Frame index of each point."""
    offsets: Floats
    """Shape (n, points, 3): place in the frame, m."""
    radii: Floats
    """Shape (n, points), m."""
    centres: np.ndarray
    """Index of the centre of mass of each segment."""


def landmarks_of(
    bodies: Bodies, frame_index: dict[str, int], extra: Sequence[tuple[str, str, Floats]] = ()
) -> Landmarks:
    """Give the points of bodies, and the extra ones (name, frame, place in it) after them."""
    rows: list[tuple[str, str, Floats, Floats]] = []
    h = bodies.stature_m
    none = np.zeros_like(h)

    def add(name: str, frame: str, place: list[Floats], radius: Floats) -> None:
        rows.append((name, frame, np.stack(np.broadcast_arrays(*place), axis=-1), radius))

    for name, (frame, at, thick) in _MIDDLE.items():
        add(name, frame, [at[0] * h, at[1] * h, at[2] * h], thick * h)
    m = bodies.lengths_m
    for side, sign in zip(SIDES, (1.0, -1.0), strict=True):
        for name, (frame, at, thick) in _SIDED.items():
            add(f"{name}_{side}", frame, [at[0] * h, sign * at[1] * h, at[2] * h], thick * h)
        for name, part, place, radius in _limb_points(m, h, sign):
            add(f"{name}_{side}", f"{part}_{side}", place, radius)
    for segment in SEGMENTS:
        frame = SEGMENT_FRAMES.get(segment, segment)
        add(f"mass_{segment}", frame, _centre(bodies, segment), none)
    rows += [(name, frame, place, none) for name, frame, place in extra]
    names = tuple(row[0] for row in rows)
    index = {name: place for place, name in enumerate(names)}
    return Landmarks(
        names=names,
        index=index,
        frames=np.array([frame_index[row[1]] for row in rows]),
        offsets=np.stack([row[2] for row in rows], axis=1),
        radii=np.stack([row[3] for row in rows], axis=1),
        centres=np.array([index[f"mass_{segment}"] for segment in SEGMENTS]),
    )


def _limb_points(
    m: dict[str, Floats], h: Floats, sign: float
) -> list[tuple[str, str, list[Floats], Floats]]:
    none = np.zeros_like(h)
    sole = -m["ankle_up"]
    return [
        ("shoulder", "upper_arm", [none, none, none], 0.036 * h),
        ("elbow", "forearm", [none, none, none], 0.022 * h),
        ("wrist", "hand", [none, none, none], 0.012 * h),
        ("grip", "hand", [none, -sign * 0.010 * h, -m["hand"]], none),
        ("palm_heel", "hand", [none, -sign * 0.012 * h, -0.010 * h], none),
        ("palm_thumb", "hand", [0.020 * h, -sign * 0.012 * h, -m["hand"]], none),
        ("palm_little", "hand", [-0.020 * h, -sign * 0.012 * h, -m["hand"]], none),
        ("finger_tips", "hand", [none, none, -m["hand"] - m["fingers"]], none),
        ("hip", "thigh", [none, none, none], 0.055 * h),
        ("knee", "shank", [none, none, none], 0.034 * h),
        ("shin", "shank", [none, none, -0.45 * m["shank"]], 0.030 * h),
        ("ankle", "foot", [none, none, none], 0.022 * h),
        ("heel", "foot", [-m["heel_back"], none, sole], none),
        ("ball_in", "foot", [m["ball_ahead"], -sign * 0.020 * h, sole], none),
        ("ball_out", "foot", [m["ball_ahead"], sign * 0.020 * h, sole], none),
        ("foot_top", "foot", [0.6 * m["ball_ahead"], none, -0.40 * m["ankle_up"]], 0.016 * h),
        ("foot_side", "foot", [none, sign * 0.020 * h, 0.6 * sole], 0.010 * h),
        ("toe_tip", "toes", [m["toes"], none, 0.004 * h], 0.004 * h),
    ]


def _centre(bodies: Bodies, segment: str) -> list[Floats]:
    m, h = bodies.lengths_m, bodies.stature_m
    none = np.zeros_like(h)
    part = segment.removesuffix("_left").removesuffix("_right")
    at = bodies.centres[part]
    if part == "head":
        return [0.010 * h, none, m["head_up"] - at * m["head"]]
    if part == "foot":
        length = m["heel_back"] + m["ball_ahead"] + m["toes"]
        return [at * length - m["heel_back"], none, -0.6 * m["ankle_up"]]
    if part in ("upper_trunk", "middle_trunk", "lower_trunk"):
        return [none, none, (1 - at) * m[part]]
    return [none, none, -at * m[part]]
