"""Kit over time, hard sets, balance and landings: sound pictures, and figures counted by hand."""

import re
from collections import Counter
from dataclasses import replace
from datetime import timedelta
from functools import cache
from xml.etree import ElementTree

import pytest

from roundwright.body.anatomy import Muscle
from roundwright.documents.pictures.balance import balance, balance_of, within_days
from roundwright.documents.pictures.ink import HATCHES
from roundwright.documents.pictures.kit_over_time import kit_over_time
from roundwright.documents.pictures.landing_bars import landed, landing_bars
from roundwright.documents.pictures.picture_page import picture_page
from roundwright.documents.pictures.plan_pictures import plan_pictures
from roundwright.documents.pictures.region_sets import REGIONS, region_sets
from roundwright.foundation import shown
from roundwright.library.vocabulary import Demand
from roundwright.people.person import Clearance
from roundwright.plan.core import WindowKind
from roundwright.plan.document import PlanDocument
from tests.documents.hand_plans import document, names

SVG = "{http://www.w3.org/2000/svg}"
GREYS = {"#1c1b19", "#55514a", "#cfc8ba", "#f8f5ee", "#ffffff", "none"}


@cache
def pictures(people: int = 10):
    return plan_pictures(document(people), names(people), "kg")


def with_person(plan: PlanDocument, person_id: str, **changes) -> PlanDocument:
    people = dict(plan.problem.people)
    people[person_id] = people[person_id].model_copy(update=changes)
    problem = plan.problem.model_copy(update={"people": people})
    return plan.model_copy(update={"problem": problem})


def row_of(picture, name: str, table: int = 0) -> tuple[str, ...]:
    return next(row for row in picture.tables[table].rows if row[0] == name)


@pytest.mark.parametrize("people", [1, 10, 40])
def test_every_picture_is_sound_has_words_and_a_table(people):
    found = pictures(people)
    assert [p.name for p in found] == ["kit", "regions", "balance", "landings"]
    for picture in found:
        root = ElementTree.fromstring(picture.svg)
        assert root.find(f"{SVG}title").text == picture.title != ""
        assert root.find(f"{SVG}desc").text == picture.words != ""
        assert root.attrib["role"] == "img"
        for table in picture.tables:
            assert table.rows
            assert {len(row) for row in table.rows} == {len(table.heads)}


def test_nothing_is_told_by_colour_alone_and_tiles_have_names_of_their_own():
    ids = Counter()
    for picture in pictures():
        fills = set(re.findall(r'fill="([^"]+)"', picture.svg))
        tiles = {f"url(#{picture.name}-{hatch.name})" for hatch in HATCHES}
        assert fills <= GREYS | tiles
        ids.update(re.findall(r'<pattern id="([^"]+)"', picture.svg))
    assert set(ids.values()) == {1}


def test_everything_lies_inside_the_picture():
    for people in (1, 10, 40):
        for picture in pictures(people):
            root = ElementTree.fromstring(picture.svg)
            _, _, width, height = (float(v) for v in root.attrib["viewBox"].split())
            for shape in root.iter(f"{SVG}rect"):
                x, y, wide, high = (
                    float(shape.attrib.get(k, 0)) for k in ("x", "y", "width", "height")
                )
                assert min(x, y, wide, high) >= 0
                assert x + wide <= width + 0.2
                assert y + high <= height + 0.2


def test_they_are_the_same_each_time_and_stand_on_one_page():
    again = plan_pictures(document(10), names(10), "kg")
    assert [p.svg for p in again] == [p.svg for p in pictures()]
    page = picture_page("Tuesday circuit", (), again)
    assert page.count("<table") == sum(len(p.tables) for p in again)


def test_names_are_escaped():
    shown_names = {**names(10), "p001": "<b>&"}
    for picture in plan_pictures(document(10), shown_names, "kg"):
        assert "<b>" not in picture.svg
        ElementTree.fromstring(picture.svg)


def test_kit_in_use_is_that_of_each_window():
    """Four of ten hold a pair of 4 kg in the combination; all ten step on a box, of 40."""
    plan = document(10)
    picture = kit_over_time(plan, names(10), "kg")
    work_s = sum(
        w.length_s for w in plan.core.timeline if w.kind is WindowKind.WORK and w.positions[0] == 3
    )
    assert row_of(picture, "low box, 20 cm") == (
        "low box, 20 cm",
        "40",
        "10",
        shown.clock(work_s),
        "0:00",
    )
    assert row_of(picture, "dumbbell 4 kg")[2] == "8"
    assert "some is left all the time" in picture.title


