"""Somebody came without booking: three questions, the outcome in kind words, and a way in."""

from typing import Annotated

from fastapi import APIRouter, Depends
from starlette.responses import HTMLResponse, Response

from roundwright.accounts.account import May
from roundwright.foundation.errors import BadInputError
from roundwright.people.clearance_record import ClearanceRecord, GivenBy
from roundwright.people.person import Clearance
from roundwright.people.walk_in import (
    QUESTIONS,
    REPLY_WORDS,
    Reply,
    ThreeReplies,
    WalkInOutcome,
    walk_in_outcome,
)
from roundwright.services.keeping.person_form import person_of_form
from roundwright.services.keeping.records import RecordEdit, RecordKey, RecordKind
from roundwright.services.plan_class import week_of
from roundwright.web.house.pages.people import next_person_id, row_of
from roundwright.web.house.visit import FormSent, Needs, Sent, Visit
from roundwright.web.texts import told

router = APIRouter()
AT = "/at/{hall_id}/walk-in"
HealthVisit = Annotated[Visit, Depends(Needs(May.CHANGE_HEALTH))]
NAMES = ("first", "second", "third")


@router.get(AT)
def walk_in(visit: HealthVisit) -> HTMLResponse:
    """Ask the three questions."""
    return _page(visit, Sent(), {})


@router.post(AT)
def answer(visit: HealthVisit, sent: FormSent) -> Response:
    """Give the outcome, and keep the person where they may train; the replies are not kept."""
    kept, say = visit.kept_hall(), visit.say
    missing = [name for name in NAMES if sent.text(name) not in list(Reply)]
    faults = {name: say("Ask this too: yes, no, or unsure.") for name in missing}
    person_id = next_person_id(visit, kept)
    try:
        named = Sent({"shown_name": sent.text("shown_name"), "classes_done": "0"})
        person = person_of_form(named, person_id, visit.account.units, None)
    except BadInputError as error:
        faults |= told(visit.say, error)
    if faults:
        return _page(visit, sent, faults, 422)
    outcome = walk_in_outcome(ThreeReplies(*(Reply(sent.text(name)) for name in NAMES)))
    person = person.model_copy(update={"level": outcome.level})
    edits = [RecordEdit(RecordKey(RecordKind.PERSON, person_id), row_of(person), None)]
    edits += _conditions(visit, person_id, outcome)
    visit.house.keeping.halls.edit(kept.hall_id, edits, visit.by)
    coming = [
        (class_id, kept.hall.classes[class_id].name)
        for class_id, on in week_of(kept.hall, visit.today)
        if on == visit.today
    ]
    return visit.page(
        "walk_in_outcome.html",
        here="people",
        outcome=outcome,
        person=person,
        coming=coming,
        on=visit.today.isoformat(),
    )


def _conditions(visit: Visit, person_id: str, outcome: WalkInOutcome) -> list[RecordEdit]:
    """Give what is written down so that every plan holds it; without a screen nothing lifts it."""
    if outcome.may_train and outcome.effort_cap is None:
        return []
    record = ClearanceRecord.model_validate(
        {
            "person": person_id,
            "clearance": Clearance.MODERATE_ONLY if outcome.may_train else Clearance.NOT_CLEARED,
            "given_by": GivenBy.COACH,
            "given_by_name": visit.account.shown_name,
            "on": visit.today,
            "effort_ceiling": outcome.effort_cap,
            "words": outcome.actions,
        }
    )
    where = RecordKey(RecordKind.CLEARANCE_RECORD, person_id)
    return [RecordEdit(where, record.model_dump(mode="json", by_alias=True), None)]


def _page(visit: Visit, sent: Sent, faults: dict[str, str], status: int = 200) -> HTMLResponse:
    visit.kept_hall()
    say = visit.say
    replies = [(r.value, say(words)) for r, words in REPLY_WORDS.items()]
    questions = [(name, say(words), replies) for name, words in zip(NAMES, QUESTIONS, strict=True)]
    return visit.page(
        "walk_in.html", status, here="people", questions=questions, sent=sent, faults=faults
    )
