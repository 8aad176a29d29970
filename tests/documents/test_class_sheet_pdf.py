"""The paper: pages, papers, what stands on it, and what never does."""

from dataclasses import replace
from io import BytesIO

import pytest
from pypdf import PdfReader

from roundwright.documents import class_sheet_pdf as module
from roundwright.documents.class_sheet_pdf import class_sheet_pdf, class_sheet_png
from roundwright.foundation.errors import DocumentError
from tests.documents.hand_sheet import PRINTED_AT, a_sheet

MARKUP = r"#1 [x]*$<b>_`@\ Ana"


def pages(content: object, paper: str = "a4") -> list[str]:
    reader = PdfReader(BytesIO(class_sheet_pdf(content, paper)))  # type: ignore[arg-type]
    return [" ".join(page.extract_text().split()) for page in reader.pages]


@pytest.mark.parametrize("paper", ["a4", "letter"])
@pytest.mark.parametrize("people", [1, 10, 16])
def test_to_sixteen_people_there_are_exactly_two_pages(people: int, paper: str) -> None:
    assert len(pages(a_sheet(people, in_pairs=people == 10), paper)) == 2


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_the_longest_names_still_fit_two_pages(paper: str) -> None:
    assert len(pages(a_sheet(16, long_names=True), paper)) == 2


@pytest.mark.parametrize("people", [17, 40])
def test_more_people_have_an_annex(people: int) -> None:
    found = pages(a_sheet(people))
    assert len(found) == 3
    assert "Annex: people" in found[2]
    assert "To talk to before they train: Quin Z" in found[2]


@pytest.mark.parametrize(("paper", "size"), [("a4", (595, 842)), ("letter", (612, 792))])
def test_the_paper_has_its_size(paper: str, size: tuple[int, int]) -> None:
    box = PdfReader(BytesIO(class_sheet_pdf(a_sheet(2), paper))).pages[0].mediabox  # type: ignore[arg-type]
    assert (round(box.width), round(box.height)) == size


def test_an_unknown_paper_is_refused_in_words() -> None:
    with pytest.raises(DocumentError, match="no paper called 'a3'"):
        class_sheet_pdf(a_sheet(1), "a3")  # type: ignore[arg-type]


def test_page_one_runs_the_class_and_page_two_sets_it_up() -> None:
    one, two = pages(a_sheet(10))
    for words in ("Tuesday circuit", "18:17:00", "pair 6", "Coach:", "The press decides", "Burst"):
        assert words in one
    assert PRINTED_AT in one
    assert "Reprint if the plan has changed" in one
    for words in ("Set out", "Hand over", "Where people stand", "What to say", "Emergency"):
        assert words in two
    for words in ("not medical advice", "From memory, general indications", "three questions"):
        assert words in two


def test_everyone_stands_on_page_one() -> None:
    one = pages(a_sheet(16))[0]
    for person in a_sheet(16).people:
        assert person.name in one


def test_words_are_never_read_as_markup() -> None:
    content = a_sheet(2, shown={"p001": MARKUP, "p002": "Ben O"})
    one = pages(content)[0]
    assert MARKUP.replace(" ", "") in one.replace(" ", "")


def test_the_document_is_accessible_and_titled() -> None:
    reader = PdfReader(BytesIO(class_sheet_pdf(a_sheet(2))))
    assert reader.metadata is not None
    assert reader.metadata.title == "Tuesday circuit, Tuesday 3 March 2026"
    assert b"pdfuaid" in reader.trailer["/Root"]["/Metadata"].get_object().get_data()
    assert reader.trailer["/Root"]["/MarkInfo"]["/Marked"]


def test_only_the_project_s_typeface_is_in_it() -> None:
    reader = PdfReader(BytesIO(class_sheet_pdf(a_sheet(2))))
    fonts = {
        str(font.get_object()["/BaseFont"])
        for page in reader.pages
        for font in page["/Resources"]["/Font"].values()
    }
    assert fonts
    assert all("Barlow" in name for name in fonts)


def test_the_same_sheet_gives_the_same_bytes() -> None:
    assert class_sheet_pdf(a_sheet(4)) == class_sheet_pdf(a_sheet(4))


def test_a_picture_is_made_of_every_page() -> None:
    pictures = class_sheet_png(a_sheet(2), "a4", 40)
    assert len(pictures) == 2
    assert all(picture.startswith(b"\x89PNG") for picture in pictures)


def test_a_warning_is_a_failure(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(module, "font_folders", list)
    with pytest.raises(DocumentError, match="unknown font family"):
        class_sheet_pdf(a_sheet(1))


def test_findings_and_emergency_words_are_printed() -> None:
    content = replace(
        a_sheet(3), findings=("Check this load first.",), emergency=("Door by the car park.",)
    )
    two = pages(content)[1]
    assert "Check this load first." in two
    assert "Door by the car park." in two


def test_letters_beyond_latin_are_printed() -> None:
    content = a_sheet(2, shown={"p001": "Łukasz Ж", "p002": "Νίκος Π"})
    assert "Łukasz Ж" in pages(content)[0]


def test_a_letter_without_a_typeface_is_refused_with_a_way_out() -> None:
    with pytest.raises(DocumentError) as raised:
        class_sheet_pdf(a_sheet(2, shown={"p001": "\U0010fffd", "p002": "Ben O"}))
    assert "plain page" in raised.value.next_step
