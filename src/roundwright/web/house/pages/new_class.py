"""New class: a form with few fields, or the class typed in plain words and read back."""

from typing import Annotated

from fastapi import APIRouter, Depends
from starlette.responses import HTMLResponse, Response

from roundwright.accounts.account import May
from roundwright.foundation.errors import BadInputError, ChangedMeanwhileError
from roundwright.goals.class_wish import ClassWish
from roundwright.services.keeping.class_form import class_of_form
from roundwright.services.keeping.new_hall import free_slug, slug_of
from roundwright.services.keeping.records import KeptHall, RecordEdit, RecordKey, RecordKind
from roundwright.services.write_class import class_in_plain_words
from roundwright.web.house.answers import see
from roundwright.web.house.pages.class_choices import class_choices
from roundwright.web.house.visit import FormSent, Needs, Sent, Visit
from roundwright.web.texts import say_again, told

router = APIRouter()
AT = "/at/{hall_id}/new-class"
PlanVisit = Annotated[Visit, Depends(Needs(May.PLAN))]
LONGEST_TEXT = 20_000
"""Characters of a class in plain words; our choice."""


@router.get(AT)
def new_class(visit: PlanVisit) -> HTMLResponse:
    """Ask for a class."""
    return _page(visit, visit.kept_hall(), Sent(), {})


@router.post(AT)
def make_class(visit: PlanVisit, sent: FormSent) -> Response:
    """Keep a class of a few fields, the exercises left to the tool."""
    kept = visit.kept_hall()
    try:
        wish = class_of_form(sent, sent.lists.get("people", ()), kept.hall)
    except BadInputError as error:
        return _page(visit, kept, sent, told(visit.say, error), 422)
    return _keep(visit, kept, wish, None, sent)


@router.post(AT + "/in-words")
def read_words(visit: PlanVisit, sent: FormSent) -> Response:
    """Read a class in plain words: read it back, ask what is not plain, keep it when asked to."""
    kept = visit.kept_hall()
    entry = class_in_plain_words(kept.hall, sent.text("words")[:LONGEST_TEXT])
    if sent.text("keep") != "yes" or entry.wish is None:
        return _page(visit, kept, sent, {}, entry=entry)
    return _keep(visit, kept, entry.wish, entry.new_library_text, sent)


def _keep(
    visit: Visit, kept: KeptHall, wish: ClassWish, library: str | None, sent: Sent
) -> Response:
    class_id = free_slug(slug_of(wish.name, "class"), list(kept.hall.classes))
    edits = [
        RecordEdit(
            RecordKey(RecordKind.CLASS, class_id),
            wish.model_dump(mode="json", by_alias=True),
            None,
        )
    ]
    if library is not None:
        where = RecordKey(RecordKind.LIBRARY_TEXT, class_id)
        edits.insert(0, RecordEdit(where, {"text": library}, None))
    try:
        visit.house.keeping.halls.edit(kept.hall_id, edits, visit.by)
    except (BadInputError, ChangedMeanwhileError) as error:
        return _page(visit, kept, sent, {"name": say_again(error.detail)}, error.entry.status)
    return see(f"{visit.at}/week")


def _page(
    visit: Visit,
    kept: KeptHall,
    sent: Sent,
    faults: dict[str, str],
    status: int = 200,
    entry: object = None,
) -> HTMLResponse:
    return visit.page(
        "new_class.html",
        status,
        here="week",
        sent=sent,
        faults=faults,
        entry=entry,
        **class_choices(visit, kept.hall, sent),
    )
