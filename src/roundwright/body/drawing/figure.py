"""The parts of a drawn person: what each is made of, how near it is, and how it is inked."""

from dataclasses import dataclass, field

import numpy as np

from roundwright.body.build import Floats
from roundwright.body.drawing.camera import Camera
from roundwright.body.drawing.shapes import Circle, bar, circles_hull
from roundwright.body.joints import SIDES
from roundwright.body.skeleton import FRAME_INDEX, Placed

UNITS_PER_STATURE = 200.0

THICK = {
    "hip": 0.056, "knee": 0.037, "calf": 0.037, "ankle": 0.021, "heel": 0.019, "ball": 0.016,
    "toe": 0.010, "shoulder": 0.035, "elbow": 0.025, "wrist": 0.018, "hand": 0.021,
    "finger": 0.010, "waist": 0.052, "chest": 0.066, "neck": 0.027, "head": 0.060,
}  # fmt: skip
"""Radii as fractions of stature, by eye."""
CHEST_NEARER = 0.18
"""From how much nearer than the hips the chest hides them, as a fraction of stature, by eye."""


@dataclass
class Part:
    """One part: its outlines, how near it is, and whether it belongs to the far side."""

    name: str
    near: float
    is_far: bool = False
    skin: list[str] = field(default_factory=list)
    cloth: list[str] = field(default_factory=list)
    cloth_behind: bool = False
    """Whether the skin hides the cloth: a chest that leans far towards the camera."""


class Seen:
    """A placed person in picture units: right, down, near."""

    def __init__(
        self, placed: Placed, index: dict[str, int], body: int, camera: Camera, stature_m: float
    ) -> None:
        self.scale = UNITS_PER_STATURE / stature_m
        self.h = stature_m
        self._placed, self._index, self._body, self._camera = placed, index, body, camera

    def flat(self, points: Floats) -> Floats:
        """Give (right, down, near) in picture units of points in the room."""
        seen = self._camera.seen(points) * self.scale
        out: Floats = seen * np.array([1.0, -1.0, 1.0])
        return out

    def mark(self, name: str) -> Floats:
        """Give a landmark."""
        return self.flat(self._placed.points[self._body, self._index[name]])

    def room(self, name: str) -> Floats:
        """Give a landmark in the room, m."""
        out: Floats = self._placed.points[self._body, self._index[name]]
        return out

    def axis(self, frame: str, which: int) -> Floats:
        """Give an axis of a frame in the room."""
        out: Floats = self._placed.turns[self._body, FRAME_INDEX[frame], :, which]
        return out

    def at(self, frame: str, x: float, y: float, z: float) -> Floats:
        """Give a place in a frame, in fractions of stature."""
        place = FRAME_INDEX[frame]
        local = np.array([x, y, z]) * self.h
        world = self._placed.origins[self._body, place] + (
            self._placed.turns[self._body, place] @ local
        )
        return self.flat(world)


def circle(at: Floats, thick: str | float) -> Circle:
    """Give a circle at a flat point, of a named or given radius (fraction of stature)."""
    radius = THICK[thick] if isinstance(thick, str) else thick
    return float(at[0]), float(at[1]), radius * UNITS_PER_STATURE


def between(a: Floats, b: Floats, part: float) -> Floats:
    """Give the point a part of the way from a to b."""
    return a + part * (b - a)


def parts_of(seen: Seen, holds: tuple[bool, bool]) -> list[Part]:
    """Give the parts of a person, farthest first."""
    parts = [_trunk(seen), _head(seen)]
    arms_apart = float(seen.mark("shoulder_left")[2] - seen.mark("shoulder_right")[2])
    legs_apart = float(seen.mark("hip_left")[2] - seen.mark("hip_right")[2])
    for side, sign, held in zip(SIDES, (1.0, -1.0), holds, strict=True):
        parts += _arm(seen, side, held, sign * arms_apart < -0.07 * UNITS_PER_STATURE)
        parts.append(_leg(seen, side, sign * legs_apart < -0.03 * UNITS_PER_STATURE))
    parts.sort(key=lambda part: part.near)
    return parts


