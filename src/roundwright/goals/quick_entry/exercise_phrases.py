"""Phrases that name an exercise and how often it is done: '12 a side split squat'."""

import re
from collections.abc import Iterator
from dataclasses import dataclass

from roundwright.body.anatomy import Side
from roundwright.goals.class_wish import Count, CountUnit, ExerciseWish
from roundwright.goals.quick_entry.combination_phrases import combination_named, combination_words
from roundwright.goals.quick_entry.names import Around, key_of
from roundwright.goals.quick_entry.plain_numbers import (
    NUMBER,
    UNIT_S,
    duration_words,
    number_of,
    seconds_of,
)
from roundwright.goals.quick_entry.results import Ask, Fact, Heard
from roundwright.library.catalogue import Catalogue
from roundwright.library.combination import Combination
from roundwright.library.vocabulary import Laterality

MOST_COUNT = 600
MOST_PLACE = 20

SIDE = (
    r"(?:(?:a|per|each|every|on each|on every|for each|either)\s(?:side|leg|arm)\b"
    r"|(?:on )?both sides\b)"
)
_HOW = rf"(?:(?P<how>{SIDE}|alternating\b|alternately\b|in (?:all|total)\b)\s*)?"
_TIMES = r"(?:(?:x|times|reps?|repetitions?|passes)\b\s*(?:of\b\s*)?)?"
_LEAD = re.compile(
    rf"(?P<n>{NUMBER})(?P<half>\.5)?\s*(?:(?P<u>{UNIT_S})\s*)?{_TIMES}{_HOW}(?:of\b\s*)?:?\s*(?P<rest>.+)"
)
_TRAIL = re.compile(
    rf"(?P<rest>.+?)\s*:?\s(?:for |x )?(?P<n>{NUMBER})(?P<half>\.5)?\s*(?:(?P<u>{UNIT_S})\s*)?"
    rf"{_TIMES}{_HOW}"
)
_TRAILING_HOW = re.compile(rf"(?P<rest>.+?)\s(?P<how>{SIDE}|alternating|in (?:all|total))")
_PLACE = re.compile(rf"(?P<rest>.+?)\s(?:at|in) place (?P<n>{NUMBER})")


@dataclass(frozen=True, slots=True)
class Said:
    """A count as it was said: `how` is '', 'side', 'alternating' or 'all'."""

    value: int
    is_timed: bool
    how: str


def exercise_phrase(text: str, around: Around) -> Heard:
    """Hear an exercise with its count.

    Parameters
    ----------
    text : str
        One piece, in small letters, hyphens as blanks; commas only where a name has them.
    around : Around
        The library.
    """
    position = None
    placed = _PLACE.fullmatch(text)
    if placed is not None:
        position = number_of(placed["n"])
        text = placed["rest"]
        if not 1 <= position <= MOST_PLACE:
            return Ask(f"a place from 1 to {MOST_PLACE}")
    counted: Ask | None = None
    bare: Ask | None = None
    for said, name in _cut(text):
        heard = _heard(said, name, position, around)
        if isinstance(heard, Fact):
            return heard
        if said is None:
            bare = heard
        else:
            counted = counted or heard
    return counted or bare


def nearest_exercises(text: str, around: Around, least: float) -> tuple[str, ...]:
    """Give whole phrases with the nearest names, the count kept as it was said.

    `least` is the likeness from which a name counts as near, see `Around.nearest`.
    """
    best = max(_cut(text), key=lambda cut: (cut[0] is not None, -len(cut[1])))
    said, name = best
    lead = "" if said is None else f"{_said_words(said)} "
    return tuple(f"{lead}{near}" for near in around.nearest(name, least))


def has_count(text: str) -> bool:
    """Say whether a piece begins or ends with a count."""
    return any(said is not None for said, _ in _cut(text))


def _cut(text: str) -> Iterator[tuple[Said | None, str]]:
    """Give every way to cut a piece into a count and a name."""
    yield None, text
    for pattern in (_LEAD, _TRAIL):
        found = pattern.fullmatch(text)
        if found is None:
            continue
        how = _how(found["how"])
        said = _said(found, how)
        yield said, found["rest"].strip(" :")
        later = _TRAILING_HOW.fullmatch(found["rest"])
        if later is not None and not how:
            yield _said(found, _how(later["how"])), later["rest"].strip(" :")
        elif how and pattern is _LEAD:  # 'alternating' may be part of the name
            yield _said(found, ""), f"{found['how']} {found['rest']}"


def _said(found: re.Match[str], how: str) -> Said:
    if found["u"] is None:
        return Said(0 if found["half"] else number_of(found["n"]), False, how)
    return Said(seconds_of(f"{found['n']}{found['half'] or ''} {found['u']}"), True, how)


def _how(words: str | None) -> str:
    if not words:
        return ""
    return "alternating" if words.startswith("alt") else "all" if words.startswith("in") else "side"


def _said_words(said: Said) -> str:
    amount = duration_words(said.value) if said.is_timed else str(said.value)
    how = {"side": "a side", "alternating": "alternating", "all": "in all"}.get(said.how, "")
    return " ".join(filter(None, (amount, how or ("" if said.is_timed else "times"))))


