"""What kept plans say of the days before a class: exercises, and who tired which muscles."""

from datetime import date, time, timedelta

import pytest

from roundwright.body.anatomy import Muscle
from roundwright.foundation.instants import instant_of
from roundwright.plan.build_recent import build_recent, main_muscle
from roundwright.plan.core import CellState
from roundwright.plan.verdict import Finding, Grade, Verdict
from roundwright.services.fit_class import FitRequest, fit_class
from tests.services.a_hall import FixedClock, RealPlanner, a_hall, adapters
from tests.support import worked_count

DAY = date(2026, 3, 10)
STARTS = instant_of(DAY, time(18, 0), "Europe/London")
ZERO = "00000000-0000-4000-8000-00000000000{}"


@pytest.fixture(scope="module")
def held():
    document = fit_class(a_hall(), FitRequest("tuesday"), **adapters(RealPlanner(), FixedClock()))
    return document.document


def moved(document, days=0, at=time(18, 0), class_id="monday", number=1, **core):
    """Give the plan as if it were of a class so many days before, at an hour."""
    booked = document.core.class_.model_copy(
        update={
            "class_id": class_id,
            "starts_on": DAY - timedelta(days=days),
            "starts_at_local": at,
        }
    )
    plan_id = core.pop("plan_id", ZERO.format(number))
    changes = {"class_": booked, "plan_id": plan_id} | core
    return document.model_copy(update={"core": document.core.model_copy(update=changes)})


def recent(*plans):
    return build_recent(plans, "tuesday", DAY, STARTS)


def test_exercises_count_up_to_14_days_back(held):
    for days, counted in ((1, 2), (14, 2), (15, 0)):
        found = recent(moved(held, days=days)).exercises
        assert [e.days_ago for e in found] == [days] * counted
    assert {e.exercise_id for e in recent(moved(held, days=3)).exercises} == {
        "squat_line",
        "step_up_line",
    }


def test_muscles_count_for_less_than_48_hours(held):
    just_inside = recent(moved(held, days=2, at=time(18, 1)))
    assert set(just_inside.worked) == {"p001", "p002"}
    assert Muscle.QUADS in just_inside.worked["p001"]
    just_outside = recent(moved(held, days=2, at=time(18, 0)))
    assert just_outside.worked == {}
    assert len(just_outside.exercises) == 2


def test_an_earlier_class_of_the_same_day_counts_and_a_later_one_does_not(held):
    assert [e.days_ago for e in recent(moved(held, at=time(7, 0))).exercises] == [0, 0]
    assert recent(moved(held, at=time(19, 0))).exercises == ()
    assert recent(moved(held, days=-1)).exercises == ()


def test_the_class_itself_does_not_count_but_last_week_s_does(held):
    assert recent(moved(held, class_id="tuesday", at=time(17, 0))).exercises == ()
    assert len(recent(moved(held, class_id="tuesday", days=7)).exercises) == 2


def test_the_latest_revision_counts_in_whatever_order_they_come(held):
    one = held.core.exercises[:1]
    first = moved(held, days=3)
    second = moved(held, days=3, revision=2, exercises=one)
    assert len(recent(first, second).exercises) == len(recent(second, first).exercises) == 1


def test_of_two_plans_for_one_class_the_one_kept_last_counts(held):
    one = held.core.exercises[:1]
    first, other = moved(held, days=3), moved(held, days=3, number=2, exercises=one)
    assert len(recent(first, other).exercises) == 1
    assert len(recent(other, first).exercises) == 2


def test_a_draft_was_not_held(held):
    stop = Verdict(findings=(Finding(rule="slot.overrun", grade=Grade.STOP),), cost=0, total_s=0)
    assert recent(moved(held, days=3).model_copy(update={"verdict": stop})).exercises == ()


def test_who_sat_out_or_did_something_else_is_counted_as_it_was(held):
    cells = tuple(
        c.model_copy(update={"state": CellState.SIT_OUT})
        if c.person_id == "p001"
        else c.model_copy(update={"state": CellState.SUBSTITUTE, "exercise_id": "row_line"})
        for c in held.core.cells
    )
    plan = moved(held, days=1, cells=cells)
    library = worked_count.library()
    plan = plan.model_copy(update={"problem": plan.problem.model_copy(update={"library": library})})
    assert recent(plan).worked == {"p002": (main_muscle(library, "row_line"),)}


def test_what_is_not_in_the_library_has_no_main_muscle():
    assert main_muscle(worked_count.library(), "nothing") is None
