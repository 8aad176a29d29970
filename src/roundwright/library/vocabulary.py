"""The closed vocabularies of the library: one enum each, one meaning each."""

from collections.abc import Mapping
from enum import StrEnum

from roundwright.body.anatomy import Limb


class Pattern(StrEnum):
    """What kind of movement it is; a movement has exactly one."""

    SQUAT = "squat"
    HINGE = "hinge"
    LUNGE = "lunge"
    STEP = "step"
    JUMP = "jump"
    HORIZONTAL_PUSH = "horizontal_push"
    VERTICAL_PUSH = "vertical_push"
    HORIZONTAL_PULL = "horizontal_pull"
    VERTICAL_PULL = "vertical_pull"
    ELBOW_FLEXION = "elbow_flexion"
    ELBOW_EXTENSION = "elbow_extension"
    TRUNK_ANTI_EXTENSION = "trunk_anti_extension"
    TRUNK_ANTI_ROTATION = "trunk_anti_rotation"
    TRUNK_ROTATION = "trunk_rotation"
    TRUNK_FLEXION = "trunk_flexion"
    TRUNK_EXTENSION = "trunk_extension"
    CARRY = "carry"
    LOCOMOTION = "locomotion"
    CARDIO = "cardio"
    MOBILITY = "mobility"


PUSH = frozenset({Pattern.HORIZONTAL_PUSH, Pattern.VERTICAL_PUSH, Pattern.ELBOW_EXTENSION})
PULL = frozenset({Pattern.HORIZONTAL_PULL, Pattern.VERTICAL_PULL, Pattern.ELBOW_FLEXION})
KNEE = frozenset({Pattern.SQUAT, Pattern.LUNGE, Pattern.STEP, Pattern.JUMP})
HIP = frozenset({Pattern.HINGE})

LIMBS: Mapping[Pattern, Limb] = dict.fromkeys(PUSH | PULL | {Pattern.CARRY}, Limb.ARM) | (
    dict.fromkeys(KNEE | HIP, Limb.LEG)
)
"""Whose side a one-sided movement of a pattern belongs to; none for other patterns."""


class StrengthFamily(StrEnum):
    """The nine families whose strength is estimated."""

    SQUAT = "squat"
    HINGE = "hinge"
    LUNGE_STEP = "lunge_step"
    HORIZONTAL_PUSH = "horizontal_push"
    VERTICAL_PUSH = "vertical_push"
    HORIZONTAL_PULL = "horizontal_pull"
    VERTICAL_PULL = "vertical_pull"
    ELBOW_FLEXION = "elbow_flexion"
    ELBOW_EXTENSION = "elbow_extension"


class Laterality(StrEnum):
    """Whether both sides work together, one side at a time, or in turn within a set."""

    BILATERAL = "bilateral"
    UNILATERAL = "unilateral"
    ALTERNATING = "alternating"


class Demand(StrEnum):
    """What a movement asks of a body part or an ability: 0 none, 1 low, 2 clear, 3 high.

    The scale is our choice. A limitation caps demands; the gate compares.
    """

    KNEE = "knee"
    HIP = "hip"
    ANKLE = "ankle"
    LOW_BACK = "low_back"
    NECK = "neck"
    SHOULDER = "shoulder"
    ELBOW = "elbow"
    WRIST = "wrist"
    GRIP = "grip"
    IMPACT = "impact"
    ONE_FOOT_LANDING = "one_foot_landing"
    ACHILLES_SPRING = "achilles_spring"
    BALANCE = "balance"
    OVERHEAD = "overhead"
    OVER_FACE = "over_face"
    FLOOR_RISE = "floor_rise"
    FAST_LEVEL_CHANGE = "fast_level_change"
    HEAD_LOW = "head_low"
    ON_BACK = "on_back"
    ON_FRONT = "on_front"
    DEEP_HIP_BEND = "deep_hip_bend"
    GROIN_STRETCH = "groin_stretch"
    ARM_OUT_AND_BACK = "arm_out_and_back"
    BALL_OF_FOOT_BEND = "ball_of_foot_bend"
    LONG_HOLD = "long_hold"
    ABDOMINAL_PRESSURE = "abdominal_pressure"
    DEEP_SPINAL_FLEXION = "deep_spinal_flexion"
    LOADED_TWIST = "loaded_twist"
    QUICK_TURN = "quick_turn"
    NEEDS_SIGHT = "needs_sight"
    NEEDS_HEARING = "needs_hearing"
    NEEDS_BOTH_ARMS = "needs_both_arms"
    NEEDS_BOTH_LEGS = "needs_both_legs"
    NEEDS_STANDING = "needs_standing"
    VIGOROUS = "vigorous"


HIGHEST_DEMAND = 3


class KitKind(StrEnum):
    """Kinds of kit that a movement may ask for; a dumbbell is asked for by units."""

    DUMBBELL = "dumbbell"
    BENCH = "bench"
    BOX = "box"
    MAT = "mat"
    BAND = "band"
    ROPE = "rope"
    CHAIR = "chair"
    WALL = "wall"
    OTHER = "other"


class KitUse(StrEnum):
    """How a movement uses a piece of kit; what the piece must be fit for follows from it."""

    LIFT = "lift"
    UNDER_HANDS = "under_hands"
    STEP_ON = "step_on"
    JUMP_ON = "jump_on"
    SUPPORT = "support"
    LIE_OR_SIT = "lie_or_sit"
    PULL = "pull"
    SKIP = "skip"


class FigureSource(StrEnum):
    """Who gave a figure that the body model could also give."""

    AUTHOR = "author"
    MODEL = "model"


class DoneAs(StrEnum):
    """How the parts of a sequence are done.

    `combination`: one rep is one pass through the parts. `complex`: all reps
    of one part, then the next, with the same weights.
    """

    COMBINATION = "combination"
    COMPLEX = "complex"