def _heard(said: Said | None, name: str, position: int | None, around: Around) -> Fact | Ask | None:
    found = _exercise(said, name, around)
    if found is None or isinstance(found, Ask):
        return found
    exercise, made, note = found
    catalogue = around.catalogue
    count = None
    if said is not None:
        counted = count_of(said, exercise, made, catalogue)
        if isinstance(counted, Ask):
            return counted
        count = counted
    wish = ExerciseWish(exercise=exercise, count=count, position=position)
    return Fact(says=exercise_words(wish, catalogue, made) + note, exercise=wish, combination=made)


def _exercise(
    said: Said | None, name: str, around: Around
) -> tuple[str, Combination | None, str] | Ask | None:
    key = key_of(name)
    found = around.exercises.get(key, ())
    catalogue = around.catalogue
    if len(found) > 1:
        return Ask("which of them", tuple(catalogue.exercise_name(each) for each in found))
    if found:
        return found[0], None, ""
    if re.search(r"\bthen\b", name):
        return combination_named(name, around, a_side=said is not None and said.how == "side")
    movements = around.versions.get(key, ())
    if not movements:
        return None
    lines = tuple(dict.fromkeys(n for m in movements for n in around.lines_of_version.get(m, ())))
    names = tuple(catalogue.lines[line].name for line in lines)
    version = catalogue.movements[movements[0]].name
    if len(lines) != 1:
        lead = "" if said is None else f"{_said_words(said)} "
        return Ask(
            f"which exercise: {version} is a version of several", tuple(lead + n for n in names)
        )
    note = f" ({version} is one of its versions; everybody gets the version that fits them)"
    return lines[0], None, note


def count_of(
    said: Said, exercise: str, made: Combination | None, catalogue: Catalogue
) -> Count | Ask:
    """Give the count that was said, or what must be known before it is one."""
    has_sides, needs_sides, is_even = _sides(exercise, made, catalogue)
    name = made.name if made is not None else catalogue.exercise_name(exercise)
    amount = duration_words(said.value) if said.is_timed else str(said.value)
    most = f"{amount} in all {name}" if needs_sides else f"{amount} times {name}"
    if said.is_timed:
        most = f"{amount} in all {name}" if needs_sides else f"{amount} {name}"
    if not 1 <= said.value <= MOST_COUNT:
        return Ask(f"how many, 1 to {MOST_COUNT}")
    combined = made is not None or exercise in catalogue.combinations
    if said.how == "alternating":
        if said.is_timed or combined or not has_sides:
            return Ask(f"how often: {name} is not counted alternating", (most,))
        if said.value % 2:
            near = (f"{said.value - 1} alternating {name}", f"{said.value + 1} alternating {name}")
            return Ask("an even number, as both sides do the same", near)
        return Count(value=said.value, unit=CountUnit.REPS_ALTERNATING)
    if said.how == "side":
        if not has_sides:
            return Ask(f"how often: {name} has no sides", (most,))
        unit = CountUnit.SECONDS_PER_SIDE if said.is_timed else CountUnit.REPS_PER_SIDE
        return Count(value=said.value, unit=unit)
    if not is_even:
        return Ask("how often a side", (f"{amount} a side {name}",))
    if needs_sides and not said.how:
        return Ask("a side, or in all", (f"{amount} a side {name}", most))
    return Count(value=said.value, unit=CountUnit.SECONDS if said.is_timed else CountUnit.REPS)


def _sides(
    exercise: str, made: Combination | None, catalogue: Catalogue
) -> tuple[bool, bool, bool]:
    """Say whether an exercise has sides, whether a count must name them, and if both are alike."""
    combination = made or catalogue.combinations.get(exercise)
    if combination is None:
        versions = catalogue.versions(exercise)
        one_sided = any(v.is_one_sided for v in versions)
        return one_sided, any(v.laterality is Laterality.UNILATERAL for v in versions), True
    left: dict[str, int] = {}
    for part in combination.parts:
        step = {Side.LEFT: 1, Side.RIGHT: -1}.get(part.side, 0)
        left[part.line] = left.get(part.line, 0) + step * part.times
    has_sides = any(part.side is not Side.BOTH for part in combination.parts)
    return has_sides, False, not any(left.values())


def exercise_words(
    wish: ExerciseWish, catalogue: Catalogue, made: Combination | None = None
) -> str:
    """Write an exercise with its count in words that are heard again."""
    _, needs_sides, _ = _sides(wish.exercise, made, catalogue)
    name = made.name if made is not None else catalogue.exercise_name(wish.exercise)
    if made is not None or wish.exercise in catalogue.combinations:
        name = combination_words(made or catalogue.combinations[wish.exercise], catalogue)
    return " ".join(filter(None, (_count_words(wish.count, needs_sides), name, _place_words(wish))))


def _count_words(count: Count | None, needs_sides: bool) -> str:
    if count is None:
        return ""
    timed = duration_words(count.value)
    return {
        CountUnit.REPS: f"{count.value} in all" if needs_sides else f"{count.value} times",
        CountUnit.REPS_PER_SIDE: f"{count.value} a side",
        CountUnit.REPS_ALTERNATING: f"{count.value} alternating",
        CountUnit.SECONDS: f"{timed} in all" if needs_sides else timed,
        CountUnit.SECONDS_PER_SIDE: f"{timed} a side",
    }[count.unit]


def _place_words(wish: ExerciseWish) -> str:
    return "" if wish.position is None else f"at place {wish.position}"
