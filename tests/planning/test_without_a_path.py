"""Many exercises: the master does not see the order. The planner then finds the same class."""

import pytest

from roundwright.optimise.planning import form_search
from roundwright.optimise.planning.plan_class import plan_class
from roundwright.optimise.planning.set_parts import MasterAnswer
from roundwright.optimise.solver import Ended
from roundwright.plan.gate.judge import judge
from roundwright.plan.outcome import Budget, Status
from roundwright.plan.verdict import Grade
from tests.planning_brute_force.drawn_cases import PLANNING_SEEDS, planning_case
from tests.planning_brute_force.plan_ids import OF_THE_WISH, plan_id

SOME = PLANNING_SEEDS[::6]


@pytest.mark.parametrize(("kind", "seed"), SOME)
def test_without_the_order_in_the_master_the_best_of_all_classes_is_found(
    kind: str, seed: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(form_search, "MOST_ON_A_PATH", 0)
    planning, best = planning_case(kind, seed)
    result = plan_class(planning, seed=1, budget=Budget.THOROUGH, plan_id=plan_id(seed))
    if best is None:
        assert result.outcome.status is Status.IMPOSSIBLE
        return
    assert result.problem is not None
    assert result.outcome.status is Status.PROVEN
    assert (result.outcome.overrun_s, result.outcome.cost) == best.value
    assert tuple(e.exercise_id for e in result.problem.spec.exercises) == best.exercise_ids


def test_a_class_that_does_not_wait_for_exact_prices_is_as_good_in_the_end(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    hasty = 0
    search = form_search.FormSearch
    given = search.next

    def counted(self, *args, **how):
        nonlocal hasty
        found = given(self, *args, **how)
        hasty += found.hasty
        return found

    monkeypatch.setattr(search, "next", counted)
    monkeypatch.setattr(form_search, "HASTY_AFTER", 1)
    for kind, seed in PLANNING_SEEDS[::4]:
        planning, best = planning_case(kind, seed)
        result = plan_class(planning, seed=1, budget=Budget.THOROUGH, plan_id=plan_id(seed))
        if best is not None:
            assert result.outcome.status is Status.PROVEN
            assert (result.outcome.overrun_s, result.outcome.cost) == best.value
    assert hasty > 0


def test_where_the_master_sees_the_order_and_is_lost_some_class_is_found_without_it(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    solve = form_search.SetMaster.solve

    def lost(self, prices, **how):
        if self.neighbours is not None:
            return MasterAnswer(Ended.LIMIT, frozenset(), (), 0, 1.0)
        return solve(self, prices, **how)

    monkeypatch.setattr(form_search.SetMaster, "solve", lost)
    found = 0
    for kind, seed in PLANNING_SEEDS[::5]:
        planning, best = planning_case(kind, seed)
        result = plan_class(planning, seed=1, budget=Budget.QUICK, plan_id=plan_id(seed))
        if best is None:
            assert result.core is None
        elif result.problem is not None and result.core is not None:
            assert result.outcome.status is Status.FOUND
            verdict = judge(result.core, result.problem)
            assert not verdict.is_refused
            assert {f.rule for f in verdict.of_grade(Grade.STOP)} <= OF_THE_WISH
            found += best.value[0] == 0
    assert found >= 5
