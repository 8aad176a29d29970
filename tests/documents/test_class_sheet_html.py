"""The plain page: self-contained, escaped, without script and without reasons."""

from html.parser import HTMLParser

from roundwright.documents.class_sheet_html import class_sheet_html, style_hash
from roundwright.documents.class_sheet_pdf import class_sheet_pdf
from roundwright.documents.floor_plan_svg import floor_plan_svg
from roundwright.documents.sheet_content import sheet_of
from roundwright.hall.hall import Hall
from roundwright.people.limitation import Amount, Concern, Limitation
from tests.documents.hand_plans import document, names
from tests.documents.hand_sheet import PRINTED_AT, a_hall, a_sheet, sealed
from tests.support.builders import CLASS_DAY


class Tags(HTMLParser):
    """Collect what a page would load or run."""

    def __init__(self) -> None:
        super().__init__()
        self.found: list[str] = []
        self.outside: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.found.append(tag)
        self.outside += [v for k, v in attrs if k in ("src", "href", "action") and v]
        self.outside += [k for k, _ in attrs if k.startswith("on") or k == "style"]


def test_the_page_loads_and_runs_nothing() -> None:
    tags = Tags()
    tags.feed(class_sheet_html(a_sheet(10)))
    assert tags.outside == []
    assert not {"script", "link", "iframe", "img"} & set(tags.found)


def test_names_are_escaped() -> None:
    html = class_sheet_html(a_sheet(2, shown={"p001": "<b onclick=x>&\"'", "p002": "Ben O"}))
    assert "<b onclick" not in html
    assert "&lt;b onclick=x&gt;&amp;&#34;&#39;" in html


def test_the_drawing_escapes_its_words() -> None:
    assert "<svg" in floor_plan_svg(a_sheet(2).floor)
    assert floor_plan_svg(a_sheet(2).floor) == floor_plan_svg(a_sheet(2).floor)


def test_the_style_hash_is_of_the_style_that_is_served() -> None:
    assert style_hash("a4") != style_hash("letter")
    assert "size: letter" in class_sheet_html(a_sheet(1), "letter")


def test_everyone_and_every_time_is_on_the_page() -> None:
    sheet = a_sheet(16)
    html = class_sheet_html(sheet)
    for person in sheet.people:
        assert person.name in html
    for exercise in sheet.exercises:
        assert all(start in html for start in exercise.starts)


def test_no_reason_and_no_health_word_reaches_a_document() -> None:
    hall = a_hall(names(10))
    marked = Hall(
        **(
            dict(hall)
            | {
                "limitations": tuple(
                    Limitation(
                        person_id="p003",
                        concern=concern,
                        amount=Amount.AVOID,
                        from_on=CLASS_DAY,
                        override_reason="canary-reason",
                    )
                    for concern in (Concern.HERNIA, Concern.EPILEPSY, Concern.OSTEOPOROSIS)
                )
            }
        )
    )
    sheet = sheet_of(sealed(document(10)), marked, PRINTED_AT)
    written = class_sheet_html(sheet) + repr(sheet)
    for word in ("hernia", "epilepsy", "osteoporosis", "canary", "not_cleared", "moderate_only"):
        assert word not in written.lower()
    assert class_sheet_pdf(sheet)
