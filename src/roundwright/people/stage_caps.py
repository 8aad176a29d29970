"""What pregnancy, the weeks after a birth, and age ask of the demands.

Weeks are judged on the class's date. Where the week is not known, or has run
past the last one, the least of all stages holds and somebody asks: a count of
weeks that has run out is a question, not a permission. None of it is medical
advice: the person's clinician goes first.
"""

from roundwright.library.vocabulary import Demand as D
from roundwright.people.cap_row import (
    ASK_LEAVE,
    CP,
    EXHALE,
    FLAT_TRUNK,
    FULL_SENTENCES,
    LIGHT_BRACE,
    NO_JUMPS,
    RAISED_TRUNK,
    RISE_SLOWLY,
    SOFT_LANDINGS,
    SUPPORT_NEAR,
    Action,
    Half,
)
from roundwright.people.limitation import Concern

Stage = tuple[int, Half, Half]
"""From which week on, *avoid* and *ease*."""

LAST_WEEK = {Concern.PREGNANCY: 42}
"""The last week that a count of weeks can reach; after it: ask. Common practice, no source."""

RUNNING_FROM_WEEK = 13
"""Weeks after a birth before which only a clinician lifts the cap on landings.

Three months, expert opinion of 2019 (floor page C8), as 13 weeks.
"""

CLINICIAN_LIFTS: dict[Concern, dict[D, int | None]] = {
    Concern.PREGNANCY: {D.ON_BACK: None},
    Concern.POSTNATAL: {
        D.IMPACT: RUNNING_FROM_WEEK,
        D.ONE_FOOT_LANDING: RUNNING_FROM_WEEK,
    },
    Concern.OSTEOPOROSIS: {D.DEEP_SPINAL_FLEXION: None},
}
"""Caps that a coach cannot lift alone; the number is the week from which a coach may.

Floor page C8: the clinician's word comes first.
"""

_ON_THE_FLOOR = Action("standing or seated instead of on the floor", D.FLOOR_RISE)
_NOT_ON_FRONT = Action("no lying on the front", D.ON_FRONT)

