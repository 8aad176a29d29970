"""Whoever comes without booking: three questions, and what follows from the replies.

Common practice, no source. Blank and unsure are the careful outcome; nothing makes anybody more
than `unknown`, which is light to moderate work.
"""

from dataclasses import dataclass
from enum import StrEnum

LIGHT_EFFORT = 3
"""Highest effort of 10 of somebody who is to be asked further; our choice, below moderate."""
ACTIVE_LEVEL = 2
"""Level of a walk-in who is active: the most that moderate work allows; our choice."""
ASK_FURTHER = "ask further before the start; light until then"
"""What stands on the sheet of somebody who is to be asked further."""


class Reply(StrEnum):
    """What a walk-in says to one of the three questions."""

    YES = "yes"
    NO = "no"
    UNSURE = "unsure"


REPLY_WORDS = {Reply.YES: "Yes", Reply.NO: "No", Reply.UNSURE: "Not sure"}
"""What the replies are called where they are asked for."""

QUESTIONS = (
    "Heart, chest, fainting, breath, or a doctor's limit?",
    "Pain, an operation, pregnancy or birth within a year?",
    "Active for 30 minutes, three times a week, for three months?",
)
"""Asked of a walk-in, in this order."""


@dataclass(frozen=True, slots=True)
class ThreeReplies:
    """Replies to the three questions, in their order; health values, never kept or shown."""

    doctor_first: Reply
    within_a_year: Reply
    active: Reply

    def __repr__(self) -> str:
        return "ThreeReplies((hidden))"


@dataclass(frozen=True, slots=True)
class WalkInOutcome:
    """What follows: whether they may train today, at which level, up to which effort of 10.

    `effort_cap` None: what moderate work allows. `actions` say what to do, never why.
    """

    may_train: bool
    level: int = 1
    effort_cap: int | None = None
    actions: tuple[str, ...] = ()


def walk_in_outcome(replies: ThreeReplies) -> WalkInOutcome:
    """Give what follows from three replies.

    Yes to the first question, or unsure, is 'not today'. Yes or unsure to the second is lighter
    still, until asked further. Yes to the third allows second versions instead of first ones.
    """
    if replies.doctor_first is not Reply.NO:
        return WalkInOutcome(may_train=False)
    level = ACTIVE_LEVEL if replies.active is Reply.YES else 1
    if replies.within_a_year is Reply.NO:
        return WalkInOutcome(may_train=True, level=level)
    return WalkInOutcome(True, level, LIGHT_EFFORT, (ASK_FURTHER,))
