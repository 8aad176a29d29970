"""What a hall is: its settings, rooms, kit, people, limitations and classes as one value.

How it is read from files is in `hall_text`, how it is written in `written_hall`.
"""

from enum import StrEnum
from typing import Annotated
from zoneinfo import ZoneInfo

from pydantic import Field, field_validator

from roundwright.foundation.identifiers import Slug
from roundwright.foundation.model import Authored
from roundwright.goals.class_wish import ClassWish
from roundwright.kit.care import KitInspection
from roundwright.kit.inventory import Inventory, Room
from roundwright.kit.room_care import RoomCare
from roundwright.library.catalogue import Catalogue
from roundwright.people.clearance_record import ClearanceRecord
from roundwright.people.consents import Consents
from roundwright.people.health_screen import HealthScreen
from roundwright.people.limitation import Limitation
from roundwright.people.person import Person
from roundwright.people.staff import StaffMember

MOST_PEOPLE = 60
"""People a class at most (contract; above 40 the gate cautions)."""


class Units(StrEnum):
    """In which unit masses are shown; stored masses are grams."""

    KG = "kg"
    LB = "lb"


class Paper(StrEnum):
    """The sheet size that printed pages are made for."""

    A4 = "a4"
    LETTER = "letter"


class HallSettings(Authored):
    """What the hall chooses once: name, time zone (IANA), units, locale, paper."""

    name: Annotated[str, Field(min_length=1, max_length=80)]
    time_zone: str
    units: Units = Units.KG
    locale: Annotated[str, Field(pattern=r"^[a-z]{2,3}(-[A-Z]{2})?$")] = "en-GB"
    paper: Paper = Paper.A4

    @field_validator("time_zone")
    @classmethod
    def _zone_exists(cls, value: str) -> str:
        try:
            ZoneInfo(value)
        except (KeyError, ValueError, OSError) as error:
            raise ValueError("expected an IANA time zone such as Europe/London") from error
        return value


class Hall(Authored):
    """Everything that the hall folder holds, read and checked.

    `catalogue` is the shipped library with the hall's own entries;
    `library_texts` are those entries as written, by file name. People and
    limitations never show in a repr.
    """

    settings: HallSettings
    rooms: tuple[Room, ...] = Field(min_length=1)
    kit: Inventory
    people: tuple[Person, ...] = Field(default=(), repr=False)
    limitations: tuple[Limitation, ...] = Field(default=(), repr=False)
    screens: tuple[HealthScreen, ...] = Field(default=(), repr=False)
    clearances: tuple[ClearanceRecord, ...] = Field(default=(), repr=False)
    consents: tuple[Consents, ...] = Field(default=(), repr=False)
    inspections: tuple[KitInspection, ...] = ()
    room_care: tuple[RoomCare, ...] = ()
    staff: tuple[StaffMember, ...] = ()
    classes: dict[Slug, ClassWish] = Field(default_factory=dict)
    library_texts: dict[str, str] = Field(default_factory=dict, repr=False)
    catalogue: Catalogue = Field(repr=False)

    def room(self, room_id: str) -> Room | None:
        """Give a room by its id, or None."""
        return next((room for room in self.rooms if room.id == room_id), None)

    def care_of(self, room_id: str) -> RoomCare | None:
        """Give what is written down of a room, or None."""
        return next((care for care in self.room_care if care.room == room_id), None)

    def person(self, person_id: str) -> Person | None:
        """Give a person by their id, or None."""
        return next((p for p in self.people if p.person_id == person_id), None)

    def people_of(self, wish: ClassWish) -> tuple[Person, ...]:
        """Give the people of a class, in the order of people.csv."""
        if wish.people == "all":
            return self.people
        return tuple(p for p in self.people if p.person_id in wish.people)

    def limitations_of(self, person_id: str) -> tuple[Limitation, ...]:
        """Give the limitations of one person, in the order of limitations.csv."""
        return tuple(row for row in self.limitations if row.person_id == person_id)

    def screen_of(self, person_id: str) -> HealthScreen | None:
        """Give the health screen of one person, or None."""
        return next((s for s in self.screens if s.person_id == person_id), None)

    def clearance_of(self, person_id: str) -> ClearanceRecord | None:
        """Give the recorded clearance of one person, or None."""
        return next((c for c in self.clearances if c.person_id == person_id), None)
