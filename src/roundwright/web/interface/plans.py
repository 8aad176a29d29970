"""Kept plans: read, changed, undone and redone, played through, printed."""

from dataclasses import replace
from datetime import date, time
from typing import Annotated, Any, Literal

from fastapi import APIRouter, Query
from pydantic import BaseModel, Field
from starlette.responses import Response

from roundwright.bootstrap.printing import Printed, PrintWish, printed
from roundwright.documents.class_moment import moments
from roundwright.documents.plan_view import PlanView
from roundwright.foundation.errors import NotFoundError
from roundwright.foundation.words import shown_units
from roundwright.plan.changing.change import Change
from roundwright.plan.core import Core
from roundwright.plan.document import Facts
from roundwright.plan.gate.words import words_of
from roundwright.plan.verdict import Verdict
from roundwright.rehearsal.report import RehearsalReport, rehearse
from roundwright.services.changing.at_once_only import AtOnceOnly
from roundwright.services.changing.class_clock import seconds_until
from roundwright.services.changing.finish_by import finish_by
from roundwright.services.changing.moves import Way, history
from roundwright.services.changing.said_words import with_names
from roundwright.services.keeping.shelves import KeptPlan
from roundwright.services.names import everyone_of, names_of
from roundwright.web.house.visit import Visit
from roundwright.web.interface.problems import answers
from roundwright.web.interface.visits import Identifier, PlanVisit, SeeVisit, Sent

router = APIRouter(tags=["plans"])
AT = "/halls/{hall_id}/plans/{plan_id}"
USUAL_PLAYS = 400


class PlanEntryShown(BaseModel):
    """A plan in the list."""

    plan_id: str
    class_id: str
    on: date
    revision: int


class PlanShown(BaseModel):
    """A plan without anything about health: its core, what the gate found, and its facts."""

    digest: str
    core: Core
    verdict: Verdict
    facts: Facts
    findings: list[str] = Field(description="what the gate found, in words with names")
    can_undo: bool
    can_redo: bool


class ChangeWished(Sent):
    """A change, and the revision that it was asked on."""

    base_revision: int = Field(ge=0, le=10**6)
    change: Change


class MoveWished(Sent):
    """The revision that whoever asks has before them."""

    base_revision: int = Field(ge=0, le=10**6)


class ChangeShown(BaseModel):
    """What came of a change: kept as a revision."""

    revision: int
    sentence: str
    tier: int
    disturbed: dict[str, list[int]]
    new: list[str]
    gone: list[str]
    is_looking: bool = Field(description="whether a better answer is still looked for")


class RevisionShown(BaseModel):
    """One revision."""

    revision: int
    parent: int | None
    sentence: str
    is_current: bool


class EndsByShown(BaseModel):
    """One way to end in time: the change that does it."""

    change: dict[str, Any]
    sentence: str
    ends_s: int
    late_s: int | None


class StretchShown(BaseModel):
    """What one person does from when to when, s from the start of a typical class."""

    person_id: str
    from_s: int
    to_s: int
    place: str
    doing: str


class RehearsalShown(BaseModel):
    """A class played through."""

    report: RehearsalReport
    stretches: list[StretchShown]


@router.get("/halls/{hall_id}/plans", responses=answers(), operation_id="list_plans")
def list_plans(
    visit: SeeVisit,
    hall_id: Identifier,
    on: Annotated[date | None, Query()] = None,
    class_id: Annotated[str | None, Query(max_length=80)] = None,
) -> list[PlanEntryShown]:
    """List kept plans in the order in which they were kept."""
    visit.kept_hall()
    days = None if on is None else [on]
    return [
        PlanEntryShown(plan_id=e.plan_id, class_id=e.class_id, on=e.on, revision=e.revision)
        for e in visit.house.keeping.plans.plans(hall_id, days, class_id)
    ]


@router.get(AT, responses=answers(), operation_id="read_plan")
def read_plan(
    visit: SeeVisit,
    hall_id: Identifier,
    plan_id: Identifier,
    revision: Annotated[int | None, Query(ge=1, le=10**6)] = None,
) -> PlanShown:
    """Read a plan at its current or another revision, as it was judged when it was kept."""
    return _shown(visit, visit.house.keeping.plans.opened(hall_id, plan_id, revision))


@router.get(AT + "/revisions", responses=answers(), operation_id="list_revisions")
def list_revisions(
    visit: SeeVisit, hall_id: Identifier, plan_id: Identifier
) -> list[RevisionShown]:
    """List a plan's revisions, oldest first, also branches that were left."""
    kept = visit.house.keeping.plans.opened(hall_id, plan_id)
    names = everyone_of(kept.document, kept.revisions, visit.kept_hall().hall)
    return [
        RevisionShown(
            revision=one.revision,
            parent=one.parent,
            sentence=with_names(one.sentence, names),
            is_current=one.is_current,
        )
        for one in history(kept.revisions)
    ]


@router.post(AT + "/changes", responses=answers(409), operation_id="change_plan")
def change_plan(
    visit: PlanVisit, hall_id: Identifier, plan_id: Identifier, wished: ChangeWished
) -> ChangeShown:
    """Answer a change at once and keep the answer as a revision."""
    desk, using = _desk(visit, plan_id)
    desk.ask(plan_id, wished.change, wished.base_revision, using, visit.by)
    return _told(visit, plan_id)


@router.post(AT + "/better", responses=answers(409), operation_id="take_better_answer")
def take_better_answer(
    visit: PlanVisit, hall_id: Identifier, plan_id: Identifier, wished: MoveWished
) -> PlanShown:
    """Put a better answer, where one was found, in the place of the last one."""
    desk, using = _desk(visit, plan_id)
    return _shown(visit, desk.take_better(plan_id, wished.base_revision, using, visit.by))


