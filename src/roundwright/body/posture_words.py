"""The words of a posture: what touches what, where hands go, which way parts point.

A name without a side stands for both sides. Lengths are fractions of stature,
as a coach of any size would scale them; kit is in metres.
"""

from enum import StrEnum

from roundwright.body.joints import MIDDLE, SIDED, SIDES, SPOKEN


class Base(StrEnum):
    """How the body lies in the room before anything bends."""

    STANDING = "standing"
    SEATED = "seated"
    KNEELING = "kneeling"
    ALL_FOURS = "all_fours"
    PRONE = "prone"
    SUPINE = "supine"
    SIDE_LEFT = "side_left"
    SIDE_RIGHT = "side_right"


class Surface(StrEnum):
    """What a part of the body may rest on; `air` takes a touch away again."""

    FLOOR = "floor"
    MAT = "mat"
    BENCH = "bench"
    BOX = "box"
    CHAIR = "chair"
    CHAIR_BACK = "chair_back"
    DUMBBELL = "dumbbell"
    WALL = "wall"
    AIR = "air"


class Hold(StrEnum):
    """Which hands hold a dumbbell: none, one in each, one side's, or both hands on one."""

    NONE = "none"
    EACH = "each"
    LEFT = "left"
    RIGHT = "right"
    TOGETHER = "together"


class Path(StrEnum):
    """How a rep runs through the key positions."""

    THERE_AND_BACK = "there_and_back"
    ROUND = "round"
    HOLD = "hold"


class RopePlace(StrEnum):
    """Where a skipping rope is in a key position."""

    UNDER = "under"
    BEHIND = "behind"
    OVER = "over"
    FRONT = "front"


TOUCH_POINTS: dict[str, tuple[str, ...]] = {
    "foot": ("heel", "ball_in", "ball_out"),
    "ball": ("ball_in", "ball_out"),
    "heel": ("heel",),
    "toes": ("toe_tip",),
    "foot_top": ("foot_top",),
    "foot_side": ("foot_side",),
    "knee": ("knee",),
    "shin": ("shin",),
    "seat": ("seat",),
    "hip_side": ("hip_side",),
    "upper_back": ("upper_back",),
    "chest": ("chest",),
    "shoulder": ("shoulder",),
    "palm": ("palm_heel", "palm_thumb", "palm_little"),
    "fist": ("grip",),
    "fingers": ("finger_tips",),
    "forearm": ("elbow", "wrist"),
    "elbow": ("elbow",),
}
"""Parts that can touch something, on either side, and the points that then do."""

TOUCH_MIDDLE: dict[str, tuple[str, ...]] = {
    name: (name,) for name in ("head_back", "forehead", "belly", "low_back")
}

AIM_FRAMES: dict[str, tuple[str, tuple[float, float, float]]] = {
    "upper_arm": ("upper_arm", (0, 0, -1)),
    "forearm": ("forearm", (0, 0, -1)),
    "fingers": ("hand", (0, 0, -1)),
    "thumb": ("hand", (1, 0, 0)),
    "palm": ("hand", (0, -1, 0)),
    "thigh": ("thigh", (0, 0, -1)),
    "shin": ("shank", (0, 0, -1)),
    "foot": ("foot", (1, 0, 0)),
}
"""Parts that can be aimed on either side: frame, and their direction in it on the left side.

An arm or leg points from its root to its end; a palm points away from its own
surface; a foot points to its toes.
"""

AIM_MIDDLE: dict[str, tuple[str, tuple[float, float, float]]] = {
    "trunk": ("chest", (0, 0, 1)),
    "hips": ("pelvis", (0, 0, 1)),
    "breast": ("chest", (1, 0, 0)),
    "belt": ("pelvis", (1, 0, 0)),
    "face": ("head", (1, 0, 0)),
}

DIRECTIONS: dict[str, tuple[float, float, float]] = {
    "up": (0, 0, 1),
    "down": (0, 0, -1),
    "forward": (1, 0, 0),
    "back": (-1, 0, 0),
    "out": (0, 1, 0),
    "in": (0, -1, 0),
}
"""Directions of the room as (forward, out, up); for parts of the middle `out` is to the left."""
LEVEL = "level"
FREE = "free"

PLACES: dict[str, tuple[str, tuple[float, float, float]]] = {
    "shoulder": ("shoulder", (0.040, 0.060, 0.075)),
    "chest": ("breastbone", (0.060, 0.030, 0.025)),
    "ribs": ("navel", (-0.085, 0.130, 0.015)),
    "waist": ("navel", (0.045, 0.070, 0.000)),
    "hip": ("hip_side", (0.010, 0.062, 0.055)),
    "lap": ("hip", (0.060, 0.000, -0.120)),
    "knee": ("knee", (0.030, 0.000, 0.045)),
    "ear": ("head_back", (0.015, 0.080, 0.005)),
    "thigh_front": ("hip", (0.088, 0.010, -0.090)),
    "beside_thigh": ("hip", (0.000, 0.090, -0.090)),
}
"""Places for a hand: by which point, and how far (forward, out, up) in that part's axes."""

PUT_POINTS: dict[str, str] = {
    "hand": "grip",
    "elbow": "elbow",
    "knee": "knee",
    "foot": "ankle",
}
"""What can be put somewhere, on either side, and its point."""

POINTS_SIDED = (
    "shoulder", "elbow", "wrist", "grip", "hip", "knee", "ankle", "heel", "toe_tip",
    "hip_side", "seat", "upper_back", "finger_tips",
)  # fmt: skip
POINTS_MIDDLE = ("hips", "breastbone", "navel", "head_back", "forehead", "crown")


def with_sides(names: list[str] | tuple[str, ...]) -> list[str]:
    """Give each name, and each with its side."""
    return [f"{name}{end}" for name in names for end in ("", *(f"_{s}" for s in SIDES))]


def split_side(name: str) -> tuple[str, str | None]:
    """Split a side off a name: 'knee_left' is ('knee', 'left'); no side is None."""
    for side in SIDES:
        if name.endswith(f"_{side}"):
            return name.removesuffix(f"_{side}"), side
    return name, None


ANGLE_NAMES = [f.name for f in MIDDLE] + with_sides([f.name for f in SIDED])
TOUCH_NAMES = [*TOUCH_MIDDLE, *with_sides(list(TOUCH_POINTS))]
AIM_NAMES = [*AIM_MIDDLE, *with_sides(list(AIM_FRAMES))]
PUT_NAMES = with_sides(list(PUT_POINTS))
POINT_NAMES = [*POINTS_MIDDLE, *with_sides(list(POINTS_SIDED))]


def angle_range(name: str) -> tuple[float, float]:
    """Give least and most degrees of an angle by its spoken name, with or without a side."""
    freedom = SPOKEN.get(name) or SPOKEN[split_side(name)[0]]
    return freedom.least_deg, freedom.most_deg
