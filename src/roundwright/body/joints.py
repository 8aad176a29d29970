"""What the body can bend: its freedoms, their names, ranges and resting values, in degrees.

A coach's name without a side (`knee`) stands for both sides. Every freedom is
positive in the way that its meaning says, and outwards is positive on both
sides, so that a mirrored position has the same numbers with the sides changed.
"""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Freedom:
    """One way of bending: least, most and resting angle in degrees, and what it means."""

    name: str
    least_deg: float
    most_deg: float
    rest_deg: float
    meaning: str


MIDDLE = (
    Freedom("back", -30, 75, 0, "the back rounds (+) or arches (-)"),
    Freedom("back_side", -35, 35, 0, "the trunk bends to its left (+) or right (-)"),
    Freedom("back_turn", -50, 50, 0, "the shoulders turn to the left (+) or right (-)"),
    Freedom("head", -50, 55, 0, "the head nods down (+) or looks up (-)"),
    Freedom("head_turn", -75, 75, 0, "the face turns to the left (+) or right (-)"),
)
"""Ranges here and below: our choice, near the usual clinical ones (from memory)."""

SIDED = (
    Freedom("shrug", -8, 25, 0, "the shoulder rises towards the ear"),
    Freedom("reach", -18, 28, 0, "the shoulder comes forward (+) or is drawn back (-)"),
    Freedom("shoulder", -60, 185, 5, "the upper arm goes forward and up (+) or behind (-)"),
    Freedom("shoulder_out", -35, 185, 10, "the upper arm goes out to the side (+) or across (-)"),
    Freedom("shoulder_turn", -85, 95, 0, "the upper arm turns outwards (+) or inwards (-)"),
    Freedom("elbow", 0, 150, 12, "the elbow bends"),
    Freedom("forearm", -90, 90, 10, "the palm turns down or back (+), up or forward (-)"),
    Freedom("wrist", -75, 95, 0, "the hand bends towards its back (+) or its palm (-)"),
    Freedom(
        "wrist_side", -30, 25, 0, "the hand bends to the little finger's side (+) or thumb's (-)"
    ),
    Freedom("hip", -28, 130, 3, "the thigh comes forward and up (+) or goes behind (-)"),
    Freedom("hip_out", -32, 55, 3, "the thigh goes out to the side (+) or across (-)"),
    Freedom("hip_turn", -45, 60, 5, "the thigh turns outwards (+) or inwards (-)"),
    Freedom("knee", 0, 152, 4, "the knee bends"),
    Freedom("ankle", -68, 38, 0, "the toes come towards the shin (+) or point away (-)"),
    Freedom("foot_edge", -22, 30, 0, "the sole turns inwards (+) or outwards (-)"),
    Freedom("toes", -30, 75, 0, "the toes bend up"),
)

SIDES = ("left", "right")
ROOT = ("root_x", "root_y", "root_z", "root_roll", "root_pitch", "root_yaw")

NAMES: tuple[str, ...] = (
    *ROOT,
    *(f.name for f in MIDDLE),
    *(f"{f.name}_{side}" for side in SIDES for f in SIDED),
)
"""All freedoms of the solver, in its order: six of the whole body, then angles."""

INDEX = {name: place for place, name in enumerate(NAMES)}
COUNT = len(NAMES)

SPOKEN: dict[str, Freedom] = {f.name: f for f in (*MIDDLE, *SIDED)}
"""Angles by the name that a coach says, without a side."""

_BY_NAME = {f.name: f for f in MIDDLE} | {f"{f.name}_{side}": f for side in SIDES for f in SIDED}
ANGLES: tuple[Freedom, ...] = tuple(_BY_NAME[name] for name in NAMES[len(ROOT) :])
"""The freedom behind each solver angle, in the solver's order after the six of the root."""

_NEGATED = {"root_y", "root_roll", "root_yaw", "back_side", "back_turn", "head_turn"}


def _other(name: str) -> str:
    for here, there in (("_left", "_right"), ("_right", "_left")):
        if name.endswith(here):
            return name.removesuffix(here) + there
    return name


MIRROR_INDEX: tuple[int, ...] = tuple(INDEX[_other(name)] for name in NAMES)
MIRROR_SIGN: tuple[float, ...] = tuple(-1.0 if name in _NEGATED else 1.0 for name in NAMES)
"""A mirrored position is ``sign * q[index]``."""
