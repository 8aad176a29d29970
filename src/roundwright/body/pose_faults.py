"""Whether a solved position may be used: every gate, in words that name key, part and miss."""

from dataclasses import dataclass

import numpy as np

from roundwright.body.build import Floats
from roundwright.body.joints import ANGLES, INDEX, NAMES, ROOT
from roundwright.body.pose_merge import FullPose
from roundwright.body.posture_words import DIRECTIONS
from roundwright.body.residuals import SKIN
from roundwright.body.skeleton import FRAME_INDEX
from roundwright.body.solved import SolvedKey, SolvedPosture, worst_contact_m
from roundwright.body.support_area import outside_m
from roundwright.body.tolerances import (
    GATE_AIM_DEG,
    GATE_CONTACT_M,
    GATE_FLOOR_M,
    GATE_IMBALANCE_M,
    GATE_LEVEL_M,
    GATE_PUT_M,
    GATE_RANGE_DEG,
    GATE_SAID_DEG,
)


@dataclass(frozen=True)
class PoseFault:
    """One gate that a key position fails, for one of the bodies."""

    key: str
    body: int
    gate: str
    """`contact`, `floor`, `balance`, `range`, `said`, `aim`, `put` or `level`."""
    part: str
    miss: float
    unit: str

    def in_words(self) -> str:
        """Give the fault as a sentence for the author."""
        amount = f"{self.miss * 1000:.0f} mm" if self.unit == "m" else f"{self.miss:.0f} degrees"
        return f"key '{self.key}': {_WORDS[self.gate].format(part=self.part, amount=amount)}"


_WORDS = {
    "contact": "{part} is {amount} from what it should touch",
    "floor": "{part} is {amount} below the floor",
    "balance": "the body would fall: its weight is {amount} outside its supports",
    "range": "{part} is {amount} beyond its range",
    "said": "{part} misses what was said by {amount}",
    "aim": "{part} misses its aim by {amount}",
    "put": "{part} is {amount} from its place",
    "level": "{part} are {amount} out of level though nothing says so; "
    "say back_side = 0 and aim hips or trunk",
}
WORDS_DISAGREE = ("said", "aim", "put", "level")
"""Gates that say that the author's words do not agree, or say too little; judged for the first
body alone."""


def pose_faults(solved: SolvedPosture) -> tuple[PoseFault, ...]:
    """Judge all key positions of a solved posture; nothing is returned when all is well."""
    return tuple(fault for key in solved.keys for fault in _of_key(key))


def imbalance_m(key: SolvedKey) -> Floats:
    """Give how far the centre of mass is outside the supports, m for each body; NaN if unasked.

    A leant-on wall or a body in flight is not judged by an area on the floor.
    """
    n = len(key.q)
    if not key.goals.balance or not key.goals.supports:
        return np.full(n, np.nan)
    index = key.asked.skeleton.marks.index
    feet = key.placed.points[:, [index[name] for name in key.goals.supports], :2]
    centre = key.asked.centre(key.placed)[:, :2]
    return np.array([outside_m(feet[i], centre[i]) for i in range(n)])


def _of_key(key: SolvedKey) -> list[PoseFault]:
    found = _contacts(key) + _floor(key) + _ranges(key)
    off = imbalance_m(key)
    found += [
        PoseFault(key.pose.name, int(i), "balance", "body", float(off[i]), "m")
        for i in np.flatnonzero(np.nan_to_num(off) > GATE_IMBALANCE_M)
    ]
    return found + _said(key) + _aims(key) + _puts(key) + _level(key)


def _contacts(key: SolvedKey) -> list[PoseFault]:
    worst = worst_contact_m(key.asked, key.placed)
    if worst.max(initial=0) <= GATE_CONTACT_M:
        return []
    index = key.asked.skeleton.marks.index
    found = []
    for goal, value in zip(key.goals.points, key.asked.targets.T, strict=True):
        miss = np.abs(key.placed.points[:, index[goal.point]] @ goal.axis - value)
        if goal.contact:
            found += [
                PoseFault(key.pose.name, int(i), "contact", goal.point, float(miss[i]), "m")
                for i in np.flatnonzero(miss > GATE_CONTACT_M)
            ]
    return found


