"""Classes: those of a week, one typed in plain words, and the planning of one on a day."""

import asyncio
from collections.abc import AsyncIterator
from datetime import date
from enum import StrEnum
from typing import Annotated, Any

from fastapi import APIRouter, Path, Query
from pydantic import BaseModel, Field
from starlette.responses import Response, StreamingResponse

from roundwright.foundation.errors import NotFoundError
from roundwright.services.keeping.new_hall import free_slug, slug_of
from roundwright.services.keeping.records import RecordEdit, RecordKey, RecordKind
from roundwright.services.plan_class import week_of
from roundwright.services.write_class import class_in_plain_words
from roundwright.web.house.class_rooms import ClassRoom
from roundwright.web.house.visit import Visit
from roundwright.web.interface.problems import answers
from roundwright.web.interface.visits import Identifier, PlanVisit, SeeVisit, Sent
from roundwright.web.page_state import Standing

router = APIRouter(tags=["classes"])
Day = Annotated[date, Path()]
LOOKS_A_SECOND = 2
MOST_LOOKS = 600
"""How long a stream of events may last: five minutes."""


class ClassShown(BaseModel):
    """One class of a week."""

    class_id: str
    name: str
    on: date
    starts: str
    people: int


class WordsWished(Sent):
    """A class typed in plain words, and whether to keep it."""

    words: str = Field(max_length=20_000)
    keep: bool = False


class WordsRead(BaseModel):
    """How a class in plain words was understood, and what is not plain."""

    understood: list[str]
    asked: list[str]
    not_understood: list[str]
    class_id: str | None = Field(description="where it was kept")


class PlanningDo(StrEnum):
    """What is to be done about a class: find one, fit it as written, another one, or stop."""

    PROPOSE = "propose"
    FIT = "fit"
    ANOTHER = "another"
    STOP = "stop"


class PlanningWished(Sent):
    """What is to be done."""

    do: PlanningDo


class PlanningShown(BaseModel):
    """Where the planning of a class stands; while `is_planning` ask again, or follow the events."""

    standing: Standing
    is_planning: bool
    plan_id: str | None
    revision: int | None
    stops: list[str] = Field(description="what makes the plan a draft")
    clash: list[str] = Field(description="what cannot all hold, where there is no plan")
    ways_out: list[str] = Field(description="what would help, verified by solving again")
    notice: str = Field(description="what came of the last question, where it gave no plan")


@router.get("/halls/{hall_id}/week", responses=answers(), operation_id="list_week")
def list_week(
    visit: SeeVisit, hall_id: Identifier, begins: Annotated[date | None, Query()] = None
) -> list[ClassShown]:
    """List the classes of seven days, from today on or from another day."""
    hall = visit.kept_hall().hall
    first = begins or visit.today
    if not 1990 <= first.year <= 2200:
        raise NotFoundError("No week so far away is shown.")
    return [
        ClassShown(
            class_id=class_id,
            name=hall.classes[class_id].name,
            on=on,
            starts=f"{hall.classes[class_id].start:%H:%M}",
            people=len(hall.people_of(hall.classes[class_id])),
        )
        for class_id, on in week_of(hall, first)
    ]


@router.post(
    "/halls/{hall_id}/class-in-words", responses=answers(409), operation_id="read_class_in_words"
)
def read_class_in_words(visit: PlanVisit, hall_id: Identifier, wished: WordsWished) -> WordsRead:
    """Read a class in plain words; with `keep`, put it into the week where all is plain."""
    kept = visit.kept_hall()
    entry = class_in_plain_words(kept.hall, wished.words)
    class_id = None
    if wished.keep and entry.wish is not None:
        class_id = free_slug(slug_of(entry.wish.name, "class"), list(kept.hall.classes))
        values = entry.wish.model_dump(mode="json", by_alias=True)
        edits = [RecordEdit(RecordKey(RecordKind.CLASS, class_id), values, None)]
        if entry.new_library_text is not None:
            where = RecordKey(RecordKind.LIBRARY_TEXT, class_id)
            edits.insert(0, RecordEdit(where, {"text": entry.new_library_text}, None))
        visit.house.keeping.halls.edit(kept.hall_id, edits, visit.by)
    return WordsRead(
        understood=list(entry.read_back),
        asked=[f"{one.words}: {one.missing}" if one.words else one.missing for one in entry.asked],
        not_understood=[one.words for one in entry.not_understood],
        class_id=class_id,
    )


AT = "/halls/{hall_id}/classes/{class_id}/{on}/planning"


@router.get(AT, responses=answers(), operation_id="see_planning")
def see_planning(
    visit: SeeVisit, hall_id: Identifier, class_id: Identifier, on: Day
) -> PlanningShown:
    """Say where the planning of a class on a day stands."""
    return _shown(_room(visit, class_id, on))


@router.post(AT, status_code=202, responses=answers(409), operation_id="do_planning")
def do_planning(
    visit: PlanVisit, hall_id: Identifier, class_id: Identifier, on: Day, wished: PlanningWished
) -> PlanningShown:
    """Have a class chosen, fitted, chosen anew, or the search stopped; it goes on beside this."""
    room = _room(visit, class_id, on)
    room.by = visit.by
    desk = room.desk
    match wished.do:
        case PlanningDo.PROPOSE:
            room.propose()
        case PlanningDo.FIT:
            room.fit()
        case PlanningDo.ANOTHER:
            desk.another(desk.view().token)
        case PlanningDo.STOP:
            desk.stop()
    return _shown(room)


@router.get(
    AT + "/events",
    responses={**answers(), 200: {"content": {"text/event-stream": {}}}},
    response_class=Response,
    operation_id="follow_planning",
)
async def follow_planning(
    visit: SeeVisit, hall_id: Identifier, class_id: Identifier, on: Day
) -> StreamingResponse:
    """Follow the planning as server-sent events: one for each change, until it ends."""
    room = _room(visit, class_id, on)
    return StreamingResponse(_events(room), media_type="text/event-stream")


async def _events(room: ClassRoom) -> AsyncIterator[str]:
    told = ""
    for _ in range(MOST_LOOKS):
        shown = _shown(room)
        text = shown.model_dump_json()
        if text != told:
            told = text
            yield f"event: planning\ndata: {text}\n\n"
        if not shown.is_planning:
            return
        await asyncio.sleep(1 / LOOKS_A_SECOND)


def _room(visit: Visit, class_id: str, on: date) -> ClassRoom:
    if visit.house.rooms is None:
        raise NotFoundError("Nobody plans here.")
    kept = visit.kept_hall()
    if class_id not in kept.hall.classes:
        raise NotFoundError("The hall has no such class.")
    return visit.house.rooms.room(kept, class_id, on)


def _shown(room: ClassRoom) -> PlanningShown:
    state, view = room.desk.state.told(), room.desk.view()
    notice: Any = view.notice
    lines = () if notice is None else (notice.title, *notice.lines, *notice.ways)
    return PlanningShown(
        standing=state.standing,
        is_planning=view.is_planning,
        plan_id=None if state.core is None else state.core.plan_id,
        revision=None if state.core is None else state.core.revision,
        stops=list(state.stops),
        clash=list(state.clash),
        ways_out=list(state.ways_out),
        notice=" ".join(lines),
    )
