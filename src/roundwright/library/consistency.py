"""Whether a library contradicts itself: all rules over movements, lines and combinations.

Each rule answers one question and yields what it finds; where it stands in a
file is the reader's business. What a rule cannot look up (an unknown version)
it passes over: the name checks say that already. An entry of `rule_exceptions`
may break one rule, with its reason.
"""

from collections.abc import Iterator

from roundwright.library import (
    demand_rules,
    line_rules,
    movement_rules,
    muscle_rules,
    reason_rules,
    text_rules,
)
from roundwright.library.catalogue import Catalogue
from roundwright.library.combination import Combination
from roundwright.library.contradiction import Contradiction
from roundwright.library.line import ProgressionLine
from roundwright.library.movement import Movement
from roundwright.library.rule_exceptions import is_excepted

MOVEMENT_RULES = (
    *muscle_rules.RULES,
    *movement_rules.RULES,
    *demand_rules.RULES,
    *reason_rules.RULES,
    *text_rules.RULES,
)


def in_movement(movement: Movement, shown_names: dict[str, str]) -> Iterator[Contradiction]:
    """Find every contradiction of one movement.

    Parameters
    ----------
    movement : Movement
        The entry.
    shown_names : dict
        Shown name by slug of all movements, for cues that name another one.
    """
    for rule in MOVEMENT_RULES:
        if not is_excepted(rule.__name__, movement.slug):
            yield from rule(movement)
    yield from text_rules.teaching_names_another(movement, shown_names)


def in_line(line: ProgressionLine, movements: dict[str, Movement]) -> Iterator[Contradiction]:
    """Find every contradiction of one line with its versions."""
    versions = [movements[slug] for slug in line.versions if slug in movements]
    for rule in line_rules.LINE_RULES:
        if not is_excepted(rule.__name__, line.slug):
            yield from rule(line, versions)


def in_combination(
    combination: Combination,
    lines: dict[str, ProgressionLine],
    movements: dict[str, Movement],
) -> Iterator[Contradiction]:
    """Find every contradiction of one combination with the versions of its lines."""
    versions = [
        [movements[slug] for slug in lines[part.line].versions if slug in movements]
        if part.line in lines
        else []
        for part in combination.parts
    ]
    for rule in line_rules.COMBINATION_RULES:
        yield from rule(combination, versions)


def contradictions(catalogue: Catalogue) -> tuple[Contradiction, ...]:
    """Find every contradiction of a whole catalogue; empty for a sound one."""
    shown = {slug: movement.name for slug, movement in catalogue.movements.items()}
    found: list[Contradiction] = []
    for movement in catalogue.movements.values():
        found += in_movement(movement, shown)
    for line in catalogue.lines.values():
        found += in_line(line, catalogue.movements)
    for combination in catalogue.combinations.values():
        found += in_combination(combination, catalogue.lines, catalogue.movements)
    return tuple(found)
