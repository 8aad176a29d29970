"""What a condition asks of the demands, whatever the week and the age.

The clinician goes first; nothing here is medical advice.
"""

from roundwright.library.vocabulary import Demand as D
from roundwright.people.cap_row import (
    CP,
    EXHALE,
    FLAT_TRUNK,
    FULL_SENTENCES,
    LIGHT_BRACE,
    NO_JUMPS,
    NO_QUICK_TURNS,
    RISE_SLOWLY,
    SOFT_LANDINGS,
    SUPPORT_NEAR,
    Action,
    Half,
)
from roundwright.people.limitation import Concern

CONDITIONS: dict[Concern, tuple[Half, Half, str]] = {
    Concern.BALANCE: (
        (
            {D.BALANCE: 1, D.IMPACT: 0, D.ONE_FOOT_LANDING: 0, D.QUICK_TURN: 0}
            | {D.FAST_LEVEL_CHANGE: 1, D.HEAD_LOW: 1},
            (SUPPORT_NEAR, NO_JUMPS, NO_QUICK_TURNS),
            None,
        ),
        (
            {D.BALANCE: 2, D.IMPACT: 1, D.ONE_FOOT_LANDING: 0, D.QUICK_TURN: 1},
            (SUPPORT_NEAR,),
            None,
        ),
        CP,
    ),
    Concern.HIGH_BLOOD_PRESSURE: (
        (
            {D.HEAD_LOW: 0, D.LONG_HOLD: 0, D.VIGOROUS: 1, D.FAST_LEVEL_CHANGE: 1}
            | {D.ABDOMINAL_PRESSURE: 1},
            (EXHALE, FULL_SENTENCES, RISE_SLOWLY, Action("no long holds", D.LONG_HOLD)),
            5,
        ),
        (
            {D.HEAD_LOW: 1, D.LONG_HOLD: 1, D.VIGOROUS: 2, D.FAST_LEVEL_CHANGE: 2},
            (EXHALE, Action("short holds only", D.LONG_HOLD)),
            6,
        ),
        CP,
    ),
    Concern.OSTEOPOROSIS: (
        (
            {D.DEEP_SPINAL_FLEXION: 0, D.LOADED_TWIST: 0, D.IMPACT: 0, D.ONE_FOOT_LANDING: 0}
            | {D.QUICK_TURN: 0, D.FAST_LEVEL_CHANGE: 1, D.BALANCE: 1, D.LOW_BACK: 2},
            (FLAT_TRUNK, Action("no twist under load", D.LOADED_TWIST), NO_JUMPS, SUPPORT_NEAR),
            None,
        ),
        (
            {D.DEEP_SPINAL_FLEXION: 0, D.LOADED_TWIST: 1, D.IMPACT: 1, D.ONE_FOOT_LANDING: 0}
            | {D.QUICK_TURN: 1, D.FAST_LEVEL_CHANGE: 2, D.BALANCE: 2, D.LOW_BACK: 2},
            (FLAT_TRUNK, SOFT_LANDINGS),
            None,
        ),
        CP,
    ),
    Concern.HERNIA: (
        (
            {D.ABDOMINAL_PRESSURE: 1, D.LONG_HOLD: 1, D.LOADED_TWIST: 1, D.IMPACT: 1}
            | {D.DEEP_SPINAL_FLEXION: 0, D.GROIN_STRETCH: 1},
            (LIGHT_BRACE, EXHALE, FLAT_TRUNK),
            6,
        ),
        (
            {D.ABDOMINAL_PRESSURE: 2, D.LONG_HOLD: 2, D.LOADED_TWIST: 2, D.IMPACT: 2}
            | {D.DEEP_SPINAL_FLEXION: 1, D.GROIN_STRETCH: 2},
            (LIGHT_BRACE, EXHALE),
            7,
        ),
        CP,
    ),
    Concern.PELVIC_FLOOR: (
        (
            {D.IMPACT: 0, D.ONE_FOOT_LANDING: 0, D.ABDOMINAL_PRESSURE: 1, D.LONG_HOLD: 1}
            | {D.DEEP_SPINAL_FLEXION: 1},
            (NO_JUMPS, LIGHT_BRACE, EXHALE),
            None,
        ),
        (
            {D.IMPACT: 0, D.ONE_FOOT_LANDING: 0, D.ABDOMINAL_PRESSURE: 2, D.LONG_HOLD: 2},
            (NO_JUMPS, EXHALE),
            None,
        ),
        CP,
    ),
    Concern.ASTHMA: (
        (
            {D.VIGOROUS: 1},
            (Action("inhaler in bag, within reach"), FULL_SENTENCES),
            5,
        ),
        ({D.VIGOROUS: 2}, (Action("inhaler in bag, within reach"),), 7),
        CP,
    ),
    Concern.DIABETES: (
        (
            {D.VIGOROUS: 1, D.LONG_HOLD: 1, D.HEAD_LOW: 1},
            (Action("something sweet within reach, ask before the start"), FULL_SENTENCES),
            6,
        ),
        (
            {D.VIGOROUS: 2},
            (Action("something sweet within reach, ask before the start"),),
            7,
        ),
        CP,
    ),
    Concern.EPILEPSY: (
        (
            {D.OVERHEAD: 0, D.OVER_FACE: 0, D.BALANCE: 1, D.IMPACT: 1, D.VIGOROUS: 1},
            (
                Action("nothing held over head or face", D.OVER_FACE),
                Action("stays on the floor, off boxes", D.BALANCE),
                FULL_SENTENCES,
            ),
            6,
        ),
        (
            {D.OVERHEAD: 1, D.OVER_FACE: 0, D.BALANCE: 2, D.IMPACT: 2, D.VIGOROUS: 2},
            (Action("nothing held over the face", D.OVER_FACE),),
            7,
        ),
        CP,
    ),
    Concern.HIGH_BODY_MASS: (
        (
            {D.IMPACT: 0, D.ONE_FOOT_LANDING: 0, D.FLOOR_RISE: 1, D.FAST_LEVEL_CHANGE: 1}
            | {D.HEAD_LOW: 1, D.ON_FRONT: 1},
            (NO_JUMPS, Action("standing or seated instead of on the floor", D.FLOOR_RISE)),
            None,
        ),
        (
            {D.IMPACT: 1, D.ONE_FOOT_LANDING: 0, D.FLOOR_RISE: 2, D.FAST_LEVEL_CHANGE: 1},
            (SOFT_LANDINGS, Action("time to get up from the floor", D.FLOOR_RISE)),
            None,
        ),
        CP,
    ),
}
"""By concern: *avoid*, *ease*, and the tag."""
