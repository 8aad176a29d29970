"""A small hall, who changes it, and edits of it, for tests of what is kept."""

from datetime import UTC, datetime, timedelta

from roundwright.bootstrap.keeping import Keeping
from roundwright.hall.hall import Hall
from roundwright.services.keeping.records import KeptHall, RecordEdit, RecordKey, RecordKind
from roundwright.services.keeping.shelves import Actor
from tests.hall.hall_files import hall_files, read
from tests.support import worked_count

LIBRARY = worked_count.library()
HALL_ID = "tern_quay"
BEGUN = datetime(2026, 3, 1, 9, 0, tzinfo=UTC)
PEOPLE = """person_id,shown_name,sex,body_mass_kg,clearance,own_kit
p001,Maren T,f,62.5,cleared,
p002,Sunny L,,,,"a band, door anchor"
p003,Ivo K,m,81,moderate_only,
"""
LIMITATIONS = """person_id,region_or_condition,side,amount,from_on
p001,knee,right,avoid,2026-01-05
p003,asthma,none,ease,2026-01-05
p001,neck,none,ease,2026-02-05
"""


def a_hall(**texts: str | None) -> Hall:
    """Read the small hall, with some files replaced."""
    return read(hall_files(**{"people": PEOPLE, "limitations": LIMITATIONS, **texts}))


def by(role: str = "coach", minutes: int = 0, account_id: str | None = None) -> Actor:
    """Give who changes something, some minutes after the hall was begun."""
    return Actor(account_id, role, BEGUN + timedelta(minutes=minutes))


def begun(kept: Keeping, hall: Hall | None = None, hall_id: str = HALL_ID) -> KeptHall:
    """Keep the small hall."""
    return kept.halls.begin(hall_id, hall or a_hall(), by())


def key(kind: RecordKind, name: str = "") -> RecordKey:
    return RecordKey(kind, name)


def person_values(person_id: str = "p002", **changes: object) -> dict[str, object]:
    return {"person_id": person_id, "shown_name": "Sunny L", **changes}


def person_edit(base_version: int | None, person_id: str = "p002", **changes: object) -> RecordEdit:
    """Wish to write a person's row."""
    where = RecordKey(RecordKind.PERSON, person_id)
    return RecordEdit(where, person_values(person_id, **changes), base_version)
