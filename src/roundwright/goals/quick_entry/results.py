"""What reading a class in plain words gives: the wish, what is asked, what was not understood."""

from dataclasses import dataclass, field
from enum import StrEnum

from roundwright.goals.class_wish import ClassWish, ExerciseWish, KeptCell
from roundwright.library.combination import Combination


class Outcome(StrEnum):
    """What became of one piece of the text."""

    UNDERSTOOD = "understood"
    ASKED = "asked"
    NOT_UNDERSTOOD = "not_understood"


@dataclass(frozen=True, slots=True)
class Reading:
    """One piece of a line: what it says, as far as it was understood. Lines count from 1."""

    line: int
    words: str
    outcome: Outcome
    says: str


@dataclass(frozen=True, slots=True)
class Question:
    """What must be said before there is a class; line 0 is about the class as a whole."""

    line: int
    words: str
    missing: str
    nearest: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class NotUnderstood:
    """Words that mean nothing here, with at most three names that come near."""

    line: int
    words: str
    nearest: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class LineOutcome:
    """What became of one whole line: the worst of its pieces."""

    line: int
    text: str
    outcome: Outcome


@dataclass(frozen=True, slots=True)
class QuickEntry:
    """A class read from plain words.

    `wish` is there only when nothing is asked and everything was understood: a ban that was
    not understood must not be lost on the way. `read_back`, entered again, gives the same wish.
    """

    wish: ClassWish | None
    new_library_text: str | None
    read_back: tuple[str, ...]
    readings: tuple[Reading, ...]
    lines: tuple[LineOutcome, ...]
    asked: tuple[Question, ...]
    not_understood: tuple[NotUnderstood, ...]


@dataclass(frozen=True, slots=True)
class Fact:
    """What one piece says, ready to be laid into the draft of a class."""

    says: str
    sets: tuple[tuple[str, object], ...] = ()
    exercise: ExerciseWish | None = None
    combination: Combination | None = None
    ban: tuple[str, ...] = ()
    keep: KeptCell | None = None


@dataclass(frozen=True, slots=True)
class Ask:
    """Why one piece is not plain enough, and what may have been meant."""

    missing: str
    nearest: tuple[str, ...] = field(default=())


Heard = Fact | Ask | None
"""What a phrase made of a piece; None: it is no phrase of that kind."""
