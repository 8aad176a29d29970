"""Person: what is kept of somebody, what they must not do, the health screen, and the way out."""

from datetime import date
from typing import Annotated

from fastapi import APIRouter, Depends
from pydantic import ValidationError
from starlette.responses import HTMLResponse, Response

from roundwright.accounts.account import May
from roundwright.foundation.errors import BadInputError, ChangedMeanwhileError, NotFoundError
from roundwright.people.effective_clearance import effective_clearance
from roundwright.people.health_screen import AnsweredBy, HealthScreen, screen_outcome
from roundwright.people.limitation import Amount, Concern, LimitedSide, SetBy
from roundwright.people.person import Clearance, Person
from roundwright.people.screen_questions import QUESTIONS, Answer, Question
from roundwright.services.keeping.person_form import EXPERIENCE, person_of_form
from roundwright.services.keeping.records import KeptHall, RecordEdit, RecordKey, RecordKind
from roundwright.web.house.answers import see
from roundwright.web.house.pages.people import due_for, row_of, told
from roundwright.web.house.visit import FormSent, Needs, Sent, Visit

router = APIRouter()
AT = "/at/{hall_id}/people/{person_id}"
SeeVisit = Annotated[Visit, Depends(Needs(May.SEE_PEOPLE))]
ChangeVisit = Annotated[Visit, Depends(Needs(May.CHANGE_PEOPLE))]
HealthVisit = Annotated[Visit, Depends(Needs(May.CHANGE_HEALTH))]
DeleteVisit = Annotated[Visit, Depends(Needs(May.DELETE_PEOPLE))]
CLEARANCE_WORDS = {
    Clearance.CLEARED: "cleared",
    Clearance.MODERATE_ONLY: "light to moderate work only",
    Clearance.NOT_CLEARED: "clearance first: not today",
    Clearance.UNKNOWN: "unknown: light to moderate work until the screen is answered",
}


@router.get(AT)
def person_page(visit: SeeVisit, person_id: str) -> HTMLResponse:
    """Show one person."""
    kept = visit.kept_hall()
    return _page(visit, kept, _person(kept, person_id), Sent(), {})


@router.post(AT)
def change_person(visit: ChangeVisit, person_id: str, sent: FormSent) -> Response:
    """Change what is kept of a person beside their health."""
    kept = visit.kept_hall()
    was = _person(kept, person_id)
    try:
        now = person_of_form(sent, person_id, visit.account.units, was)
    except BadInputError as error:
        return _page(visit, kept, was, sent, told(visit, error), 422)
    edit = RecordEdit(RecordKey(RecordKind.PERSON, person_id), row_of(now), _seen(sent))
    return _kept(visit, kept, was, [edit], sent)


@router.post(AT + "/limits")
def add_limit(visit: HealthVisit, person_id: str, sent: FormSent) -> Response:
    """Write down something that a person must avoid or go easy on."""
    kept = visit.kept_hall()
    was = _person(kept, person_id)
    rows = [row.model_dump(mode="json") for row in kept.hall.limitations_of(person_id)]
    try:
        concern, amount = Concern(sent.text("concern")), Amount(sent.text("amount"))
        side, set_by = LimitedSide(sent.text("side")), SetBy(sent.text("set_by"))
        until = date.fromisoformat(sent.text("until_on")) if sent.text("until_on") else None
        weeks = int(sent.text("weeks")) if sent.text("weeks") else None
    except ValueError:
        faults = {"concern": visit.say("One of these cannot be. Look at the list, date and weeks.")}
        return _page(visit, kept, was, sent, faults, 422)
    rows.append(
        {
            "person_id": person_id,
            "concern": concern.value,
            "side": side.value,
            "amount": amount.value,
            "from_on": visit.today.isoformat(),
            "until_on": until.isoformat() if until else None,
            "weeks": weeks,
            "set_by": set_by.value,
        }
    )
    where = RecordKey(RecordKind.LIMITATIONS, person_id)
    edit = RecordEdit(where, {"limitations": rows}, kept.versions.get(where))
    return _kept(visit, kept, was, [edit], sent)


@router.post(AT + "/limits/{number}/ended")
def end_limit(visit: HealthVisit, person_id: str, number: int, sent: FormSent) -> Response:
    """Confirm that a limit has ended; a clinician's needs a clinician's word."""
    kept = visit.kept_hall()
    was = _person(kept, person_id)
    rows = list(kept.hall.limitations_of(person_id))
    if not 0 <= number < len(rows):
        raise NotFoundError("There is no such limit.")
    if rows[number].set_by is SetBy.CLINICIAN and sent.text("clinician") != "yes":
        words = visit.say("A clinician set this: it ends with a clinician's word only.")
        return _page(visit, kept, was, sent, {"concern": words}, 422)
    left = [row.model_dump(mode="json") for k, row in enumerate(rows) if k != number]
    where = RecordKey(RecordKind.LIMITATIONS, person_id)
    edit = RecordEdit(where, {"limitations": left} if left else None, kept.versions.get(where))
    answer = _kept(visit, kept, was, [edit], sent)
    visit.note("limit.ended", person_id, about="confirmed")
    return answer


