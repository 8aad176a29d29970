"""What screens.toml, consents.toml, care.toml and staff.toml hold: optional files of records.

Most are personal or health values: a fault says where and what is expected,
never what was written.
"""

from collections.abc import Mapping
from enum import StrEnum
from typing import Any

from pydantic import BaseModel

from roundwright.foundation.faults import HIDDEN, Fault
from roundwright.foundation.identifiers import nearest_names
from roundwright.hall.file_text import TomlText
from roundwright.hall.model_faults import model_of
from roundwright.kit.care import KitInspection
from roundwright.kit.room_care import RoomCare
from roundwright.people.clearance_record import ClearanceRecord
from roundwright.people.consents import Consents
from roundwright.people.health_screen import HealthScreen
from roundwright.people.staff import StaffMember

SCREENS_FILE, CONSENTS_FILE, CARE_FILE = "screens.toml", "consents.toml", "care.toml"
STAFF_FILE = "staff.toml"
RECORDS: dict[str, dict[str, tuple[type[BaseModel], str]]] = {
    SCREENS_FILE: {
        "screen": (HealthScreen, "screens"),
        "clearance": (ClearanceRecord, "clearances"),
    },
    CONSENTS_FILE: {"consent": (Consents, "consents")},
    CARE_FILE: {
        "inspection": (KitInspection, "inspections"),
        "room": (RoomCare, "room_care"),
    },
    STAFF_FILE: {"member": (StaffMember, "staff")},
}
"""By file and [[table]]: its model, and the hall's field."""
NAMED_BY = {"inspection": "item", "room": "room", "member": "id"}
"""What a row of a [[table]] is about; a person where it is not said."""


def read_records(
    toml: TomlText,
    people: frozenset[str] | None,
    items: frozenset[str] | None,
    rooms: frozenset[str] | None = None,
    masses_g: frozenset[int] | None = None,
) -> tuple[dict[str, tuple[BaseModel, ...]], list[Fault]]:
    """Read one of the optional files.

    Parameters
    ----------
    toml : TomlText
        The file.
    people, items, rooms : frozenset of str, optional
        The ids of people.csv, of the items of kit.toml, of the rooms; None: could not be read.
    masses_g : frozenset of int, optional
        The masses of the dumbbells of kit.toml.

    Returns
    -------
    tuple
        Records by the hall's field, and every fault, without what was written.
    """
    tables = RECORDS[toml.file]
    expected = " and ".join(f"[[{key}]]" for key in tables)
    faults = [
        Fault(code="field.unknown", file=toml.file, line=toml.places.get((key,)), expected=expected)
        for key in toml.values
        if key not in tables
    ]
    found: dict[str, tuple[BaseModel, ...]] = {}
    for key, (model, field) in tables.items():
        given = toml.values.get(key, [])
        if not isinstance(given, list) or any(not isinstance(row, dict) for row in given):
            faults.append(toml.fault("field.value", (key,), expected=f"[[{key}]] tables"))
            continue
        made: list[BaseModel] = []
        seen: set[str] = set()
        for n, row in toml.tables(key):
            one, complaints = model_of(model, row, toml, (key, n))
            faults += [without_values(fault, key, n) for fault in complaints]
            name = NAMED_BY.get(key, "person")
            known, where = {
                "item": (items, "an item of kit.toml"),
                "room": (rooms, "a room of hall.toml"),
                "id": (None, ""),
                "person": (people, "a person_id of people.csv"),
            }[name]
            given_id = str(row.get(name, ""))
            if known is not None and name in row and given_id not in known:
                near = nearest_names(given_id, known)
                faults.append(toml.fault("name.unknown", (key, n, name), HIDDEN, where, near))
            if name != "item" and given_id and given_id in seen:
                faults.append(toml.fault("name.duplicate", (key, n, name), HIDDEN))
            seen.add(given_id)
            if one is not None:
                made.append(one)
                mass = one.mass_g if isinstance(one, KitInspection) else None
                if mass is not None and masses_g is not None and mass not in masses_g:
                    where = "the mass of a dumbbell of kit.toml"
                    faults.append(toml.fault("name.unknown", (key, n, "mass"), HIDDEN, where))
        found[field] = tuple(made)
    return found, faults


def without_values(fault: Fault, key: str = "", place: int = 0) -> Fault:
    """Give a fault without what was written: value, near words and a made-up field's name."""
    field = fault.field
    if fault.code == "field.unknown" or "answers" in field or "caps" in field:
        field = f"{key} {place + 1}" if key else ""
    hidden = {"value": HIDDEN if fault.value else "", "nearest": (), "remedy": "", "field": field}
    return fault.model_copy(update=hidden)


def record_fields(record: BaseModel) -> dict[str, Any]:
    """Give a record as TOML fields under the names of its file; dictionaries as dotted keys."""
    fields: dict[str, Any] = {}
    for name, value in record.model_dump(by_alias=True, exclude_none=True).items():
        if isinstance(value, Mapping) and name in ("answers", "caps"):
            ordered = sorted((str(k), v) for k, v in value.items())
            fields |= {f"{name}.{key}": _plain(v) for key, v in ordered}
        elif name == "mass":
            fields[name] = f"{value / 1000:g} kg"
        else:
            fields[name] = _plain(value)
    return fields


def _plain(value: Any) -> Any:
    if isinstance(value, StrEnum):
        return value.value
    if isinstance(value, Mapping):
        return {str(k): _plain(v) for k, v in value.items()}
    return [_plain(v) for v in value] if isinstance(value, tuple) else value
