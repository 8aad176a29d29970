"""The burst after a round: 'burst: rope 60 s'."""

import re

from roundwright.goals.class_wish import BurstWish
from roundwright.goals.quick_entry.names import Around, key_of, words_of
from roundwright.goals.quick_entry.plain_numbers import (
    DURATION,
    NUMBER,
    duration_words,
    number_of,
    seconds_of,
)
from roundwright.goals.quick_entry.results import Ask, Fact, Heard
from roundwright.library.catalogue import Catalogue
from roundwright.library.vocabulary import Pattern

LONGEST_S = 600
FASTEST_A_MIN = 300

_BURST = re.compile(r"(?:cardio )?burst(?: of)?:? (?P<x>.+)")
_RATE = re.compile(rf"(?: at)? (?P<n>{NUMBER}) (?:a|per) (?:minute|min)\b")
_DURATION = re.compile(DURATION)


def burst_phrase(text: str, around: Around) -> Heard:
    """Hear a burst: which progression line, how long, and at what rate.

    Parameters
    ----------
    text : str
        One piece, in small letters, hyphens as blanks.
    around : Around
        The library.
    """
    found = _BURST.fullmatch(text)
    if found is None:
        return None
    said, rate = " " + found["x"], None
    rated = _RATE.search(said)
    if rated is not None:
        rate = number_of(rated["n"])
        said = said[: rated.start()] + said[rated.end() :]
        if not 1 <= rate <= FASTEST_A_MIN:
            return Ask(f"how many a minute, 1 to {FASTEST_A_MIN}")
    lengths = list(_DURATION.finditer(said))
    if not lengths:
        return Ask("how long the burst is", (f"burst: {said.strip()} 60 s",))
    length_s = seconds_of(lengths[-1][0])
    if not 1 <= length_s <= LONGEST_S:
        return Ask(f"how long the burst is, 1 to {LONGEST_S} s")
    name = said[: lengths[-1].start()] + said[lengths[-1].end() :]
    name = re.sub(r"^ for | for $", " ", f" {name.strip(' :')} ").strip() or "burst"
    line, note = _line(name, around, duration_words(length_s))
    if isinstance(line, Ask):
        return line
    wish = BurstWish.model_validate({"line": line, "length": length_s, "rate_a_min": rate})
    return Fact(says=burst_words(wish, around.catalogue) + note, sets=(("burst", wish),))


def _line(name: str, around: Around, length: str) -> tuple[str | Ask, str]:
    """Give the one line of that name or version, or whose one cardio version has these words.

    With it comes what to add to the reading where a version was named.
    """
    catalogue, key = around.catalogue, key_of(name)
    lines = [e for e in around.exercises.get(key, ()) if e in catalogue.lines]
    movements = around.versions.get(key, ())
    if not lines and not movements:
        wanted = frozenset(words_of(name))
        movements = tuple(
            m.slug
            for m in catalogue.movements.values()
            if m.pattern is Pattern.CARDIO and wanted and wanted <= frozenset(words_of(m.name))
        )
    if not lines and len(movements) <= 1:
        lines = [n for m in movements for n in around.lines_of_version.get(m, ())]
    if len(lines) == 1:
        return lines[0], _note(movements, around)
    if not lines and movements:
        lines = [n for m in movements for n in around.lines_of_version.get(m, ())]
    near = [catalogue.lines[n].name for n in dict.fromkeys(lines)] or list(around.nearest(name))
    return Ask("which burst", tuple(f"burst: {n} {length}" for n in near[:3])), ""


def _note(movements: tuple[str, ...], around: Around) -> str:
    """Say that a version stands for its line, where one was named."""
    if not movements:
        return ""
    name = around.catalogue.movements[movements[0]].name
    return f" ({name} is one of its versions; everybody gets the version that fits them)"


def burst_words(wish: BurstWish, catalogue: Catalogue) -> str:
    """Write a burst in words that are heard again."""
    rate = "" if wish.rate_a_min is None else f" at {wish.rate_a_min} a minute"
    return f"burst: {catalogue.lines[wish.line].name} {duration_words(wish.length_s)}{rate}"
