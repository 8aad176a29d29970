"""Planning as a service: what is asked, what is judged, and what never leaves it."""

from dataclasses import dataclass, field
from datetime import date, time

import pytest

from roundwright.foundation.errors import BadInputError, UnsafePlanError
from roundwright.goals.class_wish import ClassWish
from roundwright.optimise.fit import fit
from roundwright.plan.build_planning import PlanWishes
from roundwright.plan.core import Core
from roundwright.plan.document import ChanceOnTime
from roundwright.plan.gate.judge import judge
from roundwright.plan.outcome import Budget, Clash, Outcome, Status, StoppedBy, WayOut
from roundwright.plan.planning_problem import Candidate
from roundwright.plan.problem import Problem
from roundwright.services.check_plan import check_plan
from roundwright.services.class_reasons import chance_words, reason_lines
from roundwright.services.fit_class import FitRequest, fit_class
from roundwright.services.plan_class import (
    PlanRequest,
    days_looked_back,
    plan_class,
    week_of,
    with_shopping,
)
from tests.services.a_hall import FixedClock, RealPlanner, a_hall, adapters

CLASH = (Clash(kind="besides"),)
WAYS = (WayOut(kind="show_again"),)


@dataclass(frozen=True)
class Found:
    problem: Problem | None
    core: Core | None
    outcome: Outcome


@dataclass
class TakesTheFirst:
    """Takes what is kept and the first candidates, and fits them for real."""

    asked: list = field(default_factory=list)

    def plan(self, planning, *, seed, budget, plan_id):
        self.asked.append((planning, seed, budget, plan_id))
        kept = [Candidate(exercise_id=k.exercise_id, count=k.count) for k in planning.kept]
        chosen = (*kept, *planning.candidates)[: planning.places]
        problem = planning.concrete(chosen, planning.formats[0], planning.base.spec.rounds)
        found = fit(problem, seed=seed, budget=budget, plan_id=plan_id)
        return Found(problem, found.core, found.outcome)


class GoneWrong(TakesTheFirst):
    def plan(self, planning, **how):
        found = super().plan(planning, **how)
        cells = tuple(c.model_copy(update={"unit_mass_g": 60_000}) for c in found.core.cells)
        return Found(found.problem, found.core.model_copy(update={"cells": cells}), found.outcome)


@dataclass
class FindsNothing:
    status: Status

    def plan(self, planning, *, seed, budget, plan_id):
        return Found(None, None, Outcome(status=self.status, stopped_by=StoppedBy.PROOF))


@dataclass
class Advises:
    asked: list = field(default_factory=list)

    def why_not(self, planning, seed, budget):
        self.asked.append("why_not")
        return CLASH

    def ways_out(self, planning, clash, seed, budget):
        self.asked.append(clash)
        return WAYS

    def shopping(self, problem, core, seed):
        self.asked.append(core.digest)
        return (WayOut(kind="one_more", item="bench"),)


def planned(planner, request=None, hall=None, **more):
    request = request or PlanRequest("tuesday", wishes=PlanWishes(places=2))
    return plan_class(hall or a_hall(), request, **adapters(planner, FixedClock()), **more)


def test_a_planned_class_carries_the_gates_own_verdict():
    made = planned(TakesTheFirst(), PlanRequest("tuesday", wishes=PlanWishes(places=2, anew=True)))
    assert made.document.verdict == judge(made.document.core, made.problem)
    assert made.problem.spec.chosen_by == "tool"
    assert made.outcome.wall_ms == 42


def test_a_plan_that_the_gate_refuses_is_never_given_back():
    with pytest.raises(UnsafePlanError) as caught:
        planned(GoneWrong())
    assert "thrown away" in caught.value.detail
    assert "Ines" not in caught.value.detail


def test_equal_requests_get_equal_ids_and_others_get_others():
    planner = TakesTheFirst()
    for request in (
        PlanRequest("tuesday", wishes=PlanWishes(places=2)),
        PlanRequest("tuesday", wishes=PlanWishes(places=2)),
        PlanRequest("tuesday", wishes=PlanWishes(places=2), seed=2),
        PlanRequest("tuesday", wishes=PlanWishes(places=2), budget=Budget.QUICK),
    ):
        planned(planner, request)
    first, again, other_seed, other_budget = (asked[3] for asked in planner.asked)
    assert first == again
    assert len({first, other_seed, other_budget}) == 3


