"""What each kind of record holds, and how the fields of a hall become records and back.

A new field of `Hall` is one entry in `HALL_FIELDS`: which kinds of record it becomes, how they
are taken out of a hall, and how they are put together again.
"""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from pydantic import BaseModel, Field

from roundwright.foundation.model import Authored
from roundwright.goals.class_wish import ClassWish
from roundwright.hall.hall import Hall, HallSettings
from roundwright.hall.hall_text import LIBRARY
from roundwright.kit.care import KitInspection
from roundwright.kit.inventory import Dumbbells, Inventory, KitItem, Room
from roundwright.kit.room_care import RoomCare
from roundwright.people.clearance_record import ClearanceRecord
from roundwright.people.consents import Consents
from roundwright.people.health_screen import HealthScreen
from roundwright.people.limitation import Limitation
from roundwright.people.person import Clearance, Person
from roundwright.people.staff import StaffMember
from roundwright.services.keeping.records import Privacy, RecordKind

CLEARANCE_FIELDS = frozenset({"clearance", "effort_only"})
"""Columns of people.csv that are health, and so a record of their own."""


class ClearanceRow(Authored):
    """What `clearance` keeps of a person: the word of the hall, and effort instead of pulse."""

    clearance: Clearance = Field(default=Clearance.UNKNOWN, repr=False)
    effort_only: bool = Field(default=False, repr=False)


class LimitationRows(Authored):
    """What `limitations` keeps of a person: every row, and where each stands in its file.

    Without `places` the rows stand together, at the place of the record.
    """

    limitations: tuple[Limitation, ...] = Field(min_length=1, repr=False)
    places: tuple[int, ...] | None = None


class CareRows(Authored):
    """What `care` keeps: every inspection of kit, in the order of its file."""

    inspections: tuple[KitInspection, ...] = Field(min_length=1)


class LibraryText(Authored):
    """What `library_text` keeps: one file of the coach's own movements, as it was written."""

    text: str = Field(repr=False)


PRIVACY: Mapping[RecordKind, Privacy] = {
    RecordKind.SETTINGS: Privacy.HALL,
    RecordKind.ROOM: Privacy.HALL,
    RecordKind.DUMBBELL: Privacy.HALL,
    RecordKind.ITEM: Privacy.HALL,
    RecordKind.CLASS: Privacy.HALL,
    RecordKind.LIBRARY_TEXT: Privacy.HALL,
    RecordKind.STAFF: Privacy.HALL,
    RecordKind.CARE: Privacy.HALL,
    RecordKind.ROOM_CARE: Privacy.HALL,
    RecordKind.PERSON: Privacy.PERSON,
    RecordKind.CONSENTS: Privacy.PERSON,
    RecordKind.CLEARANCE: Privacy.HEALTH,
    RecordKind.LIMITATIONS: Privacy.HEALTH,
    RecordKind.SCREEN: Privacy.HEALTH,
    RecordKind.CLEARANCE_RECORD: Privacy.HEALTH,
}
"""How private each kind of record is: which of three tables it is kept in."""


@dataclass(frozen=True, slots=True)
class RecordForm:
    """What one kind of record looks like.

    Attributes
    ----------
    key_of : callable or None
        Gives the key that the values themselves name; None where the key stands outside them.
    without : frozenset
        Fields of the model that this kind of record may not hold.
    layout : frozenset
        Fields that only say where something stands in its file: no change of the record.
    """

    kind: RecordKind
    model: type[BaseModel]
    key_of: Callable[[Any], str] | None = None
    without: frozenset[str] = frozenset()
    layout: frozenset[str] = frozenset()

    @property
    def privacy(self) -> Privacy:
        """How private this kind of record is."""
        return PRIVACY[self.kind]


@dataclass(frozen=True, slots=True)
class Taken:
    """One record as it is taken out of a hall; `place` is its order in its file."""

    key: str
    place: int
    model: BaseModel = field(repr=False)


