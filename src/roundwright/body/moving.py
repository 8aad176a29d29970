"""A rep as a moving figure: joint places in mm, frame by frame, small enough to send to a page.

The page runs coordinates in a straight line from frame to frame; frames are
close enough for that (`in_betweens.motion_faults` judges it).
"""

from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from roundwright.body.in_betweens import Transition, motion_faults, transition
from roundwright.body.joints import SIDES
from roundwright.body.solved import SolvedPosture
from roundwright.body.work import rep_path

POINTS: tuple[str, ...] = (
    "hips", "navel", "breastbone", "crown", "forehead",
    *(
        f"{p}_{s}"
        for s in SIDES
        for p in ("shoulder", "elbow", "wrist", "grip", "hip", "knee", "ankle", "heel",
                  "ball_in", "toe_tip")
    ),
)  # fmt: skip


@dataclass(frozen=True)
class Motion:
    """One whole rep: frames in order, and which of them are key positions."""

    points: tuple[str, ...]
    frames_mm: tuple[tuple[int, ...], ...]
    """Forward, left and up of each point in turn."""
    keys: tuple[int, ...]
    """Frame of each key position on the way, from the first to the last."""
    faults: tuple[str, ...]
    """What may not be shown, in words; empty when all is well."""


def motion_of(solved: SolvedPosture, body: int = 0) -> Motion:
    """Give the moving figure of one rep of one of the bodies."""
    path = rep_path(solved)
    index = solved.keys[0].asked.skeleton.marks.index
    places = np.array([index[name] for name in POINTS])
    ways: dict[tuple[int, int], Transition] = {}
    frames: list[tuple[int, ...]] = []
    keys = [0]
    faults: list[str] = []
    if len(path) == 1:
        at = solved.keys[0].placed.points[body, places]
        return Motion(POINTS, (_in_mm(at),), (0,), ())
    for start, end in pairwise(path):
        way = ways.get((end, start))
        points = None if way is None else way.frames.points[::-1]
        if points is None:
            way = ways.setdefault((start, end), transition(solved, start, end, body))
            points = way.frames.points
            faults += [f"{f.gate}: {f.part} {f.miss:.3f}" for f in motion_faults(solved, way)]
        rows = [_in_mm(frame[places]) for frame in points]
        frames += rows if not frames else rows[1:]
        keys.append(len(frames) - 1)
    return Motion(POINTS, tuple(frames), tuple(keys), tuple(faults))


def _in_mm(at: np.ndarray) -> tuple[int, ...]:
    return tuple(int(each) for each in np.rint(at * 1000).ravel())
