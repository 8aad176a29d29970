"""Planning in the other process: the same answer as here, and a guard or a stop as a value."""

import json
import os
import signal
import threading

import pytest

from roundwright.foundation.errors import RoundwrightError
from roundwright.optimise.class_search import ClassSearch
from roundwright.optimise.planning_by_worker import WorkerPlanner, planning_worker
from roundwright.optimise.worker import Worker
from roundwright.optimise.worker_tasks import HERE, TASKS
from roundwright.plan.build_planning import PlanWishes, build_planning
from roundwright.plan.gate.judge import judge
from roundwright.plan.outcome import Budget, Status, StoppedBy
from tests.services.a_hall import a_hall
from tests.services.test_build_planning import DAY

PLAN_ID = "00000000-0000-4000-8000-000000000001"


class EndsBy:
    def __init__(self, ended):
        self.ended = ended

    def try_call(self, name, payload, told=None):
        assert json.loads(payload)["budget"] == "quick"
        return self.ended


@pytest.fixture(scope="module")
def worker():
    made = planning_worker()
    yield made
    made.close()


def asked(**wishes):
    return build_planning(a_hall(), "tuesday", DAY, wishes=PlanWishes(anew=True, **wishes))


def how(planner, planning):
    return planner.plan(planning, seed=1, budget=Budget.QUICK, plan_id=PLAN_ID)


def test_the_other_process_gives_the_same_plan_and_it_passes_the_gate_here(worker):
    planning = asked(places=2)
    here, there = how(ClassSearch(), planning), how(WorkerPlanner(worker), planning)
    assert there.core.digest == here.core.digest
    assert there.problem == here.problem
    assert there.outcome == here.outcome
    assert not judge(there.core, there.problem).is_refused


def test_clash_ways_out_and_shopping_come_from_there_too(worker):
    planner, planning = WorkerPlanner(worker), asked(places=12)
    assert how(planner, planning).outcome.status is Status.IMPOSSIBLE
    clash = planner.why_not(planning, 1, Budget.QUICK)
    assert clash == ClassSearch().why_not(planning, 1, Budget.QUICK) != ()
    ways = planner.ways_out(planning, clash, 1, Budget.QUICK)
    assert ways == ClassSearch().ways_out(planning, clash, 1, Budget.QUICK)
    found = how(planner, asked(places=2))
    wishes = planner.shopping(found.problem, found.core, 1)
    assert wishes == ClassSearch().shopping(found.problem, found.core, 1)


def test_ways_to_end_on_time_come_from_there_and_none_from_a_search_that_was_ended(worker):
    found = how(ClassSearch(), asked(places=2))
    spec = found.problem.spec.model_copy(update={"slot_s": 900})
    late = found.problem.model_copy(update={"spec": spec})
    ways = WorkerPlanner(worker).ways_on_time(late, 1, Budget.QUICK)
    assert ways == ClassSearch().ways_on_time(late, 1, Budget.QUICK) != ()
    ended = WorkerPlanner(EndsBy(StoppedBy.CALLER))
    assert ended.ways_on_time(late, 1, Budget.QUICK) == ()


@pytest.mark.parametrize("stopped_by", [StoppedBy.GUARD, StoppedBy.CALLER])
def test_a_guard_or_a_stop_is_an_undecided_outcome_that_does_not_repeat(stopped_by):
    found = how(WorkerPlanner(EndsBy(stopped_by)), asked(places=2))
    assert (found.core, found.problem) == (None, None)
    assert found.outcome.status is Status.UNDECIDED
    assert found.outcome.stopped_by is stopped_by
    assert not found.outcome.repeatable


def test_a_real_search_that_outlasts_its_guard_is_undecided_and_the_next_one_works():
    hasty = Worker(TASKS, preload=(HERE,), guard_s=0.0)
    try:
        assert how(WorkerPlanner(hasty), asked(places=2)).outcome.stopped_by is StoppedBy.GUARD
    finally:
        hasty.close()


def test_killed_in_mid_search_the_caller_is_told_and_the_next_search_works(worker):
    planner, planning = WorkerPlanner(worker), asked(places=2)
    worker.start()
    number = worker.pid
    told = []

    def search():
        try:
            told.append(how(planner, planning))
        except RoundwrightError as error:
            told.append(error)

    thread = threading.Thread(target=search)
    thread.start()
    os.kill(number, signal.SIGKILL)
    thread.join(120)
    assert len(told) == 1
    assert how(planner, planning).core is not None


def test_better_classes_are_told_of_as_they_come_and_are_those_of_this_process(worker):
    here, there = [], []
    for planner, heard in ((ClassSearch(), here), (WorkerPlanner(worker), there)):

        def better(found, still, heard=heard):
            heard.append((found.core.digest, found.outcome, still))
            assert not judge(found.core, found.problem).is_refused
            return True

        answer = how_told(planner, asked(places=3), better)
        assert heard[-1][0] == answer.core.digest
    assert here == there != []


def test_killed_after_the_first_class_it_is_told_and_the_class_is_kept(worker):
    planner, heard = WorkerPlanner(worker), []

    def better(found, still):
        heard.append(found)
        os.kill(worker.pid, signal.SIGKILL)
        return True

    with pytest.raises(RoundwrightError, match="in the middle"):
        how_told(planner, asked(places=2), better)
    assert not judge(heard[0].core, heard[0].problem).is_refused
    assert how(planner, asked(places=2)).core is not None


def test_stopped_at_the_first_class_that_one_is_the_answer(worker):
    found = how_told(WorkerPlanner(worker), asked(places=2), lambda found, still: False)
    assert found.core is not None
    assert (found.outcome.status, found.outcome.stopped_by) == (Status.FOUND, StoppedBy.CALLER)
    assert not found.outcome.repeatable


def how_told(planner, planning, better):
    return planner.plan(planning, seed=1, budget=Budget.QUICK, plan_id=PLAN_ID, on_better=better)
