"""How long and how heavy the parts of a body are: every figure of the body model, with its source.

Masses are fractions of body mass, lengths fractions of stature, places of a
centre of mass fractions of the segment from its upper end.

Sources (ids of the project's reference values):

* masses and centres of mass: de Leva 1996, table 4 (``bsp-deleva-men``,
  ``bsp-deleva-women``), looked up in a data file;
* lengths of limbs and of the three trunk parts: de Leva 1996
  (``bsp-deleva-lengths``), *from memory*; the men's trunk, thigh, shank, foot
  and head were seen in a second data file;
* heights of shoulder and ankle, width of shoulders, length of the foot: Drillis
  and Contini 1966 (``seglen-drillis-contini``), *from memory*. Shank, thigh and
  trunk of the first table are stretched by one factor (men 0.99, women 1.04) so
  that they reach from the ankle to the shoulder: the women's add up too short;
* everything called *our choice* was set by eye so that the drawing looks like
  a person and contacts meet the skin. It moves no centre of mass.
"""

from dataclasses import dataclass

GRAVITY_M_S2 = 9.81

# Drillis and Contini 1966, fractions of stature, from memory.
ANKLE_HEIGHT = 0.039
SHOULDER_HEIGHT = 0.818
FOOT_LENGTH = 0.152
SHOULDER_WIDTH = 0.259

# Our choice: where joints and skin are, fractions of stature.
SHOULDER_JOINT_OUT = 0.112
"""Half the distance of the shoulder joints: 0.87 of half the shoulder width."""
HIP_JOINT_OUT = 0.050
"""Half the distance of the hip joints, about the usual 0.10 of stature apart (from memory)."""
GIRDLE_JOINT_OUT = 0.018
NECK_HEIGHT = 0.848
HEEL_BEHIND_ANKLE = 0.040
BALL_AHEAD_OF_ANKLE = 0.066
FINGER_LENGTH = 0.058
"""From the knuckle to the finger tips: hand of 0.108 (as above) less the segment's own length."""


@dataclass(frozen=True, slots=True)
class SegmentShares:
    """One sex of the table: (mass share, centre of mass from the upper end) by segment."""

    head: tuple[float, float]
    upper_trunk: tuple[float, float]
    middle_trunk: tuple[float, float]
    lower_trunk: tuple[float, float]
    upper_arm: tuple[float, float]
    forearm: tuple[float, float]
    hand: tuple[float, float]
    thigh: tuple[float, float]
    shank: tuple[float, float]
    foot: tuple[float, float]
    head_length: float
    upper_trunk_length: float
    middle_trunk_length: float
    lower_trunk_length: float
    upper_arm_length: float
    forearm_length: float
    hand_length: float
    thigh_length: float
    shank_length: float
    trunk_length: float
    """From the middle of the shoulder joints to that of the hip joints."""

    @property
    def mass_sum(self) -> float:
        """Sum of all masses; 1 to within a thousandth."""
        once = (self.head, self.upper_trunk, self.middle_trunk, self.lower_trunk)
        twice = (self.upper_arm, self.forearm, self.hand, self.thigh, self.shank, self.foot)
        return sum(part[0] for part in once) + 2 * sum(part[0] for part in twice)


MEN = SegmentShares(
    head=(0.0694, 0.5976),
    upper_trunk=(0.1596, 0.2999),
    middle_trunk=(0.1633, 0.4502),
    lower_trunk=(0.1117, 0.6115),
    upper_arm=(0.0271, 0.5772),
    forearm=(0.0162, 0.4574),
    hand=(0.0061, 0.7900),
    thigh=(0.1416, 0.4095),
    shank=(0.0433, 0.4395),
    foot=(0.0137, 0.4415),
    head_length=203.3 / 1741,
    upper_trunk_length=170.7 / 1741,
    middle_trunk_length=215.5 / 1741,
    lower_trunk_length=145.7 / 1741,
    upper_arm_length=281.7 / 1741,
    forearm_length=268.9 / 1741,
    hand_length=86.2 / 1741,
    thigh_length=422.2 / 1741,
    shank_length=434.0 / 1741,
    trunk_length=515.5 / 1741,
)

WOMEN = SegmentShares(
    head=(0.0668, 0.5894),
    upper_trunk=(0.1545, 0.2077),
    middle_trunk=(0.1465, 0.4512),
    lower_trunk=(0.1247, 0.4920),
    upper_arm=(0.0255, 0.5754),
    forearm=(0.0138, 0.4559),
    hand=(0.0056, 0.7474),
    thigh=(0.1478, 0.3612),
    shank=(0.0481, 0.4352),
    foot=(0.0129, 0.4014),
    head_length=200.2 / 1735,
    upper_trunk_length=142.5 / 1735,
    middle_trunk_length=205.3 / 1735,
    lower_trunk_length=181.5 / 1735,
    upper_arm_length=275.1 / 1735,
    forearm_length=264.3 / 1735,
    hand_length=78.0 / 1735,
    thigh_length=368.5 / 1735,
    shank_length=432.3 / 1735,
    trunk_length=497.9 / 1735,
)

STRENGTH_NM_PER_KG = {
    "ankle": (1.6, 0.6),
    "knee": (2.6, 0.9),
    "hip": (2.6, 1.5),
    "lumbar": (3.2, 2.0),
    "shoulder": (1.0, 0.8),
    "elbow": (0.9, 0.6),
    "wrist": (0.25, 0.2),
    "neck": (0.5, 0.4),
    "chest": (3.2, 2.0),
}
"""What a joint can hold, N·m per kg of body mass: (bending and straightening, any other way).

Our choice, of the size that is usual for untrained adults (from memory, no
source). It only shares a load among supports; no demand is stated against it.
"""
