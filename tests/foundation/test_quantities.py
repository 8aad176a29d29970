"""Text to stored integers, and how they are shown."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from roundwright.foundation import shown
from roundwright.foundation.quantities import (
    duration_s,
    length_mm,
    mass_g,
    share_bp,
    stored,
)


@pytest.mark.parametrize(
    ("text", "grams"),
    [("8 kg", 8000), ("8kg", 8000), ("7,5 kg", 7500), ("500 g", 500), (8, 8000), (2.5, 2500)],
)
def test_masses_are_read(text, grams):
    assert mass_g(text) == grams


def test_a_pound_is_the_agreed_one():
    # ref: international yard and pound agreement of 1959, 1 lb = 0.45359237 kg exactly
    assert mass_g("20 lb") == 9072  # 9071.8474


@pytest.mark.parametrize(
    ("text", "mm"), [("45 cm", 450), ("18 in", 457), ("2 m", 2000), (2.5, 2500), ("6 ft", 1829)]
)
def test_lengths_are_read(text, mm):
    assert length_mm(text) == mm


@pytest.mark.parametrize(("text", "seconds"), [("45 min", 2700), ("90 s", 90), (75, 75)])
def test_durations_are_read(text, seconds):
    assert duration_s(text) == seconds


@pytest.mark.parametrize("text", ["", "kg", "8 stone", "eight", "8 kg 2", "1e3", True])
def test_what_is_no_mass_is_refused(text):
    with pytest.raises(ValueError, match="expected a number"):
        mass_g(text)


@pytest.mark.parametrize("text", [float("inf"), float("nan"), 1e300, "9" * 40 + " kg"])
def test_numbers_beyond_all_measure_are_refused(text):
    with pytest.raises(ValueError, match="everyday size"):
        mass_g(text)


def test_rounding_is_half_to_even_and_once():
    assert [stored(x) for x in (0.5, 1.5, 2.5, -0.5)] == [0, 2, 2, 0]
    assert share_bp(0.64) == 6400


@given(st.integers(1, 100_000))
def test_a_shown_pound_value_is_within_a_quarter_pound(grams):
    value = float(shown.mass(grams, "lb").split()[0])
    assert abs(value - grams / 453.59237) <= 0.25 + 1e-9


@given(st.integers(0, 100_000))
def test_a_clock_reads_back(seconds):
    minutes, rest = shown.clock(seconds).split(":")
    assert int(minutes) * 60 + int(rest) == seconds
    assert len(rest) == 2
