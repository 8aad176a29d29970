"""The stored table: integers, its gates, what is stale, and people between its rows."""

from functools import cache

import numpy as np
import pytest

from roundwright.body.body_table import (
    STATURES_MM,
    BodyTable,
    make_body_table,
    model_digest,
)
from roundwright.body.build import BodySex, bodies_of
from roundwright.body.demand_bands import (
    BAND_FROM_NM_PER_KG,
    JOINT_NAMES,
    LABEL,
    Band,
    Demand,
    band_of,
    compared,
)
from roundwright.body.figures import demand_bands, figures_of
from roundwright.body.people_figures import (
    Builds,
    demand_of,
    lifted_share_bp,
    moments_nm_per_kg,
)
from roundwright.body.segment_table import GRAVITY_M_S2
from roundwright.body.solved import solve_posture
from tests.body.examples import example_postures, read_one

SLUGS = ("dumbbell_squat", "floor_push_up", "step_up", "jumping_jack")


@cache
def small_table() -> BodyTable:
    table, faults = make_body_table([example_postures()[slug] for slug in SLUGS])
    assert faults == ()
    return table


def _integers(value):
    if isinstance(value, dict):
        return all(_integers(each) for each in value.values())
    if isinstance(value, list):
        return all(_integers(each) for each in value)
    return value is None or isinstance(value, int | str)


def test_what_is_stored_holds_no_fractions_and_comes_back_alike():
    stored = small_table().model_dump(mode="json", by_alias=True)
    assert stored["schema"] == "roundwright.bodies/1"
    assert _integers(stored)
    assert len(stored["statures_mm"]) >= 5
    assert BodyTable.model_validate(stored) == small_table()


def test_it_is_stale_when_a_posture_or_the_model_changes():
    postures = {slug: example_postures()[slug] for slug in SLUGS}
    assert small_table().stale(postures) == ()
    changed = postures | {"step_up": postures["step_up"].model_copy(update={"view": 77.0})}
    assert small_table().stale(changed) == ("step_up",)
    assert small_table().stale(postures | {"new": postures["step_up"]}) == ("new",)
    other = small_table().model_copy(update={"model": "another"})
    assert other.stale(postures) == SLUGS


def test_unchanged_rows_are_taken_over_and_changed_ones_are_not():
    marked = small_table().movements["step_up"].model_copy(update={"footprint_mm": (1, 2)})
    kept = small_table().model_copy(update={"movements": {"step_up": marked}})
    posture = example_postures()["step_up"]
    assert make_body_table([posture], kept=kept)[0].movements["step_up"].footprint_mm == (1, 2)
    old = kept.model_copy(update={"model": "another"})
    fresh = make_body_table([posture], kept=old)[0]
    assert fresh.movements["step_up"] == small_table().movements["step_up"]
    assert fresh.model == model_digest()


def test_a_posture_that_fails_a_gate_has_no_row_and_a_fault_that_names_it():
    bad = read_one(
        '[posture.probe]\npath = "hold"\ntouch = { foot = "floor" }\nknee = 90\n'
        'height = { hips = 0.52 }\n[[posture.probe.key]]\nname = "only"\n'
    )
    table, faults = make_body_table([bad], file="mine.toml")
    assert table.movements == {}
    assert faults[0].file == "mine.toml"
    assert faults[0].field == "posture.probe.only"
    assert "misses what was said" in faults[0].value


@pytest.mark.parametrize(("sex", "stature", "load"), [("m", 1.745, 0.05), ("f", 1.63, 0.17)])
def test_people_between_the_rows_are_within_two_per_cent_of_their_own_solution(sex, stature, load):
    posture = example_postures()["dumbbell_squat"]
    own = solve_posture(posture, bodies_of([(BodySex(sex), stature)]))
    figures = figures_of(own, 0, (load,))
    builds = Builds(np.array([stature]), np.array([1.0 if sex == "m" else 0.0]))
    table = moments_nm_per_kg(small_table(), "dumbbell_squat", builds, np.array([load]))
    for joint in ("knee_left", "hip_left", "lumbar"):
        solved = figures.keys[1].helds[0].total[joint] * GRAVITY_M_S2
        assert table[joint][1, 0] == pytest.approx(solved, abs=0.03)


