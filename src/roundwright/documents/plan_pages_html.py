"""Station cards, personal sheets, room page and script as plain pages that need no network."""

from collections.abc import Iterable
from functools import cache
from importlib.resources import files

from jinja2 import DictLoader, Environment, StrictUndefined
from markupsafe import Markup

from roundwright.documents.coach_script import ScriptContent
from roundwright.documents.floor_plan_svg import floor_plan_svg
from roundwright.documents.personal_sheets import PersonalContent
from roundwright.documents.plan_pages_pdf import PlanPage
from roundwright.documents.room_page import RoomContent, minutes_words
from roundwright.documents.station_cards import CardsContent, Drawing
from roundwright.foundation.words import say, speech

PAGE_SIZES = {"a4": "A4", "letter": "letter"}
_BASE = "plan_page.html"
PAGES: dict[type, tuple[str, str]] = {
    CardsContent: ("station_cards.html", "Station cards"),
    PersonalContent: ("personal_sheets.html", "Personal sheets"),
    RoomContent: ("room_page.html", "Kit and floor plan"),
    ScriptContent: ("coach_script.html", "What to say"),
}


def plan_page_html(content: PlanPage, paper: str = "a4") -> str:
    """Write a document of a plan as one self-contained HTML page without script.

    Everything that comes from people's files is escaped.

    Parameters
    ----------
    content : PlanPage
        Cards, personal sheets, room page or script.
    paper : {'a4', 'letter'}
        The paper that it prints on.
    """
    name, what = PAGES[type(content)]
    page = f"@page {{ size: {PAGE_SIZES.get(paper, 'A4')}; margin: 12mm }}"
    return (
        _environment()
        .get_template(name)
        .render(
            _=say,
            _language=speech().language[:2],
            content=content,
            head=content.heading,
            what=say(what),
            style=Markup(_read("plan_page.css") + page),
            drawings=_drawings,
            minutes=minutes_words,
            floor_svg=Markup(floor_plan_svg(content.floor))
            if isinstance(content, RoomContent)
            else "",
        )
    )


def _drawings(all_of_them: Iterable[Drawing]) -> Markup:
    drawn = [_drawn(one) for one in all_of_them if one.picture]
    return (
        Markup('<div class="drawn">{}</div>').format(Markup("").join(drawn)) if drawn else Markup()
    )


def _drawn(one: Drawing) -> Markup:
    """Set a picture into the page under the movement's name."""
    start, end = one.picture.index("<title>"), one.picture.index("</title>")
    named = Markup("<title>{}</title>").format(one.name)
    return Markup(one.picture[:start]) + named + Markup(one.picture[end + len("</title>") :])


@cache
def _environment() -> Environment:
    names = (_BASE, *(name for name, _ in PAGES.values()))
    loader = DictLoader({name: _read(name) for name in names})
    return Environment(loader=loader, autoescape=True, undefined=StrictUndefined)


@cache
def _read(name: str) -> str:
    return (files("roundwright.documents") / "templates" / name).read_text("utf-8")
