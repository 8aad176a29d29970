"""Station cards, personal sheets, room page and script on paper."""

from collections.abc import Callable
from dataclasses import asdict
from enum import StrEnum

from roundwright.documents.coach_script import ScriptContent
from roundwright.documents.floor_plan_svg import floor_plan_svg
from roundwright.documents.personal_sheets import PersonalContent
from roundwright.documents.room_page import RoomContent, minutes_words
from roundwright.documents.station_cards import CardsContent
from roundwright.documents.typst_pages import set_pages

PlanPage = CardsContent | PersonalContent | RoomContent | ScriptContent


class CardSize(StrEnum):
    """How large a station card is."""

    HALF = "half"
    WHOLE = "whole"


def plan_page_pdf(
    content: PlanPage, paper: str = "a4", card_size: CardSize = CardSize.HALF
) -> bytes:
    """Set a document of a plan as an accessible PDF (PDF/UA-1), in black and white.

    Parameters
    ----------
    content : PlanPage
        Cards, personal sheets, room page or script.
    paper : {'a4', 'letter'}
        The paper.
    card_size : CardSize
        Two station cards on a page or one; a card with very many versions has its own page.

    Returns
    -------
    bytes
        The same content gives the same bytes.

    Raises
    ------
    DocumentError
        When the paper is unknown or the page cannot be set without a warning.
    """
    return _set(content, paper, card_size, None)[0]


def plan_page_png(
    content: PlanPage, paper: str = "a4", card_size: CardSize = CardSize.HALF, ppi: float = 80
) -> list[bytes]:
    """Set a document of a plan as one picture a page, for looking at.

    Raises
    ------
    DocumentError
        When the paper is unknown or the page cannot be set without a warning.
    """
    return _set(content, paper, card_size, ppi)


def _set(content: PlanPage, paper: str, card_size: CardSize, ppi: float | None) -> list[bytes]:
    template, what, inputs = _INPUTS[type(content)]
    words = inputs(content)
    words["size"] = card_size.value
    return set_pages(template, words, paper, what=what, ppi=ppi)


def _plain(content: PlanPage) -> dict[str, object]:
    return {"content": asdict(content)}


def _room(content: PlanPage) -> dict[str, object]:
    assert isinstance(content, RoomContent)
    told = asdict(content)
    for step, shown in zip(content.steps, told["steps"], strict=True):
        shown["minutes"] = minutes_words(step.length_s)
    return {"content": told, "floor_svg": floor_plan_svg(content.floor)}


_INPUTS: dict[type, tuple[str, str, Callable[[PlanPage], dict[str, object]]]] = {
    CardsContent: ("station_cards.typ", "The station cards", _plain),
    PersonalContent: ("personal_sheets.typ", "The personal sheets", _plain),
    RoomContent: ("room_page.typ", "The room page", _room),
    ScriptContent: ("coach_script.typ", "The script", _plain),
}
