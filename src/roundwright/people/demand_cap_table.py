"""What each limitation asks of the demands: one row a concern and amount.

Degrees are the library's: 0 none, 1 low, 2 clear, 3 high. *Avoid* allows at
most a low demand at the region itself, none where a shock or a fall is the
danger; *ease* allows a clear one. None of it is medical advice: the person's
clinician goes first. Every row is data with its tag: CP is common practice
without a source; an id names a published reference.
"""

from collections.abc import Mapping
from dataclasses import dataclass

from roundwright.library.vocabulary import Demand as D
from roundwright.people.limitation import Amount, Concern

CP = "common practice, no source"
MODS = "ref: mods-common (common practice, from memory)"


@dataclass(frozen=True, slots=True)
class Action:
    """What to do, in words that an assistant may see, and the cap it follows from, if one."""

    words: str
    follows_from: D | None = None


@dataclass(frozen=True, slots=True)
class CapRow:
    """The highest degrees allowed, the words, the highest effort of 10, and the tag."""

    caps: Mapping[D, int]
    actions: tuple[Action, ...]
    effort_cap: int | None
    source: str


NO_JUMPS = Action("no jumps", D.IMPACT)
SOFT_LANDINGS = Action("low, soft landings only", D.IMPACT)
NO_QUICK_TURNS = Action("no quick turns", D.QUICK_TURN)
EXHALE = Action("breathe out with the effort, never hold the breath")
FULL_SENTENCES = Action("steady: can speak in full sentences", D.VIGOROUS)
RISE_SLOWLY = Action("up and down slowly", D.FAST_LEVEL_CHANGE)
SUPPORT_NEAR = Action("a wall or chair within reach", D.BALANCE)
HANDS_RAISED = Action("hands raised for push-ups", D.SHOULDER)
FLAT_TRUNK = Action("no sit-ups: trunk stays long", D.DEEP_SPINAL_FLEXION)
LIGHT_BRACE = Action("light bracing only, no straining", D.ABDOMINAL_PRESSURE)

_Half = tuple[dict[D, int], tuple[Action, ...], int | None]

_ROWS: dict[Concern, tuple[_Half, _Half, str]] = {
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
    Concern.PREGNANCY: (
        (
            {D.IMPACT: 0, D.ONE_FOOT_LANDING: 0, D.ON_BACK: 0, D.ON_FRONT: 0, D.HEAD_LOW: 0}
            | {D.OVER_FACE: 0, D.DEEP_SPINAL_FLEXION: 0, D.QUICK_TURN: 0, D.BALANCE: 1}
            | {D.FAST_LEVEL_CHANGE: 1, D.ABDOMINAL_PRESSURE: 1, D.LOADED_TWIST: 1}
            | {D.LONG_HOLD: 1, D.GROIN_STRETCH: 1, D.VIGOROUS: 1},
            (
                NO_JUMPS,
                Action("no lying on the back: raised trunk or another exercise", D.ON_BACK),
                Action("no lying on the front", D.ON_FRONT),
                EXHALE,
                FULL_SENTENCES,
            ),
            5,
        ),
        (
            {D.IMPACT: 0, D.ONE_FOOT_LANDING: 0, D.ON_BACK: 0, D.ON_FRONT: 0, D.HEAD_LOW: 1}
            | {D.OVER_FACE: 0, D.DEEP_SPINAL_FLEXION: 1, D.QUICK_TURN: 1, D.BALANCE: 2}
            | {D.FAST_LEVEL_CHANGE: 1, D.ABDOMINAL_PRESSURE: 2, D.LOADED_TWIST: 1}
            | {D.LONG_HOLD: 2, D.GROIN_STRETCH: 2, D.VIGOROUS: 1},
            (
                NO_JUMPS,
                Action("no lying on the back: raised trunk or another exercise", D.ON_BACK),
                EXHALE,
                FULL_SENTENCES,
            ),
            5,
        ),
        "on the back: ref: pregnancy-supine (older ACOG text); the rest mods-common and "
        "common practice, no source",
    ),
    Concern.POSTNATAL: (
        (
            {D.IMPACT: 0, D.ONE_FOOT_LANDING: 0, D.ABDOMINAL_PRESSURE: 1, D.LONG_HOLD: 1}
            | {D.DEEP_SPINAL_FLEXION: 0, D.GROIN_STRETCH: 1, D.VIGOROUS: 1, D.LOADED_TWIST: 1},
            (NO_JUMPS, LIGHT_BRACE, FLAT_TRUNK, FULL_SENTENCES),
            6,
        ),
        (
            {D.IMPACT: 0, D.ONE_FOOT_LANDING: 0, D.ABDOMINAL_PRESSURE: 2, D.LONG_HOLD: 2}
            | {D.DEEP_SPINAL_FLEXION: 1, D.GROIN_STRETCH: 2, D.VIGOROUS: 2, D.LOADED_TWIST: 2},
            (NO_JUMPS, LIGHT_BRACE),
            7,
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
    Concern.LOW_VISION: (
        (
            {D.NEEDS_SIGHT: 0, D.QUICK_TURN: 0, D.ONE_FOOT_LANDING: 0, D.IMPACT: 1}
            | {D.BALANCE: 2},
            (
                Action("same place all class, kit within arm's reach", D.NEEDS_SIGHT),
                Action("say each change aloud"),
            ),
            None,
        ),
        (
            {D.NEEDS_SIGHT: 1, D.QUICK_TURN: 1, D.ONE_FOOT_LANDING: 1, D.IMPACT: 2},
            (Action("say each change aloud"), Action("clear floor around the place")),
            None,
        ),
        CP,
    ),
    Concern.HARD_OF_HEARING: (
        ({D.NEEDS_HEARING: 0}, (Action("show each change by hand, face to face"),), None),
        ({D.NEEDS_HEARING: 1}, (Action("show each change by hand, face to face"),), None),
        CP,
    ),
    Concern.ONE_ARM: (
        (
            {D.NEEDS_BOTH_ARMS: 0},
            (Action("single-handed versions", D.NEEDS_BOTH_ARMS),),
            None,
        ),
        (
            {D.NEEDS_BOTH_ARMS: 1},
            (Action("single-handed versions where offered", D.NEEDS_BOTH_ARMS),),
            None,
        ),
        CP,
    ),
    Concern.ONE_LEG: (
        (
            {D.NEEDS_BOTH_LEGS: 0, D.NEEDS_STANDING: 1, D.IMPACT: 0, D.ONE_FOOT_LANDING: 0}
            | {D.BALANCE: 1, D.QUICK_TURN: 0},
            (Action("seated or supported versions", D.NEEDS_BOTH_LEGS), NO_JUMPS, SUPPORT_NEAR),
            None,
        ),
        (
            {D.NEEDS_BOTH_LEGS: 1, D.IMPACT: 0, D.ONE_FOOT_LANDING: 0, D.BALANCE: 2}
            | {D.NEEDS_STANDING: 2, D.QUICK_TURN: 1},
            (Action("supported versions", D.NEEDS_BOTH_LEGS), NO_JUMPS, SUPPORT_NEAR),
            None,
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

TABLE: dict[tuple[Concern, Amount], CapRow] = {
    (concern, amount): CapRow(caps=half[0], actions=half[1], effort_cap=half[2], source=source)
    for concern, (avoid, ease, source) in _ROWS.items()
    for amount, half in ((Amount.AVOID, avoid), (Amount.EASE, ease))
}
"""Every concern with both amounts."""