def test_impossible_comes_with_clash_and_ways_out():
    adviser = Advises()
    made = planned(FindsNothing(Status.IMPOSSIBLE), adviser=adviser)
    assert made.document is None
    assert (made.outcome.clash, made.outcome.ways_out) == (CLASH, WAYS)
    assert adviser.asked == ["why_not", CLASH]


def test_undecided_is_not_explained_as_if_it_were_impossible():
    adviser = Advises()
    made = planned(FindsNothing(Status.UNDECIDED), adviser=adviser)
    assert (made.document, made.outcome.clash, adviser.asked) == (None, (), [])


def test_the_chance_on_time_is_a_fact_and_a_small_one_is_said():
    def rehearse(core, problem, seed):
        return ChanceOnTime(chance_bp=4200, seed=seed, plays=10)

    made = planned(TakesTheFirst(), rehearse=rehearse)
    assert made.document.facts.chance_on_time.chance_bp == 4200
    assert "slot.chance" in {f.rule for f in made.document.verdict.findings}
    assert "On time 4 times in 10." in reason_lines(made.document)


@pytest.mark.parametrize(
    ("chance_bp", "words"),
    [
        (10_000, "nearly always"),
        (9899, "9 times in 10"),
        (1000, "once in 10"),
        (0, "less than once in 10"),
    ],
)
def test_a_chance_is_said_in_tenths_and_never_rounded_up(chance_bp, words):
    assert words in chance_words(ChanceOnTime(chance_bp=chance_bp, seed=1, plays=1))


def test_kept_plans_are_recent_work():
    monday = a_wish("monday")
    hall = a_hall(classes={"monday": monday, "tuesday": a_wish("tuesday")})
    kept = fit_class(hall, FitRequest("monday"), **adapters(RealPlanner(), FixedClock())).document
    planner = TakesTheFirst()
    request = PlanRequest("tuesday", wishes=PlanWishes(places=2))
    planned(planner, request, hall, kept=(kept,))
    recent = planner.asked[0][0].base.recent
    assert {e.exercise_id for e in recent.exercises} == {"squat_line", "step_up_line"}
    assert set(recent.worked) == {"p001", "p002"}


def test_a_planned_class_can_be_checked_against_the_hall_of_today():
    request = PlanRequest("tuesday", wishes=PlanWishes(places=2, anew=True))
    hall = a_hall()
    document = planned(TakesTheFirst(), request, hall).document
    assert [e.exercise_id for e in document.core.exercises] != ["squat_line", "step_up_line"]
    assert check_plan(document, hall).verdict == document.verdict
    nobody = hall.model_copy(update={"people": hall.people[:1]})
    assert check_plan(document, nobody).refusal is not None


def test_shopping_is_asked_of_the_plan_that_was_made():
    adviser = Advises()
    made = planned(TakesTheFirst())
    assert with_shopping(made, 1, adviser).shopping[0].item == "bench"
    assert adviser.asked == [made.document.core.digest]
    none = planned(FindsNothing(Status.IMPOSSIBLE))
    assert with_shopping(none, 1, adviser) is none


def test_the_week_is_seven_days_in_the_order_of_the_clock():
    hall = a_hall(
        classes={
            "tuesday": a_wish("tuesday"),
            "early": a_wish("tuesday", start=time(7, 0)),
            "monday": a_wish("monday"),
            "dated": a_wish(None, on=date(2026, 3, 6)),
            "later": a_wish(None, on=date(2026, 3, 10)),
            "past": a_wish(None, on=date(2026, 3, 2)),
        }
    )
    assert week_of(hall, date(2026, 3, 3)) == (
        ("early", date(2026, 3, 3)),
        ("tuesday", date(2026, 3, 3)),
        ("dated", date(2026, 3, 6)),
        ("monday", date(2026, 3, 9)),
    )


def test_days_that_matter_reach_two_weeks_back_and_a_week_ahead():
    days = days_looked_back(date(2026, 3, 15))
    assert (days[0], days[-1]) == (date(2026, 3, 1), date(2026, 3, 21))


@pytest.mark.parametrize("changes", [{"places": 4}, {"exercise": (), "places": 3}])
def test_an_open_class_is_planned_and_not_fitted(changes):
    wish = a_hall().classes["tuesday"].model_copy(update=changes)
    with pytest.raises(BadInputError) as caught:
        fit_class(a_hall(classes={"tuesday": wish}), FitRequest("tuesday"), **adapters(None))
    assert "plan it" in caught.value.faults[0].remedy


def a_wish(weekday, **changes):
    usual = a_hall().classes["tuesday"].model_dump(by_alias=False)
    return ClassWish(**(usual | {"weekday": weekday} | changes))
