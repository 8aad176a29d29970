"""One person's body, or several at once: stature, sex, lengths and masses of the parts.

Everything is an array over bodies, so that ten statures are solved in one go.
"""

from dataclasses import dataclass
from enum import StrEnum

import numpy as np
import numpy.typing as npt

from roundwright.body import segment_table as table
from roundwright.body.segment_table import MEN, WOMEN, SegmentShares

Floats = npt.NDArray[np.float64]


class BodySex(StrEnum):
    """Whose table of segments; people who state none get the mean of both."""

    FEMALE = "f"
    MALE = "m"


SHARES = {BodySex.FEMALE: WOMEN, BodySex.MALE: MEN}


@dataclass(frozen=True)
class Bodies:
    """Some bodies of known make: each field is an array over bodies, lengths in m."""

    stature_m: Floats
    """Shape (n,)."""
    lengths_m: dict[str, Floats]
    """Length of a part, or place of a joint, by name; shape (n,)."""
    mass_shares: dict[str, Floats]
    """Share of body mass by segment (limbs: one of two); shape (n,), summing to one."""
    centres: dict[str, Floats]
    """Centre of mass as a fraction from the segment's upper end; shape (n,)."""

    @property
    def count(self) -> int:
        """How many bodies."""
        return len(self.stature_m)

    def repeated(self, body: int, times: int) -> "Bodies":
        """Give one of the bodies several times over."""
        rows = np.full(times, body)
        return Bodies(
            self.stature_m[rows],
            {name: each[rows] for name, each in self.lengths_m.items()},
            {name: each[rows] for name, each in self.mass_shares.items()},
            {name: each[rows] for name, each in self.centres.items()},
        )


def bodies_of(people: list[tuple[BodySex, float]]) -> Bodies:
    """Make bodies from sex and stature in m.

    Examples
    --------
    >>> bodies_of([(BodySex.MALE, 1.80)]).lengths_m["thigh"].round(3).tolist()
    [0.432]
    """
    shares = [SHARES[sex] for sex, _ in people]
    stature = np.array([stature_m for _, stature_m in people])
    lengths = [_lengths(each) for each in shares]
    segments = [_segments(each) for each in shares]
    totals = np.array([each.mass_sum for each in shares])
    return Bodies(
        stature_m=stature,
        lengths_m={n: np.array([each[n] for each in lengths]) * stature for n in lengths[0]},
        mass_shares={n: np.array([each[n][0] for each in segments]) / totals for n in segments[0]},
        centres={n: np.array([each[n][1] for each in segments]) for n in segments[0]},
    )


def _segments(shares: SegmentShares) -> dict[str, tuple[float, float]]:
    return {
        "head": shares.head,
        "upper_trunk": shares.upper_trunk,
        "middle_trunk": shares.middle_trunk,
        "lower_trunk": shares.lower_trunk,
        "upper_arm": shares.upper_arm,
        "forearm": shares.forearm,
        "hand": shares.hand,
        "thigh": shares.thigh,
        "shank": shares.shank,
        "foot": shares.foot,
    }


def _lengths(shares: SegmentShares) -> dict[str, float]:
    """Give lengths as fractions of stature; legs and trunk reach from ankle to shoulder."""
    upright = shares.shank_length + shares.thigh_length + shares.trunk_length
    stretch = (table.SHOULDER_HEIGHT - table.ANKLE_HEIGHT) / upright
    shank = shares.shank_length * stretch
    thigh = shares.thigh_length * stretch
    lower = shares.lower_trunk_length * stretch
    middle = shares.middle_trunk_length * stretch
    upper = shares.upper_trunk_length * stretch
    chest = table.ANKLE_HEIGHT + shank + thigh + lower + middle
    return {
        "lower_trunk": lower,
        "middle_trunk": middle,
        "upper_trunk": upper,
        "shoulder_up": table.SHOULDER_HEIGHT - chest,
        "shoulder_out": table.SHOULDER_JOINT_OUT - table.GIRDLE_JOINT_OUT,
        "girdle_out": table.GIRDLE_JOINT_OUT,
        "neck_up": table.NECK_HEIGHT - chest,
        "head_up": 1.0 - table.NECK_HEIGHT,
        "head": shares.head_length,
        "upper_arm": shares.upper_arm_length,
        "forearm": shares.forearm_length,
        "hand": shares.hand_length,
        "fingers": table.FINGER_LENGTH,
        "hip_out": table.HIP_JOINT_OUT,
        "thigh": thigh,
        "shank": shank,
        "ankle_up": table.ANKLE_HEIGHT,
        "heel_back": table.HEEL_BEHIND_ANKLE,
        "ball_ahead": table.BALL_AHEAD_OF_ANKLE,
        "toes": table.FOOT_LENGTH - table.HEEL_BEHIND_ANKLE - table.BALL_AHEAD_OF_ANKLE,
    }
