"""The class sheet as one plain page that needs no network, for a stand-in's phone."""

import base64
import hashlib
from functools import cache
from importlib.resources import files

from jinja2 import Environment, StrictUndefined
from markupsafe import Markup

from roundwright.documents.floor_plan_svg import floor_plan_svg
from roundwright.documents.sheet_parts import Move, SheetContent
from roundwright.documents.standing_words import STOP_SIGNS_SOURCE
from roundwright.foundation.words import say, speech

PAGE_SIZES = {"a4": "A4", "letter": "letter"}


def class_sheet_html(content: SheetContent, paper: str = "a4") -> str:
    """Write the class sheet as one self-contained HTML page without script.

    Everything that comes from people's files is escaped.

    Parameters
    ----------
    content : SheetContent
        What it says.
    paper : {'a4', 'letter'}
        The paper that it prints on.
    """
    template = Environment(autoescape=True, undefined=StrictUndefined).from_string(
        _read("class_sheet.html")
    )
    return template.render(
        _=say,
        _language=speech().language[:2],
        sheet=content,
        style=Markup(_style(PAGE_SIZES.get(paper, "A4"))),
        floor_svg=Markup(floor_plan_svg(content.floor)),
        stop_source=say(STOP_SIGNS_SOURCE),
        drawn=_drawn,
    )


def _drawn(move: Move) -> Markup:
    """Set a movement's picture into the page under the movement's name."""
    start = move.picture.index("<title>")
    end = move.picture.index("</title>")
    named = Markup("<title>{}</title>").format(move.name)
    return Markup(move.picture[:start]) + named + Markup(move.picture[end + len("</title>") :])


def style_hash(paper: str = "a4") -> str:
    """Give the content-security-policy source of the page's own style."""
    digest = hashlib.sha256(_style(PAGE_SIZES.get(paper, "A4")).encode()).digest()
    return f"'sha256-{base64.b64encode(digest).decode()}'"


def _style(page_size: str) -> str:
    return _read("class_sheet.css") + f"@page {{ size: {page_size}; margin: 12mm }}"


@cache
def _read(name: str) -> str:
    return (files("roundwright.documents") / "templates" / name).read_text("utf-8")
