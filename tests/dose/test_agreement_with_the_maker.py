"""Counting and the maker of plans are written apart; passes, contacts and hops must agree."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from roundwright.body.anatomy import Side
from roundwright.dose.contacts import burst_reps, landings
from roundwright.dose.counting import passes, reps_of_steps
from roundwright.goals.class_wish import BurstWish, Count, CountUnit
from roundwright.library.version import Step
from roundwright.library.vocabulary import DoneAs
from roundwright.plan import counts_of_version as maker
from tests.support.builders import a_combination, a_movement

SECONDS = st.integers(min_value=3, max_value=65).map(lambda tenths: tenths / 10)


@st.composite
def _sets(draw):
    number = draw(st.integers(min_value=1, max_value=4))
    movements = {
        f"m{k}": a_movement(
            f"m{k}",
            seconds_a_rep=draw(SECONDS),
            contacts_a_rep=draw(st.integers(0, 3)),
            low_hops_a_rep=draw(st.integers(0, 1)),
        )
        for k in range(number)
    }
    sides = st.sampled_from(list(Side))
    half = tuple(
        Step(movement_id=slug, side=draw(sides), times=draw(st.integers(1, 3)))
        for slug in movements
    )
    unit = draw(st.sampled_from(list(CountUnit)))
    value = draw(st.integers(min_value=1, max_value=60)) * 2
    listing = half * 2 if "side" in unit.value else half
    return movements, listing, Count(value=value, unit=unit), draw(SECONDS) / 3


@given(_sets(), st.sampled_from(list(DoneAs)))
@settings(max_examples=150, derandomize=True, deadline=None)
def test_passes_contacts_and_hops_agree(one_set, done_as):
    movements, listing, count, link_s = one_set
    parts = (("a_line", Side.BOTH), ("b_line", Side.BOTH))
    combination = a_combination("combo", *parts, link_s=link_s, done_as=done_as)
    theirs = maker.passes_of(count, listing, movements, combination)
    assert passes(count, listing, movements, link_s) == theirs
    feet = landings(reps_of_steps(count, listing, movements, link_s), movements)
    assert feet.contacts == maker.contacts_of(listing, theirs, movements)
    assert feet.low_hops == maker.low_hops_of(listing, theirs, movements)


@pytest.mark.parametrize("rate", [None, 100])
@pytest.mark.parametrize("own_rate", [None, 130])
@pytest.mark.parametrize("hops", [0, 1])
def test_bursts_agree(rate, own_rate, hops):
    burst = BurstWish(line="skip_line", length_s=50, rate_a_min=rate)
    movement = a_movement("skip", seconds_a_rep=0.6, low_hops_a_rep=hops, rate_a_min=own_rate)
    assert burst_reps(burst, movement) == maker.burst_reps(movement, burst)
