"""Pictures are sound SVG that black and white can tell apart, and their tables say the same."""

import re
from functools import cache
from xml.etree import ElementTree

import pytest

from roundwright.documents.pictures.class_timeline import class_timeline
from roundwright.documents.pictures.finishing_times import finishing_times
from roundwright.documents.pictures.ink import HATCHES, fitted, room_for
from roundwright.documents.pictures.picture_page import picture_page
from roundwright.documents.pictures.who_is_where import who_is_where
from roundwright.rehearsal.one_play import Doing
from roundwright.rehearsal.report import rehearse
from tests.rehearsal.drawn_plans import few_plans
from tests.support.plans import a_fitted_plan, the_demo_hall

SVG = "{http://www.w3.org/2000/svg}"
NASTY = "<b>\"Ann & Bo'</b>"


@cache
def _report():
    plan = a_fitted_plan()
    return rehearse(plan.core, plan.problem, plays=100)


def _place(position):
    return f"Place {position}"


def _timeline(**how):
    return class_timeline(_report(), a_fitted_plan().core, str, _place, **how)


def _seconds(words):
    minutes, seconds = words.split(":")
    return int(minutes) * 60 + int(seconds)


@pytest.mark.parametrize("by_group", [False, True])
def test_every_picture_is_sound_and_has_a_title_and_words(by_group):
    for picture in (_timeline(by_group=by_group), finishing_times(_report())):
        root = ElementTree.fromstring(picture.svg)
        assert root.tag == f"{SVG}svg"
        assert root.find(f"{SVG}title").text == picture.title != ""
        assert root.find(f"{SVG}desc").text == picture.words != ""
        assert root.attrib["role"] == "img"
        assert picture.tables[0].rows
        for table in picture.tables:
            assert {len(row) for row in table.rows} == {len(table.heads)}


def test_nothing_is_told_by_colour_alone():
    for picture in (_timeline(), finishing_times(_report())):
        fills = set(re.findall(r'fill="([^"]+)"', picture.svg))
        greys = {"#1c1b19", "#55514a", "#cfc8ba", "#f8f5ee", "#ffffff", "none"}
        tiles = {f"url(#{picture.name}-{hatch.name})" for hatch in HATCHES}
        assert fills <= greys | tiles
        ids = re.findall(r'<pattern id="([^"]+)"', picture.svg)
        assert {f"url(#{one})" for one in ids} == tiles
    assert len({hatch.marks for hatch in HATCHES}) == len(HATCHES)


def test_everything_lies_inside_the_picture():
    for picture in (_timeline(), finishing_times(_report())):
        root = ElementTree.fromstring(picture.svg)
        _, _, width, height = (float(v) for v in root.attrib["viewBox"].split())
        for shape in root.iter(f"{SVG}rect"):
            place = [float(shape.attrib.get(k, 0)) for k in ("x", "y", "width", "height")]
            assert min(place) >= 0
            assert place[0] + place[2] <= width + 0.2
            assert place[1] + place[3] <= height + 0.2


def test_each_bar_is_a_stretch_and_as_long_as_it():
    picture, report = _timeline(), _report()
    root = ElementTree.fromstring(picture.svg)
    bars = [(r, r.find(f"{SVG}title").text) for r in root.iter(f"{SVG}rect") if len(r)]
    shown_doings = {Doing.WORK, Doing.WAIT, Doing.CHANGE, Doing.PARTNER, Doing.BURST}
    stretches = [s for p in report.middle.people for s in p.stretches if s.doing in shown_doings]
    assert len(bars) == len(stretches)
    for bar, said in bars:
        start, end = re.search(r": (\d+:\d\d) to (\d+:\d\d) ", said).groups()
        scale = float(bar.attrib["width"]) / (_seconds(end) - _seconds(start))
        assert scale == pytest.approx(1206 / (max(report.slot_s, report.middle.class_s) + 30), 0.2)