BY_WEEK: dict[Concern, tuple[tuple[Stage, ...], str]] = {
    Concern.PREGNANCY: (
        (
            (
                0,
                (
                    {D.IMPACT: 0, D.ONE_FOOT_LANDING: 0, D.ON_BACK: 0, D.ON_FRONT: 1}
                    | {D.HEAD_LOW: 1, D.OVER_FACE: 1, D.DEEP_SPINAL_FLEXION: 1}
                    | {D.QUICK_TURN: 1, D.BALANCE: 2, D.FAST_LEVEL_CHANGE: 1}
                    | {D.ABDOMINAL_PRESSURE: 2, D.LOADED_TWIST: 1, D.LONG_HOLD: 1}
                    | {D.GROIN_STRETCH: 2, D.VIGOROUS: 1},
                    (NO_JUMPS, RAISED_TRUNK, EXHALE, FULL_SENTENCES),
                    5,
                ),
                (
                    {D.IMPACT: 0, D.ONE_FOOT_LANDING: 0, D.ON_BACK: 0, D.ON_FRONT: 1}
                    | {D.HEAD_LOW: 1, D.OVER_FACE: 1, D.DEEP_SPINAL_FLEXION: 1}
                    | {D.QUICK_TURN: 1, D.BALANCE: 2, D.FAST_LEVEL_CHANGE: 2}
                    | {D.ABDOMINAL_PRESSURE: 2, D.LOADED_TWIST: 2, D.LONG_HOLD: 2}
                    | {D.GROIN_STRETCH: 2, D.VIGOROUS: 1},
                    (NO_JUMPS, RAISED_TRUNK, EXHALE, FULL_SENTENCES),
                    5,
                ),
            ),
            (
                13,
                (
                    {D.IMPACT: 0, D.ONE_FOOT_LANDING: 0, D.ON_BACK: 0, D.ON_FRONT: 0}
                    | {D.HEAD_LOW: 0, D.OVER_FACE: 0, D.DEEP_SPINAL_FLEXION: 0}
                    | {D.QUICK_TURN: 0, D.BALANCE: 1, D.FAST_LEVEL_CHANGE: 1}
                    | {D.ABDOMINAL_PRESSURE: 1, D.LOADED_TWIST: 1, D.LONG_HOLD: 1}
                    | {D.GROIN_STRETCH: 1, D.VIGOROUS: 1},
                    (NO_JUMPS, RAISED_TRUNK, _NOT_ON_FRONT, EXHALE, FULL_SENTENCES),
                    5,
                ),
                (
                    {D.IMPACT: 0, D.ONE_FOOT_LANDING: 0, D.ON_BACK: 0, D.ON_FRONT: 0}
                    | {D.HEAD_LOW: 1, D.OVER_FACE: 0, D.DEEP_SPINAL_FLEXION: 1}
                    | {D.QUICK_TURN: 1, D.BALANCE: 2, D.FAST_LEVEL_CHANGE: 1}
                    | {D.ABDOMINAL_PRESSURE: 2, D.LOADED_TWIST: 1, D.LONG_HOLD: 2}
                    | {D.GROIN_STRETCH: 2, D.VIGOROUS: 1},
                    (NO_JUMPS, RAISED_TRUNK, EXHALE, FULL_SENTENCES),
                    5,
                ),
            ),
            (
                28,
                (
                    {D.IMPACT: 0, D.ONE_FOOT_LANDING: 0, D.ON_BACK: 0, D.ON_FRONT: 0}
                    | {D.HEAD_LOW: 0, D.OVER_FACE: 0, D.DEEP_SPINAL_FLEXION: 0}
                    | {D.QUICK_TURN: 0, D.BALANCE: 1, D.FAST_LEVEL_CHANGE: 1}
                    | {D.ABDOMINAL_PRESSURE: 1, D.LOADED_TWIST: 1, D.LONG_HOLD: 1}
                    | {D.GROIN_STRETCH: 1, D.VIGOROUS: 1, D.FLOOR_RISE: 1}
                    | {D.DEEP_HIP_BEND: 1, D.LOW_BACK: 2},
                    (NO_JUMPS, RAISED_TRUNK, _ON_THE_FLOOR, SUPPORT_NEAR, EXHALE, FULL_SENTENCES),
                    5,
                ),
                (
                    {D.IMPACT: 0, D.ONE_FOOT_LANDING: 0, D.ON_BACK: 0, D.ON_FRONT: 0}
                    | {D.HEAD_LOW: 0, D.OVER_FACE: 0, D.DEEP_SPINAL_FLEXION: 0}
                    | {D.QUICK_TURN: 0, D.BALANCE: 1, D.FAST_LEVEL_CHANGE: 1}
                    | {D.ABDOMINAL_PRESSURE: 1, D.LOADED_TWIST: 1, D.LONG_HOLD: 1}
                    | {D.GROIN_STRETCH: 1, D.VIGOROUS: 1, D.FLOOR_RISE: 2},
                    (NO_JUMPS, RAISED_TRUNK, SUPPORT_NEAR, EXHALE, FULL_SENTENCES),
                    5,
                ),
            ),
        ),
        "on the back: ref: pregnancy-supine (older ACOG text); effort: ref: pregnancy-acog; "
        "the rest and the weeks: mods-common and common practice, no source",
    ),
    Concern.POSTNATAL: (
        (
            (
                0,
                (
                    {D.IMPACT: 0, D.ONE_FOOT_LANDING: 0, D.ABDOMINAL_PRESSURE: 1, D.LONG_HOLD: 1}
                    | {D.DEEP_SPINAL_FLEXION: 0, D.GROIN_STRETCH: 1, D.VIGOROUS: 1}
                    | {D.LOADED_TWIST: 0, D.FAST_LEVEL_CHANGE: 1, D.HEAD_LOW: 0, D.ON_FRONT: 0}
                    | {D.LOW_BACK: 1},
                    (ASK_LEAVE, NO_JUMPS, LIGHT_BRACE, FLAT_TRUNK, FULL_SENTENCES),
                    4,
                ),
                (
                    {D.IMPACT: 0, D.ONE_FOOT_LANDING: 0, D.ABDOMINAL_PRESSURE: 1, D.LONG_HOLD: 1}
                    | {D.DEEP_SPINAL_FLEXION: 0, D.GROIN_STRETCH: 1, D.VIGOROUS: 1}
                    | {D.LOADED_TWIST: 1, D.FAST_LEVEL_CHANGE: 1, D.HEAD_LOW: 0, D.ON_FRONT: 0},
                    (ASK_LEAVE, NO_JUMPS, LIGHT_BRACE, FLAT_TRUNK, FULL_SENTENCES),
                    4,
                ),
            ),
            (
                6,
                (
                    {D.IMPACT: 0, D.ONE_FOOT_LANDING: 0, D.ABDOMINAL_PRESSURE: 1, D.LONG_HOLD: 1}
                    | {D.DEEP_SPINAL_FLEXION: 0, D.GROIN_STRETCH: 1, D.VIGOROUS: 1}
                    | {D.LOADED_TWIST: 1},
                    (NO_JUMPS, LIGHT_BRACE, FLAT_TRUNK, FULL_SENTENCES),
                    5,
                ),
                (
                    {D.IMPACT: 0, D.ONE_FOOT_LANDING: 0, D.ABDOMINAL_PRESSURE: 2, D.LONG_HOLD: 2}
                    | {D.DEEP_SPINAL_FLEXION: 1, D.GROIN_STRETCH: 2, D.VIGOROUS: 1}
                    | {D.LOADED_TWIST: 1},
                    (NO_JUMPS, LIGHT_BRACE, FULL_SENTENCES),
                    6,
                ),
            ),
            (
                RUNNING_FROM_WEEK,
                (
                    {D.IMPACT: 0, D.ONE_FOOT_LANDING: 0, D.ABDOMINAL_PRESSURE: 1, D.LONG_HOLD: 1}
                    | {D.DEEP_SPINAL_FLEXION: 0, D.GROIN_STRETCH: 1, D.VIGOROUS: 1}
                    | {D.LOADED_TWIST: 1},
                    (NO_JUMPS, LIGHT_BRACE, FLAT_TRUNK, FULL_SENTENCES),
                    6,
                ),
                (
                    {D.IMPACT: 0, D.ONE_FOOT_LANDING: 0, D.ABDOMINAL_PRESSURE: 2, D.LONG_HOLD: 2}
                    | {D.DEEP_SPINAL_FLEXION: 1, D.GROIN_STRETCH: 2, D.VIGOROUS: 2}
                    | {D.LOADED_TWIST: 2},
                    (NO_JUMPS, LIGHT_BRACE),
                    7,
                ),
            ),
        ),
        "landings before week 13: expert opinion of 2019 (floor page C8), from memory; "
        "the rest and the weeks: common practice, no source",
    ),
}
"""By concern: the stages in order of weeks, and the tag."""

