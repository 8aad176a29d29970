"""Age limits by itself on the class's date, and a row of one's own takes its place."""

from datetime import date

import pytest

from roundwright.library.vocabulary import Demand
from roundwright.people.age_limits import age_concerns, likely_ages, with_age_limits
from roundwright.people.demand_caps import effective_limits
from roundwright.people.limitation import Amount, Concern, Limitation

DAY = date(2026, 3, 3)
OLD, YOUNG = Concern.AGE_65_UP, Concern.UNDER_16


def own(concern, amount=Amount.AVOID, from_on=DAY):
    return Limitation(person_id="p001", concern=concern, amount=amount, from_on=from_on)


@pytest.mark.parametrize(
    ("ages", "concerns"),
    [
        (None, ()),
        ((16, 17), ()),
        ((15, 16), (YOUNG,)),
        ((63, 64), ()),
        ((64, 65), (OLD,)),
        ((80, 81), (OLD,)),
    ],
)
def test_whoever_may_be_of_the_age_is_limited_and_an_unknown_age_is_not(ages, concerns):
    assert age_concerns(ages, 16, 65) == concerns


def test_the_ages_are_data():
    assert age_concerns((17, 18), 18, 70) == (YOUNG,)
    assert age_concerns((68, 69), 18, 70) == ()


def test_a_row_of_ones_own_takes_the_place_of_the_age_row_once_it_has_begun():
    assert with_age_limits([own(OLD)], "p001", (OLD,), DAY) == (own(OLD),)
    later = own(OLD, from_on=date(2026, 3, 4))
    added = with_age_limits([later], "p001", (OLD,), DAY)
    assert [(row.concern, row.amount) for row in added] == [(OLD, "avoid"), (OLD, "ease")]


def test_other_rows_stay_beside_the_age_row():
    rows = with_age_limits([own(Concern.KNEE)], "p001", (YOUNG,), DAY)
    assert [row.concern for row in rows] == [Concern.KNEE, YOUNG]


@pytest.mark.parametrize(
    ("ages", "rows", "expected"),
    [
        (None, (), (None, None)),
        (None, (own(YOUNG),), (15, 15)),
        (None, (own(OLD),), (None, 65)),
        (None, (own(YOUNG, from_on=date(2026, 3, 4)),), (None, None)),
        ((30, 31), (own(YOUNG),), (30, 31)),
    ],
)
def test_a_row_for_an_age_stands_in_for_a_birth_year_that_nobody_knows(ages, rows, expected):
    assert likely_ages(ages, rows, 16, 65, DAY) == expected


def test_the_table_has_rows_for_both_ages():
    old = effective_limits([own(OLD, Amount.EASE)], DAY)
    young = effective_limits([own(YOUNG, Amount.EASE)], DAY)
    assert (old.caps[Demand.IMPACT], young.caps[Demand.IMPACT]) == (1, 2)
    assert "body weight only" in young.actions
