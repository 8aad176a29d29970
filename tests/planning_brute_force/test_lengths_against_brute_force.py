"""Planner and gate, held to the brute force where rounds, or work and rest, are open (P8)."""

from collections import Counter
from functools import cache

import pytest

from roundwright.optimise.planning.plan_class import plan_class
from roundwright.plan.gate.judge import judge
from roundwright.plan.outcome import Budget, Status
from roundwright.plan.planning_problem import PlanningProblem
from roundwright.plan.verdict import Grade
from tests.planning_brute_force.drawn_cases import FORMATS
from tests.planning_brute_force.oracle_planning import BestClass, best_class
from tests.planning_brute_force.plan_ids import OF_THE_WISH, plan_id
from tests.support.random_lengths import a_tiny_length

TOO_SLOW: dict[str, set[int]] = {
    "simple": {5, 27, 37, 43, 53, 56, 16, 21},
    "turns": {4, 6, 8, 9, 10, 11, 13, 18, 30, 32, 37},
    "all": {5, 9, 15, 21, 22, 25, 27, 37, 43},
}
"""Left out because trying everything takes more than half a second."""
LENGTH_SEEDS = tuple(
    (kind, seed)
    for kind, number in (("simple", 60), ("turns", 40), ("all", 45))
    for seed in range(number)
    if seed not in TOO_SLOW[kind]
)
NEVER_OF_THE_TOOL = {"work_rest.too_little_rest", "work_rest.room", "work_rest.short_change"}
EXPECTED_FEATURES = {
    "impossible": 8,
    "kept whole": 15,
    "other rounds than asked": 30,
    "several pairs": 15,
    "newcomers": 5,
    "mixed": 8,
    "trained": 5,
    "heavier": 4,
    "not the first pair": 1,
    "unused_minutes": 20,
    "hurried_minutes": 10,
    "slot too short": 3,
    "together": 10,
    "pairs": 10,
    "stations": 8,
    "staggered": 8,
}


@cache
def length_case(kind: str, seed: int) -> tuple[PlanningProblem, BestClass | None]:
    planning = a_tiny_length(seed, FORMATS[kind])
    return planning, best_class(planning)


@pytest.mark.parametrize(("kind", "seed"), LENGTH_SEEDS)
def test_planner_and_gate_state_the_best_of_all_lengths(kind: str, seed: int) -> None:
    planning, best = length_case(kind, seed)
    result = plan_class(planning, seed=1, budget=Budget.THOROUGH, plan_id=plan_id(seed))
    if best is None:
        assert result.core is None
        assert result.outcome.status is Status.IMPOSSIBLE
        return
    assert result.core is not None
    assert result.problem is not None
    assert result.outcome.status is Status.PROVEN
    assert (result.outcome.overrun_s, result.outcome.cost) == best.value
    spec = result.problem.spec
    assert tuple(e.exercise_id for e in spec.exercises) == best.exercise_ids
    assert (spec.format, spec.rounds, spec.work_rest) == (best.format, best.rounds, best.pair)
    assert (spec.change_s, spec.exercises) == (
        best.problem.spec.change_s,
        best.problem.spec.exercises,
    )
    verdict = judge(result.core, result.problem)
    assert verdict.of_grade(Grade.NEVER) == ()
    assert {f.rule for f in verdict.of_grade(Grade.STOP)} <= OF_THE_WISH
    assert not NEVER_OF_THE_TOOL & {f.rule for f in verdict.findings}
    assert (max(0, verdict.total_s - spec.slot_s), verdict.cost) == best.value


def features_of(planning: PlanningProblem, best: BestClass | None) -> Counter[str]:
    """What a case has in it, so that the set of cases can be seen to hold everything."""
    seen: Counter[str] = Counter()
    seen["impossible"] += best is None
    seen["kept whole"] += planning.is_all_kept
    seen["several pairs"] += len(planning.pairs) > 1
    if best is None:
        return seen
    seen[f"{best.format}"] += 1
    seen["other rounds than asked"] += best.rounds != planning.base.spec.rounds
    seen["slot too short"] += best.value[0] > 0
    if best.pair is not None:
        seen[best.pair.room] += 1
        seen["not the first pair"] += best.pair != planning.pairs[0]
    return seen


def terms_of(kind: str, seed: int) -> set[str]:
    """The terms of the price that the gate counts for a case's plan."""
    planning, best = length_case(kind, seed)
    if best is None:
        return set()
    result = plan_class(planning, seed=1, budget=Budget.QUICK, plan_id=plan_id(seed))
    if result.core is None or result.problem is None:
        return set()
    return {line.term for line in judge(result.core, result.problem).cost_lines}


def test_the_cases_hold_every_feature() -> None:
    assert len(LENGTH_SEEDS) >= 80
    seen: Counter[str] = Counter()
    for kind, seed in LENGTH_SEEDS:
        seen += features_of(*length_case(kind, seed))
        seen.update(terms_of(kind, seed))
    short = {name: seen[name] for name, least in EXPECTED_FEATURES.items() if seen[name] < least}
    assert short == {}
