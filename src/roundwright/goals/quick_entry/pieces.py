"""A text cut into lines and pieces, and what each piece says; no word is lost between them."""

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace

from roundwright.goals.quick_entry.burst_phrase import burst_phrase
from roundwright.goals.quick_entry.class_phrases import class_phrase
from roundwright.goals.quick_entry.exercise_phrases import (
    exercise_phrase,
    has_count,
    nearest_exercises,
)
from roundwright.goals.quick_entry.names import MEANT, RELATED, Around
from roundwright.goals.quick_entry.people_phrases import (
    ban_phrase,
    begins_people,
    keep_phrase,
    people_phrase,
)
from roundwright.goals.quick_entry.plain_numbers import DURATION, NUMBER, UNIT_S
from roundwright.goals.quick_entry.results import Ask, Fact, Heard, NotUnderstood

MOST_LINES = 150
LONGEST_LINE = 1000
MOST_PIECES = 300
"""What a class may have; what stands after it is told as not understood, never left out."""
MOST_JOINED = 8
"""Pieces that may belong together because a name has commas."""
MOST_PEOPLE = 60
"""Pieces that may belong together because they are a list of people."""
MOST_NEAR = 12
"""Pieces for which near names are sought, so that a long text of nonsense is read at once."""

_DASHES = re.compile(r"[\u2010-\u2015\u2212]")
_HYPHEN = re.compile(r"(?<=[^\W\d])-(?=[^\W\d])")
_WHOLE_LINE = re.compile(
    r"\s*(?P<what>called|name|goal)\s*(?::\s*|(?<=called)\s+)(?P<x>\S.*)", re.I
)
_COUNT_ONLY = re.compile(
    rf"{NUMBER}\s*(?:{UNIT_S}\s*)?(?:(?:x|times|reps?)\b\s*)?"
    r"(?:(?:a|per|each|on each) (?:side|leg|arm)|both sides|alternating|in all|in total)?"
)
_PLAIN_REST = re.compile(rf"rest(?: for)?:? (?:{DURATION}|{NUMBER})|{DURATION} (?:of )?rest")
_MASS = re.compile(r"\b[0-9]{1,4}(?:[.,][0-9]+)? ?(?:kg|kilos?|lbs?|pounds?)\b")
USUAL = "as usual"


@dataclass(frozen=True, slots=True)
class Piece:
    """One piece of a line and what it says; `nearest` where it says nothing."""

    line: int
    words: str
    heard: Heard
    nearest: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class _Cut:
    words: str
    text: str
    with_hyphens: str


def cut_and_heard(text: str, around: Around) -> tuple[Piece, ...]:
    """Read every piece of a text.

    Parameters
    ----------
    text : str
        Any text. Lines are read one by one; commas and semicolons part a line into pieces.
    around : Around
        What may be named.
    """
    pieces: list[Piece] = []
    for number, line in enumerate(text.splitlines(), start=1):
        if not line.strip():
            continue
        many = len(pieces) + line.count(",") + line.count(";")
        if number > MOST_LINES or len(line) > LONGEST_LINE or many > MOST_PIECES:
            pieces.append(Piece(number, line.strip(), None))
        else:
            pieces += _of_line(number, line, around)
    left = MOST_NEAR
    for place, piece in enumerate(pieces):
        if piece.heard is None and len(piece.words) <= LONGEST_LINE and left > 0:
            left -= 1
            pieces[place] = _with_nearest(piece, around)
    return tuple(pieces)


def _of_line(number: int, line: str, around: Around) -> Iterator[Piece]:
    whole = _WHOLE_LINE.fullmatch(line)
    if whole is not None:
        yield Piece(number, line.strip(), _named(whole))
        return
    cuts = [_cut(words) for words in re.split(r"[,;]", line) if words.strip(" \t.!")]
    if not cuts:
        yield Piece(number, line.strip(), None)
        return
    after_work, place = False, 0
    while place < len(cuts):
        if place and cuts[place].text == USUAL:  # it says that a value is the usual one
            place += 1
            continue
        most = MOST_PEOPLE if begins_people(cuts[place].with_hyphens) else MOST_JOINED
        taken, heard = _longest(cuts[place : place + most], around)
        words = ", ".join(cut.words for cut in cuts[place : place + taken])
        if after_work and isinstance(heard, Fact) and _PLAIN_REST.fullmatch(cuts[place].text):
            heard = _as_change(heard)
        if isinstance(heard, Fact):
            after_work = heard.exercise is not None or any(f == "work_s" for f, _ in heard.sets)
        yield Piece(number, words, heard)
        place += taken


