"""On a terminal each better class is told in one line; into a pipe and with --json nothing."""

import pytest

from roundwright.cli.progress_words import HOW_TO_STOP, better_words, teller
from roundwright.plan.best_so_far import StillOpen
from tests.support.plans import a_fitted_plan


def _costing(cost, overrun_s=0):
    plan = a_fitted_plan()
    outcome = plan.outcome.model_copy(update={"cost": cost, "overrun_s": overrun_s})
    return plan.model_copy(update={"outcome": outcome})


def test_better_classes_are_told_once_each_and_the_first_says_how_to_stop():
    lines = []
    better = teller(False, lines.append)
    for cost in (90, 90, 70):
        assert better(_costing(cost), StillOpen.PRICE)
    assert [HOW_TO_STOP in line for line in lines] == [True, False]
    assert all(line.startswith("Best so far: ") for line in lines)


def test_it_says_what_is_still_looked_for_and_nobodys_name():
    plan = _costing(10, overrun_s=75)
    assert "1:15 too long" in better_words(plan, StillOpen.TIME)
    assert "fits the slot" in better_words(plan, StillOpen.TIME)
    assert "ends on time more often" in better_words(plan, StillOpen.CHANCE)
    assert "too long" not in better_words(_costing(10), StillOpen.PRICE)
    assert not any(person in better_words(plan, StillOpen.TIME) for person in plan.problem.people)


@pytest.mark.parametrize("as_json", [True, False])
def test_into_a_pipe_and_with_json_nothing_is_told(as_json):
    assert teller(as_json) is None
    assert teller(True, print) is None
