"""Who joins and what they may do: the three questions, limits of the hall, what hurts now."""

import pytest

from roundwright.foundation.errors import BadInputError, NotFoundError
from roundwright.library.vocabulary import Demand
from roundwright.people.demand_cap_table import row_for
from roundwright.people.limitation import Amount, Concern
from roundwright.people.person import Clearance
from roundwright.people.walk_in import LIGHT_EFFORT, QUESTIONS, Reply, ThreeReplies
from roundwright.plan.changing.change import PersonCame
from roundwright.plan.core import CellState
from roundwright.plan.outcome import NotToday
from roundwright.services.changing.people_today import (
    HURTS,
    hurts_now,
    next_walk_in,
    somebody_joins,
    walk_in,
)
from tests.changing_plans.some_plans import changed
from tests.support.plans import a_fitted_plan, the_demo_hall

NO, YES, UNSURE = Reply.NO, Reply.YES, Reply.UNSURE


def _walks_in(first, second, third, taken=()):
    problem = a_fitted_plan().problem
    return walk_in(the_demo_hall(), problem, ThreeReplies(first, second, third), taken)


@pytest.mark.parametrize("first", [YES, UNSURE])
def test_whoever_says_yes_or_does_not_know_of_the_heart_is_not_in_today(first):
    assert isinstance(_walks_in(first, NO, YES), NotToday)


@pytest.mark.parametrize("second", [NO, YES, UNSURE])
@pytest.mark.parametrize("third", [NO, YES, UNSURE])
def test_a_walk_in_does_moderate_work_only_whatever_is_said(second, third):
    change = _walks_in(NO, second, third)
    assert isinstance(change, PersonCame)
    known = change.known
    assert known.clearance is Clearance.UNKNOWN
    assert known.is_moderate_only
    assert known.classes == 0
    assert known.body_mass_assumed
    assert known.level == (2 if third is YES else 1)
    assert known.effort_cap == (None if second is NO else LIGHT_EFFORT)


def test_a_walk_ins_plan_has_no_landings_an_eased_dose_and_a_low_effort():
    change = _walks_in(NO, UNSURE, YES)
    found = changed(change)
    facts = next(f for f in found.document.facts.people if f.person_id == "walk_in_1")
    dose = next(d for d in found.document.core.people if d.person_id == "walk_in_1")
    assert (facts.contacts, facts.low_hops) == (0, 0)
    assert dose.effort_ceiling <= LIGHT_EFFORT
    assert dose.dose_bp * len(dose.rounds) <= 6000 * found.document.core.class_.rounds
    assert any(f.rule == "screen.unknown" for f in found.new)
    assert found.sentence.startswith("{walk_in_1} joins")


def test_replies_never_show():
    replies = ThreeReplies(NO, UNSURE, YES)
    assert "unsure" not in repr(replies)
    assert len(QUESTIONS) == 3


def test_walk_ins_get_ids_of_their_own():
    assert next_walk_in({"p001"}) == "walk_in_1"
    assert next_walk_in({"walk_in_1", "walk_in_3"}) == "walk_in_2"
    change = _walks_in(NO, NO, NO, taken=("walk_in_1",))
    assert change.person == "walk_in_2"


def test_somebody_of_the_hall_joins_with_their_limits():
    change = somebody_joins(the_demo_hall(), "p037", a_fitted_plan().problem)
    avoid = row_for(Concern.SHOULDER, Amount.AVOID, None).caps
    assert isinstance(change, PersonCame)
    assert all(change.known.caps[d] <= cap for d, cap in avoid.items())
    assert change.known.caps[Demand.OVERHEAD] == 0
    found = changed(change)
    movements = found.document.problem.library.movements
    mine = [x for x in found.document.core.cells if x.person_id == "p037"]
    assert mine
    assert all(
        movements[m].demands.get(Demand.OVERHEAD, 0) == 0
        for x in mine
        if x.state is not CellState.SIT_OUT
        for m in x.signature
    )


def test_who_needs_a_clearance_first_does_not_join():
    joining = somebody_joins(the_demo_hall(), "p012", a_fitted_plan().problem)
    assert joining == NotToday(person_id="p012", words="clearance_first")


def test_somebody_unknown_is_not_found():
    with pytest.raises(NotFoundError, match="p03"):
        somebody_joins(the_demo_hall(), "p03x", a_fitted_plan().problem)


@pytest.mark.parametrize("region", [r.value for r in HURTS])
def test_what_hurts_now_is_capped_as_avoid(region):
    change = hurts_now("p001", region)
    assert change.caps == dict(row_for(Concern(region), Amount.AVOID, None).caps)
    assert region not in repr(change)


def test_an_unknown_region_is_not_repeated():
    with pytest.raises(BadInputError) as caught:
        hurts_now("p001", "zzmarkedword")
    assert "zzmarkedword" not in str(caught.value)
    assert "knee" in str(caught.value)
