"""The steadiest plan of a pool is taken, and told by other rosters than those that chose it."""

from dataclasses import dataclass, field

import pytest

from roundwright.foundation.errors import NoPlanError
from roundwright.optimise.class_search import ClassSearch
from roundwright.optimise.fit import fit
from roundwright.people.person import Clearance
from roundwright.plan.attendance.attendance_table import AttendanceTable
from roundwright.plan.attendance.holding import Ending
from roundwright.plan.attendance.rosters import Roster
from roundwright.plan.build_planning import PlanWishes
from roundwright.plan.changing.answer import Answer
from roundwright.plan.changing.change import Harm
from roundwright.plan.gate.judge import judge
from roundwright.plan.outcome import Budget, Outcome, Status, StoppedBy
from roundwright.services.plan_class import PlanRequest, plan_class
from roundwright.services.steady_class import attendance_of, holds_words, steady_plan
from tests.services.a_hall import FixedClock, a_hall, a_member, adapters

TABLE = AttendanceTable(choosing=8, telling=12, least_rosters=1, reserved=(0, 1), other_sets=1)
OUTCOME = Outcome(status=Status.FOUND, stopped_by=StoppedBy.BUDGET)


@dataclass
class FitsAnew:
    """Answers by fitting the class again; harm is what the test says of the plan and roster."""

    harm: object = lambda before, asked: {}
    asked: list = field(default_factory=list)
    mended: int = 0

    def at_once(self, before, asked, library):
        self.asked.append((before, asked))
        spec = asked.problem.spec.model_copy(update={"slot_s": 7200})
        loose = asked.problem.model_copy(update={"spec": spec})
        found = fit(loose, budget=Budget.QUICK, plan_id=before.core.plan_id)
        if found.core is None:
            raise NoPlanError("none")
        figures = {"overrun_s": 0, "left_out": 0, "people": 0, "cells": 0, "price": 7}
        harm = Harm(**(figures | self.harm(before, asked)))
        return Answer(loose, found.core, harm, 0, OUTCOME)

    def mend(self, before, asked, library, *, seed, budget, on_better=None, most_tier=2):
        self.mended += 1
        return self.at_once(before, asked, library)


def _hall():
    chances = {"p001": 100, "p002": 60, "p003": 60, "p004": None}
    members = [a_member(p, f"Member {p}", usual_chance_pct=c) for p, c in chances.items()]
    not_today = a_member("p009", "Not today", clearance=Clearance.NOT_CLEARED)
    return a_hall(people=(*members, not_today))


REQUEST = PlanRequest("tuesday", wishes=PlanWishes(places=2, anew=True), budget=Budget.QUICK)


@pytest.fixture(scope="module")
def planned():
    return plan_class(_hall(), REQUEST, **adapters(ClassSearch(), FixedClock()))


def _steady(planned, mender, table=TABLE):
    attendance = attendance_of(_hall(), planned.planning, mender, 1, table)
    return attendance, steady_plan(planned, attendance, REQUEST, planner=ClassSearch())


def test_who_may_come_is_who_may_take_part_and_a_walk_in_is_unknown(planned):
    attendance = attendance_of(_hall(), planned.planning, FitsAnew(), 1)
    assert attendance.chances == {"p001": 10_000, "p002": 6000, "p003": 6000, "p004": None}
    assert attendance.stranger.clearance is Clearance.UNKNOWN
    assert attendance.stranger.is_moderate_only


def test_the_pool_holds_the_usual_plan_one_with_kit_kept_and_another_set(planned):
    _, steady = _steady(planned, FitsAnew())
    kinds = [(plan.reserved, plan.passed_over) for plan, _ in steady.pool]
    assert kinds == [(0, 0), (1, 0), (0, 1)]
    for plan, _ in steady.pool:
        core, problem = plan.document.core, plan.document.problem
        assert set(problem.people) == set(planned.problem.people)
        assert (core.revision, core.parent_revision) == (1, None)
        assert not judge(core, problem).is_refused
    sets = [{e.exercise_id for e in plan.document.core.exercises} for plan, _ in steady.pool]
    assert sets[2] != sets[0]


def test_the_plan_that_holds_most_is_taken_and_says_for_how_many(planned):
    usual = {e.exercise_id for e in planned.document.core.exercises}

    def harm(before, asked):
        same = {e.exercise_id for e in before.core.exercises} == usual
        return {"people": 3} if same else {}

    _, steady = _steady(planned, mender := FitsAnew(harm))
    chosen = {e.exercise_id for e in steady.chosen.document.core.exercises}
    assert chosen != usual
    assert mender.mended > 0
    assert steady.usual_holding.held < steady.holding.held == len(steady.holding.endings)
    told = steady.chosen.document.facts.holds_for
    assert (told.fewest, told.most) == steady.head_counts
    assert (told.held_bp, told.rosters) == (10_000, len(steady.holding.endings))
    assert f"Holds for {told.fewest}" in holds_words(steady.chosen.document)


def test_of_equals_the_usual_plan_stays(planned):
    _, steady = _steady(planned, FitsAnew())
    held = {holding.held for _, holding in steady.pool}
    assert len(held) == 1
    prices = [plan.document.outcome.cost for plan, _ in steady.pool]
    assert steady.chosen.document.outcome.cost == min(prices)


def test_an_answer_that_is_late_or_none_does_not_hold_and_everybody_is_no_question(planned):
    late = FitsAnew(lambda before, asked: {"overrun_s": 5})
    attendance = attendance_of(_hall(), planned.planning, late, 1, TABLE)
    plan, people = planned.document, planned.problem.taking_part
    assert attendance.ending(plan, Roster(people, 0)) is Ending.HELD
    assert late.asked == []
    assert attendance.ending(plan, Roster(people[1:], 0)) is Ending.LATE


def test_a_plan_that_was_never_tried_says_nothing(planned):
    assert planned.document.facts.holds_for is None
    assert holds_words(planned.document) == ""


def test_without_a_plan_there_is_nothing_to_try(planned):
    attendance = attendance_of(_hall(), planned.planning, FitsAnew(), 1, TABLE)
    nothing = type(planned)(planned.planning, planned.problem, planned.outcome, None)
    with pytest.raises(NoPlanError):
        steady_plan(nothing, attendance, REQUEST, planner=ClassSearch())