def _floor(key: SolvedKey) -> list[PoseFault]:
    marks = key.asked.skeleton.marks
    places = np.array([marks.index[name] for name in SKIN])
    under = marks.radii[:, places] - key.placed.points[:, places, 2]
    return [
        PoseFault(key.pose.name, int(i), "floor", SKIN[p], float(under[i, p]), "m")
        for i, p in zip(*np.nonzero(under > GATE_FLOOR_M), strict=True)
    ]


def _ranges(key: SolvedKey) -> list[PoseFault]:
    degrees = np.degrees(key.q[:, len(ROOT) :])
    least = np.array([f.least_deg for f in ANGLES])
    most = np.array([f.most_deg for f in ANGLES])
    over = np.maximum(degrees - most, least - degrees)
    return [
        PoseFault(key.pose.name, int(i), "range", NAMES[len(ROOT) + a], float(over[i, a]), "deg")
        for i, a in zip(*np.nonzero(over > GATE_RANGE_DEG), strict=True)
    ]


def _said(key: SolvedKey) -> list[PoseFault]:
    found = []
    for name, degrees in key.pose.angles.items():
        miss = abs(float(np.degrees(key.q[0, INDEX[name]])) - degrees)
        if miss > GATE_SAID_DEG:
            found.append(PoseFault(key.pose.name, 0, "said", name, miss, "deg"))
    return found


def _aims(key: SolvedKey) -> list[PoseFault]:
    found = []
    for goal in key.goals.directions:
        if not goal.name:
            continue
        d = key.placed.turns[0, FRAME_INDEX[goal.frame]] @ goal.local
        if goal.target is None:
            miss = abs(float(np.degrees(np.arcsin(np.clip(d[2], -1, 1)))))
        elif goal.plane is not None:
            miss = abs(float(np.degrees(np.arcsin(np.clip(d @ goal.plane, -1, 1)))))
        else:
            miss = float(np.degrees(np.arccos(np.clip(d @ goal.target, -1, 1))))
        if miss > GATE_AIM_DEG:
            found.append(PoseFault(key.pose.name, 0, "aim", goal.name, miss, "deg"))
    return found


def _puts(key: SolvedKey) -> list[PoseFault]:
    found = []
    for point, extra, name in key.goals.meets:
        miss = float(np.linalg.norm(key.point(point)[0] - key.point(extra)[0]))
        if miss > GATE_PUT_M:
            found.append(PoseFault(key.pose.name, 0, "put", name, miss, "m"))
    return found


def _says_tilt(pose: FullPose) -> bool:
    """Say whether words hang the trunk to a side.

    A back told to be straight, or a breast that looks ahead, leaves open how the body stands.
    """
    if pose.angles.get("back_side") or pose.angles.get("back_turn"):
        return True
    breast = pose.aim.get("breast", "forward")
    way = DIRECTIONS.get(breast, (0, 0, 0)) if isinstance(breast, str) else breast
    return bool(way[1])


_TRUNK = (("chest", "shoulders", "trunk"), ("pelvis", "hips", "hips"))
"""Frame, what hangs with it, and the aim that says how it stands."""


def _level(key: SolvedKey) -> list[PoseFault]:
    """Judge a trunk of which only the lean was said: shoulders and hips may not hang."""
    pose = key.pose
    if pose.lean is None or _says_tilt(pose):
        return []
    width = 2 * float(key.asked.skeleton.bodies.lengths_m["shoulder_out"][0])
    found = []
    for frame, part, aim in _TRUNK:
        miss = width * abs(float(key.placed.turns[0, FRAME_INDEX[frame], 2, 1]))
        if miss > GATE_LEVEL_M and aim not in pose.aim:
            found.append(PoseFault(pose.name, 0, "level", part, miss, "m"))
    return found