def test_kit_of_which_none_is_left_is_drawn_solid():
    """Ten boxes: all ten are in use in rounds 1 and 2; the newcomer rests round 3."""
    plan = document(10)
    boxes = tuple(
        i.model_copy(update={"count": 10}) if i.id == "low_box" else i
        for i in plan.problem.kit.items
    )
    kit = plan.problem.kit.model_copy(update={"items": boxes})
    scarce = plan.model_copy(update={"problem": plan.problem.model_copy(update={"kit": kit})})
    picture = kit_over_time(scarce, names(10), "kg")
    assert "1 is all in use at some time" in picture.title
    assert row_of(picture, "low box, 20 cm")[3:] == ("2:15", "1:30")
    solid = re.findall(r'fill="#1c1b19" stroke="#1c1b19"[^>]*><title>([^<]+)', picture.svg)
    assert len([t for t in solid if t.startswith("low box")]) == 2


def test_every_muscle_belongs_to_one_region():
    assert sorted(m for muscles in REGIONS.values() for m in muscles) == sorted(Muscle)


def test_a_set_counts_for_a_region_once_and_only_when_it_is_hard():
    """Ana R: sets at five places in three rounds; the newcomer leaves five, so none is hard."""
    picture = region_sets(document(10), names(10), "kg")
    heads = picture.tables[1].heads
    ana = dict(zip(heads, row_of(picture, "Ana R", 1), strict=True))
    new = dict(zip(heads, row_of(picture, "Jon B", 1), strict=True))
    assert ana["Front of thigh"] == "12"
    assert ana["Back"] == "3"
    assert ana["Shoulders"] == "3"
    assert set(list(new.values())[1:]) == {"0"}
    assert "9 of 10 people do any" in picture.title


def test_balance_counts_sets_of_everybody_by_what_they_really_do():
    """Nine people do three rounds, one does two: 29 sets a place; the combination is hip too."""
    found = balance_of(document(10))
    assert (found.pull, found.hip) == (29, 29)
    assert found.knee >= 3 * 29
    assert found.push >= 29


def test_two_weeks_are_judged_with_the_classes_of_those_days_alone():
    plan = document(10)
    here = balance_of(plan)
    earlier = [replace(here, on=here.on - timedelta(days=d), push=100) for d in (3, 13, 14, 30)]
    later = replace(here, on=here.on + timedelta(days=1))
    assert [b.on for b in within_days(earlier, here.on, 14)] == [b.on for b in earlier[:2]]
    picture = balance(plan, (*earlier, later))
    assert row_of(picture, "14 days")[1:3] == ("3", str(here.push + 200))
    alone = balance(plan)
    assert [row[0] for row in alone.tables[0].rows] == ["This class"]
    assert f"push {here.push} to pull {here.pull}" in alone.title


def test_landings_stand_against_the_person_s_own_limit():
    """Cleo M jumps 20 times in rounds 1 and 2 and steps in round 3."""
    plan = document(10)
    found = {one.person_id: one for one in landed(plan)}
    assert found["p003"].landings == 40
    assert found["p001"].landings == 0
    assert found["p010"].limit == 0
    picture = landing_bars(plan, names(10), "kg")
    assert row_of(picture, "Cleo M")[1] == "40"


def test_whoever_may_not_jump_or_has_no_clear_screen_has_no_landings_allowed():
    plan = with_person(document(10), "p003", caps={Demand.IMPACT: 0}, classes_done=60, level=5)
    one = next(x for x in landed(plan) if x.person_id == "p003")
    assert (one.limit, one.skip_limit) == (0, 0)
    picture = landing_bars(plan, names(10), "kg")
    assert "over the limit for Cleo M" in picture.title
    assert "40, over 0" in picture.svg
    unknown = with_person(document(10), "p001", clearance=Clearance.UNKNOWN, classes_done=60)
    assert next(x for x in landed(unknown) if x.person_id == "p001").limit == 0
