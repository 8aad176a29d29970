"""New class: a form with few fields, or the class typed in plain words and read back."""

from datetime import time
from typing import Annotated

from fastapi import APIRouter, Depends
from pydantic import ValidationError
from starlette.responses import HTMLResponse, Response

from roundwright.accounts.account import May
from roundwright.foundation.errors import BadInputError, ChangedMeanwhileError
from roundwright.goals.class_wish import ClassFormat, ClassWish
from roundwright.plan.build_problem import WEEKDAYS
from roundwright.services.keeping.new_hall import free_slug, slug_of
from roundwright.services.keeping.records import KeptHall, RecordEdit, RecordKey, RecordKind
from roundwright.services.write_class import class_in_plain_words
from roundwright.web.house.answers import see
from roundwright.web.house.visit import FormSent, Needs, Sent, Visit

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
        wish = _wish(sent, kept)
    except (ValidationError, ValueError):
        words = visit.say("One of these cannot be. Look at day, time, length and people.")
        return _page(visit, kept, sent, {"name": words}, 422)
    return _keep(visit, kept, wish, None, sent)


@router.post(AT + "/in-words")
def read_words(visit: PlanVisit, sent: FormSent) -> Response:
    """Read a class in plain words: read it back, ask what is not plain, keep it when asked to."""
    kept = visit.kept_hall()
    entry = class_in_plain_words(kept.hall, sent.text("words")[:LONGEST_TEXT])
    if sent.text("keep") != "yes" or entry.wish is None:
        return _page(visit, kept, sent, {}, entry=entry)
    return _keep(visit, kept, entry.wish, entry.new_library_text, sent)


def _wish(sent: Sent, kept: KeptHall) -> ClassWish:
    people = sent.lists.get("people", ())
    everybody = sent.text("everybody") == "yes" or not people
    return ClassWish.model_validate(
        {
            "name": sent.text("name"),
            "weekday": sent.text("weekday"),
            "start": time.fromisoformat(sent.text("start")),
            "slot": int(sent.text("minutes")) * 60,
            "room": sent.text("room") or kept.hall.rooms[0].id,
            "people": "all" if everybody else tuple(people),
            "format": sent.text("format") or ClassFormat.TOGETHER.value,
            "rounds": int(sent.text("rounds")),
            "places": int(sent.text("places")),
            "order": "free",
        }
    )


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
        return _page(visit, kept, sent, {"name": error.detail}, error.entry.status)
    return see(f"{visit.at}/week")


def _page(
    visit: Visit,
    kept: KeptHall,
    sent: Sent,
    faults: dict[str, str],
    status: int = 200,
    entry: object = None,
) -> HTMLResponse:
    say = visit.say
    return visit.page(
        "new_class.html",
        status,
        here="week",
        sent=sent,
        faults=faults,
        entry=entry,
        weekdays=[(day, say(day.title())) for day in WEEKDAYS],
        formats=[(f.value, say(f.value)) for f in ClassFormat],
        rooms=[(room.id, room.name) for room in kept.hall.rooms],
        people=[(p.person_id, p.shown_name) for p in kept.hall.people],
        everybody=sent.text("everybody") == "yes" or not sent.lists.get("people"),
        ticked=frozenset(sent.lists.get("people", ())),
    )
