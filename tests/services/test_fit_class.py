"""Fitting as a service: what is asked of the planner, and what never leaves it."""

from datetime import date

import pytest

from roundwright.foundation.errors import NotFoundError, UnsafePlanError
from roundwright.plan.facts import facts_of
from roundwright.plan.gate.judge import judge
from roundwright.plan.outcome import Budget, Status
from roundwright.services.fit_class import FitRequest, fit_class
from tests.services.a_hall import (
    FakeFit,
    FixedClock,
    PlannerThatSays,
    RealPlanner,
    a_hall,
    adapters,
)


class PlannerGoneWrong(RealPlanner):
    """Plans well, then hands everyone a pair that the rack does not hold."""

    def fit(self, problem, *, seed, budget, plan_id):
        found = super().fit(problem, seed=seed, budget=budget, plan_id=plan_id)
        cells = tuple(
            c.model_copy(update={"unit_mass_g": 60_000}) if c.unit_mass_g else c
            for c in found.core.cells
        )
        assert cells != found.core.cells
        return FakeFit(found.core.model_copy(update={"cells": cells}), found.outcome)


def test_a_fitted_class_carries_the_gates_own_verdict_and_facts():
    fitted = fit_class(a_hall(), FitRequest("tuesday"), **adapters(RealPlanner()))
    document = fitted.document
    assert document is not None
    assert document.verdict == judge(document.core, fitted.problem)
    assert not document.verdict.is_refused
    assert document.facts == facts_of(document.core, fitted.problem)
    assert {c.person_id for c in document.core.cells} == {"p001", "p002"}


def test_a_weekday_class_is_held_on_the_next_such_day():
    planner = PlannerThatSays(None, Status.UNDECIDED)
    fit_class(a_hall(), FitRequest("tuesday"), **adapters(planner))
    fit_class(a_hall(), FitRequest("tuesday", date(2026, 3, 4)), **adapters(planner))
    assert [asked[0].spec.starts_on for asked in planner.asked] == [
        date(2026, 3, 3),
        date(2026, 3, 10),
    ]


def test_equal_questions_get_equal_ids_and_others_get_others():
    planner = PlannerThatSays(None, Status.UNDECIDED)
    for hall, seed in ((a_hall(), 1), (a_hall(), 1), (a_hall(), 2), (a_hall(people=()), 1)):
        fit_class(hall, FitRequest("tuesday", seed=seed), **adapters(planner))
    first, again, other_seed, other_hall = (asked[3] for asked in planner.asked)
    assert first == again
    assert len({first, other_seed, other_hall}) == 3


def test_equal_fits_give_equal_digests():
    first, again = (
        fit_class(a_hall(), FitRequest("tuesday"), **adapters(RealPlanner())) for _ in range(2)
    )
    assert first.document.core.digest == again.document.core.digest


def test_seed_and_budget_reach_the_planner_and_the_time_is_taken():
    planner = PlannerThatSays(None, Status.UNDECIDED)
    request = FitRequest("tuesday", seed=7, budget=Budget.QUICK)
    fitted = fit_class(a_hall(), request, **adapters(planner, FixedClock()))
    assert planner.asked[0][1:3] == (7, Budget.QUICK)
    assert fitted.outcome.wall_ms == 42
    assert fitted.document is None


def test_a_plan_that_the_gate_refuses_is_never_given_back():
    with pytest.raises(UnsafePlanError) as caught:
        fit_class(a_hall(), FitRequest("tuesday"), **adapters(PlannerGoneWrong()))
    assert "thrown away" in caught.value.detail
    assert "a fault of ours" in caught.value.next_step
    assert "Ines" not in caught.value.detail


def test_an_unknown_class_names_the_nearest():
    with pytest.raises(NotFoundError) as caught:
        fit_class(a_hall(), FitRequest("tuesdy"), **adapters(PlannerThatSays(None)))
    assert "tuesday" in caught.value.detail + caught.value.next_step
