"""Groups that move on, partners, stations on the floor, doors and rack: by hand on small plans."""

import re
from dataclasses import replace
from io import BytesIO

import pytest
from pydantic import ValidationError
from pypdf import PdfReader

from roundwright.documents.class_sheet_html import class_sheet_html
from roundwright.documents.class_sheet_pdf import class_sheet_pdf
from roundwright.documents.floor_plan_svg import floor_plan_svg
from roundwright.documents.group_lines import form_words
from roundwright.documents.plan_view import PlanView
from roundwright.documents.sheet_content import SheetContent, sheet_of
from roundwright.goals.class_wish import ClassFormat
from roundwright.kit.inventory import Fixture, FixtureKind, Room, Wall
from roundwright.plan.core import Window, WindowKind
from roundwright.plan.document import PlanDocument
from tests.documents.hand_plans import document, names
from tests.documents.hand_sheet import PRINTED_AT, a_hall, a_sheet, sealed

RACK = Fixture(kind=FixtureKind.RACK, wall=Wall.FRONT, at=1000, width=3000)
EXIT = Fixture(kind=FixtureKind.EMERGENCY_EXIT, wall=Wall.BACK, at=14_000)
DOOR = Fixture(kind=FixtureKind.DOOR, wall=Wall.LEFT, at=9000)
HELP = Fixture(kind=FixtureKind.DEFIBRILLATOR, wall=Wall.RIGHT, at=0, width=500)


def _rotating(people: int, form: ClassFormat, offsets: tuple[int, ...]) -> PlanDocument:
    """Make the hand-written class with groups that begin at different places."""
    plan = document(people)
    ids = [dose.person_id for dose in plan.core.people]
    groups = tuple(tuple(ids[k :: len(offsets)]) for k in range(len(offsets)))

    def placed(window: Window) -> Window:
        if window.kind is not WindowKind.WORK:
            return window
        (first,) = window.positions
        ahead = tuple((first - 1 + o) % 5 + 1 for o in offsets)
        return window.model_copy(update={"positions": ahead})

    core = plan.core.model_copy(
        update={
            "class_": plan.core.class_.model_copy(update={"format": form, "groups": groups}),
            "timeline": tuple(placed(w) for w in plan.core.timeline),
        }
    )
    return plan.model_copy(update={"core": core})


def _sheet(plan: PlanDocument, *fixtures: Fixture) -> SheetContent:
    room = plan.problem.room.model_copy(update={"fixture": fixtures})
    plan = plan.model_copy(update={"problem": plan.problem.model_copy(update={"room": room})})
    return sheet_of(sealed(plan), a_hall(names(len(plan.core.people))), PRINTED_AT)


def stations(people: int = 10) -> SheetContent:
    """Make five stations."""
    return _sheet(_rotating(people, ClassFormat.STATIONS, (0, 1, 2, 3, 4)))


def test_at_stations_each_group_is_told_where_it_begins() -> None:
    sheet = stations()
    assert [(g.mark, g.begins_at, g.people) for g in sheet.groups[:2]] == [
        ("A", 1, ("Ana R", "Finn A")),
        ("B", 2, ("Ben O", "Gwen T")),
    ]
    assert "stations: each group moves on to the next number" in sheet.form


def test_where_groups_move_on_the_stretches_of_work_carry_the_clock() -> None:
    sheet = stations()
    assert all(e.starts == () and e.window == "" for e in sheet.exercises)
    assert [row.number for row in sheet.intervals] == [1, 2, 3, 4, 5]
    assert sheet.intervals[0].starts == ("18:10:00", "18:17:00", "18:24:00")
    assert sheet.intervals[4].starts == ("18:14:00", "18:21:00", "18:28:00")
    assert sheet.intervals[0].length == "45 s"


def test_together_there_are_neither_groups_nor_stretches() -> None:
    sheet = a_sheet(10)
    assert (sheet.groups, sheet.intervals) == ((), ())


def test_staggered_groups_begin_apart_and_keep_places_of_their_own() -> None:
    sheet = _sheet(_rotating(9, ClassFormat.STAGGERED, (0, 2)))
    assert [g.begins_at for g in sheet.groups] == [1, 3]
    assert len(sheet.floor.places) == 9
    assert not any(place.is_station for place in sheet.floor.places)


def test_partners_stand_on_page_one_and_the_first_works_first() -> None:
    sheet = a_sheet(10, in_pairs=True)
    assert [g.people for g in sheet.groups[:2]] == [("Ana R", "Ben O"), ("Cleo M", "Dov K")]
    one = _pages(sheet)[0]
    assert "the first named works first: Ana R + Ben O; Cleo M + Dov K" in one


def test_kit_is_summed_over_what_groups_do_at_one_time() -> None:
    # At any time one group of two is at the box and one at the combination.
    rows = {row.what: row.how_many for row in stations().kit}
    assert rows["low box, 20 cm"] == 2


def test_groups_and_stretches_are_on_paper_and_page() -> None:
    sheet = stations()
    one = _pages(sheet)[0]
    for words in ("Group E begins at 5: Edda S, Jon B", "Work 5", "18:28:00"):
        assert words in one
    html = class_sheet_html(sheet)
    for words in ("<strong>Group E</strong> begins at 5: Edda S, Jon B", "Work 5", "18:28:00"):
        assert words in html


