"""Warm-up and cool-down on the sheet: one line a piece, who does another version, two pages."""

from dataclasses import replace
from io import BytesIO

import pytest
from jinja2 import Environment, PackageLoader, StrictUndefined
from pypdf import PdfReader

from roundwright.bootstrap.shipped_library import shipped_catalogue
from roundwright.documents.class_sheet_html import class_sheet_html
from roundwright.documents.class_sheet_pdf import class_sheet_pdf
from roundwright.documents.sheet_content import sheet_of
from roundwright.documents.sheet_parts import PieceLine, SheetContent
from roundwright.plan.core import Piece, PieceKind
from roundwright.web.texts import SOURCE_LANGUAGE, words_of
from tests.documents.hand_plans import document, names
from tests.documents.hand_sheet import PRINTED_AT, a_hall, a_sheet, sealed

FINDINGS = tuple(
    f"Load number {k} is assumed: check it at the start and go lighter." for k in range(5)
)
SHIPPED = shipped_catalogue()
WARM_UP = (
    ("pulse_raisers", "pulse", "seated_march", "step_touch"),
    ("knee_bends", "mobilise", "seated_knee_straighten", "wall_knee_bend"),
    ("hip_circles", "mobilise", "seated_hip_tilt", "wall_hip_circle"),
    ("shoulder_rolls", "mobilise", "seated_shoulder_roll", "standing_arm_sweep"),
    ("balance_stands", "mobilise", "seated_side_lean", "wall_one_leg_stand"),
    ("squats", "pattern", "chair_sit_to_stand", "chair_sit_to_stand"),
    ("hinges", "pattern", "wall_touch_hinge", "wall_touch_hinge"),
    ("split_squats", "pattern", "supported_split_squat", "supported_split_squat"),
    ("push_ups", "pattern", "wall_push_up", "wall_push_up"),
    ("pull_backs", "pattern", "seated_pull_back", "standing_pull_back"),
    ("landing_drills", "landing", "wall_heel_raise", "drop_and_hold"),
)
COOL_DOWN = (
    ("easy_walks", "walk", "march_on_the_spot", "easy_walk"),
    ("thigh_stretches", "floor", "seated_heel_tuck", "wall_thigh_stretch"),
    ("hip_stretches", "floor", "seated_hip_tilt", "wall_hip_stretch"),
    ("chest_stretches", "floor", "seated_chest_opener", "wall_chest_stretch"),
    ("back_stretches", "floor", "seated_forward_reach", "wall_back_reach"),
)


def _pieces(kind: PieceKind, rows: tuple[tuple[str, ...], ...], ids: list[str]) -> list[Piece]:
    """Give every third person the easier version; the last person rests but for pulse and walk."""
    made = []
    for line_id, why, easier, usual in rows:
        versions = {p: usual if k % 3 else easier for k, p in enumerate(ids)}
        if why not in ("pulse", "walk"):
            del versions[ids[-1]]
        values = {"kind": kind, "line_id": line_id, "length_s": 45, "why": why}
        made.append(Piece.model_validate(values | {"versions": versions}))
    return made


def a_full_sheet(people: int = 16, *, long_names: bool = False) -> SheetContent:
    """Make the hand-written class with as many pieces as a class can have."""
    plan = document(people)
    ids = [dose.person_id for dose in plan.core.people]
    pieces = (
        *_pieces(PieceKind.WARM_UP, WARM_UP, ids),
        *_pieces(PieceKind.COOL_DOWN, COOL_DOWN, ids),
    )
    own = plan.problem.library
    library = own.model_copy(
        update={
            "movements": SHIPPED.movements | own.movements,
            "lines": SHIPPED.lines | own.lines,
        }
    )
    plan = plan.model_copy(
        update={
            "problem": plan.problem.model_copy(update={"library": library}),
            "core": plan.core.model_copy(update={"pieces": pieces}),
        }
    )
    return sheet_of(sealed(plan), a_hall(names(people, long=long_names)), PRINTED_AT)


def line(sheet: SheetContent, name: str) -> PieceLine:
    """Find one piece by what most people do."""
    return next(p for p in (*sheet.warm_up, *sheet.cool_down) if p.name == name)


def pages(sheet: SheetContent, paper: str = "a4") -> list[str]:
    """Give the words of each page."""
    reader = PdfReader(BytesIO(class_sheet_pdf(sheet, paper)))  # type: ignore[arg-type]
    return [" ".join(page.extract_text().split()) for page in reader.pages]


def test_without_pieces_nothing_is_said_of_them() -> None:
    sheet = a_sheet(10)
    assert (sheet.warm_up, sheet.cool_down) == ((), ())
    assert "chair, in warm-up or cool-down" not in {row.what for row in sheet.kit}
    assert "<h3>Warm-up</h3>" not in class_sheet_html(sheet)


