"""One room: its floor plan with what is at the walls, and what must be known before a class."""

from collections.abc import Sequence
from decimal import Decimal, InvalidOperation
from typing import Annotated

from fastapi import APIRouter, Depends
from markupsafe import Markup
from pydantic import ValidationError
from starlette.responses import HTMLResponse, Response

from roundwright.accounts.account import May
from roundwright.documents.floor_plan import empty_floor
from roundwright.documents.floor_plan_svg import floor_plan_svg
from roundwright.foundation.errors import BadInputError, ChangedMeanwhileError, NotFoundError
from roundwright.kit.inventory import Fixture, FixtureKind, Room, Wall
from roundwright.kit.room_care import ROOM_WORDS, RoomCare, room_due
from roundwright.services.keeping.records import KeptHall, RecordEdit, RecordKey, RecordKind
from roundwright.web.house.answers import see
from roundwright.web.house.visit import FormSent, Needs, Sent, Visit
from roundwright.web.texts import say_again

router = APIRouter()
AT = "/at/{hall_id}/room/{room_id}"
SeeVisit = Annotated[Visit, Depends(Needs(May.SEE_PLANS))]
ChangeVisit = Annotated[Visit, Depends(Needs(May.CHANGE_HALL))]
MOST_METRES = Decimal(200)
TEXTS = ("first_aid", "defibrillator", "address", "way_in", "phone")


@router.get(AT)
def one_room(visit: SeeVisit, room_id: str) -> HTMLResponse:
    """Show a room."""
    kept = visit.kept_hall()
    return _page(visit, kept, _room(kept, room_id), Sent(), {})


@router.post(AT + "/fixtures")
def place(visit: ChangeVisit, room_id: str, sent: FormSent) -> Response:
    """Put something at a wall, or move what is there: `number` says which, empty for a new one."""
    kept = visit.kept_hall()
    room, say = _room(kept, room_id), visit.say
    at, width = _metres(sent.text("at")), _metres(sent.text("width"))
    faults: dict[str, str] = {}
    for name, value, least in (("at", at, 0), ("width", width, 100)):
        if value is None or value < least:
            faults[name] = say("Expected: {what}.", what=say("metres along the wall"))
    if sent.text("kind") not in list(FixtureKind) or sent.text("wall") not in list(Wall):
        faults["kind"] = say("Choose one of the list.")
    if faults:
        return _page(visit, kept, room, sent, faults, 422)
    made = Fixture.model_validate(
        {"kind": sent.text("kind"), "wall": sent.text("wall"), "at": at, "width": width}
    )
    fixtures, number = list(room.fixture), sent.whole("number")
    if number is None:
        fixtures.append(made)
    elif number < len(fixtures):
        fixtures[number] = made
    else:
        raise NotFoundError("There is no such thing in this room.")
    return _kept_room(visit, kept, room, fixtures, sent)


@router.post(AT + "/fixtures/{number}/remove")
def take_away(visit: ChangeVisit, room_id: str, number: int, sent: FormSent) -> Response:
    """Take something away from a wall."""
    kept = visit.kept_hall()
    room = _room(kept, room_id)
    if not 0 <= number < len(room.fixture):
        raise NotFoundError("There is no such thing in this room.")
    fixtures = [one for n, one in enumerate(room.fixture) if n != number]
    return _kept_room(visit, kept, room, fixtures, sent)


@router.post(AT + "/care")
def keep_care(visit: ChangeVisit, room_id: str, sent: FormSent) -> Response:
    """Write down ways out, first aid, whom to call, and the last drill."""
    kept = visit.kept_hall()
    room, say = _room(kept, room_id), visit.say
    drill, every = sent.day("last_drill_on"), sent.whole("drill_every_days")
    faults: dict[str, str] = {}
    if sent.text("last_drill_on") and drill is None:
        faults["last_drill_on"] = say("Expected: {what}.", what=say("a day such as 2026-03-03"))
    exits = [line.strip() for line in sent.text("exits").splitlines() if line.strip()]
    values: dict[str, object] = {name: sent.text(name) for name in TEXTS}
    values |= {
        "room": room_id,
        "exits": exits,
        "last_drill_on": drill.isoformat() if drill else None,
        "drill_every_days": 0 if every is None else every,
    }
    try:
        RoomCare.model_validate(values)
    except ValidationError as error:
        for each in error.errors():
            faults[str(each["loc"][0])] = say("Too long, or not a number of days.")
    if faults:
        return _page(visit, kept, room, sent, faults, 422)
    edit = RecordEdit(RecordKey(RecordKind.ROOM_CARE, room_id), values, sent.whole("version"))
    return _kept(visit, kept, room, edit, sent)


def _kept_room(
    visit: Visit, kept: KeptHall, room: Room, fixtures: Sequence[Fixture], sent: Sent
) -> Response:
    values = room.model_dump(mode="json", by_alias=True)
    values["fixture"] = [one.model_dump(mode="json", by_alias=True) for one in fixtures]
    try:
        Room.model_validate(values)
    except ValidationError:
        words = visit.say("It ends beyond the wall; the front and back walls are the long ones.")
        return _page(visit, kept, room, sent, {"at": words}, 422)
    edit = RecordEdit(RecordKey(RecordKind.ROOM, room.id), values, sent.whole("version"))
    return _kept(visit, kept, room, edit, sent)


def _kept(visit: Visit, kept: KeptHall, room: Room, edit: RecordEdit, sent: Sent) -> Response:
    try:
        visit.house.keeping.halls.edit(kept.hall_id, [edit], visit.by)
    except ChangedMeanwhileError as error:
        words = {"changed": f"{say_again(error.detail)} {say_again(error.next_step)}"}
        later = visit.kept_hall()
        return _page(visit, later, _room(later, room.id), sent, words, 409)
    except BadInputError as error:
        return _page(visit, kept, room, sent, {"changed": say_again(error.detail)}, 422)
    return see(f"{visit.at}/room/{room.id}")


def _room(kept: KeptHall, room_id: str) -> Room:
    room = kept.hall.room(room_id)
    if room is None:
        raise NotFoundError("There is no such room in this hall.")
    return room


def _metres(text: str) -> int | None:
    try:
        value = Decimal(text.replace(",", ".")) if 0 < len(text) <= 12 else None
    except InvalidOperation:
        return None
    if value is None or not value.is_finite() or not 0 <= value <= MOST_METRES:
        return None
    return int(value * 1000)


def _page(
    visit: Visit, kept: KeptHall, room: Room, sent: Sent, faults: dict[str, str], status: int = 200
) -> HTMLResponse:
    say, care = visit.say, kept.hall.care_of(room.id)
    plan = empty_floor(room)
    return visit.page(
        "one_room.html",
        status,
        here="room",
        room=room,
        svg=Markup(floor_plan_svg(plan)),
        plan=plan,
        kinds=[(k.value, say(k.value.replace("_", " "))) for k in FixtureKind],
        walls=[(w.value, say(w.value)) for w in Wall],
        care=care or RoomCare(room=room.id),
        due=[say(ROOM_WORDS[one]) for one in room_due(care, room.id, visit.today)],
        room_version=kept.versions.get(RecordKey(RecordKind.ROOM, room.id)),
        care_version=kept.versions.get(RecordKey(RecordKind.ROOM_CARE, room.id)),
        sent=sent,
        faults=faults,
    )