def test_a_thousand_people_at_once_are_what_each_is_alone():
    rng = np.random.default_rng(5)
    builds = Builds(rng.uniform(1.45, 2.0, 1000), rng.choice([0.0, 0.5, 1.0], 1000))
    load = rng.uniform(0, 0.3, 1000)
    all_at_once = moments_nm_per_kg(small_table(), "dumbbell_squat", builds, load)
    for i in (0, 17, 999):
        one = Builds(builds.stature_m[i : i + 1], builds.male_part[i : i + 1])
        alone = moments_nm_per_kg(small_table(), "dumbbell_squat", one, load[i : i + 1])
        for joint, values in alone.items():
            assert all_at_once[joint][:, i] == pytest.approx(values[:, 0])


def test_sex_unstated_is_the_mean_of_both():
    load = np.array([0.0])
    three = [
        moments_nm_per_kg(
            small_table(), "step_up", Builds(np.array([1.7]), np.array([part])), load
        )["knee_left"][0, 0]
        for part in (0.0, 0.5, 1.0)
    ]
    assert three[1] == pytest.approx((three[0] + three[2]) / 2)


def test_nothing_is_published_for_a_position_in_flight():
    builds = Builds(np.array([1.7]), np.array([1.0]))
    values = moments_nm_per_kg(small_table(), "jumping_jack", builds, np.array([0.0]))
    assert all(np.isnan(each).all() for each in values.values())
    asked = demand_of(small_table(), "jumping_jack", 1.7, 1.0, 0.0)
    assert {(demand.nm_per_kg, demand.band) for demand in asked.values()} == {(0.0, None)}


def test_moments_by_stature_hardly_change():
    for row in small_table().movements["dumbbell_squat"].keys[1].total:
        knees = [loads[0][2] for loads in row]
        assert max(knees) - min(knees) < 0.06 * max(knees)
    assert len(STATURES_MM) >= 5


def test_the_share_lifted_comes_out_of_the_table():
    row = small_table().movements["floor_push_up"]
    assert lifted_share_bp(row, 1.72, 0.5) == pytest.approx(6800, abs=600)
    assert lifted_share_bp(row.model_copy(update={"lifted_share_bp": None}), 1.7, 1.0) is None


def test_bands_are_words_in_order_for_every_joint():
    assert set(BAND_FROM_NM_PER_KG) == set(JOINT_NAMES)
    for joint, limits in BAND_FROM_NM_PER_KG.items():
        assert list(limits) == sorted(limits)
        seen = [band_of(joint, each + 1e-9) for each in (0.0, *limits)]
        assert seen == [Band.LITTLE, Band.SOME, Band.MUCH, Band.VERY_MUCH]
    assert "holding" in LABEL


def test_the_table_and_a_solution_of_ones_own_name_the_same_key():
    own = solve_posture(example_postures()["dumbbell_squat"], bodies_of([(BodySex.MALE, 1.70)]))
    direct = demand_bands(figures_of(own, 0))
    stored = demand_of(small_table(), "dumbbell_squat", 1.70, 1.0, 0.0)
    for joint in ("knee", "hip", "lumbar"):
        assert stored[joint].key == direct[joint].key == "low"
        assert stored[joint].band is direct[joint].band


def test_comparing_says_less_or_more_only_beyond_the_sensitivity():
    def asked(value):
        return {"knee": Demand("knee", value, value, "low")}

    assert compared("knee", asked(0.6), asked(1.2)) == "asks less of the knee when held"
    assert compared("knee", asked(1.2), asked(0.6)) == "asks more of the knee when held"
    assert compared("knee", asked(1.1), asked(1.2)) is None
    assert compared("knee", asked(0.05), asked(0.2)) is None
    low_back = {"lumbar": Demand("lumbar", 1.0, 1.0, "low")}
    more = {"lumbar": Demand("lumbar", 2.0, 2.0, "low")}
    assert compared("lumbar", low_back, more) == "asks less of the low back when held"
