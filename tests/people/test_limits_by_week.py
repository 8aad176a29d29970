"""Weeks are counted to the class's date, run out into a question, and never into permission."""

from datetime import date, timedelta
from itertools import pairwise

import pytest

from roundwright.library.vocabulary import HIGHEST_DEMAND, Demand
from roundwright.people.cap_row import ASK_NEWS, ASK_STILL
from roundwright.people.demand_cap_table import STAGES, TABLE, row_for
from roundwright.people.demand_caps import effective_limits, needs_clinician
from roundwright.people.limitation import WITH_WEEKS, Amount, Concern, Limitation, OverrideRole
from roundwright.people.stage_caps import LAST_WEEK, RUNNING_FROM_WEEK

SAID_ON = date(2026, 1, 5)


def said(concern, weeks, amount=Amount.AVOID, **changes):
    return Limitation(
        person_id="p001",
        concern=concern,
        amount=amount,
        from_on=SAID_ON,
        weeks=weeks,
        **changes,
    )


def limits(row, days=0):
    return effective_limits([row], SAID_ON + timedelta(days=days))


def is_as_strict(row, other):
    caps = all(row.caps.get(d, HIGHEST_DEMAND) <= cap for d, cap in other.caps.items())
    return caps and (row.effort_cap or 10) <= (other.effort_cap or 10)


def test_the_concerns_with_weeks_are_those_with_stages():
    assert {concern for concern, _ in STAGES} == set(WITH_WEEKS)
    assert all(stages[0][0] == 0 for stages in STAGES.values())


@pytest.mark.parametrize("amount", Amount)
@pytest.mark.parametrize("concern", WITH_WEEKS)
def test_an_unknown_week_is_as_strict_as_any_and_asks(concern, amount):
    row = row_for(concern, amount, None)
    assert all(is_as_strict(row, stage) for _, stage in STAGES[concern, amount])
    assert ASK_NEWS in row.actions
    assert row == TABLE[concern, amount]


@pytest.mark.parametrize("amount", Amount)
def test_pregnancy_never_gets_looser_and_the_weeks_after_a_birth_never_stricter(amount):
    waiting = [row for _, row in STAGES[Concern.PREGNANCY, amount]]
    after = [row for _, row in STAGES[Concern.POSTNATAL, amount]]
    assert all(is_as_strict(later, sooner) for sooner, later in pairwise(waiting))
    assert all(is_as_strict(sooner, later) for sooner, later in pairwise(after))


@pytest.mark.parametrize("concern", WITH_WEEKS)
def test_avoid_is_never_looser_than_ease_in_any_stage(concern):
    avoid, ease = STAGES[concern, Amount.AVOID], STAGES[concern, Amount.EASE]
    assert [week for week, _ in avoid] == [week for week, _ in ease]
    for (_, strict), (_, loose) in zip(avoid, ease, strict=True):
        assert is_as_strict(strict, loose)


@pytest.mark.parametrize("key", STAGES)
def test_each_stage_says_only_what_its_caps_hold_and_tells_no_condition(key):
    for _, row in STAGES[key]:
        for action in row.actions:
            assert action.follows_from is None or action.follows_from in row.caps
            for telling in ("pregnan", "natal", "birth", "week", "baby"):
                assert telling not in action.words


def test_weeks_go_on_to_the_day_of_the_class():
    row = said(Concern.PREGNANCY, 12)
    assert limits(row, days=6).caps[Demand.ON_FRONT] == 1
    assert limits(row, days=7).caps[Demand.ON_FRONT] == 0
    assert Demand.FLOOR_RISE not in limits(row, days=7 * 15).caps
    assert limits(row, days=7 * 16).caps[Demand.FLOOR_RISE] == 1


def test_weeks_that_have_run_out_ask_and_allow_nothing_more():
    row = said(Concern.PREGNANCY, LAST_WEEK[Concern.PREGNANCY])
    last, over = limits(row, days=6), limits(row, days=7)
    assert ASK_STILL.words not in last.actions
    assert ASK_STILL.words in over.actions
    assert all(over.caps[demand] <= cap for demand, cap in last.caps.items())


@pytest.mark.parametrize("weeks", [None, 0, 12, 30])
@pytest.mark.parametrize("amount", Amount)
def test_in_no_week_of_pregnancy_does_anybody_lie_on_the_back_or_jump(weeks, amount):
    caps = limits(said(Concern.PREGNANCY, weeks, amount)).caps
    assert (caps[Demand.ON_BACK], caps[Demand.IMPACT]) == (0, 0)


def test_three_months_after_a_birth_landings_are_still_capped_until_somebody_lifts_them():
    assert limits(said(Concern.POSTNATAL, 40)).caps[Demand.IMPACT] == 0


def lifted(concern, demand, weeks, role):
    row = said(
        concern,
        weeks,
        override_demand=demand,
        override_reason="asked, and free of symptoms",
        override_by=role,
        override_until_on=date(2027, 1, 1),
    )
    return demand not in limits(row).caps


@pytest.mark.parametrize("weeks", [None, 0, RUNNING_FROM_WEEK - 1, RUNNING_FROM_WEEK])
def test_a_coach_lifts_landings_after_a_birth_only_from_three_months(weeks):
    done = lifted(Concern.POSTNATAL, Demand.IMPACT, weeks, OverrideRole.COACH)
    assert done == (weeks == RUNNING_FROM_WEEK)
    assert lifted(Concern.POSTNATAL, Demand.IMPACT, weeks, OverrideRole.CLINICIAN)


@pytest.mark.parametrize(
    ("concern", "demand"),
    [
        (Concern.PREGNANCY, Demand.ON_BACK),
        (Concern.OSTEOPOROSIS, Demand.DEEP_SPINAL_FLEXION),
    ],
)
def test_some_caps_only_a_clinician_lifts(concern, demand):
    assert not lifted(concern, demand, None, OverrideRole.COACH)
    assert not lifted(concern, demand, None, OverrideRole.OWNER)
    assert lifted(concern, demand, None, OverrideRole.CLINICIAN)
    assert not needs_clinician(Concern.KNEE, demand, None)


def test_a_limit_past_its_end_asks_and_one_before_it_does_not():
    row = said(Concern.KNEE, None, until_on=date(2026, 1, 10))
    assert ASK_STILL.words not in limits(row, days=5).actions
    assert ASK_STILL.words in limits(row, days=6).actions