@router.get(AT + "/screen")
def screen_page(visit: HealthVisit, person_id: str) -> HTMLResponse:
    """Ask the health screen."""
    kept = visit.kept_hall()
    person = _person(kept, person_id)
    visit.note("health.seen", person_id)
    screen = kept.hall.screen_of(person_id)
    return visit.page(
        "screen.html",
        here="people",
        person=person,
        questions=[(q.value, asked.words) for q, asked in QUESTIONS.items()],
        answers={} if screen is None else {q.value: a.value for q, a in screen.answers.items()},
        by=[(each.value, each.value.replace("_", " ")) for each in AnsweredBy],
        version=kept.versions.get(RecordKey(RecordKind.SCREEN, person_id)),
    )


@router.post(AT + "/screen")
def keep_screen(visit: HealthVisit, person_id: str, sent: FormSent) -> Response:
    """Keep the answers; what was held back stays so until a clinician or coach answers it."""
    kept = visit.kept_hall()
    was = _person(kept, person_id)
    answers = {
        q.value: sent.text(q.value)
        for q in Question
        if sent.text(q.value) in (Answer.YES, Answer.NO, Answer.UNSURE)
    }
    by = sent.text("by") if sent.text("by") in list(AnsweredBy) else AnsweredBy.COACH.value
    screen = HealthScreen.model_validate(
        {"person": person_id, "answered_on": visit.today, "by": by, "answers": answers}
    )
    old = kept.hall.screen_of(person_id)
    edits = [
        RecordEdit(
            RecordKey(RecordKind.SCREEN, person_id),
            screen.model_dump(mode="json", by_alias=True),
            kept.versions.get(RecordKey(RecordKind.SCREEN, person_id)),
        )
    ]
    if old is not None and _held_back(old, visit.today) and not _held_back(screen, visit.today):
        where = RecordKey(RecordKind.CLEARANCE, person_id)
        held = {"clearance": Clearance.NOT_CLEARED.value, "effort_only": was.effort_only}
        edits.append(RecordEdit(where, held, kept.versions.get(where)))
    return _kept(visit, kept, was, edits, sent)


@router.post(AT + "/forget")
def forget(visit: DeleteVisit, person_id: str, sent: FormSent) -> Response:
    """Delete a person for good; their name must be typed."""
    kept = visit.kept_hall()
    was = _person(kept, person_id)
    if sent.text("typed_name") != was.shown_name:
        words = visit.say("Type the name exactly as it stands above.")
        return _page(visit, kept, was, sent, {"typed_name": words}, 422)
    visit.house.keeping.halls.forget_person(kept.hall_id, person_id, visit.by)
    return see(f"{visit.at}/people")


def _held_back(screen: HealthScreen, on: date) -> bool:
    return screen_outcome(screen, on).clearance is Clearance.NOT_CLEARED


def _person(kept: KeptHall, person_id: str) -> Person:
    person = kept.hall.person(person_id)
    if person is None:
        raise NotFoundError("There is no such person in this hall.")
    return person


def _seen(sent: Sent) -> int | None:
    return int(sent.text("version")) if sent.text("version").isdecimal() else None


def _kept(
    visit: Visit, kept: KeptHall, was: Person, edits: list[RecordEdit], sent: Sent
) -> Response:
    """Keep edits and show the person again, or say what stood in the way."""
    try:
        visit.house.keeping.halls.edit(kept.hall_id, edits, visit.by)
    except ChangedMeanwhileError as error:
        words = {"changed": f"{error.detail} {error.next_step}"}
        return _page(visit, visit.kept_hall(), was, sent, words, 409)
    except (BadInputError, ValidationError):
        words = {"concern": visit.say("One of these cannot be. Look at the list, date and weeks.")}
        return _page(visit, kept, was, sent, words, 422)
    return see(f"{visit.at}/people/{was.person_id}")


def _page(
    visit: Visit,
    kept: KeptHall,
    person: Person,
    sent: Sent,
    faults: dict[str, str],
    status: int = 200,
) -> HTMLResponse:
    why, person_id, hall = visit.may(May.SEE_HEALTH), person.person_id, kept.hall
    if why:
        visit.note("health.seen", person_id)
    screen, record = hall.screen_of(person_id), hall.clearance_of(person_id)
    word = effective_clearance(person, screen, record, visit.today)
    say = visit.say
    return visit.page(
        "person.html",
        status,
        here="people",
        person=person,
        version=kept.versions.get(RecordKey(RecordKind.PERSON, person_id)),
        sent=sent,
        faults=faults,
        due=due_for(hall, person, visit) if why else (),
        allowed=say(CLEARANCE_WORDS[word.clearance]) if why else "",
        outcome=screen_outcome(screen, visit.today) if why and screen is not None else None,
        limits=hall.limitations_of(person_id) if why else (),
        experience=[("", say("Not known yet")), *((n, say(w)) for n, w in EXPERIENCE)],
        concerns=[(c.value, say(c.value.replace("_", " "))) for c in Concern],
        amounts=[(a.value, say(a.value)) for a in Amount],
        sides=[(s.value, say(s.value)) for s in LimitedSide],
        set_by=[(s.value, say(s.value)) for s in SetBy],
        mass=_shown_mass(person, visit.account.units),
    )


def _shown_mass(person: Person, units: str) -> str:
    if person.body_mass_g is None:
        return ""
    kg = person.body_mass_g / 1000
    return f"{kg / 0.45359237:.1f}" if units == "lb" else f"{kg:g}"
