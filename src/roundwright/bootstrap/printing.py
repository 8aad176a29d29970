"""What a class needs on paper or as a file, made from a plan that the gate passes today."""

from collections.abc import Callable
from dataclasses import dataclass
from enum import StrEnum
from pathlib import Path
from typing import Literal

from roundwright.bootstrap.wiring import Adapters, PaperSize
from roundwright.documents.class_calendar import class_calendar
from roundwright.documents.coach_script import script_of
from roundwright.documents.personal_sheets import personal_of
from roundwright.documents.plan_pages_html import plan_page_html
from roundwright.documents.plan_pages_pdf import CardSize, PlanPage, plan_page_pdf
from roundwright.documents.room_page import room_of
from roundwright.documents.sheet_content import sheet_of
from roundwright.documents.station_cards import cards_of
from roundwright.foundation.errors import StoreError
from roundwright.hall.hall import Hall
from roundwright.plan.document import PlanDocument
from roundwright.plan.gate.checked_plan import CheckedPlan, check
from roundwright.services.plan_of_today import plan_of_today

PageForm = Literal["pdf", "html"]


class Printed(StrEnum):
    """What may be printed of a plan."""

    SHEET = "sheet"
    CARDS = "cards"
    PERSONAL = "personal"
    ROOM = "room"
    SCRIPT = "script"
    CALENDAR = "calendar"


FILE_NAMES = {
    Printed.SHEET: "class_sheet",
    Printed.CARDS: "station_cards",
    Printed.PERSONAL: "personal_sheets",
    Printed.ROOM: "kit_and_floor",
    Printed.SCRIPT: "script",
    Printed.CALENDAR: "class",
}


@dataclass(frozen=True, slots=True)
class PrintWish:
    """What is wanted: which documents, paper, pages or plain HTML, card size, names in a file."""

    what: tuple[Printed, ...]
    paper: PaperSize = "a4"
    form: PageForm = "pdf"
    card_size: CardSize = CardSize.HALF
    with_names: bool = False


def print_plan(
    adapters: Adapters, document: PlanDocument, hall: Hall, wish: PrintWish, folder: Path
) -> tuple[Path, ...]:
    """Make documents of a plan, then write them into a folder: all are made, or none is written.

    The gate judges the plan by itself, and by who the people are and what the hall has today.

    Raises
    ------
    UnsafePlanError
        The gate stops or refuses the plan.
    NotFoundError
        The hall no longer has the plan's class.
    DocumentError
        A page could not be made.
    StoreError
        A file could not be written.
    """
    checked = _checked_today(document, hall)
    made = [
        (file_name(what, wish.form), _made(adapters, checked, hall, what, wish))
        for what in dict.fromkeys(wish.what)
    ]
    return tuple(_written(folder / name, data) for name, data in made)


def printed(
    adapters: Adapters, document: PlanDocument, hall: Hall, what: Printed, wish: PrintWish
) -> bytes:
    """Make one document of a plan, judged as for `print_plan`.

    Raises
    ------
    UnsafePlanError, NotFoundError, DocumentError
        As `print_plan`.
    """
    return _made(adapters, _checked_today(document, hall), hall, what, wish)


def _checked_today(document: PlanDocument, hall: Hall) -> CheckedPlan:
    check(document)
    return check(plan_of_today(document, hall))


def file_name(what: Printed, form: PageForm) -> str:
    """Give the name of a file; it never holds a person's name."""
    return f"{FILE_NAMES[what]}.{'ics' if what is Printed.CALENDAR else form}"


def _made(
    adapters: Adapters, checked: CheckedPlan, hall: Hall, what: Printed, wish: PrintWish
) -> bytes:
    stamp, pictures = adapters.clock.stamp(), adapters.pictures_of(hall)
    if what is Printed.CALENDAR:
        return class_calendar(checked, hall, adapters.clock.instant(), with_names=wish.with_names)
    if what is Printed.SHEET:
        sheet = sheet_of(checked, hall, stamp, pictures)
        if wish.form == "pdf":
            return adapters.sheet_pdf(sheet, wish.paper)
        return adapters.sheet_html(sheet, wish.paper).encode()
    contents: dict[Printed, Callable[[], PlanPage]] = {
        Printed.CARDS: lambda: cards_of(checked, hall, stamp, pictures),
        Printed.PERSONAL: lambda: personal_of(checked, hall, stamp, pictures),
        Printed.ROOM: lambda: room_of(checked, hall, stamp),
        Printed.SCRIPT: lambda: script_of(checked, hall, stamp),
    }
    content = contents[what]()
    if wish.form == "html":
        return plan_page_html(content, wish.paper).encode()
    return plan_page_pdf(content, wish.paper, wish.card_size)


def _written(path: Path, data: bytes) -> Path:
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(data)
    except OSError as error:
        raise StoreError(
            f"{path} could not be written: {error.strerror}.", "Check the folder."
        ) from error
    return path
