"""A change whose search ends in the middle: what was found so far is the answer, judged."""

import pytest

from roundwright.foundation.errors import RoundwrightError
from roundwright.optimise.changing.mender import WorkerMender
from roundwright.optimise.planning_by_worker import planning_worker
from roundwright.plan.changing.answer import StillSought
from roundwright.plan.changing.change import KitLost
from roundwright.plan.outcome import Budget, Status, StoppedBy
from roundwright.services.changing.change_plan import Changing, change_plan
from tests.changing.tasks_that_end import worker_with
from tests.changing_plans.some_plans import begun
from tests.support.plans import a_fitted_plan, the_demo_hall

SCARCE = KitLost(item_id="flat_bench", units=3)


@pytest.fixture(scope="module")
def worker():
    made = planning_worker()
    yield made
    made.close()


def asked(worker, on_better):
    plan = a_fitted_plan()
    using = Changing(the_demo_hall().catalogue, WorkerMender(worker), None, 1, Budget.QUICK)
    revisions = begun(plan)
    return change_plan(plan, revisions, SCARCE, 1, using=using, on_better=on_better)


def test_a_planner_that_is_killed_leaves_the_best_so_far_and_says_so():
    seen = []

    def better(found):
        seen.append(found)
        return True

    dying = worker_with("mend_and_die")
    try:
        found = asked(dying, better)
    finally:
        dying.close()
    assert found.document.core == seen[-1].document.core
    assert found.tier == 1
    outcome = found.document.outcome
    assert (outcome.status, outcome.stopped_by) == (Status.FOUND, StoppedBy.GUARD)
    assert not outcome.repeatable
    assert "ended in the middle" in found.ended
    assert found.least.order <= found.harm.order
    assert not found.document.verdict.is_refused


def test_an_interrupt_leaves_the_best_so_far(worker):
    class Interrupting(WorkerMender):
        def mend(self, *args, on_better=None, **more):
            on_better(self.at_once(*args))
            raise KeyboardInterrupt

    plan = a_fitted_plan()
    using = Changing(the_demo_hall().catalogue, Interrupting(worker), None, 1, Budget.QUICK)
    found = change_plan(plan, begun(plan), SCARCE, 1, using=using)
    assert (found.tier, found.ended) == (0, "")
    assert found.document.outcome.stopped_by is StoppedBy.CALLER
    assert found.still_sought is StillSought.PEOPLE


def test_what_the_one_who_is_told_raises_is_not_swallowed(worker):
    def breaks(found):
        raise RoundwrightError("The listener broke.")

    with pytest.raises(RoundwrightError, match="listener broke"):
        asked(worker, breaks)


def test_in_the_end_nothing_is_still_sought(worker):
    seen = []

    def better(found):
        seen.append(found)
        return True

    found = asked(worker, better)
    assert (found.document.outcome.status, found.still_sought) == (Status.PROVEN, None)
    assert [one.still_sought for one in seen[:-1]] == [StillSought.PEOPLE, StillSought.PRICE]
