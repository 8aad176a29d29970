"""Person: what is kept of somebody, what they must not do, the health screen, and the way out."""

from collections.abc import Sequence
from datetime import date
from io import BytesIO
from typing import Annotated
from zipfile import ZIP_DEFLATED, ZipFile

from fastapi import APIRouter, Depends
from markupsafe import Markup
from pydantic import ValidationError
from starlette.responses import HTMLResponse, Response

from roundwright.accounts.account import May
from roundwright.documents.pictures.strength_bars import strength_bars
from roundwright.foundation.errors import BadInputError, ChangedMeanwhileError, NotFoundError
from roundwright.people.due import DueKind
from roundwright.people.effective_clearance import effective_clearance
from roundwright.people.health_screen import AnsweredBy, HealthScreen, screen_outcome
from roundwright.people.limitation import Amount, Concern, LimitedSide, SetBy
from roundwright.people.person import Clearance, Person
from roundwright.people.screen_questions import QUESTIONS, Answer, Question
from roundwright.services.keeping.health_edits import ASK_CLINICIAN, screen_edits
from roundwright.services.keeping.person_export import person_files
from roundwright.services.keeping.person_form import EXPERIENCE, mass_typed, person_of_form
from roundwright.services.keeping.records import KeptHall, RecordEdit, RecordKey, RecordKind
from roundwright.services.person_abilities import Abilities, abilities_of
from roundwright.services.plan_class import week_of
from roundwright.web.house.answers import see
from roundwright.web.house.pages.people import due_for, row_of
from roundwright.web.house.visit import FormSent, Needs, Sent, Visit
from roundwright.web.texts import say_again, told

router = APIRouter()
AT = "/at/{hall_id}/people/{person_id}"
SeeVisit = Annotated[Visit, Depends(Needs(May.SEE_PEOPLE))]
ChangeVisit = Annotated[Visit, Depends(Needs(May.CHANGE_PEOPLE))]
HealthVisit = Annotated[Visit, Depends(Needs(May.CHANGE_HEALTH))]
BY_WORDS = {
    AnsweredBy.PERSON: "the person",
    AnsweredBy.COACH: "the coach, with the person",
    AnsweredBy.GUARDIAN: "the guardian",
}
ABOUT_SCREEN = (
    DueKind.SCREEN_MISSING,
    DueKind.SCREEN_EXPIRED,
    DueKind.SCREEN_OPEN,
    DueKind.SCREEN_EXPIRES,
)
ABOUT_CLEARANCE = (
    DueKind.CLEARANCE_ASKED,
    DueKind.CLEARANCE_EXPIRED,
    DueKind.CLEARANCE_EXPIRES,
)
ABOUT_LIMITS = (DueKind.REVIEW, DueKind.LIMITATION_ENDED, DueKind.WEEKS_UNKNOWN)
ABOUT_AGREEMENTS = (
    DueKind.GUARDIAN_MISSING,
    DueKind.DATA_CONSENT_MISSING,
    DueKind.HEALTH_DATA_CONSENT_MISSING,
    DueKind.TRAINING_CONSENT_MISSING,
    DueKind.EMERGENCY_CONTACT_MISSING,
)
TakeOutVisit = Annotated[Visit, Depends(Needs(May.TAKE_OUT))]
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
    return _page(visit, kept, person_of(kept, person_id), Sent(), {})


@router.post(AT)
def change_person(visit: ChangeVisit, person_id: str, sent: FormSent) -> Response:
    """Change what is kept of a person beside their health."""
    kept = visit.kept_hall()
    was = person_of(kept, person_id)
    try:
        now = person_of_form(sent, person_id, visit.account.units, was)
    except BadInputError as error:
        return _page(visit, kept, was, sent, told(visit.say, error), 422)
    edit = RecordEdit(RecordKey(RecordKind.PERSON, person_id), row_of(now), _seen(sent))
    return _kept(visit, kept, was, [edit], sent)


