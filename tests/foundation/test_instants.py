"""A local time that is missing or double is a fault, never a guess."""

from datetime import date, time

import pytest

from roundwright.foundation.instants import ages_on, instant_of, written


def test_summer_and_winter_are_different_instants():
    winter = instant_of(date(2026, 3, 3), time(18, 0), "Europe/London")
    summer = instant_of(date(2026, 7, 7), time(18, 0), "Europe/London")
    assert written(winter) == "2026-03-03T18:00:00.000Z"
    assert written(summer) == "2026-07-07T17:00:00.000Z"


def test_a_time_that_does_not_exist_is_refused():
    # Summer time begins on the last Sunday of March at 01:00 UTC (EU directive 2000/84/EC).
    with pytest.raises(ValueError, match="missing"):
        instant_of(date(2026, 3, 29), time(1, 30), "Europe/London")


def test_a_time_that_comes_twice_is_refused():
    with pytest.raises(ValueError, match="double"):
        instant_of(date(2026, 10, 25), time(1, 30), "Europe/London")


def test_a_birth_year_gives_the_youngest_and_the_oldest_age():
    assert ages_on(2010, date(2026, 3, 3)) == (15, 16)