def _trunk(seen: Seen) -> Part:
    near = float(np.mean([seen.mark(n)[2] for n in ("mass_lower_trunk", "mass_upper_trunk")]))
    part = Part("trunk", near)
    hips = [circle(seen.mark(f"hip_{s}"), "hip") for s in SIDES]
    waist = [circle(seen.at("middle", 0, y, 0.0), "waist") for y in (0.034, -0.034)]
    ribs = [circle(seen.at("chest", 0.0, y, 0.035), "chest") for y in (0.045, -0.045)]
    tops = [circle(seen.mark(f"shoulder_{s}"), "shoulder") for s in SIDES]
    part.skin = [circles_hull([*waist, *ribs]), circles_hull([*ribs, *tops])]
    low = [circle(seen.at("pelvis", 0, y, 0.045), 0.058) for y in (0.036, -0.036)]
    part.cloth = [circles_hull([*hips, *low])]
    ahead = float(seen.mark("mass_upper_trunk")[2] - seen.mark("mass_lower_trunk")[2])
    part.cloth_behind = ahead > CHEST_NEARER * UNITS_PER_STATURE
    if not part.cloth_behind:
        part.skin.append(circles_hull([*low, *waist]))
    return part


def _head(seen: Seen) -> Part:
    base, top = seen.at("head", 0.0, 0, 0.0), seen.at("head", 0.0, 0, 0.088)
    part = Part("head", float(top[2]))
    part.skin = [bar(circle(between(base, top, -0.35), "neck"), circle(top, "neck"))]
    skull = circle(seen.at("head", -0.004, 0, 0.098), 0.057)
    chin = circle(seen.at("head", 0.018, 0, 0.060), 0.036)
    part.skin.append(bar(skull, chin))
    nose = [circle(seen.at("head", x, 0, z), r) for x, z, r in
            ((0.052, 0.090, 0.008), (0.070, 0.078, 0.007), (0.046, 0.066, 0.012))]  # fmt: skip
    part.skin.append(circles_hull(nose))
    return part


def _arm(seen: Seen, side: str, held: bool, is_far: bool) -> list[Part]:
    shoulder, elbow, wrist = (seen.mark(f"{p}_{side}") for p in ("shoulder", "elbow", "wrist"))
    grip, tips = seen.mark(f"grip_{side}"), seen.mark(f"finger_tips_{side}")
    upper = Part(f"upper_arm_{side}", float((shoulder[2] + elbow[2]) / 2), is_far)
    upper.skin = [bar(circle(shoulder, "shoulder"), circle(elbow, "elbow"))]
    lower = Part(f"forearm_{side}", float((elbow[2] + wrist[2]) / 2), is_far)
    lower.skin = [bar(circle(elbow, "elbow"), circle(wrist, "wrist"))]
    if held:
        lower.skin.append(bar(circle(wrist, "wrist"), circle(grip, 0.024)))
    else:
        lower.skin.append(bar(circle(wrist, "wrist"), circle(between(wrist, grip, 0.8), "hand")))
        lower.skin.append(bar(circle(grip, 0.018), circle(tips, "finger")))
    return [upper, lower]


def _leg(seen: Seen, side: str, is_far: bool) -> Part:
    hip, knee, ankle = (seen.mark(f"{p}_{side}") for p in ("hip", "knee", "ankle"))
    part = Part(f"leg_{side}", float((hip[2] + knee[2] + ankle[2]) / 3), is_far)
    calf = seen.at(f"shank_{side}", -0.010, 0, -0.075)
    part.skin = [
        bar(circle(hip, "hip"), circle(knee, "knee")),
        bar(circle(knee, 0.034), circle(calf, "calf")),
        bar(circle(calf, "calf"), circle(ankle, "ankle")),
    ]
    heel = seen.at(f"foot_{side}", -0.026, 0, -0.022)
    ball = seen.at(f"foot_{side}", 0.062, 0, -0.023)
    toe = seen.at(f"toes_{side}", 0.036, 0, 0.011)
    part.skin += [
        circles_hull([circle(heel, "heel"), circle(ball, "ball"), circle(ankle, "ankle")]),
        bar(circle(ball, "ball"), circle(toe, "toe")),
    ]
    part.cloth = [bar(circle(hip, "hip"), circle(between(hip, knee, 0.52), 0.047))]
    return part
