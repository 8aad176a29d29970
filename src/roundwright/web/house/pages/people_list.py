"""A list of people brought in: matched column by column, previewed whole, kept when it is right."""

from typing import Annotated

from fastapi import APIRouter, Depends
from starlette.responses import HTMLResponse, Response

from roundwright.accounts.account import May
from roundwright.foundation.errors import BadInputError, ChangedMeanwhileError
from roundwright.hall.people_text import PEOPLE_COLUMNS
from roundwright.services.keeping.people_import import PeoplePreview, preview_people
from roundwright.services.keeping.records import KeptHall
from roundwright.web.house.answers import see
from roundwright.web.house.visit import FormSent, Needs, Sent, Visit
from roundwright.web.texts import say_again

router = APIRouter()
AT = "/at/{hall_id}/people-list"
ChangeVisit = Annotated[Visit, Depends(Needs(May.CHANGE_PEOPLE))]
MOST_CHARACTERS = 2_000_000
"""Of a list; our choice."""
NOT_USED = "-"
LIST_NAME = "the list"


@router.get(AT)
def people_list(visit: ChangeVisit) -> HTMLResponse:
    """Ask for a list."""
    visit.kept_hall()
    return _page(visit, Sent(), None)


@router.post(AT)
def read_list(visit: ChangeVisit, sent: FormSent) -> Response:
    """Show what a list would do; keep it where that was asked for and nothing stands against it."""
    kept, text = visit.kept_hall(), _text(sent)
    if len(text) > MOST_CHARACTERS:
        return _page(visit, Sent(), None, visit.say("The list is too long."), 422)
    preview = _preview(visit, kept, text, sent)
    if sent.text("keep") != "yes" or preview.faults or not preview.edits:
        status = 422 if preview.faults else 200
        return _page(visit, sent, preview, status=status, text=text, version=kept.version)
    if sent.whole("version") != kept.version:
        words = visit.say("The hall was changed meanwhile: look at the list once more.")
        return _page(visit, sent, preview, words, 409, text=text, version=kept.version)
    try:
        visit.house.keeping.halls.edit(kept.hall_id, preview.edits, visit.by)
    except (ChangedMeanwhileError, BadInputError) as error:
        told = f"{say_again(error.detail)} {say_again(error.next_step)}"
        return _page(visit, sent, preview, told, error.entry.status, text, kept.version)
    return see(f"{visit.at}/people")


def _text(sent: Sent) -> str:
    file = sent.files.get("file", b"")
    if file:
        return file[: MOST_CHARACTERS + 1].decode("utf-8-sig", errors="replace")
    return sent.text("text").replace("\r\n", "\n")


def _preview(visit: Visit, kept: KeptHall, text: str, sent: Sent) -> PeoplePreview:
    choice: dict[str, str | None] = {}
    for number, header in enumerate(sent.lists.get("header", ())):
        column = sent.text(f"column_{number}")
        if column:
            choice[header] = None if column == NOT_USED else column
    return preview_people(
        LIST_NAME,
        text.encode(),
        kept,
        visit.house.keeping.halls.person_ids(kept.hall_id),
        may_health=visit.may(May.CHANGE_HEALTH),
        choice=choice,
    )


def _page(
    visit: Visit,
    sent: Sent,
    preview: PeoplePreview | None,
    told: str = "",
    status: int = 200,
    text: str = "",
    version: int | None = None,
) -> HTMLResponse:
    say = visit.say
    columns = [("", say("as found")), (NOT_USED, say("not used"))]
    columns += [(name, name.replace("_", " ")) for name in PEOPLE_COLUMNS]
    return visit.page(
        "people_list.html",
        status,
        here="people",
        preview=preview,
        told=told,
        text=text,
        version=version,
        columns=columns,
        chosen=[sent.text(f"column_{n}") for n in range(len(preview.columns) if preview else 0)],
        states={"new": say("new"), "changed": say("changed"), "same": say("as it was")},
    )