@dataclass(frozen=True, slots=True)
class Given:
    """One record as it is put back into a hall: checked on its own, not yet with the others."""

    key: str
    place: int
    model: Any = field(repr=False)


GivenByKind = Mapping[RecordKind, Sequence[Given]]


@dataclass(frozen=True, slots=True)
class HallField:
    """How one field of a hall is kept.

    Attributes
    ----------
    out : mapping
        For each kind of record: all of them, out of a hall.
    back : callable
        Gives the field's value from the records, which come by kind in the order of their places.
    """

    field: str
    forms: tuple[RecordForm, ...]
    out: Mapping[RecordKind, Callable[[Hall], Iterable[Taken]]]
    back: Callable[[GivenByKind], object]


def _one_each(field_name: str, form: RecordForm) -> HallField:
    """Keep a tuple of a hall as one record each."""

    def out(hall: Hall) -> Iterator[Taken]:
        assert form.key_of is not None
        for place, one in enumerate(getattr(hall, field_name)):
            yield Taken(form.key_of(one), place, one)

    def back(given: GivenByKind) -> object:
        return tuple(one.model for one in given[form.kind])

    return HallField(field_name, (form,), {form.kind: out}, back)


def _settings_out(hall: Hall) -> Iterator[Taken]:
    yield Taken("", 0, hall.settings)


def _settings_back(given: GivenByKind) -> object:
    found = given[RecordKind.SETTINGS]
    return found[0].model if found else None


def _dumbbells_out(hall: Hall) -> Iterator[Taken]:
    for place, one in enumerate(hall.kit.dumbbells):
        yield Taken(str(one.unit_mass_g), place, one)


def _items_out(hall: Hall) -> Iterator[Taken]:
    for place, one in enumerate(hall.kit.items):
        yield Taken(one.id, place, one)


def _kit_back(given: GivenByKind) -> object:
    return Inventory(
        dumbbells=tuple(one.model for one in given[RecordKind.DUMBBELL]),
        items=tuple(one.model for one in given[RecordKind.ITEM]),
    )


def _people_out(hall: Hall) -> Iterator[Taken]:
    for place, one in enumerate(hall.people):
        yield Taken(one.person_id, place, one)


def _clearances_out(hall: Hall) -> Iterator[Taken]:
    for place, one in enumerate(hall.people):
        row = ClearanceRow(clearance=one.clearance, effort_only=one.effort_only)
        yield Taken(one.person_id, place, row)


def _people_back(given: GivenByKind) -> object:
    rows = {one.key: one.model for one in given[RecordKind.CLEARANCE]}
    return tuple(
        one.model.model_copy(update=rows[one.key].model_dump()) if one.key in rows else one.model
        for one in given[RecordKind.PERSON]
    )


def _limitations_out(hall: Hall) -> Iterator[Taken]:
    places: dict[str, list[int]] = {}
    for place, row in enumerate(hall.limitations):
        places.setdefault(row.person_id, []).append(place)
    for person_id, own in places.items():
        together = own == list(range(own[0], own[0] + len(own)))
        rows = LimitationRows(
            limitations=tuple(hall.limitations[place] for place in own),
            places=None if together else tuple(own),
        )
        yield Taken(person_id, own[0], rows)


def _limitations_back(given: GivenByKind) -> object:
    ordered: list[tuple[int, int, Limitation]] = []
    for one in given[RecordKind.LIMITATIONS]:
        rows: LimitationRows = one.model
        known = rows.places or ()
        for number, row in enumerate(rows.limitations):
            place = known[number] if number < len(known) else (known[-1] if known else one.place)
            ordered.append((place, number, row))
    return tuple(row for *_, row in sorted(ordered, key=lambda each: each[:2]))


def _care_out(hall: Hall) -> Iterator[Taken]:
    if hall.inspections:
        yield Taken("", 0, CareRows(inspections=hall.inspections))


def _care_back(given: GivenByKind) -> object:
    found = given[RecordKind.CARE]
    return found[0].model.inspections if found else ()


