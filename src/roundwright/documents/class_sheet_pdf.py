"""The class sheet on paper: typst sets it, the words come in as data."""

from dataclasses import asdict

from roundwright.documents.floor_plan_svg import floor_plan_svg
from roundwright.documents.sheet_parts import SheetContent
from roundwright.documents.standing_words import STOP_SIGNS_SOURCE
from roundwright.documents.typst_pages import Paper, font_folders, set_pages
from roundwright.foundation.words import say


def class_sheet_pdf(content: SheetContent, paper: Paper = "a4") -> bytes:
    """Set the class sheet as an accessible PDF (PDF/UA-1).

    Parameters
    ----------
    content : SheetContent
        What it says.
    paper : {'a4', 'letter'}
        The paper.

    Returns
    -------
    bytes
        Two pages for up to 16 people and an ordinary class, else annex pages after them;
        the same content gives the same bytes.

    Raises
    ------
    DocumentError
        When the paper is unknown or the page cannot be set without a warning.
    """
    return _compiled(content, paper)[0]


def class_sheet_png(content: SheetContent, paper: Paper = "a4", ppi: float = 110) -> list[bytes]:
    """Set the class sheet as one picture a page, for looking at.

    Raises
    ------
    DocumentError
        When the paper is unknown or the page cannot be set without a warning.
    """
    return _compiled(content, paper, ppi)


def _compiled(content: SheetContent, paper: str, ppi: float | None = None) -> list[bytes]:
    inputs: dict[str, object] = {
        "content": asdict(content),
        "floor_svg": floor_plan_svg(content.floor),
        "stop_source": say(STOP_SIGNS_SOURCE),
    }
    return set_pages(
        "class_sheet.typ",
        inputs,
        paper,
        what="The class sheet",
        ppi=ppi,
        fonts=font_folders(),
    )
