"""Cards, personal sheets, room page and script as PDF and as plain pages: pages, papers, type."""

from functools import cache
from html.parser import HTMLParser
from io import BytesIO

import pytest
from pypdf import PdfReader

from roundwright.documents import typst_pages
from roundwright.documents.coach_script import script_of
from roundwright.documents.personal_sheets import personal_of
from roundwright.documents.plan_pages_html import plan_page_html
from roundwright.documents.plan_pages_pdf import CardSize, PlanPage, plan_page_pdf, plan_page_png
from roundwright.documents.room_page import room_of
from roundwright.documents.station_cards import cards_of
from roundwright.foundation.errors import DocumentError
from tests.documents.hand_plans import document, names
from tests.documents.hand_sheet import PRINTED_AT, a_hall, sealed

MAKERS = {"cards": cards_of, "personal": personal_of, "room": room_of, "script": script_of}
SIZES = {"a4": (595, 842), "letter": (612, 792)}
NASTY = "<b>#1 & \"Ann'</b>"


def content(kind: str, people: int = 2, places: int = 5, **how) -> PlanPage:
    shown = {**names(people), **how.pop("shown", {})}
    return MAKERS[kind](sealed(document(people, places, **how)), a_hall(shown), PRINTED_AT)


@cache
def made(kind: str, paper: str = "a4", size: CardSize = CardSize.HALF) -> bytes:
    return plan_page_pdf(content(kind), paper, size)


@cache
def reader(kind: str, paper: str = "a4", size: CardSize = CardSize.HALF) -> PdfReader:
    return PdfReader(BytesIO(made(kind, paper, size)))


def texts(pdf: PdfReader) -> list[str]:
    return [" ".join(page.extract_text().split()) for page in pdf.pages]


@pytest.mark.parametrize("paper", SIZES)
@pytest.mark.parametrize("kind", MAKERS)
def test_every_page_has_its_paper_and_its_mark(kind, paper):
    pdf = reader(kind, paper)
    for page, text in zip(pdf.pages, texts(pdf), strict=True):
        assert (round(page.mediabox.width), round(page.mediabox.height)) == SIZES[paper]
        assert PRINTED_AT in text
        assert "revision 1" in text


@pytest.mark.parametrize("kind", MAKERS)
def test_a_document_is_accessible_titled_and_set_in_one_typeface(kind):
    pdf = reader(kind)
    assert b"pdfuaid" in pdf.trailer["/Root"]["/Metadata"].get_object().get_data()
    assert pdf.metadata.title.endswith("Tuesday circuit, Tuesday 3 March 2026")
    fonts = {
        str(font.get_object()["/BaseFont"])
        for page in pdf.pages
        for font in page["/Resources"]["/Font"].values()
    }
    assert fonts
    assert all("Barlow" in name for name in fonts)


@pytest.mark.parametrize("paper", SIZES)
def test_two_cards_share_a_page_or_each_has_its_own(paper):
    assert len(reader("cards", paper).pages) == 3
    assert len(reader("cards", paper, CardSize.WHOLE).pages) == 5


def sizes_of(pdf: PdfReader, words: str) -> set[float]:
    found = set()

    def visit(text, _matrix, _place, _font, size):
        if words in text:
            found.add(round(size, 1))

    for page in pdf.pages:
        page.extract_text(visitor_text=visit)
    return found


@pytest.mark.parametrize("size", CardSize)
def test_the_name_on_a_card_is_read_from_afar(size):
    found = sizes_of(reader("cards", "a4", size), "Hinge, row")
    assert found
    assert min(found) >= 28


def test_the_script_is_read_at_arm_s_length():
    assert sizes_of(reader("script"), "Push-up against the wall") == {16.0}


@pytest.mark.parametrize("people", [1, 3])
def test_there_is_one_sheet_a_person(people):
    pages = texts(PdfReader(BytesIO(plan_page_pdf(content("personal", people)))))
    shown = list(names(people).values())[:people]
    assert len(pages) == people
    for page, name in zip(pages, shown, strict=True):
        assert name in page
        assert "not medical advice" in page
        assert not any(other in page for other in shown if other != name)


def test_many_places_and_long_names_still_have_one_sheet_a_person():
    plan, shown = document(2, 12), names(2, long=True)
    sheets = plan_page_pdf(personal_of(sealed(plan), a_hall(shown), PRINTED_AT), "letter")
    assert len(PdfReader(BytesIO(sheets)).pages) == 2


@pytest.mark.parametrize("paper", SIZES)
def test_an_ordinary_room_is_one_page(paper):
    plan = sealed(document(16, in_pairs=True))
    one = plan_page_pdf(room_of(plan, a_hall(names(16)), PRINTED_AT), paper)
    (page,) = texts(PdfReader(BytesIO(one)))
    assert all(name in page for name in list(names(16).values())[:16])


@pytest.mark.parametrize("kind", MAKERS)
def test_the_same_content_gives_the_same_bytes(kind):
    assert plan_page_pdf(content(kind)) == made(kind)


def test_an_unknown_paper_is_refused_in_words():
    with pytest.raises(DocumentError, match="no paper called 'a3'"):
        plan_page_pdf(content("room"), "a3")


def test_a_warning_is_a_failure(monkeypatch):
    monkeypatch.setattr(typst_pages, "font_folders", list)
    with pytest.raises(DocumentError, match="The script was set with a warning: unknown font"):
        plan_page_pdf(content("script"))


def test_a_picture_is_made_of_every_page():
    drawn = plan_page_png(content("personal"), ppi=30)
    assert len(drawn) == 2
    assert all(page.startswith(b"\x89PNG") for page in drawn)


class _Tags(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.open: list[str] = []
        self.seen: list[str] = []

    def handle_starttag(self, tag, attrs):
        self.seen.append(tag)
        if tag not in ("meta", "link", "br"):
            self.open.append(tag)

    def handle_endtag(self, tag):
        assert self.open.pop() == tag


@pytest.mark.parametrize("kind", MAKERS)
def test_a_plain_page_is_sound_alone_and_escapes_names(kind):
    html = plan_page_html(content(kind, shown={"p001": NASTY}), "letter")
    tags = _Tags()
    tags.feed(html)
    assert tags.open == []
    assert not {"script", "link", "img"} & set(tags.seen)
    assert "size: letter" in html
    assert "<b>" not in html
    assert ("&lt;b&gt;" in html) == (kind in ("personal", "room"))


def test_plain_pages_say_what_the_paper_says():
    html = plan_page_html(content("script", 4))
    for words in ("Knees follow the toes.", "Jump to a low box.", "not medical advice"):
        assert words in html
    assert "20 dumbbells" not in plan_page_html(content("room", 1))
    assert "pair" in plan_page_html(content("cards"))
