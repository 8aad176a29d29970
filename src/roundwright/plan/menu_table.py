"""How much of an exercise is proposed when nobody said: default counts by kind, as data.

All figures are our choice after common practice, and all of them can be changed.
"""

from math import ceil

from pydantic import Field

from roundwright.body.anatomy import Side
from roundwright.foundation.model import Stored
from roundwright.goals.class_wish import Count, CountUnit
from roundwright.library.catalogue import Catalogue
from roundwright.library.combination import Combination
from roundwright.library.movement import Movement
from roundwright.library.vocabulary import DoneAs, Laterality, Pattern

TRUNK = frozenset(
    {
        Pattern.TRUNK_ANTI_EXTENSION,
        Pattern.TRUNK_ANTI_ROTATION,
        Pattern.TRUNK_ROTATION,
        Pattern.TRUNK_FLEXION,
        Pattern.TRUNK_EXTENSION,
    }
)
"""The five trunk patterns."""
NEVER_PROPOSED = frozenset({Pattern.CARDIO, Pattern.MOBILITY})
"""Patterns of bursts, warm-up and cool-down, which are no exercise of a round."""


class MenuTable(Stored):
    """Default counts at full dose, by kind of exercise; the first version of a line decides."""

    places: int = Field(default=5, ge=1, le=12, description="exercises a round; our choice")
    reps: int = Field(default=10, description="a two-sided line; our choice")
    reps_a_side: int = Field(default=8, description="a one-sided line; our choice")
    reps_alternating: int = Field(default=16, description="a line done in turn; our choice")
    trunk_holds: int = Field(default=8, description="breaths of a two-sided trunk line; our choice")
    passes: int = Field(default=8, description="a combination of two or three; our choice")
    passes_of_many: int = Field(default=6, description="a combination of four or more; our choice")
    passes_a_side: int = Field(
        default=6, description="a combination whose sides differ, a side; our choice"
    )
    complex_reps: int = Field(default=6, description="each block of a complex; our choice")
    least_set_s: int = Field(
        default=20,
        description="least length of a line's set; quick reps get more; our choice",
    )
    most_set_s: int = Field(
        default=60, description="greatest length of a line's set; slow reps get fewer; our choice"
    )


def default_count(
    catalogue: Catalogue, exercise_id: str, work_s: int | None, table: MenuTable
) -> Count:
    """Give the count that an exercise gets when the coach gives none.

    Parameters
    ----------
    catalogue : Catalogue
        Holds the exercise.
    exercise_id : str
        A line or a combination.
    work_s : int or None
        Seconds of one exercise where the clock ends it, else None.
    table : MenuTable
        The figures.
    """
    combination = catalogue.combinations.get(exercise_id)
    uneven = combination is not None and not _is_even(combination)
    if work_s is not None:
        if uneven:
            return Count(value=max(1, work_s // 2), unit=CountUnit.SECONDS_PER_SIDE)
        return Count(value=work_s, unit=CountUnit.SECONDS)
    if combination is not None:
        return _of_combination(combination, uneven, table)
    return _of_line(catalogue.versions(exercise_id)[0], table)


def may_be_proposed(catalogue: Catalogue, exercise_id: str) -> bool:
    """Say whether a tool may choose an exercise at all.

    No part of cardio or mobility; and a line of which every version is of level 1 is
    there to stand in for somebody, not to be a place of the round (our choice).
    """
    parts = [catalogue.versions(line) for line in catalogue.lines_of_exercise(exercise_id)]
    if any(versions[0].pattern in NEVER_PROPOSED for versions in parts):
        return False
    return all(versions[-1].level > 1 for versions in parts)


def _of_line(first: Movement, table: MenuTable) -> Count:
    """Give the usual reps of a kind, more of quick ones and fewer of slow ones."""
    if first.laterality is Laterality.ALTERNATING:
        pairs = _in_time(table.reps_alternating // 2, 2 * first.seconds_a_rep, table)
        return Count(value=2 * pairs, unit=CountUnit.REPS_ALTERNATING)
    if first.laterality is Laterality.UNILATERAL:
        each = _in_time(table.reps_a_side, 2 * first.seconds_a_rep, table)
        return Count(value=each, unit=CountUnit.REPS_PER_SIDE)
    usual = table.trunk_holds if first.pattern in TRUNK else table.reps
    return Count(value=_in_time(usual, first.seconds_a_rep, table), unit=CountUnit.REPS)


def _in_time(usual: int, seconds_each: float, table: MenuTable) -> int:
    most = max(1, int(table.most_set_s // seconds_each))
    return min(max(usual, ceil(table.least_set_s / seconds_each)), most)


def _of_combination(combination: Combination, uneven: bool, table: MenuTable) -> Count:
    if uneven:
        return Count(value=table.passes_a_side, unit=CountUnit.REPS_PER_SIDE)
    if combination.done_as is DoneAs.COMPLEX:
        return Count(value=table.complex_reps, unit=CountUnit.REPS)
    value = table.passes if len(combination.parts) <= 3 else table.passes_of_many
    return Count(value=value, unit=CountUnit.REPS)


def _is_even(combination: Combination) -> bool:
    """Say whether one pass does as much on the left as on the right, line by line."""
    sides: dict[str, int] = {}
    for part in combination.parts:
        weight = {Side.LEFT: 1, Side.RIGHT: -1}.get(part.side, 0)
        sides[part.line] = sides.get(part.line, 0) + weight * part.times
    return not any(sides.values())