def _named(found: re.Match[str]) -> Heard:
    field, text = found["what"].casefold(), " ".join(found["x"].split())
    if field == "goal":
        if len(text) > 200:
            return Ask("a goal of at most 200 letters")
        return Fact(says=f"goal: {text}", sets=(("goal", text),))
    if len(text) > 80:
        return Ask("a name of at most 80 letters")
    return Fact(says=f"called {text}", sets=(("name", text),))


def _cut(words: str) -> _Cut:
    with_hyphens = " ".join(_DASHES.sub("-", words).casefold().split()).strip(" .!()")
    return _Cut(words.strip(), _HYPHEN.sub(" ", with_hyphens), with_hyphens)


def _longest(cuts: list[_Cut], around: Around) -> tuple[int, Heard]:
    """Hear the most pieces that say something together, else the first alone."""
    for many in range(len(cuts), 1, -1):
        heard = _joined(cuts[:many], around)
        if isinstance(heard, Fact):
            if heard.exercise is not None and _are_other_exercises(heard, cuts[:many], around):
                one = heard.says.split(" (")[0]
                return many, Ask("one exercise, or each on its own line", (one,))
            return many, heard
    if len(cuts) > 1 and _COUNT_ONLY.fullmatch(cuts[1].text) and not has_count(cuts[0].text):
        heard = exercise_phrase(f"{cuts[0].text} {cuts[1].text}", around)
        if isinstance(heard, Fact):
            return 2, heard
    return 1, _alone(cuts[0], around)


def _joined(cuts: list[_Cut], around: Around) -> Heard:
    text = ", ".join(cut.text for cut in cuts)
    with_hyphens = ", ".join(cut.with_hyphens for cut in cuts)
    return _first_fact(
        lambda: people_phrase(with_hyphens, around),
        lambda: keep_phrase(with_hyphens, around),
        lambda: ban_phrase(text, around),
        lambda: burst_phrase(text, around),
        lambda: exercise_phrase(text, around),
    )


def _are_other_exercises(heard: Fact, cuts: list[_Cut], around: Around) -> bool:
    """Say whether each piece is an exercise by itself, and none is the one they name together."""
    together = None if heard.exercise is None else heard.exercise.exercise
    for cut in cuts:
        alone = exercise_phrase(cut.text, around)
        if not isinstance(alone, Fact) or alone.exercise is None:
            return False
        if alone.exercise.exercise == together:
            return False
    return True


def _alone(cut: _Cut, around: Around) -> Heard:
    heard = _first_fact(
        lambda: class_phrase(cut.text, around),
        lambda: burst_phrase(cut.text, around),
        lambda: ban_phrase(cut.text, around),
        lambda: keep_phrase(cut.with_hyphens, around),
        lambda: people_phrase(cut.with_hyphens, around),
        lambda: exercise_phrase(cut.text, around),
    )
    if heard is None and _COUNT_ONLY.fullmatch(cut.text):
        return Ask("what this number is for, such as '12 a side split squat'")
    if heard is None and _MASS.search(cut.text):
        return Ask("whose load it is and where, such as 'Ann at place 2: 8 kg'")
    return heard


def _first_fact(*ways: Callable[[], Heard]) -> Heard:
    """Give the first fact, else the first question."""
    asked: Heard = None
    for way in ways:
        heard = way()
        if isinstance(heard, Fact):
            return heard
        asked = asked or heard
    return asked


def _as_change(heard: Fact) -> Fact:
    """Take a rest right after an exercise for the change after every exercise."""
    sets = tuple(("change_s", v) if f == "rest_s" else (f, v) for f, v in heard.sets)
    said = heard.says.replace("rest ", "change ", 1) + " after every exercise"
    return replace(heard, sets=sets, says=said)


def _with_nearest(piece: Piece, around: Around) -> Piece:
    """Ask about a count with names that come near; else only name them."""
    text = _cut(piece.words).text
    near = nearest_exercises(text, around, MEANT)
    if near:
        return replace(piece, heard=Ask("which exercise; it may have been meant so", near))
    return replace(piece, nearest=around.nearest(text, RELATED))


def as_not_understood(piece: Piece) -> NotUnderstood:
    """Give what a piece without meaning is told as."""
    return NotUnderstood(piece.line, piece.words, piece.nearest)
