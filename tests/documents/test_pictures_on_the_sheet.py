"""Small figures on page one: whose, how many, and that two pages hold."""

from dataclasses import replace
from io import BytesIO

import pytest
from pypdf import PdfReader

from roundwright.body.anatomy import Side
from roundwright.body.moving_sequence import MovingSequence
from roundwright.bootstrap.shipped_pictures import ShippedPictures
from roundwright.documents.class_sheet_html import class_sheet_html
from roundwright.documents.class_sheet_pdf import class_sheet_pdf
from roundwright.documents.sheet_content import SheetContent, sheet_of
from roundwright.documents.sheet_parts import Move
from tests.documents.hand_plans import document, names
from tests.documents.hand_sheet import PRINTED_AT, a_hall, sealed

SVG = ShippedPictures().small("dumbbell_squat") or ""


class AnyPictures:
    """Draws every movement alike, whatever it is called."""

    def small(self, movement_id: str, side: Side = Side.LEFT) -> str | None:
        return SVG

    def key_pictures(self, movement_id: str) -> tuple[str, ...]:
        return (SVG, SVG)

    def moving(self, steps: object) -> MovingSequence | None:
        return None


def a_sheet(people: int = 10, *, long_names: bool = False) -> SheetContent:
    shown = names(people, long=long_names)
    return sheet_of(sealed(document(people)), a_hall(shown), PRINTED_AT, AnyPictures())


@pytest.mark.parametrize("paper", ["a4", "letter"])
@pytest.mark.parametrize(("people", "long_names"), [(1, False), (10, False), (16, True)])
def test_two_pages_hold_with_figures(people: int, long_names: bool, paper: str) -> None:
    content = a_sheet(people, long_names=long_names)
    reader = PdfReader(BytesIO(class_sheet_pdf(content, paper)))  # type: ignore[arg-type]
    assert len(reader.pages) == 2


def test_each_exercise_shows_the_movements_of_what_most_people_do_once_each() -> None:
    for block in a_sheet().exercises:
        assert block.moves
        drawn = [move.movement_id for move in block.moves if move.picture]
        assert len(drawn) == len(set(drawn))
        assert set(drawn) == {move.movement_id for move in block.moves}


def test_a_figure_makes_page_one_longer_in_bytes_and_is_told_aloud() -> None:
    content = a_sheet(4)
    bare = replace(content, exercises=tuple(replace(e, moves=()) for e in content.exercises))
    assert len(class_sheet_pdf(content)) > len(class_sheet_pdf(bare)) + 1000
    page = class_sheet_html(content)
    first = content.exercises[0].moves[0]
    assert f"<title>{first.name}</title>" in page
    assert class_sheet_html(bare).count("<svg") < page.count("<svg")


def test_a_name_with_markup_stays_words_in_the_plain_page() -> None:
    content = a_sheet(2)
    move = Move("probe", "<b>Bold & co</b>", "both", SVG, 2.0)
    block = replace(content.exercises[0], moves=(move,))
    page = class_sheet_html(replace(content, exercises=(block, *content.exercises[1:])))
    assert "<title>&lt;b&gt;Bold &amp; co&lt;/b&gt;</title>" in page


def test_without_somebody_who_draws_there_are_no_figures() -> None:
    plain = sheet_of(sealed(document(3)), a_hall(names(3)), PRINTED_AT)
    assert all(block.moves == () for block in plain.exercises)