def _classes_out(hall: Hall) -> Iterator[Taken]:
    for place, (slug, wish) in enumerate(hall.classes.items()):
        yield Taken(slug, place, wish)


def _classes_back(given: GivenByKind) -> object:
    return {one.key: one.model for one in given[RecordKind.CLASS]}


def _texts_out(hall: Hall) -> Iterator[Taken]:
    for place, (name, text) in enumerate(hall.library_texts.items()):
        slug = name.removeprefix(LIBRARY).removesuffix(".toml")
        yield Taken(slug, place, LibraryText(text=text))


def _texts_back(given: GivenByKind) -> object:
    return {f"{LIBRARY}{one.key}.toml": one.model.text for one in given[RecordKind.LIBRARY_TEXT]}


def _limited_person(rows: LimitationRows) -> str:
    ids = {row.person_id for row in rows.limitations}
    return ids.pop() if len(ids) == 1 else ""


HALL_FIELDS: tuple[HallField, ...] = (
    HallField(
        "settings",
        (RecordForm(RecordKind.SETTINGS, HallSettings, lambda _: ""),),
        {RecordKind.SETTINGS: _settings_out},
        _settings_back,
    ),
    _one_each("rooms", RecordForm(RecordKind.ROOM, Room, lambda room: str(room.id))),
    HallField(
        "kit",
        (
            RecordForm(RecordKind.DUMBBELL, Dumbbells, lambda one: str(one.unit_mass_g)),
            RecordForm(RecordKind.ITEM, KitItem, lambda one: str(one.id)),
        ),
        {RecordKind.DUMBBELL: _dumbbells_out, RecordKind.ITEM: _items_out},
        _kit_back,
    ),
    HallField(
        "people",
        (
            RecordForm(
                RecordKind.PERSON,
                Person,
                lambda one: str(one.person_id),
                without=CLEARANCE_FIELDS,
            ),
            RecordForm(RecordKind.CLEARANCE, ClearanceRow),
        ),
        {RecordKind.PERSON: _people_out, RecordKind.CLEARANCE: _clearances_out},
        _people_back,
    ),
    HallField(
        "limitations",
        (
            RecordForm(
                RecordKind.LIMITATIONS,
                LimitationRows,
                _limited_person,
                layout=frozenset({"places"}),
            ),
        ),
        {RecordKind.LIMITATIONS: _limitations_out},
        _limitations_back,
    ),
    _one_each("screens", RecordForm(RecordKind.SCREEN, HealthScreen, lambda s: str(s.person_id))),
    _one_each(
        "clearances",
        RecordForm(RecordKind.CLEARANCE_RECORD, ClearanceRecord, lambda c: str(c.person_id)),
    ),
    _one_each("consents", RecordForm(RecordKind.CONSENTS, Consents, lambda c: str(c.person_id))),
    HallField(
        "inspections",
        (RecordForm(RecordKind.CARE, CareRows, lambda _: ""),),
        {RecordKind.CARE: _care_out},
        _care_back,
    ),
    _one_each("room_care", RecordForm(RecordKind.ROOM_CARE, RoomCare, lambda c: str(c.room))),
    _one_each("staff", RecordForm(RecordKind.STAFF, StaffMember, lambda s: str(s.id))),
    HallField(
        "classes",
        (RecordForm(RecordKind.CLASS, ClassWish),),
        {RecordKind.CLASS: _classes_out},
        _classes_back,
    ),
    HallField(
        "library_texts",
        (RecordForm(RecordKind.LIBRARY_TEXT, LibraryText),),
        {RecordKind.LIBRARY_TEXT: _texts_out},
        _texts_back,
    ),
)
"""How each field of a hall is kept; `catalogue` is not, as it follows from the library texts."""

FORMS: Mapping[RecordKind, RecordForm] = {
    form.kind: form for one in HALL_FIELDS for form in one.forms
}
"""The form of each kind of record that a hall has now."""
