"""How much a held position asks of a joint, in words; and which of two asks less.

An estimate for holding still: net static moment, key positions only. It says nothing
about muscles, spine, speed, landing or what a joint can stand.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum

from roundwright.foundation.words import say

LABEL = "estimate for holding still"
SENSITIVITY = "a lean of 8 degrees more or less moves the knee's figure in a squat by about a sixth"

JOINT_NAMES = ("lumbar", "hip", "knee", "ankle", "shoulder", "elbow", "wrist")


class Band(StrEnum):
    """How much is asked, in words."""

    LITTLE = "little"
    SOME = "some"
    MUCH = "much"
    VERY_MUCH = "very much"


BAND_FROM_NM_PER_KG: dict[str, tuple[float, float, float]] = {
    "lumbar": (0.30, 0.90, 1.70),
    "hip": (0.25, 0.70, 1.40),
    "knee": (0.25, 0.70, 1.30),
    "ankle": (0.20, 0.55, 1.00),
    "shoulder": (0.10, 0.30, 0.60),
    "elbow": (0.08, 0.22, 0.45),
    "wrist": (0.02, 0.05, 0.10),
}
"""From where each band begins (some, much, very much), N·m per kg of body mass. Our choice: a
parallel squat is much for the knee, quiet standing little for all joints."""

NEARLY_ALIKE = 0.20
"""Two figures that differ by less than this share are not told apart; more than the sensitivity."""


@dataclass(frozen=True)
class Demand:
    """What one joint (the worse of its sides) is asked at most over the key positions."""

    joint: str
    nm_per_kg: float
    """Size of the whole moment, N·m per kg of body mass."""
    bend_nm_per_kg: float
    """Its bending (+) or straightening (-) part, N·m per kg of body mass."""
    key: str
    """Name of the key position where it is most; empty where no position publishes any."""

    @property
    def band(self) -> Band | None:
        """The band in words; None where nothing is known, which is not 'little'."""
        return band_of(self.joint, self.nm_per_kg) if self.key else None


def band_of(joint: str, nm_per_kg: float) -> Band:
    """Give the band of a moment at a joint.

    Examples
    --------
    >>> band_of("knee", 1.1).value
    'much'
    """
    some, much, very = BAND_FROM_NM_PER_KG[joint]
    if nm_per_kg < some:
        return Band.LITTLE
    if nm_per_kg < much:
        return Band.SOME
    return Band.MUCH if nm_per_kg < very else Band.VERY_MUCH


_SPOKEN = {"lumbar": "low back"}


def compared(joint: str, this: Mapping[str, Demand], other: Mapping[str, Demand]) -> str | None:
    """Say whether this version asks less or more of a joint than another when held.

    Returns
    -------
    str or None
        A sentence part, or None when they are nearly alike, both ask little, or of one nothing is
        known.
    """
    a, b = this[joint], other[joint]
    if a.band is None or b.band is None:
        return None
    if a.band is Band.LITTLE and b.band is Band.LITTLE:
        return None
    larger = max(a.nm_per_kg, b.nm_per_kg)
    if abs(a.nm_per_kg - b.nm_per_kg) < NEARLY_ALIKE * larger:
        return None
    spoken = say(_SPOKEN.get(joint, joint))
    if a.nm_per_kg < b.nm_per_kg:
        return say("asks less of the {joint} when held", joint=spoken)
    return say("asks more of the {joint} when held", joint=spoken)