@router.post(AT + "/{way}", responses=answers(409), operation_id="move_plan")
def move_plan(
    visit: PlanVisit,
    hall_id: Identifier,
    plan_id: Identifier,
    way: Literal["undo", "redo"],
    wished: MoveWished,
) -> PlanShown:
    """Undo the last change, or do it again."""
    desk, _ = _desk(visit, plan_id)
    chosen: Way = way
    return _shown(visit, desk.move(plan_id, chosen, wished.base_revision, visit.by))


@router.get(AT + "/ends-by", responses=answers(), operation_id="list_ways_to_end_by")
def list_ways_to_end_by(
    visit: PlanVisit, hall_id: Identifier, plan_id: Identifier, by: time
) -> list[EndsByShown]:
    """List what ends the class by a local time, kindest first; nothing is changed."""
    kept_hall = visit.kept_hall()
    kept = visit.house.keeping.plans.opened(hall_id, plan_id)
    rooms = visit.house.rooms
    if rooms is None:
        raise NotFoundError("Nobody plans here.")
    using = rooms.using(kept_hall)
    using = replace(using, mender=AtOnceOnly(using.mender))
    core = kept.document.core
    until_s = seconds_until(core, by)
    found = finish_by(kept.document, kept.revisions, until_s, core.revision, using=using)
    names = everyone_of(kept.document, kept.revisions, kept_hall.hall)
    return [
        EndsByShown(
            change=one.changed.change.model_dump(mode="json"),
            sentence=with_names(one.changed.sentence, names),
            ends_s=one.ends_s,
            late_s=one.late_s,
        )
        for one in found.choices
    ]


@router.get(AT + "/rehearsal", responses=answers(), operation_id="rehearse_plan")
def rehearse_plan(
    visit: SeeVisit,
    hall_id: Identifier,
    plan_id: Identifier,
    seed: Annotated[int, Query(ge=0, le=2**31)] = 1,
    plays: Annotated[int, Query(ge=1, le=2_000)] = USUAL_PLAYS,
) -> RehearsalShown:
    """Play a plan through: how often it ends in time, who waits, who stands where when."""
    hall = visit.kept_hall().hall
    kept = visit.house.keeping.plans.opened(hall_id, plan_id)
    document = kept.document
    report = rehearse(document.core, document.problem, seed=seed, plays=plays)
    view = PlanView(
        document,
        everyone_of(kept.document, kept.revisions, hall),
        shown_units(hall.settings.units.value),
    )
    lines = moments(view, report.middle) if report.middle is not None else ()
    return RehearsalShown(
        report=report,
        stretches=[
            StretchShown(
                person_id=one.person_id,
                from_s=one.from_s,
                to_s=one.to_s,
                place=one.place,
                doing=one.doing,
            )
            for one in lines
        ],
    )


@router.get(
    AT + "/papers/{what}",
    responses={**answers(), 200: {"content": {"application/pdf": {}, "text/calendar": {}}}},
    response_class=Response,
    operation_id="print_plan",
)
def print_plan(
    visit: SeeVisit,
    hall_id: Identifier,
    plan_id: Identifier,
    what: Printed,
    paper: Literal["a4", "letter"] = "a4",
) -> Response:
    """Print one paper of a plan that the gate passes today."""
    kept = visit.house.keeping.plans.opened(hall_id, plan_id)
    wish = PrintWish(what=(what,), paper=paper)
    hall = visit.kept_hall().hall
    data = printed(visit.house.adapters, kept.document, hall, what, wish)
    kind = "text/calendar" if what is Printed.CALENDAR else "application/pdf"
    return Response(data, media_type=kind)


def _desk(visit: Visit, plan_id: str) -> Any:
    rooms = visit.house.rooms
    if rooms is None:
        raise NotFoundError("Nobody plans here.")
    kept_hall = visit.kept_hall()
    core = visit.house.keeping.plans.opened(kept_hall.hall_id, plan_id).document.core
    class_id = core.class_.class_id
    if class_id not in kept_hall.hall.classes:
        raise NotFoundError("The hall no longer has the plan's class.")
    room = rooms.room(kept_hall, class_id, core.class_.starts_on)
    return room.changes, rooms.using(kept_hall)


def _told(visit: Visit, plan_id: str) -> ChangeShown:
    desk, _ = _desk(visit, plan_id)
    hall = visit.kept_hall().hall
    kept = visit.house.keeping.plans.opened(str(visit.hall_id), plan_id)
    names, view = everyone_of(kept.document, kept.revisions, hall), desk.view()
    answer = view.answer
    exercises = names_of(kept.document.problem, hall).exercises
    return ChangeShown(
        revision=kept.document.core.revision,
        sentence=with_names(answer.sentence, names),
        tier=answer.tier,
        disturbed={p: list(places) for p, places in answer.disturbed.items()},
        new=[words_of(one, names, exercises) for one in answer.new],
        gone=[words_of(one, names, exercises) for one in answer.gone],
        is_looking=view.is_looking,
    )


def _shown(visit: Visit, kept: KeptPlan) -> PlanShown:
    hall, document = visit.kept_hall().hall, kept.document
    names = everyone_of(kept.document, kept.revisions, hall)
    exercises = names_of(document.problem, hall).exercises
    return PlanShown(
        digest=document.core.digest,
        core=document.core,
        verdict=document.verdict,
        facts=document.facts,
        findings=[words_of(one, names, exercises) for one in document.verdict.findings],
        can_undo=kept.revisions.can_undo,
        can_redo=kept.revisions.can_redo,
    )
