"""The rep curve against a published formula, and the chance function against its own meaning."""

import math
from statistics import NormalDist

import pytest
from hypothesis import given
from hypothesis import strategies as st

from roundwright.people.capacity import Capacity, p_can, p_fails, rep_curve


def _capacity(one_rep_max_kg: float, sd: float = 0.1, **changes) -> Capacity:
    values = {"person_id": "p001", "key": "squat", "ln_1rm_mean": math.log(one_rep_max_kg)}
    return Capacity(**(values | {"ln_1rm_sd": sd} | changes))


def test_the_curve_is_epleys():
    # ref: 1rm-epley (Epley 1985): 50 kg for 8 reps gives 63 kg, rounded by the source.
    assert round(50 * math.exp(rep_curve(8))) == 63


@given(st.floats(20, 200), st.integers(1, 30), st.integers(0, 5), st.floats(0.01, 0.5))
def test_the_load_of_the_curve_is_managed_half_the_time(one_rm, reps, rir, sd):
    # derived: with n = reps + rir, the median capacity at 1RM / (1 + n/30) is exactly n.
    load = one_rm / (1 + (reps + rir) / 30)
    assert p_can(_capacity(one_rm, sd), load, reps, rir, 1) == pytest.approx(5000, abs=1)


def test_the_chance_is_the_normal_one_when_only_strength_is_uncertain():
    # derived: without noise in the exponent, z = ln(1RM / load / 1.4) / sqrt(sd² + noise²), n = 12.
    capacity = _capacity(100, 0.25, rep_exponent_sd=0.0)
    z = math.log(100 / 60 / 1.4) / math.hypot(0.25, 0.022)
    assert p_can(capacity, 60, 8, 4, 1) == pytest.approx(NormalDist().cdf(z) * 10_000, abs=1)


@given(
    st.floats(5, 150), st.floats(0.1, 60), st.integers(1, 25), st.integers(0, 5), st.integers(1, 4)
)
def test_more_load_reps_reserve_or_rounds_are_never_likelier(load, more, reps, rir, rounds):
    capacity = _capacity(80)
    here = p_can(capacity, load, reps, rir, rounds)
    assert p_can(capacity, load + more, reps, rir, rounds) <= here
    assert p_can(capacity, load, reps, rir + 1, rounds) <= here
    assert p_can(capacity, load, reps, rir, rounds + 1) <= here
    assert p_fails(capacity, load, reps, rounds) <= 10_000 - here


def test_nothing_to_lift_is_always_managed():
    assert p_can(_capacity(50), 0.0, 20, 2, 1) == 10_000


def test_the_share_that_fails_at_the_first_aim_is_what_decision_0004_says():
    # derived: ten reps, five left, SD 0.25 and the prior's rep exponent; load where 75 % manage it.
    capacity = _capacity(100, 0.25, rep_exponent_sd=0.19)
    low, high = 10.0, 100.0
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (middle, high) if p_can(capacity, middle, 10, 5, 1) >= 7500 else (low, middle)
    assert p_fails(capacity, low, 10, 1) == pytest.approx(1250, abs=30)
