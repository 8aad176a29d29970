"""Many exercises: the master does not see the order. The planner then finds the same class."""

import pytest

from roundwright.optimise.planning import form_search
from roundwright.optimise.planning.plan_class import plan_class
from roundwright.plan.outcome import Budget, Status
from tests.planning_brute_force.drawn_cases import PLANNING_SEEDS, planning_case
from tests.planning_brute_force.plan_ids import plan_id

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
