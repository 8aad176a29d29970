"""Drawn questions: there is a clash exactly where the planner proves that there is no class."""

import pytest

from roundwright.optimise.planning.plan_class import plan_class
from roundwright.optimise.planning.why_not import explain
from roundwright.plan.outcome import Status
from tests.support.random_planning import a_tiny_planning
from tests.why_not.every_class import PLAN_ID


@pytest.mark.parametrize("seed", range(1, 21))
def test_a_clash_is_told_exactly_where_there_is_no_class(seed: int) -> None:
    planning = a_tiny_planning(seed)
    status = plan_class(planning, plan_id=PLAN_ID).outcome.status
    assert status in (Status.PROVEN, Status.IMPOSSIBLE)
    assert bool(explain(planning)) == (status is Status.IMPOSSIBLE)


def test_both_answers_are_among_the_drawn_questions() -> None:
    told = {bool(explain(a_tiny_planning(seed))) for seed in range(1, 21)}
    assert told == {True, False}
