"""A plan holds without new overrun, with nobody left out and few disturbed; rows of head counts."""

import pytest

from roundwright.plan.attendance.attendance_table import AttendanceTable
from roundwright.plan.attendance.holding import (
    Ending,
    Holding,
    Rated,
    best_of,
    ending_of,
    head_counts,
)
from roundwright.plan.changing.change import Harm

TABLE = AttendanceTable(few_disturbed=2, least_rosters=5)


def _harm(**figures):
    return Harm(**({"overrun_s": 0, "left_out": 0, "people": 0, "cells": 0, "price": 9} | figures))


@pytest.mark.parametrize(
    ("figures", "tier", "ending"),
    [
        ({}, 0, Ending.HELD),
        ({"people": 2, "cells": 9}, 1, Ending.HELD),
        ({"people": 3}, 1, Ending.DISTURBED),
        ({"overrun_s": 1}, 1, Ending.LATE),
        ({"left_out": 1}, 1, Ending.LEFT_OUT),
        ({"left_out": 1, "overrun_s": 1}, 0, Ending.LEFT_OUT),
        ({}, 2, Ending.OTHER_EXERCISE),
    ],
)
def test_what_holds_and_why_the_rest_does_not(figures, tier, ending):
    assert ending_of(_harm(**figures), tier, TABLE) is ending


def _held(**by_heads):
    """Give a holding out of n10=(held, drawn)."""
    endings = []
    for name, (held, drawn) in by_heads.items():
        heads = int(name[1:])
        endings += [(heads, Ending.HELD)] * held + [(heads, Ending.LATE)] * (drawn - held)
    return Holding(tuple(endings))


@pytest.mark.parametrize(
    ("holding", "row"),
    [
        (_held(n9=(8, 10), n10=(9, 10), n11=(10, 10), n12=(20, 20)), (10, 12)),
        (_held(n9=(10, 10), n10=(8, 10), n11=(10, 10), n12=(10, 10)), (11, 12)),
        (_held(n9=(4, 4), n10=(5, 5)), (10, 10)),
        (_held(n9=(5, 5), n11=(50, 50)), (11, 11)),
        (_held(n9=(5, 5), n10=(4, 4), n11=(5, 5)), (9, 9)),
        (_held(n9=(89, 100)), None),
        (Holding(()), None),
    ],
)
def test_head_counts_are_a_row_without_gaps_each_held_often_and_drawn_often(holding, row):
    assert head_counts(holding, TABLE) == row


def test_shares_are_rounded_down_and_reasons_are_counted():
    holding = _held(n9=(2, 3))
    assert (holding.held, holding.held_bp) == (2, 6666)
    assert holding.by_heads() == {9: (2, 3)}
    assert holding.why_not() == {Ending.LATE: 1}


def test_the_best_holds_most_then_costs_least_then_came_first():
    pool = [Rated(0, 40, 10), Rated(1, 50, 30), Rated(2, 50, 20), Rated(3, 50, 20)]
    assert best_of(pool).number == 2
