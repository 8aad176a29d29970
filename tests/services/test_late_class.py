"""What would end a class on time is asked only of a class that overruns."""

from dataclasses import dataclass, field

import pytest

from roundwright.plan.outcome import Budget, WayOut
from roundwright.services.fit_class import FitRequest, fit_class
from roundwright.services.late_class import overruns, with_ways_on_time
from tests.services.a_hall import RealPlanner, a_hall, adapters

WAYS = (WayOut(kind="round_less", figures={"rounds": 1}),)


@dataclass
class Advises:
    asked: list = field(default_factory=list)

    def ways_on_time(self, problem, seed, budget):
        self.asked.append((problem, seed, budget))
        return WAYS


def fitted(slot_s):
    wish = a_hall().classes["tuesday"].model_copy(update={"slot_s": slot_s})
    hall = a_hall(classes={"tuesday": wish})
    return fit_class(hall, FitRequest("tuesday"), **adapters(RealPlanner())).document


@pytest.fixture(scope="module")
def late():
    return fitted(900)


def test_a_class_that_overruns_gets_its_ways_and_stays_the_same_plan(late):
    adviser = Advises()
    told = with_ways_on_time(late, 7, adviser)
    assert overruns(late)
    assert told.outcome.ways_out == WAYS
    assert told.core.digest == late.core.digest
    assert told.outcome.model_copy(update={"ways_out": ()}) == late.outcome
    assert adviser.asked == [(late.problem, 7, Budget.QUICK)]


def test_a_class_that_ends_on_time_is_not_asked_about(late):
    adviser = Advises()
    roomy = fitted(7200)
    assert not overruns(roomy)
    assert with_ways_on_time(roomy, 1, adviser) is roomy
    assert adviser.asked == []
