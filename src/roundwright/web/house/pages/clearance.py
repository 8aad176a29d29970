"""A clearance given by name: what is allowed, on what conditions, from when until when."""

from typing import Annotated

from fastapi import APIRouter, Depends
from pydantic import ValidationError
from starlette.responses import HTMLResponse, Response

from roundwright.accounts.account import May
from roundwright.foundation.errors import BadInputError, ChangedMeanwhileError, NotAllowedError
from roundwright.library.vocabulary import Demand
from roundwright.people.clearance_record import ClearanceRecord, GivenBy
from roundwright.people.person import Clearance, Person
from roundwright.services.keeping.health_edits import health_edits
from roundwright.services.keeping.records import KeptHall, RecordEdit, RecordKey, RecordKind
from roundwright.web.house.answers import see
from roundwright.web.house.pages.person import AT, CLEARANCE_WORDS, person_of
from roundwright.web.house.visit import FormSent, Needs, Sent, Visit
from roundwright.web.texts import say_again

router = APIRouter()
HealthVisit = Annotated[Visit, Depends(Needs(May.CHANGE_HEALTH))]
CAPS = ((3, "no limit"), (0, "none of it"), (1, "little of it"), (2, "some of it"))
"""The highest degree of a demand that is allowed, in words."""
EXPECTED = {
    "given_by_name": "1 to 80 characters",
    "on": "a day such as 2026-03-03",
    "until_on": "a day such as 2026-03-03",
    "effort_ceiling": "1 to 10",
    "words": "at most 10 lines of at most 120 characters",
    "clearance": "one of the list",
    "given_by": "one of the list",
}


@router.get(AT + "/clearance")
def clearance(visit: HealthVisit, person_id: str) -> HTMLResponse:
    """Show the clearance that is written down."""
    kept = visit.kept_hall()
    visit.note("health.seen", person_id)
    return _page(visit, kept, person_of(kept, person_id), Sent(), {})


@router.post(AT + "/clearance")
def keep_clearance(visit: HealthVisit, person_id: str, sent: FormSent) -> Response:
    """Write a clearance down; past its end it means 'ask', and its conditions stay."""
    kept = visit.kept_hall()
    person = person_of(kept, person_id)
    faults: dict[str, str] = {}
    say, where = visit.say, RecordKey(RecordKind.CLEARANCE_RECORD, person_id)
    faults |= {
        name: say("Expected: {what}.", what=say(EXPECTED[name]))
        for name in ("on", "until_on")
        if sent.text(name) and sent.day(name) is None
    }
    values = _values(person_id, sent)
    try:
        ClearanceRecord.model_validate(values)
    except ValidationError as error:
        for each in error.errors():
            name = str(each["loc"][0])
            faults[name] = say("Expected: {what}.", what=say(EXPECTED.get(name, "one of the list")))
    if faults:
        return _page(visit, kept, person, sent, faults, 422)
    return _kept(visit, kept, person, RecordEdit(where, values, sent.whole("version")), sent)


def _values(person_id: str, sent: Sent) -> dict[str, object]:
    caps: dict[str, int] = {}
    for demand in Demand:
        cap = sent.whole(f"cap_{demand.value}")
        if cap is not None and cap < CAPS[0][0]:
            caps[demand.value] = cap
    on, until = sent.day("on"), sent.day("until_on")
    words = [line.strip() for line in sent.text("words").splitlines() if line.strip()]
    return {
        "person": person_id,
        "clearance": sent.text("clearance"),
        "given_by": sent.text("given_by"),
        "given_by_name": sent.text("given_by_name"),
        "on": on.isoformat() if on else None,
        "until_on": until.isoformat() if until else None,
        "caps": caps,
        "effort_ceiling": sent.whole("effort_ceiling") if sent.text("effort_ceiling") else None,
        "words": words,
    }


def _kept(visit: Visit, kept: KeptHall, person: Person, edit: RecordEdit, sent: Sent) -> Response:
    try:
        edits = health_edits(kept, edit, visit.today, clinician_says=False)
        visit.house.keeping.halls.edit(kept.hall_id, edits, visit.by)
    except NotAllowedError as error:
        return _page(visit, kept, person, sent, {"given_by": say_again(error.detail)}, 422)
    except ChangedMeanwhileError as error:
        words = {"changed": f"{say_again(error.detail)} {say_again(error.next_step)}"}
        return _page(visit, visit.kept_hall(), person, sent, words, 409)
    except BadInputError as error:
        return _page(visit, kept, person, sent, {"changed": say_again(error.detail)}, 422)
    return see(f"{visit.at}/people/{person.person_id}")


def _page(
    visit: Visit,
    kept: KeptHall,
    person: Person,
    sent: Sent,
    faults: dict[str, str],
    status: int = 200,
) -> HTMLResponse:
    record, say = kept.hall.clearance_of(person.person_id), visit.say
    given = _fields(record) if record is not None and not sent else dict(sent)
    words = [c for c in CLEARANCE_WORDS if c is not Clearance.UNKNOWN]
    return visit.page(
        "clearance.html",
        status,
        here="people",
        person=person,
        record=record,
        given=given,
        holds=record is not None and record.holds_on(visit.today),
        clearances=[(c.value, say(CLEARANCE_WORDS[c])) for c in words],
        givers=[(g.value, say(g.value)) for g in GivenBy],
        demands=[(d.value, say(d.value.replace("_", " "))) for d in Demand],
        caps=[(str(degree), say(name)) for degree, name in CAPS],
        today=visit.today.isoformat(),
        version=kept.versions.get(RecordKey(RecordKind.CLEARANCE_RECORD, person.person_id)),
        faults=faults,
    )


def _fields(record: ClearanceRecord) -> dict[str, str]:
    given = {
        "clearance": record.clearance.value,
        "given_by": record.given_by.value,
        "given_by_name": record.given_by_name,
        "on": record.on.isoformat(),
        "until_on": record.until_on.isoformat() if record.until_on else "",
        "effort_ceiling": str(record.effort_ceiling or ""),
        "words": "\n".join(record.words),
    }
    return given | {f"cap_{demand.value}": str(cap) for demand, cap in record.caps.items()}
