"""What a class that the tool chose costs as a whole: balance, repeats, minutes (P3, P8)."""

from itertools import pairwise

from roundwright.goals.class_wish import ClassFormat
from roundwright.optimise.planning.exercise_facts import (
    ExerciseFacts,
    facts_of_exercise,
    neighbour_price,
    strong_people,
)
from roundwright.optimise.usual_length import minutes_price
from roundwright.plan.problem import Problem

ROTATING = (ClassFormat.STATIONS, ClassFormat.STAGGERED)
"""Formats in which some group goes on from the last position to the first."""


def class_price(problem: Problem, class_format: ClassFormat | None = None) -> int:
    """Give the points that hold however people and kit are fitted.

    Parameters
    ----------
    problem : Problem
        A concrete class.
    class_format : ClassFormat, optional
        The form it is held in, where the problem leaves that open.

    Returns
    -------
    int
        0 for a class that a coach chose, lengths and all.
    """
    form = class_format or problem.spec.format
    minutes = minutes_price(problem, form)
    if problem.spec.chosen_by != "tool":
        return minutes
    exercises = [
        facts_of_exercise(e.exercise_id, problem.library)
        for e in sorted(problem.spec.exercises, key=lambda e: e.position)
    ]
    return (
        _balance(problem, exercises)
        + _lately(problem, exercises)
        + problem.costs.combination * sum(e.combination for e in exercises)
        + problem.costs.unloaded_hip
        * strong_people(problem)
        * sum(e.unloaded_hip for e in exercises)
        + problem.costs.repeated_part * sum(e.repeats for e in exercises)
        + _neighbours(problem, exercises, form)
        + minutes
    )


def _balance(problem: Problem, exercises: list[ExerciseFacts]) -> int:
    counted = exercises + [
        facts_of_exercise(r.exercise_id, problem.library)
        for r in problem.recent.exercises
        if r.days_ago <= problem.rules.balance_days and problem.library.has_exercise(r.exercise_id)
    ]
    return problem.costs.push_pull * abs(
        sum(e.push_pull for e in counted)
    ) + problem.costs.knee_hip * abs(sum(e.knee_hip for e in counted))


def _lately(problem: Problem, exercises: list[ExerciseFacts]) -> int:
    days = min(problem.rules.recent_days, problem.rules.balance_days)
    ids = {e.exercise_id for e in exercises}
    used = sum(r.days_ago <= days and r.exercise_id in ids for r in problem.recent.exercises)
    tired = sum(
        e.muscle in problem.recent.worked.get(person_id, ())
        for e in exercises
        for person_id in problem.taking_part
    )
    return problem.costs.recent_use * used + problem.costs.worked_lately * tired


def _neighbours(problem: Problem, exercises: list[ExerciseFacts], form: ClassFormat) -> int:
    pairs = list(pairwise(exercises))
    if form in ROTATING and len(exercises) > 2:
        pairs.append((exercises[-1], exercises[0]))
    return sum(neighbour_price(one, other, problem.costs) for one, other in pairs)
