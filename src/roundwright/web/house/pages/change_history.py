"""What was changed about a plan, two revisions compared, and what ends the class by a time."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import time
from typing import Annotated

from fastapi import APIRouter, Depends
from starlette.responses import HTMLResponse

from roundwright.accounts.account import May
from roundwright.documents.plan_view import PlanView
from roundwright.documents.version_names import full_name
from roundwright.foundation.errors import NotFoundError
from roundwright.foundation.words import capital
from roundwright.plan.document import PlanDocument
from roundwright.services.changing.at_once_only import AtOnceOnly
from roundwright.services.changing.class_clock import clock_at, seconds_until
from roundwright.services.changing.effects import effects_of
from roundwright.services.changing.finish_by import LateChoice, finish_by
from roundwright.services.changing.moves import history
from roundwright.services.changing.retold import retold
from roundwright.services.changing.said_words import (
    cut_words,
    effect_lines,
    people_changed_words,
    with_names,
)
from roundwright.web.house.pages.change_class import AT, ClassVisit
from roundwright.web.house.visit import Needs, Visit

router = APIRouter()
SeeVisit = Annotated[Visit, Depends(Needs(May.SEE_PLANS))]
PlanVisit = Annotated[Visit, Depends(Needs(May.PLAN))]


@dataclass(frozen=True, slots=True)
class ComparedRow:
    """One person at one place, then and now."""

    who: str
    place: str
    then: str
    now: str


@router.get(AT + "/revisions")
def revisions(visit: SeeVisit, class_id: str, on: str) -> HTMLResponse:
    """Show every revision of the plan, newest first."""
    at = ClassVisit(visit, class_id, on)
    lines = [
        (one, with_names(_told(at, one.revision), at.names))
        for one in reversed(history(at.plan.revisions))
    ]
    return at.page("history.html", lines=lines)


@router.get(AT + "/revisions/{number}")
def compared(visit: SeeVisit, class_id: str, on: str, number: int) -> HTMLResponse:
    """Show what differs between a revision and the plan as it is now."""
    at = ClassVisit(visit, class_id, on)
    then = visit.house.keeping.plans.opened(at.kept.hall_id, at.plan_id, number)
    lines = effect_lines(effects_of(then.document), effects_of(at.plan.document), only_changed=True)
    units = at.view.units
    return at.page(
        "compare_plans.html",
        sentence=with_names(_told(at, number), at.names),
        effects=lines,
        rows=list(_rows(PlanView(then.document, at.names, units), at.view)),
    )


@router.get(AT + "/finish-by")
def ends_by(visit: PlanVisit, class_id: str, on: str, by: str = "") -> HTMLResponse:
    """Say what ends the class by a time, kindest first; nothing is changed yet."""
    at = ClassVisit(visit, class_id, on)
    try:
        clock = time.fromisoformat(by)
    except ValueError as error:
        raise NotFoundError("Give a time such as 19:10.") from error
    using = at.rooms.using(at.kept)
    using = replace(using, mender=AtOnceOnly(using.mender))
    document, core = at.plan.document, at.plan.document.core
    until_s = seconds_until(core, clock)
    found = finish_by(document, at.plan.revisions, until_s, core.revision, using=using)
    return at.page(
        "finish_by.html",
        by=f"{clock:%H:%M}",
        ends_now=clock_at(core, found.ends_now_s),
        enough=found.ends_now_s <= found.by_s,
        choices=[
            {
                "words": _words(one, at),
                "ends": _ends(one, at),
                "cut": one.changed.change.model_dump_json(),
            }
            for one in found.choices
        ],
        nearest="" if found.nearest is None else _nearest(found.nearest, at),
    )


def _told(at: ClassVisit, number: int) -> str:
    """Say what a change did, in the language of who reads it."""

    def document(revision: int) -> PlanDocument:
        return at.visit.house.keeping.plans.opened(at.kept.hall_id, at.plan_id, revision).document

    one = at.plan.revisions.at(number)
    return retold(one, document, at.kept.hall.catalogue, at.kept.hall.settings.units.value)


def _rows(then: PlanView, now: PlanView) -> Iterator[ComparedRow]:
    places = sorted({c.position for c in (*then.core.cells, *now.core.cells)})
    for person in dict.fromkeys((*now.order, *then.order)):
        for place in places:
            before, after = _does(then, person, place), _does(now, person, place)
            if before != after:
                yield ComparedRow(now.name(person), str(place), before, after)


def _does(view: PlanView, person_id: str, place: int) -> str:
    """Say what somebody does at a place; a dash where they are not in the class."""
    if person_id not in view.doses:
        return "–"
    cells = view.cells_by_round(person_id, place)
    said = []
    for cell in cells.values():
        exercise = next((e.exercise_id for e in view.core.exercises if e.position == place), None)
        own = cell.exercise_id
        name = f"{view.library.exercise_name(own)}: " if own and own != exercise else ""
        load = f", {view.load(cell)}" if cell.units else ""
        count = f", {cell.count.value}" if cell.count else ""
        said.append(f"{name}{full_name(cell, view.library)}{load}{count}")
    once = list(dict.fromkeys(said))
    return " / ".join(once) or "–"


def _words(choice: LateChoice, at: ClassVisit) -> str:
    problem, units = choice.changed.document.problem, at.view.units
    words = cut_words(choice.changed.said, problem, units)
    return capital(words)


def _ends(choice: LateChoice, at: ClassVisit) -> str:
    say, core = at.visit.say, at.plan.document.core
    words = say("ends at {clock}", clock=clock_at(core, choice.ends_s))
    if choice.late_s is not None:
        late = clock_at(core, choice.late_s)
        words += say(", later than {clock} in one class of ten", clock=late)
    return f"{words}; {people_changed_words(len(choice.changed.disturbed))}."


def _nearest(choice: LateChoice, at: ClassVisit) -> str:
    return f"{_words(choice, at)}: {_ends(choice, at)}"
