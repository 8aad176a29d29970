"""The body model may add a degree of demand, never take one away."""

from datetime import date

import pytest

from roundwright.bootstrap.shipped_bodies import (
    shipped_bodies,
    shipped_degrees,
    stale_faults,
)
from roundwright.bootstrap.shipped_library import authored_catalogue, shipped_catalogue
from roundwright.library.catalogue_text import read_catalogue
from roundwright.library.degree_file import degree_text, degrees_of, read_degree_text
from roundwright.library.model_demands import (
    DEGREE_FROM_NM_PER_KG,
    model_degrees,
    usual_load_share,
)
from roundwright.library.vocabulary import HIGHEST_DEMAND, Demand
from roundwright.people.demand_caps import effective_limits
from roundwright.people.limitation import Amount, Concern, Limitation
from roundwright.services.library_template import library_template

ON = date(2026, 3, 3)
SLUGS = sorted(authored_catalogue().movements)


def degrees(slug: str):
    bodies = shipped_bodies()
    movement = authored_catalogue().movements[slug]
    return model_degrees(movement, bodies.postures[slug], bodies.table)


def test_no_degree_is_lower_than_the_authors_and_each_higher_one_is_marked() -> None:
    authored, library = authored_catalogue().movements, shipped_catalogue()
    raised = {}
    for slug, movement in library.movements.items():
        assert all(movement.demand(d) >= authored[slug].demand(d) for d in Demand)
        higher = {
            d: authored[slug].demand(d)
            for d in Demand
            if movement.demand(d) > authored[slug].demand(d)
        }
        if higher:
            raised[slug] = higher
    assert raised == library.raised_by_model
    assert raised != {}
    others = {"demands": {}}
    assert all(
        authored[s].model_copy(update=others) == library.movements[s].model_copy(update=others)
        for s in SLUGS
    )


def test_the_library_never_falls_when_the_model_says_less() -> None:
    nothing = {slug: dict.fromkeys(Demand, 0) for slug in SLUGS}
    assert authored_catalogue().with_model(nothing) == authored_catalogue()


def test_the_file_of_degrees_is_what_the_figures_give() -> None:
    bodies = shipped_bodies()
    anew = degrees_of(authored_catalogue().movements, bodies.postures, bodies.table)
    assert degree_text(anew) == degree_text(shipped_degrees())


def test_figures_of_another_posture_model_or_band_are_a_fault() -> None:
    bodies, file = shipped_bodies(), shipped_degrees()
    assert stale_faults(bodies.postures, bodies.table, file) == ()
    other = {**bodies.postures, "goblet_squat": bodies.postures["dumbbell_squat"]}
    told = stale_faults(other, bodies.table, file)
    assert [(f.code, f.value) for f in told] == [("library.stale", "goblet_squat")]
    without = {s: p for s, p in bodies.postures.items() if s != "goblet_squat"}
    assert [f.value for f in stale_faults(without, bodies.table, file)] == ["goblet_squat"]
    older = bodies.table.model_copy(update={"model": "0" * 64})
    assert len(stale_faults(bodies.postures, older, file)) == len(SLUGS)
    bands = file.model_copy(update={"bands": "0" * 64})
    assert len(stale_faults(bodies.postures, bodies.table, bands)) == len(SLUGS)


@pytest.mark.parametrize(("text", "code"), [("[]", "field.value"), ("{", "field.value")])
def test_a_broken_file_of_degrees_is_told(text: str, code: str) -> None:
    found, faults = read_degree_text("degrees.json", text)
    assert found is None
    assert [f.code for f in faults] == [code]
    newer = shipped_degrees().model_copy(update={"schema_": "roundwright.degrees/9"})
    assert read_degree_text("degrees.json", degree_text(newer))[1][0].code == "file.schema"


def test_somebody_who_avoids_the_hip_is_kept_from_what_the_model_raised() -> None:
    limit = Limitation(person_id="p001", concern=Concern.HIP, amount=Amount.AVOID, from_on=ON)
    cap = effective_limits((limit,), ON).caps[Demand.HIP]
    authored = authored_catalogue().movements["seated_lean_row"].demand(Demand.HIP)
    now = shipped_catalogue().movements["seated_lean_row"].demand(Demand.HIP)
    assert authored <= cap
    assert now > authored


def test_a_halls_own_library_on_top_keeps_the_raised_degrees() -> None:
    base = shipped_catalogue()
    own, faults = read_catalogue({"own.toml": library_template()}, base)
    assert faults == ()
    assert own is not None
    assert own.raised_by_model == base.raised_by_model
    some = base.only(frozenset({"seated_lean_rows", "bent_over_rows", "rows", "kickbacks"}))
    assert some.raised_by_model.keys() <= some.movements.keys()
    assert some.raised_by_model


def test_a_straight_knee_and_a_resting_dumbbell_are_not_judged() -> None:
    assert degrees("plank_row")[Demand.KNEE].nm_per_kg == 0
    assert degrees("seated_calf_raise")[Demand.ELBOW].nm_per_kg == 0
    assert degrees("reverse_curl")[Demand.SHOULDER].nm_per_kg == 0
    assert degrees("dumbbell_squat")[Demand.KNEE].nm_per_kg > 0.5


def test_the_load_is_the_librarys_own_where_it_has_one() -> None:
    movements, postures = authored_catalogue().movements, shipped_bodies().postures
    raise_ = usual_load_share(movements["standing_front_raise"], postures["standing_front_raise"])
    assert raise_ == pytest.approx(3000 / 70_000)
    assert usual_load_share(movements["dumbbell_squat"], postures["dumbbell_squat"]) == 0.10
    assert usual_load_share(movements["floor_push_up"], postures["floor_push_up"]) == 0.0


def test_bands_rise_and_nine_of_ten_movements_of_the_degree_below_lie_under_each() -> None:
    movements = authored_catalogue().movements
    found = {slug: degrees(slug) for slug in SLUGS}
    for demand, bands in DEGREE_FROM_NM_PER_KG.items():
        assert list(bands) == sorted(bands)
        assert len(bands) == HIGHEST_DEMAND
        for below, least in enumerate(bands):
            figures = [
                found[s][demand].nm_per_kg for s in SLUGS if movements[s].demand(demand) == below
            ]
            under = sum(value < least for value in figures)
            assert under >= 0.9 * len(figures), (demand, below)
