"""What a limit of one region of the body asks of the demands.

Degrees are the library's: 0 none, 1 low, 2 clear, 3 high. *Avoid* allows at
most a low demand at the region itself, none where a shock or a fall is the
danger; *ease* allows a clear one.
"""

from roundwright.library.vocabulary import Demand as D
from roundwright.people.cap_row import (
    CP,
    FLAT_TRUNK,
    HANDS_RAISED,
    MODS,
    NO_JUMPS,
    NO_QUICK_TURNS,
    SOFT_LANDINGS,
    Action,
    Half,
)
from roundwright.people.limitation import Concern

REGIONS: dict[Concern, tuple[Half, Half, str]] = {
    Concern.KNEE: (
        (
            {D.KNEE: 1, D.IMPACT: 0, D.ONE_FOOT_LANDING: 0, D.QUICK_TURN: 0}
            | {D.FAST_LEVEL_CHANGE: 1},
            (NO_JUMPS, Action("small knee bends: high seat, low step", D.KNEE)),
            None,
        ),
        (
            {D.KNEE: 2, D.IMPACT: 1, D.ONE_FOOT_LANDING: 1, D.QUICK_TURN: 1},
            (SOFT_LANDINGS, Action("shorter knee bend where it helps", D.KNEE)),
            None,
        ),
        MODS,
    ),
    Concern.HIP: (
        (
            {D.HIP: 1, D.DEEP_HIP_BEND: 0, D.GROIN_STRETCH: 0, D.IMPACT: 0}
            | {D.ONE_FOOT_LANDING: 0, D.QUICK_TURN: 0},
            (NO_JUMPS, Action("small hip bends only", D.HIP), NO_QUICK_TURNS),
            None,
        ),
        (
            {D.HIP: 2, D.DEEP_HIP_BEND: 1, D.GROIN_STRETCH: 1, D.IMPACT: 1}
            | {D.ONE_FOOT_LANDING: 1, D.QUICK_TURN: 1},
            (SOFT_LANDINGS, Action("stay above the deepest hip bend", D.DEEP_HIP_BEND)),
            None,
        ),
        CP,
    ),
    Concern.ANKLE: (
        (
            {D.ANKLE: 1, D.IMPACT: 0, D.ONE_FOOT_LANDING: 0, D.ACHILLES_SPRING: 0}
            | {D.BALL_OF_FOOT_BEND: 1, D.QUICK_TURN: 0},
            (NO_JUMPS, NO_QUICK_TURNS, Action("whole foot on the floor", D.BALL_OF_FOOT_BEND)),
            None,
        ),
        (
            {D.ANKLE: 2, D.IMPACT: 1, D.ONE_FOOT_LANDING: 1, D.ACHILLES_SPRING: 1}
            | {D.BALL_OF_FOOT_BEND: 2, D.QUICK_TURN: 1},
            (SOFT_LANDINGS,),
            None,
        ),
        CP,
    ),
    Concern.LOW_BACK: (
        (
            {D.LOW_BACK: 1, D.DEEP_SPINAL_FLEXION: 0, D.LOADED_TWIST: 0, D.IMPACT: 1}
            | {D.FAST_LEVEL_CHANGE: 1},
            (Action("supported row, load held close", D.LOW_BACK), FLAT_TRUNK),
            None,
        ),
        (
            {D.LOW_BACK: 2, D.DEEP_SPINAL_FLEXION: 1, D.LOADED_TWIST: 1},
            (Action("raised start for lifts from the floor", D.LOW_BACK),),
            None,
        ),
        MODS,
    ),
    Concern.NECK: (
        (
            {D.NECK: 1, D.HEAD_LOW: 0, D.OVERHEAD: 1, D.DEEP_SPINAL_FLEXION: 1, D.IMPACT: 1},
            (
                Action("head in line, never pulled", D.NECK),
                Action("no heavy press above the head", D.OVERHEAD),
            ),
            None,
        ),
        (
            {D.NECK: 2, D.HEAD_LOW: 1, D.OVERHEAD: 2},
            (Action("head in line, never pulled", D.NECK),),
            None,
        ),
        CP,
    ),
    Concern.SHOULDER: (
        (
            {D.SHOULDER: 1, D.OVERHEAD: 0, D.ARM_OUT_AND_BACK: 0, D.OVER_FACE: 0},
            (Action("hands stay below shoulder height", D.OVERHEAD), HANDS_RAISED),
            None,
        ),
        (
            {D.SHOULDER: 2, D.OVERHEAD: 1, D.ARM_OUT_AND_BACK: 1},
            (Action("palms face each other, no full overhead press", D.OVERHEAD), HANDS_RAISED),
            None,
        ),
        MODS,
    ),
    Concern.ELBOW: (
        (
            {D.ELBOW: 1, D.OVER_FACE: 0, D.GRIP: 2},
            (Action("light grip, no full lockout", D.ELBOW),),
            None,
        ),
        ({D.ELBOW: 2, D.OVER_FACE: 1}, (Action("no full lockout", D.ELBOW),), None),
        CP,
    ),
    Concern.WRIST: (
        (
            {D.WRIST: 1, D.GRIP: 2},
            (Action("fists, handles or forearms instead of flat hands", D.WRIST),),
            None,
        ),
        (
            {D.WRIST: 2},
            (Action("handles under the hands where there are some", D.WRIST),),
            None,
        ),
        MODS,
    ),
}
"""By concern: *avoid*, *ease*, and the tag."""