@router.post(AT + "/limits")
def add_limit(visit: HealthVisit, person_id: str, sent: FormSent) -> Response:
    """Write down something that a person must avoid or go easy on."""
    kept = visit.kept_hall()
    was = person_of(kept, person_id)
    rows = [row.model_dump(mode="json") for row in kept.hall.limitations_of(person_id)]
    try:
        concern, amount = Concern(sent.text("concern")), Amount(sent.text("amount"))
        side, set_by = LimitedSide(sent.text("side")), SetBy(sent.text("set_by"))
        until = date.fromisoformat(sent.text("until_on")) if sent.text("until_on") else None
        weeks = sent.whole("weeks")
        if weeks is None and sent.text("weeks"):
            raise ValueError(sent.text("weeks"))
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
    was = person_of(kept, person_id)
    rows = list(kept.hall.limitations_of(person_id))
    if not 0 <= number < len(rows):
        raise NotFoundError("There is no such limit.")
    if rows[number].set_by is SetBy.CLINICIAN and sent.text("clinician") != "yes":
        words = visit.say(ASK_CLINICIAN)
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
    person = person_of(kept, person_id)
    visit.note("health.seen", person_id)
    screen = kept.hall.screen_of(person_id)
    return visit.page(
        "screen.html",
        here="people",
        person=person,
        questions=[(q.value, asked.words) for q, asked in QUESTIONS.items()],
        answers={} if screen is None else {q.value: a.value for q, a in screen.answers.items()},
        by=[(each.value, visit.say(BY_WORDS[each])) for each in AnsweredBy],
        version=kept.versions.get(RecordKey(RecordKind.SCREEN, person_id)),
    )


@router.post(AT + "/screen")
def keep_screen(visit: HealthVisit, person_id: str, sent: FormSent) -> Response:
    """Keep the answers; what was held back stays so until a clinician or coach answers it."""
    kept = visit.kept_hall()
    was = person_of(kept, person_id)
    answers = {
        q.value: sent.text(q.value)
        for q in Question
        if sent.text(q.value) in (Answer.YES, Answer.NO, Answer.UNSURE)
    }
    by = sent.text("by") if sent.text("by") in list(AnsweredBy) else AnsweredBy.COACH.value
    screen = HealthScreen.model_validate(
        {"person": person_id, "answered_on": visit.today, "by": by, "answers": answers}
    )
    base = kept.versions.get(RecordKey(RecordKind.SCREEN, person_id))
    edits = screen_edits(kept, screen, base, visit.today)
    return _kept(visit, kept, was, edits, sent)


@router.post(AT + "/everything")
def everything(visit: TakeOutVisit, person_id: str) -> Response:
    """Give everything that is kept of a person as files, for that person."""
    person_of(visit.kept_hall(), person_id)
    shelf = visit.house.keeping.people
    document = shelf.document(str(visit.hall_id), person_id, visit.by)
    packed = BytesIO()
    with ZipFile(packed, "w", ZIP_DEFLATED) as files:
        for name, content in person_files(document).items():
            files.writestr(name, content)
    headers = {"content-disposition": 'attachment; filename="everything.zip"'}
    return Response(packed.getvalue(), media_type="application/zip", headers=headers)


@router.post(AT + "/forget")
def forget(visit: DeleteVisit, person_id: str, sent: FormSent) -> Response:
    """Delete a person for good; their name must be typed."""
    kept = visit.kept_hall()
    was = person_of(kept, person_id)
    if sent.text("typed_name") != was.shown_name:
        words = visit.say("Type the name exactly as it stands above.")
        return _page(visit, kept, was, sent, {"typed_name": words}, 422)
    visit.house.keeping.halls.forget_person(kept.hall_id, person_id, visit.by)
    return see(f"{visit.at}/people")


def person_of(kept: KeptHall, person_id: str) -> Person:
    """Give a person of a hall.

    Raises
    ------
    NotFoundError
        There is no such person.
    """
    person = kept.hall.person(person_id)
    if person is None:
        raise NotFoundError("There is no such person in this hall.")
    return person


def _seen(sent: Sent) -> int | None:
    return sent.whole("version")


