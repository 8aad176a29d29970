"""A search tells of each better class as it is found; the last of them is the answer."""

import pytest

from roundwright.optimise.planning.plan_class import plan_class
from roundwright.plan.best_so_far import StillOpen, still_open
from roundwright.plan.gate.judge import judge
from roundwright.plan.outcome import Budget, Outcome, Status, StoppedBy
from tests.support.random_planning import a_tiny_planning

PLAN_ID = "00000000-0000-4000-8000-000000000001"
SEEDS = range(40)


def _told(planning, stop_at=None, chance=None):
    heard = []

    def better(found, still):
        heard.append((found, still))
        return len(heard) != stop_at

    answer = plan_class(
        planning, budget=Budget.QUICK, plan_id=PLAN_ID, chance=chance, on_better=better
    )
    return heard, answer


def test_each_told_class_is_no_worse_holds_its_bound_and_passes_the_gate_and_the_last_is_it():
    several = 0
    for seed in SEEDS:
        heard, answer = _told(a_tiny_planning(seed))
        alone = plan_class(a_tiny_planning(seed), budget=Budget.QUICK, plan_id=PLAN_ID)
        assert (answer.core, answer.outcome) == (alone.core, alone.outcome)
        assert bool(heard) is (answer.core is not None)
        several += len(heard) > 1
        ranks = [(found.outcome.overrun_s, found.outcome.cost) for found, _ in heard]
        assert ranks == sorted(ranks, reverse=True)
        for found, still in heard:
            outcome = found.outcome
            assert (outcome.status, outcome.stopped_by) == (Status.FOUND, StoppedBy.CALLER)
            assert still is (StillOpen.TIME if outcome.overrun_s else StillOpen.PRICE)
            assert not judge(found.core, found.problem).is_refused
            if outcome.bound is not None and outcome.overrun_s == answer.outcome.overrun_s:
                assert outcome.bound <= answer.outcome.cost <= outcome.cost
        if heard:
            assert heard[-1][0].core == answer.core
    assert several >= 5


def test_a_search_that_is_stopped_gives_the_class_that_it_told_of_last():
    stopped = 0
    for seed in SEEDS:
        heard, whole = _told(a_tiny_planning(seed))
        if len(heard) < 2:
            continue
        first, answer = _told(a_tiny_planning(seed), stop_at=1)
        assert [found.core for found, _ in first] == [heard[0][0].core]
        assert answer.core == heard[0][0].core
        if answer.outcome.status is not Status.PROVEN:
            stopped += 1
            assert answer.outcome.stopped_by is StoppedBy.CALLER
            assert not answer.outcome.repeatable
        assert whole.outcome.stopped_by is not StoppedBy.CALLER
    assert stopped >= 2


def test_a_class_that_ends_on_time_more_often_is_told_too_and_may_be_the_last():
    shorter = None
    for seed in SEEDS:
        planning = a_tiny_planning(seed)
        chances = iter((1000, 2000, 9900))
        heard, answer = _told(planning, chance=lambda problem, core, c=chances: next(c, 9900))
        if any(still is StillOpen.CHANCE for _, still in heard):
            shorter = heard, answer
            break
    assert shorter is not None
    heard, answer = shorter
    assert heard[-1][0].core == answer.core
    assert answer.outcome.stopped_by is StoppedBy.BUDGET


@pytest.mark.parametrize(
    ("overrun_s", "chance_bp", "still"),
    [(1, 0, "time"), (0, 8999, "chance"), (0, 9000, "price"), (0, None, "price")],
)
def test_what_is_still_sought_is_time_then_chance_then_price(overrun_s, chance_bp, still):
    outcome = Outcome(status=Status.FOUND, stopped_by=StoppedBy.CALLER, overrun_s=overrun_s)
    assert still_open(outcome, chance_bp, 9000) is StillOpen(still)
