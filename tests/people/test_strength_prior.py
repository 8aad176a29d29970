"""Assumed strength: the right direction everywhere, and loads a coach would start with."""

import math
from datetime import date

import pytest

from roundwright.library.vocabulary import StrengthFamily
from roundwright.people.capacity import CapacitySource, p_can, p_fails
from roundwright.people.person import Person, Sex
from roundwright.people.strength_prior import (
    ASSUMED_MASS_G,
    LOWER_RATIO,
    UPPER_RATIO,
    body_mass_g,
    prior_capacities,
)

DAY = date(2026, 3, 3)
FAIL_CAP_BP = 20
LEAST_CHANCE_BP = 3000


def someone(**changes):
    values = {"person_id": "p001", "shown_name": "Ada P", "sex": Sex.F, "body_mass_g": 65_000}
    return Person(**(values | {"level": 1, "birth_year": 1990} | changes))


def strength(person):
    return {c.key: c for c in prior_capacities(person, DAY)}


def one_rep_max_kg(person, family):
    return math.exp(strength(person)[family].ln_1rm_mean)


def test_all_nine_families_have_an_assumed_strength_as_of_the_day():
    found = prior_capacities(someone(), DAY)
    assert [c.key for c in found] == [f.value for f in StrengthFamily]
    assert {(c.source, c.as_of, c.person_id) for c in found} == {
        (CapacitySource.PRIOR, DAY, "p001")
    }


@pytest.mark.parametrize("family", StrengthFamily)
def test_strength_grows_with_level_and_mass_and_falls_with_age(family):
    by_level = [one_rep_max_kg(someone(level=n), family) for n in range(1, 6)]
    assert by_level == sorted(by_level)
    assert len(set(by_level)) == 5
    base = one_rep_max_kg(someone(), family)
    assert one_rep_max_kg(someone(body_mass_g=80_000), family) > base
    assert one_rep_max_kg(someone(birth_year=1950), family) < base
    assert one_rep_max_kg(someone(birth_year=None), family) == base


@pytest.mark.parametrize(
    ("family", "ratio"), [("vertical_push", UPPER_RATIO), ("horizontal_pull", UPPER_RATIO)]
)
def test_women_and_men_of_the_assumed_masses_differ_by_the_published_ratio(family, ratio):
    # ref: women-vs-men-strength (Miller 1993), from memory
    woman = one_rep_max_kg(someone(body_mass_g=None), family)
    man = one_rep_max_kg(someone(sex=Sex.M, body_mass_g=None), family)
    assert woman / man == pytest.approx(ratio)


def test_the_lower_bodys_added_load_differs_by_the_published_ratio():
    # ref: women-vs-men-strength (Miller 1993), from memory
    added = {
        sex: one_rep_max_kg(someone(sex=sex, body_mass_g=None), "squat")
        - 0.88 * ASSUMED_MASS_G[sex] / 1000
        for sex in (Sex.F, Sex.M)
    }
    assert added[Sex.F] / added[Sex.M] == pytest.approx(LOWER_RATIO)


def test_unstated_sex_lies_between_with_a_wider_spread():
    woman, man, unstated = (
        strength(someone(sex=sex))["vertical_push"] for sex in (Sex.F, Sex.M, Sex.UNSTATED)
    )
    mean = (woman.ln_1rm_mean + man.ln_1rm_mean) / 2
    assert unstated.ln_1rm_mean == pytest.approx(mean)
    assert (woman.ln_1rm_sd, unstated.ln_1rm_sd) == (0.25, 0.32)


def test_a_level_of_one_family_changes_only_that_family():
    plain, better = strength(someone()), strength(someone(level_by_family={"squat": 3}))
    changed = [k for k in plain if plain[k].ln_1rm_mean != better[k].ln_1rm_mean]
    assert changed == ["squat"]


@pytest.mark.parametrize(("birth_year", "count"), [(2010, 0), (2009, 9), (2011, 0), (1940, 9)])
def test_nobody_who_may_be_under_sixteen_has_adult_norms(birth_year, count):
    assert len(prior_capacities(someone(birth_year=birth_year), date(2026, 6, 1))) == count


def test_a_missing_mass_is_assumed_and_says_so():
    assert body_mass_g(someone()) == (65_000, False)
    assert body_mass_g(someone(body_mass_g=None)) == (68_000, True)
    assert body_mass_g(someone(body_mass_g=None, sex=Sex.UNSTATED)) == (75_000, True)


@pytest.mark.parametrize("level", [1, 2])
@pytest.mark.parametrize(
    ("family", "lifted_share", "limb_factor", "least_bp"),
    [
        ("squat", 0.88, 1.0, 8000),
        ("lunge_step", 0.8, 0.7, 7000),
        ("lunge_step", 0.5, 0.7, 9500),
        ("hinge", 0.5, 1.0, 9500),
        ("horizontal_push", 0.2, 1.0, 9000),
    ],
)
def test_an_average_newcomer_manages_the_easy_body_weight_versions(
    level, family, lifted_share, limb_factor, least_bp
):
    capacity = strength(someone(level=level))[family]
    chance = p_can(capacity, lifted_share * 65 / limb_factor, 8, 5, 2)
    assert chance >= least_bp > LEAST_CHANCE_BP


@pytest.mark.parametrize(
    ("family", "pair_kg", "sex"),
    [
        ("vertical_push", 3, Sex.F),
        ("horizontal_pull", 4, Sex.F),
        ("vertical_push", 6, Sex.M),
        ("horizontal_pull", 6, Sex.M),
    ],
)
def test_small_dumbbells_pass_the_careful_failure_cap_of_a_newcomer(family, pair_kg, sex):
    capacity = strength(someone(sex=sex, body_mass_g=65_000 if sex is Sex.F else 80_000))[family]
    assert p_fails(capacity, 2 * pair_kg, 6, 2) <= FAIL_CAP_BP


def test_a_newcomer_is_given_no_loads_that_only_the_strong_would_take():
    capacity = strength(someone())
    assert p_fails(capacity["vertical_push"], 2 * 6, 6, 2) > FAIL_CAP_BP
    assert p_fails(capacity["squat"], 0.88 * 65 + 2 * 6, 6, 2) > FAIL_CAP_BP
    assert p_fails(capacity["hinge"], 0.5 * 65 + 2 * 8, 6, 2) > FAIL_CAP_BP


def test_a_regular_man_does_ten_push_ups_and_a_newcomer_rather_not():
    # ref: pushup-load-ebben (Ebben 2011): 0.64 of body mass on the floor
    regular = strength(someone(sex=Sex.M, body_mass_g=70_000, level=3))["horizontal_push"]
    newcomer = strength(someone())["horizontal_push"]
    assert p_can(regular, 0.64 * 70, 10, 3, 1) > 7500
    assert p_can(newcomer, 0.64 * 65, 10, 3, 1) < LEAST_CHANCE_BP
