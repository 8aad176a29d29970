"""Which pairs of work and rest fit who is there, and what a pair makes of a class (P8).

Read by whoever makes plans; the gate has its own reading.
"""

from roundwright.goals.class_wish import ClassFormat, Count, CountUnit, WorkRestWish
from roundwright.plan.problem import ClassSpec, Problem
from roundwright.plan.rule_table import Room, WorkRest


def room_of(problem: Problem) -> Room:
    """Say who is there: newcomers only, trained people only, or a mixed room."""
    people = [problem.people[p] for p in problem.taking_part]
    if all(p.classes < problem.rules.newcomer_classes for p in people):
        return "newcomers"
    long_here = all(p.classes >= problem.rules.trained_classes for p in people)
    return "trained" if long_here and not _has_moderate_only(problem) else "mixed"


def fitting_pairs(problem: Problem, wish: WorkRestWish) -> tuple[WorkRest, ...]:
    """Give the pairs that the tool may choose for the people of a class, in the table's order."""
    if wish is WorkRestWish.OWN:
        return ()
    room = "heavier" if wish is WorkRestWish.HEAVIER else room_of(problem)
    eased = _has_moderate_only(problem)
    return tuple(
        pair
        for pair in problem.rules.work_rests
        if pair.room == room and (pair.rest_s >= pair.work_s or not eased)
    )


def with_pair(spec: ClassSpec, pair: WorkRest, form: ClassFormat, people: int) -> ClassSpec:
    """Give a class with a pair: its change is at least what is missing to the pair's rest.

    Parameters
    ----------
    form : ClassFormat
        In pairs the partner's turn is part of the rest.
    people : int
        How many take part: one alone has no partner.
    """
    missing_s = pair.rest_s
    if form is ClassFormat.PAIRS and people > 1:
        missing_s -= pair.work_s + spec.partner_swap_s
    changes = {"work_rest": pair, "change_s": max(spec.change_s, missing_s), "length_by": "tool"}
    return spec.model_copy(update=changes)


def count_of(pair: WorkRest, unit: CountUnit) -> Count:
    """Give the count of an exercise that follows the work of a pair."""
    if unit is CountUnit.SECONDS_PER_SIDE:
        return Count(value=max(1, pair.work_s // 2), unit=unit)
    return Count(value=pair.work_s, unit=CountUnit.SECONDS)


def _has_moderate_only(problem: Problem) -> bool:
    return any(problem.people[p].is_moderate_only for p in problem.taking_part)
