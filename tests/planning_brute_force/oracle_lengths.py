"""Work and rest, and the minutes left, read plainly from P8 of the page on planning."""

from fractions import Fraction

from roundwright.goals.class_wish import (
    AfterLastRound,
    ClassFormat,
    Count,
    CountUnit,
    WorkRestWish,
)
from roundwright.library.catalogue import Catalogue
from roundwright.library.vocabulary import DoneAs
from roundwright.people.person import Clearance
from roundwright.plan.planning_problem import Candidate, KeptExercise, PlanningProblem
from roundwright.plan.problem import ClassSpec, PlannedExercise, Problem
from roundwright.plan.rule_table import WorkRest
from tests.planning_brute_force.oracle_sets import usual_versions

SIDES = {CountUnit.REPS_PER_SIDE: 2, CountUnit.SECONDS_PER_SIDE: 2}


def pairs_to_try(planning: PlanningProblem) -> list[WorkRest | None]:
    """The fitting pairs in the order of the table; None where work and change are the class's."""
    base, wish = planning.base, planning.work_rest
    if wish is WorkRestWish.OWN:
        return [None]
    people = [p for p in base.people.values() if p.clearance is not Clearance.NOT_CLEARED]
    light = any(p.clearance in (Clearance.MODERATE_ONLY, Clearance.UNKNOWN) for p in people)
    classes = [p.classes_done or 0 for p in people]
    if all(n < base.rules.newcomer_classes for n in classes):
        room = "newcomers"
    elif min(classes) >= base.rules.trained_classes and not light:
        room = "trained"
    else:
        room = "mixed"
    if wish is WorkRestWish.HEAVIER:
        room = "heavier"
    rows = [row for row in base.rules.work_rests if row.room == room]
    return [row for row in rows if not light or row.work_s <= row.rest_s] or [None]


def count_in(exercise: Candidate | KeptExercise, pair: WorkRest | None) -> Count:
    """The count of an exercise when a pair is chosen."""
    if pair is None or not exercise.follows_work:
        return exercise.count
    if exercise.count.unit is CountUnit.SECONDS_PER_SIDE:
        return Count(value=max(1, pair.work_s // 2), unit=CountUnit.SECONDS_PER_SIDE)
    return Count(value=pair.work_s, unit=CountUnit.SECONDS)


def paired(problem: Problem, pair: WorkRest | None) -> Problem:
    """The class with the change of a pair."""
    if pair is None:
        return problem
    spec = problem.spec
    partner = spec.format is ClassFormat.PAIRS and len(problem.taking_part) >= 2
    rest_s = pair.rest_s - (pair.work_s + spec.partner_swap_s if partner else 0)
    changes = {"change_s": max(spec.change_s, rest_s), "work_rest": pair}
    return problem.model_copy(update={"spec": spec.model_copy(update=changes)})


def set_s(library: Catalogue, exercise: PlannedExercise, spec: ClassSpec) -> int:
    """The usual seconds of one set."""
    value, unit = exercise.count.value, exercise.count.unit
    sides = SIDES.get(unit, 1)
    if unit in (CountUnit.SECONDS, CountUnit.SECONDS_PER_SIDE):
        return sides * value
    usual = {
        line: Fraction(str(usual_versions(library, line)[0].seconds_a_rep))
        for line in library.lines_of_exercise(exercise.exercise_id)
    }
    combination = library.combinations.get(exercise.exercise_id)
    if combination is None:
        one_side = value * usual[exercise.exercise_id]
    else:
        link = Fraction(str(combination.link_s)) * (len(combination.parts) - 1)
        work = sum((p.times * usual[p.line] for p in combination.parts), Fraction(0))
        by_block = combination.done_as is DoneAs.COMPLEX
        one_side = value * work + link * (1 if by_block else value)
    side_change_s = spec.side_change_s if unit is CountUnit.REPS_PER_SIDE else 0
    return round(sides * one_side) + side_change_s


def usual_length_s(problem: Problem) -> int:
    """The usual length of the class."""
    spec = problem.spec
    total = spec.warm_up_s + spec.demonstration_s + spec.cool_down_s
    for number in range(1, spec.rounds + 1):
        for exercise in spec.exercises:
            seconds = set_s(problem.library, exercise, spec)
            if spec.format is ClassFormat.PAIRS:
                total += seconds * (len(problem.taking_part) > 1) + spec.partner_swap_s
            total += seconds + spec.change_s
        last = number == spec.rounds
        if spec.burst and not (last and spec.after_last_round is AfterLastRound.NOTHING):
            total += spec.burst.length_s
        if not last or spec.after_last_round is AfterLastRound.BURST_AND_REST:
            total += spec.rest_s
    return total


def minutes_price(problem: Problem) -> int:
    """What the minutes left cost where the tool chose the lengths."""
    if problem.spec.length_by != "tool":
        return 0
    left = problem.spec.slot_s - usual_length_s(problem) - problem.rules.register_and_clear_s
    minutes = 0
    while left - problem.rules.spare_s >= 60 * (minutes + 1):
        minutes += 1
    missing = 0
    while left + 60 * missing < 0:
        missing += 1
    return problem.costs.unused_minutes * minutes + problem.costs.hurried_minutes * missing
