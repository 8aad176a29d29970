"""Several movements played one after the other as flat frames, with the ways from one to the next.

What a page needs to move a figure: each frame holds every point as it is seen
(right, down, near), so that the page only runs numbers in a straight line from
frame to frame. The camera turns on the way from one movement to the next.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from roundwright.body.build import Floats
from roundwright.body.drawing.camera import Camera
from roundwright.body.drawing.figure import UNITS_PER_STATURE, Seen
from roundwright.body.drawing.kit_shapes import kit_shapes, standing_kit
from roundwright.body.in_betweens import motion_faults, transition
from roundwright.body.joints import SIDES
from roundwright.body.moving import POINTS
from roundwright.body.pose_merge import FullPose
from roundwright.body.solved import HANDS, SolvedPosture
from roundwright.body.work import rep_path

MARGIN = 16
GRAIN = 4
"""Numbers are sent as whole quarters of a picture unit; a stature is 200 units."""


@dataclass(frozen=True)
class Stretch:
    """Some frames that belong together: one movement, or the way to the next."""

    name: str
    """Short name of the movement; empty on the way."""
    first: int
    last: int
    hands: tuple[str, ...]
    """Sides of the hands that hold a dumbbell."""
    kit: tuple[tuple[str, str], ...]
    """Standing kit as (path, ink)."""
    keys: tuple[int, ...] = ()
    """Frames of the key positions: what is shown to whoever wants no motion."""
    band: tuple[tuple[str, int, int], ...] = ()
    """Bands: point that one end is at, and where the other end is, right and down."""


@dataclass(frozen=True)
class MovingSequence:
    """A whole rep of some movements."""

    box: tuple[int, int, int, int]
    """Left, top, width and height of all that is seen, picture units."""
    points: tuple[str, ...]
    frames: tuple[tuple[int, ...], ...]
    """Right, down and near of each point in turn, in quarters of a picture unit."""
    stretches: tuple[Stretch, ...]


def sequence_of(named: Sequence[tuple[str, SolvedPosture]]) -> MovingSequence:
    """Give the moving figure of one rep of some movements, one after the other.

    Parameters
    ----------
    named : sequence of (str, SolvedPosture)
        Short names and solved postures of the reference body, in order.

    Notes
    -----
    A way between two key positions that fails a gate (a foot slides, a bone shrinks) is not
    shown: the figure is then in the next position at once.
    """
    frames: list[Floats] = []
    stretches: list[Stretch] = []
    last: tuple[str, SolvedPosture] | None = None
    for name, solved in named:
        if last is not None:
            way = _way_between(last[1], solved)
            if len(way) > 1:
                views = _turning(last[1].posture.view, solved.posture.view, len(way))
                seen = [_flat(p, v, solved) for p, v in zip(way, views, strict=True)]
                first = len(frames)
                frames += seen
                stretches.append(Stretch("", first, len(frames) - 1, (), ()))
        first = len(frames)
        points, keys = rep_points(solved)
        frames += [_flat(p, solved.posture.view, solved) for p in points]
        stretches.append(_stretch(name, solved, first, keys))
        last = (name, solved)
    rows = tuple(tuple(int(v) for v in np.rint(f * GRAIN).ravel()) for f in frames)
    return MovingSequence(_box(frames, named), POINTS, rows, tuple(stretches))


def rep_points(solved: SolvedPosture, body: int = 0) -> tuple[list[Floats], tuple[int, ...]]:
    """Give the places of all sent points along one rep, m, and which are key positions.

    A faulty way is left out.
    """
    path = rep_path(solved)
    out, keys = [_places(solved, path[0], body)], [0]
    ways: dict[tuple[int, int], list[Floats]] = {}
    for start, end in pairwise(path):
        if (end, start) in ways:
            way = ways[end, start][::-1]
        else:
            way = ways.setdefault((start, end), _way(solved, start, end, body))
        out += way[1:]
        keys.append(len(out) - 1)
    return out, tuple(keys)


def _way(solved: SolvedPosture, start: int, end: int, body: int) -> list[Floats]:
    found = transition(solved, start, end, body)
    if motion_faults(solved, found):
        return [_places(solved, start, body), _places(solved, end, body)]
    return list(found.frames.points[:, _index(solved)])


def _way_between(one: SolvedPosture, other: SolvedPosture) -> list[Floats]:
    """Give the way from the end of one movement to the beginning of another; none if faulty."""
    end = one.keys[rep_path(one)[-1]]
    both = SolvedPosture(one.posture, one.bodies, (end, other.keys[0]))
    found = transition(both, 0, 1)
    if motion_faults(both, found):
        return []
    return list(found.frames.points[:, _index(one)])


def _index(solved: SolvedPosture) -> Floats:
    index = solved.keys[0].asked.skeleton.marks.index
    return np.array([index[name] for name in POINTS])


def _places(solved: SolvedPosture, key: int, body: int) -> Floats:
    at: Floats = solved.keys[key].placed.points[body, _index(solved)]
    return at


def _turning(start: float, end: float, count: int) -> list[float]:
    """Turn the camera the short way round."""
    by = (end - start + 180) % 360 - 180
    return [start + by * float(part) for part in np.linspace(0, 1, count)]


def _flat(points: Floats, view: float, solved: SolvedPosture) -> Floats:
    scale = UNITS_PER_STATURE / float(solved.bodies.stature_m[0])
    out: Floats = Camera(view).seen(points) * scale * np.array([1.0, -1.0, 1.0])
    return out


def _stretch(name: str, solved: SolvedPosture, first: int, keys: tuple[int, ...]) -> Stretch:
    key = solved.keys[0]
    seen = _seen(solved)
    kit = kit_shapes(seen, solved, standing_kit(solved, 0))
    return Stretch(
        name=name,
        first=first,
        last=first + keys[-1],
        hands=_hands([key.pose for key in solved.keys]),
        kit=tuple((s.path, s.ink) for s in sorted(kit, key=lambda s: s.near)),
        keys=tuple(first + each for each in keys),
        band=_band(seen, solved, key.pose),
    )


def _seen(solved: SolvedPosture) -> Seen:
    key = solved.keys[0]
    index = key.asked.skeleton.marks.index
    stature = float(solved.bodies.stature_m[0])
    return Seen(key.placed, index, 0, Camera(solved.posture.view), stature)


def _hands(poses: Sequence[FullPose]) -> tuple[str, ...]:
    held = [HANDS[pose.hold] for pose in poses]
    return tuple(s for i, s in enumerate(SIDES) if any(each[i] > 0 for each in held))


def _band(seen: Seen, solved: SolvedPosture, pose: FullPose) -> tuple[tuple[str, int, int], ...]:
    band = solved.posture.props.band
    if band is None or band.anchor == "feet":
        return ()
    to = {"hands": SIDES, "hand_left": SIDES[:1], "hand_right": SIDES[1:]}[band.to]
    at = seen.flat(np.array(band.anchor))
    return tuple((f"grip_{side}", round(float(at[0])), round(float(at[1]))) for side in to)


def _box(
    frames: Sequence[Floats], named: Sequence[tuple[str, SolvedPosture]]
) -> tuple[int, int, int, int]:
    flat = [f[:, :2] for f in frames]
    for _, solved in named:
        seen = _seen(solved)
        for shape in kit_shapes(seen, solved, standing_kit(solved, 0)):
            if shape.ink != "wall":
                text = shape.path.replace("M", " ").replace("L", " ").replace("Z", " ")
                flat.append(np.array([float(v) for v in text.split()]).reshape(-1, 2))
    every = np.concatenate(flat)
    left, top = (np.floor(every.min(axis=0)) - MARGIN).astype(int)
    right, low = (np.ceil(every.max(axis=0)) + MARGIN).astype(int)
    return int(left), int(top), int(right - left), int(low - top)
