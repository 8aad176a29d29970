"""Changing the plan of a class: one cell, an exercise, people, kit, length; undo, redo, compare."""

from datetime import date
from typing import Annotated
from urllib.parse import quote

from fastapi import APIRouter, Depends
from starlette.responses import HTMLResponse, Response

from roundwright.accounts.account import May
from roundwright.documents.plan_view import PlanView
from roundwright.foundation.errors import (
    BadInputError,
    ChangedMeanwhileError,
    NoPlanError,
    NotFoundError,
    UnsafePlanError,
)
from roundwright.foundation.words import shown_units
from roundwright.library.spoken_library import spoken
from roundwright.people.walk_in import QUESTIONS, REPLY_WORDS
from roundwright.services.changing.cell_choices import cell_choices
from roundwright.services.changing.moves import Way, named_error
from roundwright.services.changing.people_today import HURTS
from roundwright.services.keeping.records import KeptHall
from roundwright.services.keeping.shelves import KeptPlan
from roundwright.services.names import everyone_of
from roundwright.web.house.answers import see
from roundwright.web.house.change_form import change_of_form
from roundwright.web.house.class_rooms import ClassRoom, ClassRooms
from roundwright.web.house.visit import FormSent, Needs, Sent, Visit
from roundwright.web.texts import say_again

router = APIRouter()
AT = "/at/{hall_id}/class/{class_id}/{on}"
PlanVisit = Annotated[Visit, Depends(Needs(May.PLAN))]
CHANGED = 409


class ClassVisit:
    """One class of a kept hall with its plan, as a page of changes sees it."""

    def __init__(self, visit: Visit, class_id: str, on: str) -> None:
        self.visit, self.class_id = visit, class_id
        try:
            self.on = date.fromisoformat(on)
        except ValueError as error:
            raise NotFoundError("The address names no day.") from error
        if visit.house.rooms is None:
            raise NotFoundError("Nobody plans here.")
        self.rooms: ClassRooms = visit.house.rooms
        self.kept: KeptHall = visit.kept_hall()
        self.room: ClassRoom = self.rooms.room(self.kept, class_id, self.on)
        if self.room.plan_id is None:
            raise NotFoundError("This class has no plan yet.", "Have one proposed first.")
        self.plan: KeptPlan = self.room.in_hand.opened(self.room.plan_id)

    @property
    def plan_id(self) -> str:
        """The plan that is shown."""
        return self.plan.document.core.plan_id

    @property
    def base(self) -> str:
        """Where the addresses of the class begin."""
        return f"{self.visit.at}/class/{self.class_id}/{self.on.isoformat()}"

    @property
    def names(self) -> dict[str, str]:
        """Everybody's name who may be in any revision, by id."""
        return everyone_of(self.plan.document, self.plan.revisions, self.kept.hall)

    @property
    def view(self) -> PlanView:
        """The plan with the names of loads."""
        units = shown_units(self.kept.hall.settings.units.value)
        return PlanView(document=self.plan.document, names=self.names, units=units)

    def page(self, template: str, status: int = 200, **values: object) -> HTMLResponse:
        """Fill in a page about the class."""
        given: dict[str, object] = {
            "here": "week",
            "base": self.base,
            "plan": self.plan,
            "core": self.plan.document.core,
            "names": self.names,
            "exercise_names": self.exercise_names,
            "sent": Sent(),
            "faults": {},
            **values,
        }
        return self.visit.page(template, status, **given)

    @property
    def exercise_names(self) -> dict[int, str]:
        """The exercises by place."""
        document = self.plan.document
        return {
            e.position: spoken(document.problem.library).exercise_name(e.exercise_id)
            for e in sorted(document.core.exercises, key=lambda e: e.position)
        }


def class_visit(visit: PlanVisit, class_id: str, on: str) -> ClassVisit:
    """Give the class that the address names."""
    return ClassVisit(visit, class_id, on)


Changing = Annotated[ClassVisit, Depends(class_visit)]


@router.get(AT + "/cell/{person_id}/{place}")
def cell(visit: PlanVisit, at: Changing, person_id: str, place: int) -> HTMLResponse:
    """Show what one person does at one place, and what could stand there instead."""
    choices = cell_choices(at.plan.document, person_id, place, at.kept.hall.catalogue)
    view = at.view
    return at.page(
        "cell.html",
        person_id=person_id,
        name=view.name(person_id),
        place=place,
        choices=choices,
        masses=[(str(m), view.mass(m)) for m in choices.masses_g],
        mass_now=view.mass(choices.mass_g) if choices.mass_g else "",
    )


