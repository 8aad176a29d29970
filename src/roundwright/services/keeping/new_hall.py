"""A hall from the few things that are asked at first: a name, a zone, and one room."""

import re
import unicodedata
from collections.abc import Collection
from dataclasses import dataclass
from decimal import Decimal, InvalidOperation

from pydantic import ValidationError

from roundwright.foundation.errors import BadInputError
from roundwright.foundation.faults import Fault
from roundwright.hall.hall import Hall, HallSettings
from roundwright.kit.inventory import Inventory, KitItem, Room
from roundwright.library.catalogue import Catalogue
from roundwright.library.vocabulary import KitKind

LONGEST_ID = 30


@dataclass(frozen=True, slots=True)
class NewHall:
    """What a form says, as text: names, IANA zone, units, paper, and the room in metres."""

    name: str
    time_zone: str
    units: str
    paper: str
    room: str
    length_m: str
    width_m: str


def new_hall(wanted: NewHall, base: Catalogue) -> Hall:
    """Make a hall with one room and mats, without people or classes yet.

    Raises
    ------
    BadInputError
        With every value that cannot be.
    """
    faults: list[Fault] = []
    length, width = (
        _millimetres(field, text, faults)
        for field, text in (("length", wanted.length_m), ("width", wanted.width_m))
    )
    if not 1 <= len(wanted.room) <= 80:
        faults.append(_fault("room", "1 to 80 characters"))
    settings = None
    try:
        settings = HallSettings.model_validate(
            {
                "name": wanted.name,
                "time_zone": wanted.time_zone,
                "units": wanted.units,
                "paper": wanted.paper,
            }
        )
    except ValidationError as error:
        expected = {"name": "1 to 80 characters", "time_zone": "a zone such as Europe/London"}
        faults += [
            _fault(str(e["loc"][0]), expected.get(str(e["loc"][0]), "one of the list"))
            for e in error.errors()
        ]
    if faults or settings is None or length is None or width is None:
        raise BadInputError(faults)
    room = Room.model_validate(
        {"id": slug_of(wanted.room, "room"), "name": wanted.room, "length": length, "width": width}
    )
    kit = Inventory(dumbbells=(), items=(KitItem(id="mats", kind=KitKind.MAT, count=1),))
    return Hall(settings=settings, rooms=(room,), kit=kit, catalogue=base)


def hall_id_of(name: str, taken: Collection[str]) -> str:
    """Give a short id for a hall by its name, not one of those taken."""
    return free_slug(slug_of(name, "hall"), taken)


def slug_of(name: str, otherwise: str) -> str:
    """Give the short name that a name suggests."""
    plain = unicodedata.normalize("NFKD", name).encode("ascii", "ignore").decode().lower()
    found = re.sub(r"[^a-z0-9]+", "_", plain).strip("_")[:LONGEST_ID].strip("_")
    if not found or not found[0].isalpha():
        found = f"{otherwise}_{found}".strip("_")
    return found if len(found) >= 2 else f"{found}_{otherwise}"


def free_slug(wanted: str, taken: Collection[str]) -> str:
    """Give a short name, or the same with the least number that makes it new."""
    if wanted not in taken:
        return wanted
    return next(f"{wanted}_{n}" for n in range(2, len(taken) + 3) if f"{wanted}_{n}" not in taken)


def _millimetres(field: str, text: str, faults: list[Fault]) -> int | None:
    try:
        value = Decimal(text.replace(",", ".").removesuffix("m").strip())
        if value.is_finite() and Decimal(2) <= value <= Decimal(100):
            return int(value * 1000)
    except InvalidOperation:
        pass
    faults.append(_fault(field, "2 to 100 metres"))
    return None


def _fault(field: str, expected: str) -> Fault:
    return Fault(code="field.value", file="form", field=field, expected=expected)
