"""The one arrow of a picture: from a point of the body the way it goes next, or is pressed."""

import numpy as np

from roundwright.body.build import Floats
from roundwright.body.drawing.figure import Seen
from roundwright.body.drawing.shapes import number
from roundwright.body.posture import Push
from roundwright.body.posture_words import DIRECTIONS, POINTS_MIDDLE, Path, split_side
from roundwright.body.solved import SolvedPosture

CANDIDATES = (
    "breastbone", "hips", "grip_left", "grip_right", "knee_left", "ankle_left", "ankle_right",
)  # fmt: skip
"""What usually moves most; the earlier wins when it moves nearly as far."""
NEARLY = 0.75
SHORTEST, LONGEST, GAP = 14.0, 46.0, 12.0
"""Picture units: shorter moves get no arrow, longer ones are cut; it starts a gap off."""
PUSH, PUSH_GAP = 26.0, 6.0
"""The same for a press in which nothing moves."""


def next_place(solved: SolvedPosture, place: int) -> int | None:
    """Give the key position that follows one, as a rep runs; None after the last of a hold."""
    last = len(solved.keys) - 1
    if place < last:
        return place + 1
    if last == 0 or solved.posture.path is Path.HOLD:
        return None
    return 0 if solved.posture.path is Path.ROUND else place - 1


def arrow_path(solved: SolvedPosture, place: int, seen: Seen, body: int) -> str:
    """Give the arrow's path, or nothing when little moves or the author wants none."""
    chosen = solved.posture.key[place].arrow
    if isinstance(chosen, Push):
        return _push_path(solved, place, seen, body, chosen)
    goes_to = next_place(solved, place)
    if chosen == "none" or goes_to is None:
        return ""
    here, there = solved.keys[place], solved.keys[goes_to]

    def way(name: str) -> Floats:
        start = seen.flat(here.point(name)[body])
        return np.array(seen.flat(there.point(name)[body]) - start)[:2]

    if chosen is not None:
        name = _sided(chosen)
    else:
        lengths = {name: float(np.linalg.norm(way(name))) for name in CANDIDATES}
        most = max(lengths.values())
        name = next(name for name, length in lengths.items() if length >= NEARLY * most)
    d = way(name)
    length = float(np.linalg.norm(d))
    if length < SHORTEST:
        return ""
    unit = d / length
    start = seen.flat(here.point(name)[body])[:2] + unit * GAP
    return _drawn(start, start + unit * min(LONGEST, max(SHORTEST, length - GAP)))


def _sided(name: str) -> str:
    """Give the point itself; a name for both sides stands for the left."""
    stem, side = split_side(name)
    return name if side or stem in POINTS_MIDDLE else f"{name}_left"


def _push_path(solved: SolvedPosture, place: int, seen: Seen, body: int, push: Push) -> str:
    """Give an arrow that leaves a point the way it presses, as seen by the camera."""
    name = _sided(push.at)
    way = np.array(DIRECTIONS[push.towards] if isinstance(push.towards, str) else push.towards)
    if split_side(name)[1] == "right":
        way = way * np.array([1.0, -1.0, 1.0])
    at = solved.keys[place].point(name)[body]
    start = seen.flat(at)[:2]
    d = seen.flat(at + way)[:2] - start
    length = float(np.linalg.norm(d))
    if length < 1e-6:
        return ""
    unit = d / length
    return _drawn(start + unit * PUSH_GAP, start + unit * (PUSH_GAP + PUSH))


def _drawn(start: Floats, end: Floats) -> str:
    """Give the path of an arrow: its shaft, then its head."""
    unit = (end - start) / float(np.linalg.norm(end - start))
    across = np.array([-unit[1], unit[0]])
    barbs = [end - 9 * unit + sign * 6.5 * across for sign in (1, -1)]
    text = [f"{number(p[0])} {number(p[1])}" for p in (start, end, *barbs)]
    return f"M{text[0]}L{text[1]}M{text[2]}L{text[1]}L{text[3]}"