def test_the_table_of_the_timeline_adds_up_to_the_class():
    table = _timeline().tables[0]
    report, core = _report(), a_fitted_plan().core
    plain = {"warm_up", "demonstration", "cool_down"}
    besides = sum(w.length_s for w in core.timeline if w.kind.value in plain)
    for row in table.rows:
        assert sum(_seconds(w) for w in row[1:-1]) + besides == report.middle.class_s


def test_a_group_works_whenever_anybody_of_it_does():
    for core, problem in few_plans():
        report = rehearse(core, problem, plays=3)
        picture = class_timeline(report, core, str, _place, by_group=True)
        (table,) = picture.tables
        assert len(table.rows) == len(core.class_.groups)
        for group, row in zip(core.class_.groups, table.rows, strict=True):
            members = [p for p in report.middle.people if p.person_id in group]
            busy = sum(
                any((s := p.at(second)) is not None and s.doing is Doing.WORK for p in members)
                for second in range(report.middle.class_s)
            )
            assert _seconds(row[1]) == busy


def test_the_spread_tells_all_classes_and_ends_at_all_of_them():
    picture = finishing_times(_report())
    (table,) = picture.tables
    assert sum(float(row[1]) for row in table.rows) == pytest.approx(100, abs=1)
    assert table.rows[-1][2] == "100 %"
    assert "one in ten later" in picture.svg


def test_classes_that_are_late_are_hatched():
    plan = a_fitted_plan()
    spec = plan.problem.spec.model_copy(update={"slot_s": _report().on_time.typical_s})
    late = rehearse(plan.core, plan.problem.model_copy(update={"spec": spec}), plays=100)
    root = ElementTree.fromstring(finishing_times(late).svg)
    fills = [r.attrib["fill"] for r in root.iter(f"{SVG}rect") if len(r)]
    assert {"url(#finishing-times-slanted)", "#1c1b19"} == set(fills)
    bars = [f for f in late.finishes if f.plays]
    assert fills == [
        "#1c1b19" if f.to_s <= late.slot_s else "url(#finishing-times-slanted)" for f in bars
    ]


def test_a_timed_class_that_always_takes_as_long_is_one_bar():
    core, problem = few_plans()[0]
    report = rehearse(core, problem, plays=1)
    assert len(report.finishes) == 1
    ElementTree.fromstring(finishing_times(report).svg)


def test_the_table_of_places_has_each_set_once_with_version_and_load():
    plan, play = a_fitted_plan(), _report().middle
    names = {p.person_id: p.shown_name for p in the_demo_hall().people}
    table = who_is_where(plan, play, names, "kg")
    sets = [s for p in play.people for s in p.stretches if s.doing is Doing.WORK]
    assert len(table.rows) == len(sets)
    assert all(row[4] for row in table.rows)
    starts = [_seconds(row[0]) for row in table.rows]
    assert starts == sorted(starts)
    assert table.heads[5] == "Load, kg"
    assert any(row[5].startswith("pair ") for row in table.rows)
    used = any(c.kit for c in plan.core.cells)
    assert any(row[6] != "–" for row in table.rows) is used


def test_names_are_escaped_everywhere():
    plan = a_fitted_plan()
    timeline = class_timeline(_report(), plan.core, lambda _: NASTY, lambda _: NASTY)
    page = picture_page(NASTY, [NASTY], [timeline])
    assert "<b>" not in page
    assert "<script" not in page
    ElementTree.fromstring(timeline.svg)
    assert page.count("<details>") == 1


def test_words_are_shortened_to_their_room():
    assert fitted("Maren T", 200) == "Maren T"
    cut = fitted("a very long name of somebody", 80)
    assert cut.endswith("…")
    assert room_for(cut) <= 80


def test_without_a_play_there_is_nothing_to_draw():
    bare = _report().model_copy(update={"middle": None})
    with pytest.raises(ValueError, match="no play"):
        class_timeline(bare, a_fitted_plan().core, str, _place)
