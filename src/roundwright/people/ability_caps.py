"""What sight, hearing and the number of limbs ask of the demands.

It is about what the class needs of a person, not about health.
"""

from roundwright.library.vocabulary import Demand as D
from roundwright.people.cap_row import (
    CP,
    NO_JUMPS,
    SUPPORT_NEAR,
    Action,
    Half,
)
from roundwright.people.limitation import Concern

ABILITIES: dict[Concern, tuple[Half, Half, str]] = {
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
}
"""By concern: *avoid*, *ease*, and the tag."""