@pytest.mark.parametrize("people", [5, 10, 15])
def test_stations_lie_in_the_room_and_apart(people: int) -> None:
    floor = stations(people).floor
    assert [place.number for place in floor.places] == [1, 2, 3, 4, 5]
    for p in floor.places:
        assert p.is_station
        assert 0 <= p.x_mm <= floor.length_mm - p.width_mm
        assert floor.front_mm <= p.y_mm <= floor.width_mm - p.depth_mm
        assert p.width_mm * p.depth_mm >= people // 5 * 5_000_000
        for q in floor.places:
            apart = abs(p.x_mm - q.x_mm) >= p.width_mm or abs(p.y_mm - q.y_mm) >= p.depth_mm
            assert q is p or apart


def test_stations_that_do_not_fit_are_named() -> None:
    floor = stations(40).floor
    assert len(floor.places) + len(floor.unplaced) == 5
    assert floor.unplaced
    assert f"do not fit at this spacing: {', '.join(floor.unplaced)}" in floor.words


def test_people_who_do_not_fit_are_named() -> None:
    floor = a_sheet(40).floor
    assert floor.unplaced[-1] in floor.words


def test_doors_and_rack_are_drawn_at_their_walls() -> None:
    floor = _sheet(document(4), RACK, EXIT, DOOR, HELP).floor
    marks = {m.words: (m.x_mm, m.y_mm, m.width_mm, m.depth_mm) for m in floor.marks}
    assert marks == {
        "rack": (1000, 0, 3000, 350),
        "exit": (14_000, 11_650, 1000, 350),
        "door": (0, 9000, 350, 1000),
        "defibrillator": (17_650, 0, 350, 500),
    }
    drawn = floor_plan_svg(floor)
    assert all(f">{words}<" in drawn for words in marks)
    assert ">coach<" in drawn
    assert ">coach · rack<" in floor_plan_svg(a_sheet(4).floor)


def test_the_floor_before_a_door_stays_free() -> None:
    back = Fixture(kind=FixtureKind.DOOR, wall=Wall.BACK, at=0)
    beside = Fixture(kind=FixtureKind.RACK, wall=Wall.LEFT, at=0)
    floor = _sheet(document(24), back, beside).floor
    assert floor.places
    assert max(p.y_mm + p.depth_mm for p in floor.places) <= 12_000 - 1000
    assert min(p.x_mm for p in floor.places) >= 1500


def test_a_fixture_beyond_its_wall_is_a_fault() -> None:
    room = {"id": "main", "name": "Main", "length": 8000, "width": 12_000}
    Room.model_validate(room | {"fixture": [{"kind": "door", "wall": "front", "at": 11_000}]})
    with pytest.raises(ValidationError, match="beyond the left wall"):
        Room.model_validate(room | {"fixture": [{"kind": "door", "wall": "left", "at": 7500}]})


def test_the_emergency_line_comes_first_on_page_two() -> None:
    two = _pages(replace(a_sheet(8), emergency=("Side door on Net Lane.",)))[1]
    assert two.index("Side door on Net Lane.") < two.index("Where people stand")
    assert two.index("Stop the person at once") < two.index("Where people stand")


@pytest.mark.parametrize("paper", ["a4", "letter"])
@pytest.mark.parametrize("people", [8, 16])
def test_what_to_say_is_set_in_twelve_points_or_more(people: int, paper: str) -> None:
    page = PdfReader(BytesIO(class_sheet_pdf(a_sheet(people), paper))).pages[1]  # type: ignore[arg-type]
    sizes: dict[str, float] = {}

    def visit(text: str, _cm: object, tm: list[float], _font: object, size: float) -> None:
        if text.strip():
            sizes[text.strip()] = round(abs(tm[3]) * size, 1) if abs(tm[3]) < 2 else abs(tm[3])

    page.extract_text(visitor_text=visit)
    said = {words: size for words, size in sizes.items() if "Breathe" in words}
    assert said
    assert min(said.values()) >= 12


def _pages(content: SheetContent) -> list[str]:
    reader = PdfReader(BytesIO(class_sheet_pdf(content)))
    return [" ".join(page.extract_text().split()) for page in reader.pages]


@pytest.mark.parametrize("wall", Wall)
@pytest.mark.parametrize("at", [0, 17_500])
def test_words_beside_a_mark_in_a_corner_stay_in_the_room(wall: Wall, at: int) -> None:
    beside = min(at, 11_500) if wall in (Wall.LEFT, Wall.RIGHT) else at
    mark = Fixture(kind=FixtureKind.DEFIBRILLATOR, wall=wall, at=beside, width=500)
    floor = _sheet(document(10), mark).floor
    drawn = floor_plan_svg(floor)
    found = re.search(r'<text x="(\d+)" y="(\d+)" font-size="600"[^>]*>defibrillator<', drawn)
    assert found
    x, y = int(found[1]), int(found[2])
    middle, length = (y, floor.width_mm) if "rotate(" in found[0] else (x, floor.length_mm)
    half = len("defibrillator") * 600 * 0.25
    assert half <= middle <= length - half


def test_rounds_that_nobody_does_are_not_promised():
    plan = document()
    assert form_words(PlanView(document=plan, names={}, units="kg")).startswith(
        "10 people, 3 rounds, all"
    )
    fewer = tuple(d.model_copy(update={"rounds": (1, 2)}) for d in plan.core.people)
    eased = plan.model_copy(update={"core": plan.core.model_copy(update={"people": fewer})})
    words = form_words(PlanView(document=eased, names={}, units="kg"))
    assert words.startswith("10 people, 2 of 3 rounds (nobody does more today), all together")
