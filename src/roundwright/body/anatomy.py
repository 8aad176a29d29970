"""Which muscles, joints and regions the product speaks of."""

from enum import StrEnum


class Muscle(StrEnum):
    """Muscles and muscle groups, as the trade names them."""

    QUADS = "quads"
    GLUTES = "glutes"
    HAMSTRINGS = "hamstrings"
    ADDUCTORS = "adductors"
    ABDUCTORS = "abductors"
    CALVES = "calves"
    HIP_FLEXORS = "hip_flexors"
    CHEST = "chest"
    LATS = "lats"
    UPPER_BACK = "upper_back"
    FRONT_DELTS = "front_delts"
    SIDE_DELTS = "side_delts"
    REAR_DELTS = "rear_delts"
    TRICEPS = "triceps"
    BICEPS = "biceps"
    FOREARMS = "forearms"
    ABDOMINALS = "abdominals"
    OBLIQUES = "obliques"
    LOW_BACK = "low_back"


class MuscleRole(StrEnum):
    """What a muscle does in a movement: hard sets count 1, one half, 0."""

    PRIME_MOVER = "prime_mover"
    HELPER = "helper"
    STABILISER = "stabiliser"


class Limb(StrEnum):
    """Which limb a one-sided movement is about."""

    ARM = "arm"
    LEG = "leg"


class Side(StrEnum):
    """Which side of the body does a step."""

    LEFT = "left"
    RIGHT = "right"
    BOTH = "both"


MIRRORED = {Side.LEFT: Side.RIGHT, Side.RIGHT: Side.LEFT, Side.BOTH: Side.BOTH}
