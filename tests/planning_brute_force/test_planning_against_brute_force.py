"""The planner and the gate, held to the brute force on drawn planning problems, to the point."""

from collections import Counter

import pytest

from roundwright.optimise.planning.plan_class import plan_class
from roundwright.plan.gate.judge import judge
from roundwright.plan.outcome import Budget, Status
from roundwright.plan.verdict import Grade
from tests.planning_brute_force.drawn_cases import (
    PLANNING_SEEDS,
    features_of,
    planning_case,
)
from tests.planning_brute_force.plan_ids import OF_THE_WISH, plan_id

NEEDLESS = {
    "version.own_level_open",
    "contacts.cut_short",
    "set.versions_twice",
    "set.accessories_many",
    "set.line_many",
}
"""What the tool's own choice leaves out, so that the gate advises on it only for what is kept."""

EXPECTED_FEATURES = {
    "impossible": 15,
    "kept": 25,
    "kept at a place": 12,
    "a set already shown": 10,
    "recent classes": 40,
    "four places": 6,
    "trunk needed": 20,
    "together": 10,
    "pairs": 20,
    "stations": 12,
    "staggered": 10,
    "stations among others": 8,
    "staggered among others": 5,
    "other rounds than asked": 3,
    "slot too short": 6,
    "do": 250,
    "substitute": 40,
    "dumbbells": 100,
    "another class, two others": 4,
    "could lift and does not": 4,
    "a hip exercise that is not loaded is open": 10,
    "a hip exercise that is not loaded is chosen": 1,
    "a line twice": 4,
}


@pytest.mark.parametrize(("kind", "seed"), PLANNING_SEEDS)
def test_planner_and_gate_state_the_best_of_all_classes(kind: str, seed: int) -> None:
    planning, best = planning_case(kind, seed)
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
    assert (spec.format, spec.rounds) == (best.format, best.rounds)
    verdict = judge(result.core, result.problem)
    assert verdict.of_grade(Grade.NEVER) == ()
    assert {f.rule for f in verdict.of_grade(Grade.STOP)} <= OF_THE_WISH
    if not planning.kept:
        assert not NEEDLESS & {f.rule for f in verdict.findings}
    assert (max(0, verdict.total_s - spec.slot_s), verdict.cost) == best.value


def test_the_cases_hold_every_feature() -> None:
    assert len(PLANNING_SEEDS) >= 60
    seen: Counter[str] = sum(
        (features_of(*planning_case(kind, seed)) for kind, seed in PLANNING_SEEDS), Counter()
    )
    short = {name: seen[name] for name, least in EXPECTED_FEATURES.items() if seen[name] < least}
    assert short == {}
