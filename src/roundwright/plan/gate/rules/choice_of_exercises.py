"""Asks whether the exercises make a whole class: what a tool's own choice would have to hold.

Why a coach cares: the same favourites week after week leave something out. A coach's own
class is only advised (section P2 of the definition).
"""

from collections.abc import Iterable, Iterator, Sequence

from roundwright.library.catalogue import Catalogue
from roundwright.plan.gate.class_facts import (
    exercises_of,
    is_accessory,
    is_jumping,
    is_loaded,
    main_line,
    main_pattern,
    main_versions,
    missing_patterns,
)
from roundwright.plan.gate.found import of_class
from roundwright.plan.gate.reading import Reading
from roundwright.plan.gate.recount import lines_of
from roundwright.plan.verdict import Finding, Grade

TWICE, SHARED, PATTERN_MANY = "set.lines_twice", "set.versions_twice", "set.pattern_many"
MISSING, JUMPING = "set.pattern_missing", "set.jumping_many"
LOADED, COMBINATIONS = "set.loaded_few", "set.combinations_many"
ACCESSORIES, LINE_MANY = "set.accessories_many", "set.line_many"
GRADES = dict.fromkeys(
    (TWICE, SHARED, PATTERN_MANY, MISSING, JUMPING, LOADED, COMBINATIONS, ACCESSORIES, LINE_MANY),
    Grade.ADVISE,
)


def find(reading: Reading) -> Iterator[Finding]:
    """Give what the exercises of the class have too much or too little of."""
    library, rules = reading.library, reading.problem.rules
    places = list(zip(reading.positions(), exercises_of(reading), strict=True))
    lines = [(k, main_line(library, e)) for k, e in places]
    for where in _alike(lines):
        if len(where) > 1:
            yield _at(TWICE, where, number=len(where))
    for where in _sharing(library, places):
        yield _at(SHARED, where)
    patterns = [(k, main_pattern(library, e)) for k, e in places]
    for where in _alike(patterns):
        if len(where) > rules.most_of_a_pattern:
            yield _at(PATTERN_MANY, where, number=len(where), most=rules.most_of_a_pattern)
    for name in missing_patterns(reading):
        yield of_class(MISSING, Grade.ADVISE, what=name)
    jumping = [k for k, e in places if is_jumping(library, e)]
    if len(jumping) > rules.most_jumping:
        yield _at(JUMPING, jumping, number=len(jumping), most=rules.most_jumping)
    loaded, least = sum(is_loaded(library, e) for _, e in places), (len(places) + 1) // 2
    if loaded < least:
        yield of_class(LOADED, Grade.ADVISE, number=loaded, least=least)
    combined = [k for k, e in places if e in library.combinations]
    if len(combined) > rules.most_new_combinations:
        yield _at(COMBINATIONS, combined, number=len(combined), most=rules.most_new_combinations)
    parts = [(k, line) for k, e in places for line in sorted(set(lines_of(library, e)))]
    for where in _alike(parts):
        if len(where) > rules.most_of_a_line:
            yield _at(LINE_MANY, where, number=len(where), most=rules.most_of_a_line)
    small = [k for k, e in places if is_accessory(library, e)]
    if len(small) > rules.most_accessories:
        yield _at(ACCESSORIES, small, number=len(small), most=rules.most_accessories)


def _sharing(library: Catalogue, places: Sequence[tuple[int, str]]) -> Iterator[list[int]]:
    """Give the places that have a version in common without being of one line."""
    held = [(k, v) for k, e in places for v in sorted(main_versions(library, e))]
    by_version: dict[str, list[int]] = {}
    for position, version in held:
        by_version.setdefault(version, []).append(position)
    lines = {k: main_line(library, e) for k, e in places}
    for where in sorted({tuple(some) for some in by_version.values()}):
        if len({lines[k] for k in where}) > 1:
            yield list(where)


def _alike(places: Iterable[tuple[int, str | None]]) -> Iterator[list[int]]:
    """Give the places that hold the same, one list for each thing that is held."""
    held: dict[str, list[int]] = {}
    for position, thing in places:
        if thing is not None:
            held.setdefault(thing, []).append(position)
    yield from held.values()


def _at(rule: str, positions: list[int], **figures: int) -> Finding:
    return Finding(rule=rule, grade=Grade.ADVISE, positions=tuple(positions), figures=dict(figures))