def _kept(
    visit: Visit, kept: KeptHall, was: Person, edits: Sequence[RecordEdit], sent: Sent
) -> Response:
    """Keep edits and show the person again, or say what stood in the way."""
    try:
        visit.house.keeping.halls.edit(kept.hall_id, edits, visit.by)
    except ChangedMeanwhileError as error:
        words = {"changed": f"{say_again(error.detail)} {say_again(error.next_step)}"}
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
    able = abilities_of(hall, person, visit.today) if why else None
    return visit.page(
        "person.html",
        status,
        here="people",
        person=person,
        version=kept.versions.get(RecordKey(RecordKind.PERSON, person_id)),
        sent=sent,
        faults=faults,
        due=due_for(hall, person, visit) if why else (),
        answered_at=_answered_at(visit, person_id),
        allowed=say(CLEARANCE_WORDS[word.clearance]) if why else "",
        outcome=screen_outcome(screen, visit.today) if why and screen is not None else None,
        limits=hall.limitations_of(person_id) if why else (),
        experience=[("", say("Not known yet")), *((n, say(w)) for n, w in EXPERIENCE)],
        concerns=[(c.value, say(c.value.replace("_", " "))) for c in Concern],
        amounts=[(a.value, say(a.value)) for a in Amount],
        sides=[(s.value, say(s.value)) for s in LimitedSide],
        set_by=[(s.value, say(s.value)) for s in SetBy],
        mass=mass_typed(person, visit.account.units),
        effort_only=why and word.effort_only,
        papers=_papers(visit, kept, person_id),
        can_do=_can_do(visit, able),
        strength=_strength(able, visit.account.units),
        next_steps=_next_steps(visit, able),
    )


def _answered_at(visit: Visit, person_id: str) -> dict[DueKind, str]:
    """Give where each thing that is due is answered, as far as whoever looks may."""
    at = f"{visit.at}/people/{person_id}"
    found = dict.fromkeys(ABOUT_LIMITS, f"{at}#limits")
    if visit.may(May.CHANGE_HEALTH):
        found |= dict.fromkeys(ABOUT_SCREEN, f"{at}/screen")
        found |= dict.fromkeys(ABOUT_CLEARANCE, f"{at}/clearance")
    if visit.may(May.CHANGE_PEOPLE):
        found |= dict.fromkeys(ABOUT_AGREEMENTS, f"{at}/agreements")
    return found


def _can_do(visit: Visit, able: Abilities | None) -> list[tuple[str, tuple[str, ...]]]:
    found = able.by_pattern.items() if able is not None else ()
    named = ((visit.say(p.value.replace("_", " ")), names) for p, names in found)
    return [(f"{pattern[:1].upper()}{pattern[1:]}", names) for pattern, names in named]


def _strength(able: Abilities | None, units: str) -> dict[str, object] | None:
    if able is None or not able.capacities:
        return None
    picture = strength_bars(able.capacities, units)
    return {"svg": Markup(picture.svg), "title": picture.title, "tables": picture.tables}


def _next_steps(visit: Visit, able: Abilities | None) -> list[str]:
    say, lines = visit.say, []
    for one in able.eased if able is not None else ():
        words = say(
            "In class {n} from now at most {share} % of the reps",
            n=one.number,
            share=one.share_pct,
        )
        if one.rounds is not None:
            words += say(", {n} rounds at most", n=one.rounds)
        lines.append(f"{words}.")
    return lines


def _papers(visit: Visit, kept: KeptHall, person_id: str) -> str:
    """Give where the personal sheets of the next planned class are that the person is in."""
    if visit.house.rooms is None:
        return ""
    for class_id, on in week_of(kept.hall, visit.today):
        wish = kept.hall.classes[class_id]
        plans = visit.house.keeping.plans.plans(kept.hall_id, [on], class_id)
        if plans and person_id in {p.person_id for p in kept.hall.people_of(wish)}:
            return f"{visit.at}/class/{class_id}/{on.isoformat()}/papers/personal.pdf"
    return ""
