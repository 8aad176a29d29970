"""A way out taken by one press: the class is asked for otherwise, and planned anew."""

from datetime import date
from typing import Annotated

from fastapi import APIRouter, Depends
from starlette.responses import Response

from roundwright.accounts.account import May
from roundwright.foundation.errors import ChangedMeanwhileError, NotFoundError
from roundwright.plan.build_planning import is_complete
from roundwright.services.keeping.records import RecordEdit, RecordKey, RecordKind
from roundwright.services.take_way_out import wish_after
from roundwright.web.house.answers import see
from roundwright.web.house.pages.change_class import AT
from roundwright.web.house.visit import Needs, Visit

router = APIRouter()
PlanVisit = Annotated[Visit, Depends(Needs(May.PLAN))]


@router.post(AT + "/way-out/{number}")
def take(visit: PlanVisit, class_id: str, on: str, number: int) -> Response:
    """Change the class as a way out says, and have it fitted, or chosen where places are open."""
    rooms, kept = visit.house.rooms, visit.kept_hall()
    try:
        day = date.fromisoformat(on)
    except ValueError as error:
        raise NotFoundError("The address names no day.") from error
    wish = kept.hall.classes.get(class_id)
    if rooms is None or wish is None:
        raise NotFoundError("The hall has no such class.")
    ways = rooms.room(kept, class_id, day).desk.state.ways
    if not 0 <= number < len(ways):
        raise ChangedMeanwhileError("These ways out are no longer on the page.", "Look again.")
    later = wish_after(wish, ways[number])
    if later is None:
        raise ChangedMeanwhileError(
            "The class is no longer the one that this way out was found for.", "Look again."
        )
    where = RecordKey(RecordKind.CLASS, class_id)
    values = later.model_dump(mode="json", by_alias=True)
    edit = RecordEdit(where, values, kept.versions.get(where))
    visit.house.keeping.halls.edit(kept.hall_id, [edit], visit.by)
    room = rooms.room(visit.kept_hall(), class_id, day)
    room.by = visit.by
    room.anew(as_written=is_complete(later))
    there = "" if room.desk.wait() else "planning"
    return see(f"{visit.at}/class/{class_id}/{day.isoformat()}/{there}")