@pytest.mark.parametrize("paper", ["a4", "letter"])
@pytest.mark.parametrize("long_names", [False, True])
def test_sixteen_people_with_pieces_and_findings_keep_two_pages(
    paper: str, long_names: bool
) -> None:
    sheet = replace(a_full_sheet(16, long_names=long_names), findings=FINDINGS)
    assert (len(sheet.warm_up), len(sheet.cool_down)) == (11, 5)
    found = pages(sheet, paper)
    assert len(found) == 2
    for piece in (*sheet.warm_up, *sheet.cool_down):
        assert f"{piece.name} {piece.length}" in found[0]
        if long_names:
            assert f"{piece.name}: {piece.steps[0]} {piece.cue}" in found[1]
        else:
            assert f"{piece.steps[0]} {piece.cue}" in found[0]


def test_the_easier_version_and_who_rests_are_said_with_names() -> None:
    piece = line(a_full_sheet(10), "Hip circle at the wall")
    assert piece.others == (("Seated hip tilt", ("Ana R", "Dov K", "Gwen T")),)
    assert piece.resting == ("Jon B",)
    assert (piece.length, piece.how) == ("45 s", "")


def test_practice_says_how_often() -> None:
    sheet = a_full_sheet(10)
    assert line(sheet, "Wall push-up").how == "5 slow"
    assert line(sheet, "Supported split squat").how == "5 slow a side"


def test_who_lands_is_named_even_when_they_are_most() -> None:
    sheet = a_full_sheet(10)
    assert not any(p.name == "Low drop and hold" for p in sheet.warm_up)
    ((name, people),) = line(sheet, "Heel raise at the wall").others
    assert name == "Low drop and hold, 5 landings"
    assert people == ("Ben O", "Cleo M", "Edda S", "Finn A", "Hugo P", "Iris N")


def test_how_to_land_is_said_on_paper_and_page() -> None:
    sheet = a_full_sheet(10)
    ((name, words),) = line(sheet, "Heel raise at the wall").landings
    assert words.endswith("Land without a sound.")
    assert f"{name}: {words}" in pages(sheet)[0]
    assert f"{name}: {words}".replace("'", "&#39;") in class_sheet_html(sheet)


def test_chairs_for_the_warm_up_are_among_what_is_set_out() -> None:
    rows = {row.what: row for row in a_full_sheet(10).kit}
    # Nine sit to stand at once, the last person rests then but sits for the pulse.
    assert rows["chair, in warm-up or cool-down"].how_many == 9
    assert len(rows["chair, in warm-up or cool-down"].people) == 10


def test_where_names_leave_no_room_people_stand_by_number() -> None:
    one = pages(a_full_sheet(16, long_names=True))[0]
    assert "People by their numbers, as on the floor plan." in one
    assert "Seated hip tilt: 1, 4, 7, 10, 13" in one
    assert "by their numbers" not in pages(a_full_sheet(16))[0]


def test_a_large_class_with_pieces_still_has_one_page_each_and_an_annex() -> None:
    sheet = a_full_sheet(40)
    found = pages(sheet)
    assert len(found) == 3
    for piece in (*sheet.warm_up, *sheet.cool_down):
        assert f"{piece.name}: {piece.steps[0]} {piece.cue}" in found[2]


def test_the_plain_page_says_set_up_and_every_step() -> None:
    sheet = a_full_sheet(10)
    html = class_sheet_html(sheet)
    for piece in (*sheet.warm_up, *sheet.cool_down):
        assert piece.set_up.replace("'", "&#39;") in html
        assert all(step.replace("'", "&#39;") in html for step in piece.steps)


def test_the_page_s_own_lines_name_who_does_another_version_and_who_rests() -> None:
    piece = PieceLine(
        name="Ankle rock",
        length="45 s",
        how="",
        set_up="Stand.",
        steps=("Rock.",),
        cue="Heel heavy.",
        landings=(),
        others=(("Seated ankle circle", ("<Ana>", "Ben O")),),
        resting=("Cleo M",),
    )
    pages_of = Environment(
        loader=PackageLoader("roundwright.web"), autoescape=True, undefined=StrictUndefined
    )
    pages_of.globals["_"] = words_of(SOURCE_LANGUAGE)
    written = str(pages_of.get_template("pieces.html").module.pieces((piece,)))  # type: ignore[attr-defined]
    assert "Seated ankle circle</span>: &lt;Ana&gt;, Ben O." in written
    assert "Rests: Cleo M." in written
    assert str(pages_of.get_template("pieces.html").module.pieces(())) == ""  # type: ignore[attr-defined]
