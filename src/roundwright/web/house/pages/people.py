"""People: who is new, who needs what before they train; and a way in for somebody new."""

from dataclasses import dataclass
from typing import Annotated

from fastapi import APIRouter, Depends
from starlette.responses import HTMLResponse, Response

from roundwright.accounts.account import May
from roundwright.foundation.errors import BadInputError
from roundwright.hall.hall import Hall
from roundwright.people.due import Due, DueGrade, due_of
from roundwright.people.person import Person
from roundwright.services.keeping.person_form import EXPERIENCE, person_of_form
from roundwright.services.keeping.records import KeptHall, Plain, RecordEdit, RecordKey, RecordKind
from roundwright.web.house.answers import see
from roundwright.web.house.pages.week import BEFORE_THEY_TRAIN
from roundwright.web.house.visit import FormSent, Needs, Sent, Visit
from roundwright.web.texts import told

router = APIRouter()
SeeVisit = Annotated[Visit, Depends(Needs(May.SEE_PEOPLE))]
ChangeVisit = Annotated[Visit, Depends(Needs(May.CHANGE_PEOPLE))]
CLEARANCE_COLUMNS = {"clearance", "effort_only"}


@dataclass(frozen=True, slots=True)
class PersonLine:
    """One person of the list: what the page says of them."""

    address: str
    name: str
    is_new: bool
    experience: str
    before: tuple[str, ...]
    soon: tuple[str, ...]


@router.get("/at/{hall_id}/people")
def people(visit: SeeVisit, find: str = "", only: str = "", added: str = "") -> HTMLResponse:
    """List people; `find` looks in names, `only` takes those who are new or to be asked.

    `added` is the id of somebody who was added just now, whom the next one follows.
    """
    kept = visit.kept_hall()
    if visit.may(May.SEE_HEALTH) and kept.hall.people:
        visit.note("health.seen", about="people")
    lines = [_line(visit, kept.hall, person) for person in kept.hall.people]
    shown = [
        line
        for line in lines
        if find.lower() in line.name.lower()
        and (only != "new" or line.is_new)
        and (only != "ask" or line.before)
    ]
    named = next((p.shown_name for p in kept.hall.people if p.person_id == added), "")
    return _page(visit, shown, len(lines), Sent(), {}, find=find, only=only, added=named)


@router.post("/at/{hall_id}/people")
def add_person(visit: ChangeVisit, sent: FormSent) -> Response:
    """Add somebody of whom little is known yet."""
    kept = visit.kept_hall()
    person_id = next_person_id(visit, kept)
    try:
        person = person_of_form(sent, person_id, visit.account.units, None)
    except BadInputError as error:
        lines = [_line(visit, kept.hall, one) for one in kept.hall.people]
        return _page(visit, lines, len(lines), sent, told(visit.say, error), status=422)
    edit = RecordEdit(RecordKey(RecordKind.PERSON, person_id), row_of(person), None)
    visit.house.keeping.halls.edit(kept.hall_id, [edit], visit.by)
    if sent.text("another"):
        return see(f"{visit.at}/people?added={person_id}#new")
    return see(f"{visit.at}/people/{person_id}")


def row_of(person: Person) -> Plain:
    """Give the record of a person, without what is health."""
    return person.model_dump(mode="json", by_alias=True, exclude=CLEARANCE_COLUMNS)


def next_person_id(visit: Visit, kept: KeptHall) -> str:
    """Give an id that nobody of the hall has or had."""
    taken = visit.house.keeping.halls.person_ids(kept.hall_id)
    return next(f"p{n:03}" for n in range(1, len(taken) + 2) if f"p{n:03}" not in taken)


def due_for(hall: Hall, person: Person, visit: Visit) -> tuple[Due, ...]:
    """Give what a person needs today."""
    return due_of(
        person,
        visit.today,
        screen=hall.screen_of(person.person_id),
        record=hall.clearance_of(person.person_id),
        limitations=hall.limitations_of(person.person_id),
        consents=next((c for c in hall.consents if c.person_id == person.person_id), None),
    )


def _line(visit: Visit, hall: Hall, person: Person) -> PersonLine:
    say = visit.say
    due = due_for(hall, person, visit)
    before = [d for d in due if d.what in BEFORE_THEY_TRAIN]
    soon = [d for d in due if d.grade is DueGrade.SOON or d.what not in BEFORE_THEY_TRAIN]
    why = visit.may(May.SEE_HEALTH)
    ask = say("ask the coach before they train")
    return PersonLine(
        address=f"{visit.at}/people/{person.person_id}",
        name=person.shown_name,
        is_new=not person.classes_done,
        experience=say(dict(EXPERIENCE).get(str(person.level or ""), "Not known yet")),
        before=tuple(say(d.words) for d in before) if why else ((ask,) if before else ()),
        soon=tuple(say(d.words) for d in soon) if why else (),
    )


def _page(
    visit: Visit,
    lines: list[PersonLine],
    everybody: int,
    sent: Sent,
    faults: dict[str, str],
    *,
    status: int = 200,
    find: str = "",
    only: str = "",
    added: str = "",
) -> HTMLResponse:
    return visit.page(
        "people.html",
        status,
        here="people",
        lines=lines,
        everybody=everybody,
        sent=sent,
        faults=faults,
        experience=[("", visit.say("Not known yet")), *((n, visit.say(w)) for n, w in EXPERIENCE)],
        find=find,
        only=only,
        added=added,
    )
