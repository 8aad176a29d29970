"""What is lifted in a rep: rise of the body and the load, and the share of body weight lifted."""

from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from roundwright.body.build import Floats
from roundwright.body.pose_goals import GRIP_POINTS
from roundwright.body.posture_words import POINTS_MIDDLE, Path, split_side
from roundwright.body.segment_table import GRAVITY_M_S2
from roundwright.body.solved import SolvedKey, SolvedPosture
from roundwright.body.statics import load_at_hands

SMALL_RISE_M = 0.02
"""A lift of less than this gives no share: it would be a ratio of two errors."""

LARGEST_SHARE = 1.0
"""A share above it, or below none, says that the body does not go with the lift: none is given."""


@dataclass(frozen=True)
class LiftWork:
    """What rises in one rep of one body, and how far."""

    body_rise_m: float
    """Sum of all rises of the body's centre of mass along a rep."""
    load_rise_m: float
    """The same for a dumbbell, summed over those held."""
    lift_rise_m: float
    """The same for the point that counts as the lift; 0 where there is none."""
    lifted_share: float | None
    """Rise of the body's centre by rise of the lift: the body mass that moves with the load; none
    where the author says that nothing is lifted, or where it is not between 0 and 1."""

    def joules(self, mass_kg: float, dumbbell_kg: float) -> float:
        """Give the work against gravity of one rep, J."""
        return GRAVITY_M_S2 * (mass_kg * self.body_rise_m + dumbbell_kg * self.load_rise_m)


def rep_path(solved: SolvedPosture) -> list[int]:
    """Give the key positions of one whole rep in order, from the first back to the first."""
    count = len(solved.keys)
    there = list(range(count))
    if solved.posture.path is Path.ROUND:
        return [*there, 0]
    if solved.posture.path is Path.HOLD:
        return there
    return there + there[-2::-1]


def lift_work(solved: SolvedPosture, body: int) -> LiftWork:
    """Give what rises in one rep of one of the bodies."""
    path = rep_path(solved)
    centres = [body_centre(key, body) for key in solved.keys]
    heights = np.array([c[2] for c in centres])
    loads = np.array([_load_heights(key, body) for key in solved.keys])
    held = np.array([load_at_hands(key) for key in solved.keys])
    load_rise = sum(
        float(max(0.0, loads[b, hand] - loads[a, hand]) * min(held[a, hand], held[b, hand]))
        for a, b in pairwise(path)
        for hand in (0, 1)
    )
    point = lift_point(solved, body)
    if point is None:
        return LiftWork(_rises(heights, path), load_rise, 0.0, None)
    ups = np.array([key.point(point)[body][2] for key in solved.keys])
    low, high = int(np.argmin(ups)), int(np.argmax(ups))
    span = float(ups[high] - ups[low])
    share = float(heights[high] - heights[low]) / span if span > SMALL_RISE_M else None
    sensible = share is not None and 0 < share <= LARGEST_SHARE
    return LiftWork(
        _rises(heights, path), load_rise, _rises(ups, path), share if sensible else None
    )


def _rises(heights: Floats, path: list[int]) -> float:
    return float(sum(max(0.0, heights[b] - heights[a]) for a, b in pairwise(path)))


def lift_point(solved: SolvedPosture, body: int) -> str | None:
    """Give the point whose rise is the lift: the author's (None for 'none'), or what rises most."""
    said = solved.posture.lift
    if said == "none":
        return None
    if said is not None:
        return said if split_side(said)[1] or said in POINTS_MIDDLE else f"{said}_left"
    points = ["shoulder_left", "hips"]
    if any(any(load_at_hands(key)) for key in solved.keys):
        points = [*GRIP_POINTS, *points]

    def rise(name: str) -> float:
        ups = [float(key.point(name)[body][2]) for key in solved.keys]
        return max(ups) - min(ups)

    return max(points, key=rise)


def body_centre(key: SolvedKey, body: int) -> Floats:
    """Give the centre of mass of the body alone, without loads, m."""
    marks = key.asked.skeleton.marks
    masses = key.asked.masses[body, : len(marks.centres)]
    out: Floats = (masses / masses.sum()) @ key.placed.points[body, marks.centres]
    return out


def _load_heights(key: SolvedKey, body: int) -> tuple[float, float]:
    left, right = (float(key.point(name)[body][2]) for name in GRIP_POINTS)
    return left, right


def footprint_m(solved: SolvedPosture, body: int) -> tuple[float, float]:
    """Give length (forward) and width of the floor under the body in all key positions, m."""
    every = np.concatenate([key.placed.points[body][:, :2] for key in solved.keys])
    length, width = every.max(axis=0) - every.min(axis=0)
    return float(length), float(width)
