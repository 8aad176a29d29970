"""Rules and prices of a set of exercises, from the class they are for (P2 and P3)."""

from collections.abc import Sequence

from roundwright.library.vocabulary import HIP, KNEE, PULL, PUSH, Pattern
from roundwright.optimise.planning.exercise_facts import (
    TRUNK,
    ExerciseFacts,
    facts_of_exercise,
    strong_people,
)
from roundwright.optimise.planning.set_table import SetRules
from roundwright.plan.planning_problem import PlanningProblem
from roundwright.plan.problem import Problem


def set_rules(planning: PlanningProblem, facts: Sequence[ExerciseFacts]) -> SetRules:
    """Give what a set must hold; the first of the exercises are the kept ones."""
    rules, places, kept = planning.base.rules, planning.places, len(planning.kept)
    needs: list[frozenset[int]] = []
    if places >= rules.least_places_for_four:
        needs += [_of(facts, patterns) for patterns in (KNEE, HIP, PUSH, PULL)]
    if places >= rules.least_places_for_trunk:
        needs.append(_of(facts, TRUNK))
    numbers = {f.exercise_id: e for e, f in enumerate(facts)}
    return SetRules(
        places=places,
        most_of_a_pattern=rules.most_of_a_pattern,
        most_jumping=rules.most_jumping,
        most_combinations=rules.most_new_combinations,
        most_accessories=rules.most_accessories,
        most_of_a_line=rules.most_of_a_line,
        least_loaded=(places + 1) // 2,
        needs=tuple(needs),
        besides=tuple(
            frozenset(numbers[e] for e in shown if e in numbers)
            for shown in planning.besides
            if len(set(shown)) == places
        ),
        others=planning.others,
        kept=frozenset(range(kept)),
    )


def _of(facts: Sequence[ExerciseFacts], patterns: frozenset[Pattern]) -> frozenset[int]:
    return frozenset(
        e for e, f in enumerate(facts) if f.pattern in patterns and not f.main_accessory
    )


def own_price(facts: ExerciseFacts, problem: Problem) -> int:
    """Price what one exercise costs whichever others there are."""
    costs, recent = problem.costs, problem.recent
    used = sum(
        r.exercise_id == facts.exercise_id and r.days_ago <= problem.rules.recent_days
        for r in recent.exercises
        if r.days_ago <= problem.rules.balance_days
    )
    tired = sum(facts.muscle in recent.worked.get(p, ()) for p in problem.taking_part)
    return (
        costs.recent_use * used
        + costs.worked_lately * tired
        + costs.combination * facts.combination
        + costs.unloaded_hip * facts.unloaded_hip * strong_people(problem)
        + costs.repeated_part * facts.repeats
    )


def balance_before(problem: Problem) -> tuple[int, int]:
    """Give push less pull, and knee less hip, over the recent classes that the library knows."""
    known = [
        facts_of_exercise(r.exercise_id, problem.library)
        for r in problem.recent.exercises
        if r.days_ago <= problem.rules.balance_days and problem.library.has_exercise(r.exercise_id)
    ]
    return sum(f.push_pull for f in known), sum(f.knee_hip for f in known)
