"""What must be known of a room before a class: ways out, first aid, whom to call, the last drill.

Common practice, no source; local codes go first. What is not written down is not there.
"""

from collections.abc import Iterator
from datetime import date, timedelta
from enum import StrEnum
from typing import Annotated

from pydantic import Field

from roundwright.foundation.identifiers import Slug
from roundwright.foundation.model import Authored

DRILL_DAYS = 182
"""Days between drills where nothing else is said; our choice, local codes go first."""
Line = Annotated[str, Field(min_length=1, max_length=120)]
Words = Annotated[str, Field(max_length=120)]


class RoomCare(Authored):
    """What is written down of one room."""

    room: Slug
    exits: tuple[Line, ...] = Field(default=(), max_length=10)
    first_aid: Words = ""
    defibrillator: Words = Field(default="", description="where it is, or 'none'; empty: unknown")
    address: Words = ""
    way_in: Words = Field(default="", description="how an ambulance comes in, who meets it")
    phone: Words = ""
    last_drill_on: date | None = None
    drill_every_days: int = Field(default=DRILL_DAYS, ge=1, le=3_660)


class RoomDue(StrEnum):
    """What is missing or late."""

    EXITS = "exits"
    FIRST_AID = "first_aid"
    DEFIBRILLATOR = "defibrillator"
    ADDRESS = "address"
    PHONE = "phone"
    DRILL = "drill"


ROOM_WORDS: dict[RoomDue, str] = {
    RoomDue.EXITS: "write down the ways out",
    RoomDue.FIRST_AID: "write down where first aid is",
    RoomDue.DEFIBRILLATOR: "write down where the defibrillator is, or that there is none",
    RoomDue.ADDRESS: "write down the address to give in a call",
    RoomDue.PHONE: "write down which phone is used",
    RoomDue.DRILL: "a drill is due",
}
"""What to do, for the coach."""


def room_due(care: RoomCare | None, room: str, on: date) -> tuple[RoomDue, ...]:
    """Give what is missing or late of a room on a date."""
    return tuple(_missing(care or RoomCare(room=room), on))


def _missing(care: RoomCare, on: date) -> Iterator[RoomDue]:
    if not care.exits:
        yield RoomDue.EXITS
    for name in (RoomDue.FIRST_AID, RoomDue.DEFIBRILLATOR, RoomDue.ADDRESS, RoomDue.PHONE):
        if not getattr(care, name.value):
            yield name
    last = care.last_drill_on
    if last is None or last + timedelta(days=care.drill_every_days) < on:
        yield RoomDue.DRILL