@router.get(AT + "/changes")
def changes(visit: PlanVisit, at: Changing) -> HTMLResponse:
    """Show what can be changed about the class as a whole."""
    return _changes_page(at, Sent(), {})


@router.post(AT + "/change")
def change(visit: PlanVisit, at: Changing, sent: FormSent) -> Response:
    """Answer a change at once and keep the answer."""
    taken = [str(getattr(r.change, "person", "")) for r in at.plan.revisions.revisions]
    try:
        wanted = change_of_form(sent, at.kept.hall, at.plan.document.problem, taken)
        at.plan.revisions.require_current(_base(sent, at))
        using = at.rooms.using(at.kept)
        at.room.changes.ask(at.plan_id, wanted, _base(sent, at), using, visit.by)
    except ChangedMeanwhileError as error:
        return _stale(at, error)
    except BadInputError as error:
        say = visit.say
        told = {f.field: say("Expected: {what}.", what=say(f.expected)) for f in error.faults}
        return _changes_page(at, sent, told, 422)
    except (NoPlanError, NotFoundError, UnsafePlanError) as error:
        return _changes_page(
            at, sent, {"change": f"{say_again(error.detail)} {say_again(error.next_step)}"}, 422
        )
    return see(f"{at.base}/#{_where(sent)}")


@router.post(AT + "/undo")
def undo(visit: PlanVisit, at: Changing, sent: FormSent) -> Response:
    """Go back to the plan before the last change."""
    return _moved(visit, at, sent, undo_it=True)


@router.post(AT + "/redo")
def redo(visit: PlanVisit, at: Changing, sent: FormSent) -> Response:
    """Go on to the change that was undone last."""
    return _moved(visit, at, sent, undo_it=False)


@router.post(AT + "/take-better")
def take_better(visit: PlanVisit, at: Changing, sent: FormSent) -> Response:
    """Keep the better answer in the place of the first one."""
    try:
        using = at.rooms.using(at.kept)
        at.room.changes.take_better(at.plan_id, _base(sent, at), using, visit.by)
    except ChangedMeanwhileError as error:
        return _stale(at, error)
    return see(f"{at.base}/#changed")


def _moved(visit: Visit, at: ClassVisit, sent: Sent, *, undo_it: bool) -> Response:
    try:
        way: Way = "undo" if undo_it else "redo"
        at.room.changes.move(at.plan_id, way, _base(sent, at), visit.by)
    except ChangedMeanwhileError as error:
        return _stale(at, error)
    return see(f"{at.base}/#changed")


def _base(sent: Sent, at: ClassVisit) -> int:
    """Give the revision that whoever asks has before them; of another plan it is none."""
    return (sent.whole("base") or 0) if sent.text("plan") == at.plan_id else 0


def _stale(at: ClassVisit, error: ChangedMeanwhileError) -> HTMLResponse:
    told = named_error(error, at.names)
    return at.page("stale.html", CHANGED, told=told.detail, next_step=told.next_step)


def _where(sent: Sent) -> str:
    return quote(sent.text("back")[:40]) or "changed"


def _changes_page(
    at: ClassVisit, sent: Sent, faults: dict[str, str], status: int = 200
) -> HTMLResponse:
    hall, say, view = at.kept.hall, at.visit.say, at.view
    there = set(at.plan.document.problem.people)
    replies = [(r.value, say(words)) for r, words in REPLY_WORDS.items()]
    kit = [(f"m{d.unit_mass_g}", view.mass(d.unit_mass_g)) for d in hall.kit.dumbbells]
    kit += [(f"i{i.id}", i.label or say(i.kind.value)) for i in hall.kit.items]
    lines = sorted(spoken(hall.catalogue).lines.values(), key=lambda line: line.name)
    return at.page(
        "changes.html",
        status,
        sent=sent,
        faults=faults,
        people=[(p, view.name(p)) for p in view.order],
        newcomers=[(p.person_id, p.shown_name) for p in hall.people if p.person_id not in there],
        questions=[
            (name, say(words), replies)
            for name, words in zip(("first", "second", "third"), QUESTIONS, strict=True)
        ],
        regions=[(r.value, say(r.value.replace("_", " "))) for r in HURTS],
        kit=kit,
        exercises=[("", say("let the tool choose")), *((x.slug, x.name) for x in lines)],
        minutes=at.plan.document.problem.spec.slot_s // 60,
    )
