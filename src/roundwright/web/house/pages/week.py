"""Week: which classes are coming, which need a decision, who is new in them, who to ask what."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Annotated

from fastapi import APIRouter, Depends
from starlette.responses import HTMLResponse

from roundwright.accounts.account import May
from roundwright.documents.spoken import day_words
from roundwright.hall.hall import Hall
from roundwright.people.due import DueKind, due_of
from roundwright.people.effective_clearance import effective_clearance
from roundwright.people.person import Clearance, Person
from roundwright.people.staff import staff_due
from roundwright.services.keeping.shelves import PlanEntry
from roundwright.services.plan_class import WEEK_DAYS, week_of
from roundwright.web.house.planned import about_lead, look_at
from roundwright.web.house.visit import Needs, Visit

router = APIRouter()
WeekVisit = Annotated[Visit, Depends(Needs(May.SEE_PLANS))]

BEFORE_THEY_TRAIN = frozenset(
    {
        DueKind.SCREEN_EXPIRED,
        DueKind.SCREEN_OPEN,
        DueKind.CLEARANCE_ASKED,
        DueKind.CLEARANCE_EXPIRED,
        DueKind.LIMITATION_ENDED,
        DueKind.WEEKS_UNKNOWN,
        DueKind.GUARDIAN_MISSING,
    }
)
"""What the week tells of; consents and a screen never asked stand on the page of the person."""

FARTHEST_DAYS = 3_660
"""How far a week that is shown may be from today; our choice."""


@dataclass(frozen=True, slots=True)
class WeekLine:
    """One class of the week: where its page is, and what of it needs a decision."""

    address: str
    class_id: str
    name: str
    day: str
    starts: str
    how_many: int
    decision: str
    new: tuple[str, ...]
    to_ask: tuple[str, ...]
    lead: str
    about_lead: str


@router.get("/at/{hall_id}/week")
def week(visit: WeekVisit, begins: str = "") -> HTMLResponse:
    """Show the classes of seven days, from today on or from another day."""
    kept, first = visit.kept_hall(), _first_day(begins, visit.today)
    hall, coming = kept.hall, week_of(kept.hall, first)
    days = [first + timedelta(days=n) for n in range(WEEK_DAYS)]
    plans = visit.house.keeping.plans.plans(kept.hall_id, days)
    lines = [_line(visit, hall, class_id, on, plans) for class_id, on in coming]
    ahead, back = first + timedelta(days=WEEK_DAYS), first - timedelta(days=WEEK_DAYS)
    return visit.page(
        "week.html",
        here="week",
        lines=lines,
        hall=hall,
        is_now=first == visit.today,
        days=f"{day_words(days[0])} – {day_words(days[-1])}",
        ahead=ahead.isoformat(),
        back=back.isoformat(),
        staff_asks=len(staff_due(hall.staff, visit.today)),
    )


def _first_day(text: str, today: date) -> date:
    try:
        wanted = date.fromisoformat(text) if text else today
    except ValueError:
        return today
    return wanted if abs((wanted - today).days) <= FARTHEST_DAYS else today


def _line(
    visit: Visit, hall: Hall, class_id: str, on: date, plans: Sequence[PlanEntry]
) -> WeekLine:
    wish, kept_id = hall.classes[class_id], visit.hall_id or ""
    people = hall.people_of(wish)
    mine = [p for p in plans if p.class_id == class_id and p.on == on]
    return WeekLine(
        address=f"{visit.at}/class/{class_id}/{on.isoformat()}/",
        class_id=class_id,
        name=wish.name,
        day=day_words(on),
        starts=f"{wish.start:%H:%M}",
        how_many=len(people),
        decision=_decision(visit, mine, people),
        new=tuple(p.shown_name for p in people if not p.classes_done),
        to_ask=to_ask_before(hall, people, on) if visit.may(May.SEE_PEOPLE) else (),
        lead=next((m.name for m in hall.staff if m.id == wish.lead), ""),
        about_lead=about_lead(visit.house, kept_id, hall, wish, on, mine, visit.account),
    )


def _decision(visit: Visit, mine: Sequence[PlanEntry], people: Sequence[Person]) -> str:
    """Say what of a class is still to be decided; empty where nothing is."""
    say = visit.say
    if not people:
        return say("Nobody is in it yet")
    if not mine or visit.hall_id is None:
        return say("Not planned yet")
    planned = look_at(visit.house, visit.hall_id, mine[-1])
    there = {p.person_id for p in people}
    if planned.is_stopped:
        return say("A draft: something stops it")
    if there - planned.people:
        return say("Planned without {n} who are in it now", n=len(there - planned.people))
    if planned.people - there:
        return say("Planned with {n} who are not in it now", n=len(planned.people - there))
    return ""


def to_ask_before(hall: Hall, people: Sequence[Person], on: date) -> tuple[str, ...]:
    """Give the names of those who must be asked something before they train on a day."""
    found = []
    for person in people:
        due = due_of(
            person,
            on,
            screen=hall.screen_of(person.person_id),
            record=hall.clearance_of(person.person_id),
            limitations=hall.limitations_of(person.person_id),
            consents=next((c for c in hall.consents if c.person_id == person.person_id), None),
        )
        asked = any(one.what in BEFORE_THEY_TRAIN for one in due)
        word = effective_clearance(
            person,
            hall.screen_of(person.person_id),
            hall.clearance_of(person.person_id),
            on,
        ).clearance
        if asked or word in (Clearance.UNKNOWN, Clearance.NOT_CLEARED):
            found.append(person.shown_name)
    return tuple(found)
