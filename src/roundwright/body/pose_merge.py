"""What holds in one key position: the posture's own words, overlaid by the key's, side by side."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import TypeVar

from roundwright.body.joints import SIDED, SIDES
from roundwright.body.posture import Key, Place, Pose, Posture, Touch
from roundwright.body.posture_words import (
    AIM_FRAMES,
    FREE,
    POINTS_SIDED,
    PUT_POINTS,
    TOUCH_POINTS,
    Base,
    Hold,
    RopePlace,
    Surface,
    split_side,
)

V = TypeVar("V")

_SIDED_NAMES: dict[str, frozenset[str]] = {
    "angles": frozenset(f.name for f in SIDED),
    "touch": frozenset(TOUCH_POINTS),
    "aim": frozenset(AIM_FRAMES),
    "put": frozenset(PUT_POINTS),
    "height": frozenset(POINTS_SIDED),
    "weight": frozenset(TOUCH_POINTS),
}


@dataclass
class FullPose:
    """All that is said of one key position; every name carries its side."""

    name: str
    base: Base = Base.STANDING
    angles: dict[str, float] = field(default_factory=dict)
    lean: float | None = None
    touch: dict[str, Touch] = field(default_factory=dict)
    aim: dict[str, str | tuple[float, float, float]] = field(default_factory=dict)
    put: dict[str, str | Place] = field(default_factory=dict)
    height: dict[str, float] = field(default_factory=dict)
    weight: dict[str, float] = field(default_factory=dict)
    hold: Hold = Hold.NONE
    dynamic: bool = False
    rope: RopePlace | None = None
    is_symmetric: bool = True


def full_pose(posture: Posture, key: Key) -> FullPose:
    """Give everything that holds in one key position of a posture."""
    out = FullPose(key.name, key.base or posture.base)
    layers: tuple[Pose, ...] = (posture, key)
    out.angles = _overlaid("angles", [layer.angles for layer in layers])
    out.aim = _overlaid("aim", [layer.aim for layer in layers])
    out.put = _overlaid("put", [layer.put for layer in layers])
    out.height = _overlaid("height", [layer.height for layer in layers])
    out.weight = _overlaid("weight", [layer.weight for layer in layers])
    touch = _touches(layers)
    out.touch = {name: each for name, each in touch.items() if each.on is not Surface.AIR}
    for layer in layers:
        if layer.lean is not None:
            out.lean = None if layer.lean == FREE else float(layer.lean)
        out.hold = layer.hold if layer.hold is not None else out.hold
        out.dynamic = layer.dynamic if layer.dynamic is not None else out.dynamic
        out.rope = layer.rope or out.rope
    out.is_symmetric = _is_symmetric(out, posture)
    return out


def _overlaid(kind: str, layers: Sequence[Mapping[str, V | str]]) -> dict[str, V]:
    out: dict[str, V | str] = {}
    for layer in layers:
        both = {n: v for n, v in layer.items() if n in _SIDED_NAMES[kind]}
        for name, value in both.items():
            out |= {f"{name}_{side}": value for side in SIDES}
        out |= {name: value for name, value in layer.items() if name not in both}
    return {name: value for name, value in out.items() if value != FREE}  # type: ignore[misc]


_SAME_LIMB = (
    {"foot", "ball", "heel", "toes", "foot_top", "foot_side"},
    {"palm", "fist", "fingers"},
)
"""Parts of one limb's end: a key that names one of them replaces what stood for the others."""


def _touches(layers: tuple[Pose, ...]) -> dict[str, Touch]:
    out: dict[str, Touch] = {}
    for layer in layers:
        new = _overlaid("touch", [dict(layer.touch)])
        for name in new:
            stem, side = split_side(name)
            for group in (g for g in _SAME_LIMB if stem in g):
                out = {n: t for n, t in out.items() if n not in {f"{g}_{side}" for g in group}}
        out |= new
    return out


def _is_symmetric(pose: FullPose, posture: Posture) -> bool:
    if pose.base.value.startswith("side_") or pose.hold in (Hold.LEFT, Hold.RIGHT):
        return False
    wall = posture.props.wall
    if wall is not None and wall.side in ("left", "right"):
        return False
    if any(pose.angles.get(name) for name in ("back_side", "back_turn", "head_turn")):
        return False
    tables: list[dict[str, object]] = [
        dict(pose.angles), dict(pose.touch), dict(pose.aim),
        dict(pose.put), dict(pose.height), dict(pose.weight),
    ]  # fmt: skip
    for table in tables:
        for name, value in table.items():
            stem, side = split_side(name)
            if side and table.get(f"{stem}_{_across(side)}") != value:
                return False
    return all(
        not isinstance(place, Place) or split_side(place.by)[1] is None
        for place in pose.put.values()
    ) and all(
        isinstance(aim, str) or split_side(name)[1] is not None or aim[1] == 0
        for name, aim in pose.aim.items()
    )


def _across(side: str) -> str:
    return SIDES[1] if side == SIDES[0] else SIDES[0]
