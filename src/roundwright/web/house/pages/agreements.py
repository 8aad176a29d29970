"""What a person agreed to, each thing apart; who speaks for them; whom to call; when to talk."""

from typing import Annotated

from fastapi import APIRouter, Depends
from pydantic import ValidationError
from starlette.responses import HTMLResponse, Response

from roundwright.accounts.account import May
from roundwright.foundation.errors import BadInputError, ChangedMeanwhileError
from roundwright.people.agreement_words import AGREEMENTS, WORDS_VERSION
from roundwright.people.consents import Consent, Consents
from roundwright.people.person import Person
from roundwright.services.keeping.records import KeptHall, RecordEdit, RecordKey, RecordKind
from roundwright.web.house.answers import see
from roundwright.web.house.pages.person import AT, person_of
from roundwright.web.house.visit import FormSent, Needs, Sent, Visit
from roundwright.web.texts import say_again

router = APIRouter()
ChangeVisit = Annotated[Visit, Depends(Needs(May.CHANGE_PEOPLE))]
CONTACT = ("name", "relation", "phone")


@router.get(AT + "/agreements")
def agreements(visit: ChangeVisit, person_id: str) -> HTMLResponse:
    """Show what was agreed to, in which words and when."""
    kept = visit.kept_hall()
    return _page(visit, kept, person_of(kept, person_id), Sent(), {})


@router.post(AT + "/agreements")
def keep_agreements(visit: ChangeVisit, person_id: str, sent: FormSent) -> Response:
    """Keep what the person says now; each agreement is given and taken back by itself."""
    kept = visit.kept_hall()
    person = person_of(kept, person_id)
    was = _consents(kept, person_id)
    say, where = visit.say, RecordKey(RecordKind.CONSENTS, person_id)
    faults: dict[str, str] = {}
    if sent.text("review_on") and sent.day("review_on") is None:
        faults["review_on"] = say("Expected: {what}.", what=say("a day such as 2026-03-03"))
    values = was.model_dump(mode="json", by_alias=True)
    for name in AGREEMENTS:
        values[name] = _consent(getattr(was, name), sent.text(name), visit)
    values["guardian"] = _contact("guardian", sent)
    values["emergency_contact"] = _contact("emergency", sent)
    if values["guardian"]:
        agreed = sent.day("guardian_consent_on")
        values["guardian"]["consent_on"] = agreed.isoformat() if agreed else None
    review = sent.day("review_on")
    values["review_on"] = review.isoformat() if review else None
    try:
        Consents.model_validate(values)
    except ValidationError as error:
        for each in error.errors():
            place = str(each["loc"][0]).replace("emergency_contact", "emergency")
            field = f"{place}_{each['loc'][1]}" if len(each["loc"]) > 1 else place
            faults[field] = say("Expected: {what}.", what=say("name, relation and phone"))
    if faults:
        return _page(visit, kept, person, sent, faults, 422)
    edit = RecordEdit(where, values, sent.whole("version"))
    try:
        visit.house.keeping.halls.edit(kept.hall_id, [edit], visit.by)
    except ChangedMeanwhileError as error:
        words = {"changed": f"{say_again(error.detail)} {say_again(error.next_step)}"}
        return _page(visit, visit.kept_hall(), person, sent, words, 409)
    except BadInputError as error:
        return _page(visit, kept, person, sent, {"changed": say_again(error.detail)}, 422)
    return see(f"{visit.at}/people/{person_id}")


def _consents(kept: KeptHall, person_id: str) -> Consents:
    found = (c for c in kept.hall.consents if c.person_id == person_id)
    return next(found, Consents(person_id=person_id))


def _consent(was: Consent | None, said: str, visit: Visit) -> dict[str, object] | None:
    """Give a consent after what was said: `yes`, `no`, or nothing, which leaves it as it is."""
    today = visit.today
    holds = was is not None and was.holds_on(today)
    if said == "yes" and not holds:
        return {"on": today.isoformat(), "words_version": WORDS_VERSION, "withdrawn_on": None}
    values = None if was is None else was.model_dump(mode="json")
    if said == "no" and holds and values is not None:
        values["withdrawn_on"] = today.isoformat()
    return values


def _contact(who: str, sent: Sent) -> dict[str, object] | None:
    fields: dict[str, object] = {name: sent.text(f"{who}_{name}") for name in CONTACT}
    return fields if any(fields.values()) else None


def _page(
    visit: Visit,
    kept: KeptHall,
    person: Person,
    sent: Sent,
    faults: dict[str, str],
    status: int = 200,
) -> HTMLResponse:
    mine, say = _consents(kept, person.person_id), visit.say
    lines = []
    for name, (title, words) in AGREEMENTS.items():
        given: Consent | None = getattr(mine, name)
        holds = given is not None and given.holds_on(visit.today)
        lines.append((name, say(title), say(words), given, holds))
    values = {
        "guardian": mine.guardian.model_dump(mode="json") if mine.guardian else {},
        "emergency": mine.emergency_contact.model_dump() if mine.emergency_contact else {},
    }
    return visit.page(
        "agreements.html",
        status,
        here="people",
        person=person,
        lines=lines,
        mine=mine,
        contacts=values,
        words_version=WORDS_VERSION,
        version=kept.versions.get(RecordKey(RecordKind.CONSENTS, person.person_id)),
        sent=sent,
        faults=faults,
    )
