"""A hall as single records: what is kept, changed and compared one by one.

A record is one authored thing: a room, a person, one person's limitations. Three classes of
record are kept apart, because they are seen by different people and leave on different terms.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum

from roundwright.hall.hall import Hall

Plain = Mapping[str, object]
"""JSON values by field, as the authored model dumps them (`mode="json", by_alias=True`)."""


class Privacy(StrEnum):
    """How private a record is: the hall's own, of a person, or of a person's health."""

    HALL = "hall"
    PERSON = "person"
    HEALTH = "health"


class RecordKind(StrEnum):
    """What a record is. Kinds of one person are keyed by `person_id`."""

    SETTINGS = "settings"
    ROOM = "room"
    DUMBBELL = "dumbbell"
    ITEM = "item"
    CLASS = "class"
    LIBRARY_TEXT = "library_text"
    STAFF = "staff"
    CARE = "care"
    ROOM_CARE = "room_care"
    PERSON = "person"
    CONSENTS = "consents"
    CLEARANCE = "clearance"
    LIMITATIONS = "limitations"
    SCREEN = "screen"
    CLEARANCE_RECORD = "clearance_record"


@dataclass(frozen=True, slots=True)
class RecordKey:
    """Which record of a hall: its kind, and its slug, mass in grams, or `""` where there is one."""

    kind: RecordKind
    key: str = ""


@dataclass(frozen=True, slots=True)
class Record:
    """One record: which, where it stands in its file, whose it is, and its values."""

    where: RecordKey
    place: int
    privacy: Privacy
    person_id: str | None
    values: Plain


@dataclass(frozen=True, slots=True)
class RecordEdit:
    """A wish to write or remove one record as it was when it was read.

    Attributes
    ----------
    where : RecordKey
        Which record.
    values : mapping or None
        The whole new record; None removes it.
    base_version : int or None
        The version that the writer saw; None for a record that must not be there yet.
    """

    where: RecordKey
    values: Plain | None
    base_version: int | None


@dataclass(frozen=True, slots=True)
class KeptHall:
    """A hall with the version of the whole and of each record.

    `version` grows by one with each accepted change of any record.
    """

    hall_id: str
    hall: Hall
    version: int
    versions: Mapping[RecordKey, int]
