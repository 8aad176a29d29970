"""What the body model adds to the author's demands: it may raise a degree, it never lowers one.

Held moments of key positions become degrees by bands of our choice, laid so high that
the author's degrees of the shipped library agree with few exceptions: what is left
is a movement that asks clearly more of a joint than its author said.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

import numpy as np

from roundwright.body.body_table import POSITION_UNIT, BodyTable, PostureRow
from roundwright.body.joints import INDEX
from roundwright.body.people_figures import Builds, moments_nm_per_kg
from roundwright.body.pose_merge import full_pose
from roundwright.body.posture import Place, Posture
from roundwright.body.posture_words import Base
from roundwright.body.solved import USUAL_LOAD_SHARE
from roundwright.library.movement import Movement
from roundwright.library.vocabulary import Demand

USUAL_STATURE_M, USUAL_MALE_PART, USUAL_MASS_G = 1.70, 0.5, 70_000
"""For whom the degrees are taken: midway between the sexes; our choice."""

JOINT_OF: Mapping[Demand, str] = {
    Demand.LOW_BACK: "lumbar",
    Demand.HIP: "hip",
    Demand.KNEE: "knee",
    Demand.SHOULDER: "shoulder",
    Demand.ELBOW: "elbow",
    Demand.WRIST: "wrist",
}
"""The demands that the model speaks of. Not the ankle: its authored degrees are about range and
spring, which no held moment shows."""

DEGREE_FROM_NM_PER_KG: Mapping[Demand, tuple[float, float, float]] = {
    Demand.LOW_BACK: (0.70, 1.30, 2.10),
    Demand.HIP: (0.85, 1.40, 2.30),
    Demand.KNEE: (0.55, 1.10, 1.90),
    Demand.SHOULDER: (0.35, 0.55, 1.00),
    Demand.ELBOW: (0.30, 0.60, 1.00),
    Demand.WRIST: (0.10, 0.15, 0.30),
}
"""From where the model asks for low, clear and high, N·m per kg of body mass. Our choice, fitted
on the shipped library: about nine in ten of the movements that an author gave the degree below
lie under each. Not a measure of what a joint can stand."""

BEND_ONLY = (Demand.HIP, Demand.KNEE)
"""Judged by the part that bends the joint, which its straightening muscles must hold."""
BENT_KNEE_DEG = 20.0
"""A straighter knee is not judged: in a plank the thigh holds it straight; little bears on it."""
ARMS = (Demand.SHOULDER, Demand.ELBOW, Demand.WRIST)
RESTS_ON = ("lap", "hips", "hip", "knee")
"""A dumbbell whose hand is put there lies on the body; the model hangs it on the arm, so arms are
not judged then."""


@dataclass(frozen=True, slots=True)
class ModelDegree:
    """What the model gives one demand of a movement."""

    degree: int
    nm_per_kg: float
    key: str
    """Name of the key position where it is most."""


def usual_load_share(movement: Movement, posture: Posture) -> float:
    """Give the mass of one dumbbell by body mass with which a movement is judged.

    The load assumed at the movement's own level where the library has one, else the usual one
    of the hold.
    """
    holds = [full_pose(posture, key).hold for key in posture.key]
    share = max(USUAL_LOAD_SHARE.get(hold, 0.0) for hold in holds)
    if share and movement.assumed_load_by_level:
        return movement.assumed_load_by_level[str(movement.level)] / USUAL_MASS_G
    return share


def model_degrees(
    movement: Movement, posture: Posture, table: BodyTable
) -> dict[Demand, ModelDegree]:
    """Give the model's degree of each demand that it may speak of for this movement."""
    load = usual_load_share(movement, posture)
    row = table.movements[posture.slug]
    builds = Builds(np.array([USUAL_STATURE_M]), np.array([USUAL_MALE_PART]))
    moments = {
        bend: moments_nm_per_kg(table, posture.slug, builds, np.array([load]), bend=bend)
        for bend in (False, True)
    }
    found = {}
    for demand, joint in JOINT_OF.items():
        worst = ModelDegree(0, 0.0, "")
        for name, values in moments[demand in BEND_ONLY].items():
            if name.removesuffix("_left").removesuffix("_right") != joint:
                continue
            for place, value in enumerate(values[:, 0]):
                if value > worst.nm_per_kg and _is_judged(demand, name, posture, row, place, load):
                    degree = sum(float(value) >= least for least in DEGREE_FROM_NM_PER_KG[demand])
                    worst = ModelDegree(degree, round(float(value), 2), row.keys[place].name)
        found[demand] = worst
    return found


def _is_judged(
    demand: Demand, joint: str, posture: Posture, row: PostureRow, place: int, load: float
) -> bool:
    if demand is Demand.KNEE:
        angle = row.positions[place][INDEX[joint]] * POSITION_UNIT
        return bool(np.degrees(angle) >= BENT_KNEE_DEG)
    if demand in ARMS:
        if not load:
            # Lying on the back, how trunk and arms share the floor is not determinate.
            return (posture.key[place].base or posture.base) is not Base.SUPINE
        return not _rests(posture)
    return True


def _rests(posture: Posture) -> bool:
    for key in posture.key:
        for name, place in full_pose(posture, key).put.items():
            by = place.by if isinstance(place, Place) else str(place)
            if name.startswith("hand") and by.removesuffix("_left").removesuffix("_right") in (
                RESTS_ON
            ):
                return True
    return False


def added(
    movement: Movement, degrees: Mapping[Demand, ModelDegree]
) -> Iterator[tuple[Demand, ModelDegree]]:
    """Give the demands of which the model asks for more than the author."""
    for demand, each in degrees.items():
        if each.degree > movement.demand(demand):
            yield demand, each
