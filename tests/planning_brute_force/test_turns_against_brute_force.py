"""Fit and gate, held to the brute force on drawn classes in which groups take turns."""

import pytest

from roundwright.goals.class_wish import ClassFormat
from roundwright.optimise.fit import fit
from roundwright.plan.gate.judge import judge
from roundwright.plan.outcome import Status
from roundwright.plan.verdict import Grade
from tests.planning_brute_force.drawn_cases import TURN_SEEDS, turn_case
from tests.planning_brute_force.plan_ids import OF_THE_WISH, plan_id


@pytest.mark.parametrize(("form", "seed"), TURN_SEEDS)
def test_fit_and_gate_state_the_best_of_all_groups_and_offsets(
    form: ClassFormat, seed: int
) -> None:
    problem, best = turn_case(form, seed)
    result = fit(problem, seed=1, plan_id=plan_id(seed))
    if best is None:
        assert result.core is None
        assert result.outcome.status is Status.IMPOSSIBLE
        return
    assert result.core is not None
    assert result.outcome.status is Status.PROVEN
    assert (result.outcome.overrun_s, result.outcome.cost) == best.value
    verdict = judge(result.core, problem)
    assert verdict.of_grade(Grade.NEVER) == ()
    assert {f.rule for f in verdict.of_grade(Grade.STOP)} <= OF_THE_WISH
    assert (max(0, verdict.total_s - problem.spec.slot_s), verdict.cost) == best.value


def test_the_cases_hold_possible_late_impossible_and_tailed_classes() -> None:
    bests = [turn_case(form, seed)[1] for form, seed in TURN_SEEDS]
    found = [b for b in bests if b is not None]
    tails = sum(
        any(o.tail is not None for way in b.ways.values() for o in way.options) for b in found
    )
    late = sum(b.value[0] > 0 for b in found)
    three_groups = sum(len(b.arrangement.groups) == 3 for b in found)
    assert len(TURN_SEEDS) >= 100
    assert len(bests) - len(found) >= 10
    assert tails >= 6
    assert late >= 5
    assert three_groups >= 5