AGES: dict[Concern, tuple[Half, Half, str]] = {
    Concern.AGE_65_UP: (
        (
            {D.IMPACT: 0, D.ONE_FOOT_LANDING: 0, D.QUICK_TURN: 0, D.FAST_LEVEL_CHANGE: 1}
            | {D.HEAD_LOW: 0, D.FLOOR_RISE: 1, D.BALANCE: 1},
            (NO_JUMPS, SUPPORT_NEAR, RISE_SLOWLY, _ON_THE_FLOOR),
            None,
        ),
        (
            {D.IMPACT: 1, D.ONE_FOOT_LANDING: 0, D.QUICK_TURN: 1, D.FAST_LEVEL_CHANGE: 1}
            | {D.HEAD_LOW: 1},
            (SOFT_LANDINGS, RISE_SLOWLY),
            None,
        ),
        CP,
    ),
    Concern.UNDER_16: (
        (
            {D.IMPACT: 1, D.ONE_FOOT_LANDING: 1, D.VIGOROUS: 1, D.LONG_HOLD: 1},
            (Action("body weight only"), SOFT_LANDINGS, FULL_SENTENCES),
            6,
        ),
        (
            {D.IMPACT: 2, D.VIGOROUS: 2, D.LONG_HOLD: 2},
            (Action("body weight only"), Action("no high jumps", D.IMPACT)),
            7,
        ),
        "high jumps: ref: plyo-children; the rest common practice, no source",
    ),
}
"""By age: *avoid*, *ease*, and the tag. On the class's date *ease* holds without a row."""
