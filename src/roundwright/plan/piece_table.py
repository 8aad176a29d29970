"""What warm-up and cool-down are made of, as data: lines, seconds, and what is loosened by what.

Choice of lines and seconds: our choice after common practice without a source, unless
an id of the published reference values stands beside a figure. Lines that a
library does not have are passed over.
"""

from collections.abc import Mapping

from roundwright.body.anatomy import Muscle
from roundwright.library.vocabulary import Pattern

PULSE_LINE = "pulse_raisers"
WALK_LINE = "easy_walks"
LANDING_LINE = "landing_drills"
BALANCE_LINE = "balance_stands"

PULSE_LEAST_S = 90
PULSE_PARTS = 3
"""Pulse: one part in three of the warm-up, at least 90 s (CP)."""

WALK_S = 180
"""Walking first afterwards, s (CP)."""

MOST_REGIONS = 4
MOBILISE_LEAST_S = 20
"""The shortest time for one region before the class, s (our choice)."""

STRETCH_LEAST_S = 30
"""Both sides of one stretch, s: 15 s each. ref: stretch-dose (Garber 2011), from memory."""

PATTERN_REPS = 5
LANDINGS = 5
SLOW_BP = 15_000
"""Practice reps take 1.5 times the seconds a rep (CP)."""

HIGHEST_PIECE_LEVEL = 2
BALANCE_FROM = 2
"""Degree of the balance demand from which balance is practised first (our choice)."""

MOBILISE: Mapping[Muscle, str] = {
    Muscle.QUADS: "knee_bends",
    Muscle.GLUTES: "hip_circles",
    Muscle.HAMSTRINGS: "hip_circles",
    Muscle.ADDUCTORS: "hip_circles",
    Muscle.ABDUCTORS: "hip_circles",
    Muscle.HIP_FLEXORS: "hip_circles",
    Muscle.CALVES: "ankle_rocks",
    Muscle.CHEST: "shoulder_rolls",
    Muscle.LATS: "shoulder_rolls",
    Muscle.UPPER_BACK: "shoulder_rolls",
    Muscle.FRONT_DELTS: "shoulder_rolls",
    Muscle.SIDE_DELTS: "shoulder_rolls",
    Muscle.REAR_DELTS: "shoulder_rolls",
    Muscle.TRICEPS: "wrist_circles",
    Muscle.BICEPS: "wrist_circles",
    Muscle.FOREARMS: "wrist_circles",
    Muscle.ABDOMINALS: "trunk_turns",
    Muscle.OBLIQUES: "trunk_turns",
    Muscle.LOW_BACK: "trunk_turns",
}
"""The line that moves the region of a muscle before the class."""

STRETCH: Mapping[Muscle, str] = {
    Muscle.QUADS: "thigh_stretches",
    Muscle.GLUTES: "outer_hip_stretches",
    Muscle.HAMSTRINGS: "hamstring_stretches",
    Muscle.ADDUCTORS: "inner_thigh_stretches",
    Muscle.ABDUCTORS: "outer_hip_stretches",
    Muscle.HIP_FLEXORS: "hip_stretches",
    Muscle.CALVES: "calf_stretches",
    Muscle.CHEST: "chest_stretches",
    Muscle.FRONT_DELTS: "chest_stretches",
    Muscle.SIDE_DELTS: "shoulder_stretches",
    Muscle.TRICEPS: "shoulder_stretches",
    Muscle.LATS: "back_stretches",
    Muscle.UPPER_BACK: "back_stretches",
    Muscle.REAR_DELTS: "shoulder_stretches",
    Muscle.BICEPS: "forearm_stretches",
    Muscle.FOREARMS: "forearm_stretches",
    Muscle.ABDOMINALS: "trunk_turns",
    Muscle.OBLIQUES: "trunk_turns",
    Muscle.LOW_BACK: "trunk_turns",
}
"""The line that stretches a muscle after the class."""

UNLOADED: Mapping[Pattern, str] = {
    Pattern.HORIZONTAL_PULL: "pull_backs",
    Pattern.VERTICAL_PULL: "pull_backs",
    Pattern.VERTICAL_PUSH: "reach_ups",
}
"""Where all versions of the class's own line lift: the line that stands for the pattern."""

PIECE_LINES: tuple[str, ...] = tuple(
    dict.fromkeys(
        (
            PULSE_LINE,
            *MOBILISE.values(),
            BALANCE_LINE,
            *UNLOADED.values(),
            LANDING_LINE,
            WALK_LINE,
            *STRETCH.values(),
        )
    )
)
"""Every line that a piece may be made of, besides the class's own."""
