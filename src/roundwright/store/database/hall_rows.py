"""How a hall's head and records are looked up, locked and written within one transaction."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from sqlalchemy import Connection, insert, select, update

from roundwright.foundation.errors import NotFoundError
from roundwright.hall.hall import Hall
from roundwright.services.keeping.hall_records import records_of, says_the_same
from roundwright.services.keeping.record_forms import PRIVACY
from roundwright.services.keeping.records import KeptHall, Privacy, RecordKey
from roundwright.services.keeping.shelves import Actor, TrailEntry
from roundwright.store.database.record_rows import (
    GoneRecord,
    KeptRecord,
    Stamp,
    gone_records,
    instant_text,
    kept_records,
    write_records,
)
from roundwright.store.database.tables import HALL
from roundwright.store.database.trail_rows import add_lines, line


@dataclass(frozen=True, slots=True)
class Head:
    """Which hall, at which version; `stamp` tells it from one of the same id before it."""

    hall_id: str
    version: int
    stamp: str


@dataclass(frozen=True, slots=True)
class HallRows:
    """A hall as it stands in the database, and what is not there any more."""

    head: Head
    kept: Mapping[RecordKey, KeptRecord]
    gone: Mapping[RecordKey, GoneRecord]


def head_of(connection: Connection, hall_id: str, *, locked: bool = False) -> Head:
    """Look a hall up; locked, until the change is kept.

    Raises
    ------
    NotFoundError
        No such hall.
    """
    wanted = select(HALL.c.version, HALL.c.stamp).where(HALL.c.hall_id == hall_id)
    row = connection.execute(wanted.with_for_update() if locked else wanted).first()
    if row is None:
        raise NotFoundError(f"There is no hall '{hall_id}'.")
    return Head(hall_id, row.version, row.stamp)


def locked_rows(connection: Connection, hall_id: str) -> HallRows:
    """Read all of a hall, locked until the change is kept.

    Raises
    ------
    NotFoundError
        No such hall.
    """
    head = head_of(connection, hall_id, locked=True)
    return HallRows(head, kept_records(connection, hall_id), gone_records(connection, hall_id))


def begin_rows(connection: Connection, hall_id: str, stamp: str, hall: Hall, by: Actor) -> HallRows:
    """Write the head of a new hall, without records."""
    head = {"hall_id": hall_id, "version": 0, "stamp": stamp}
    connection.execute(insert(HALL).values(**head, **_head_columns(hall, by)))
    return HallRows(Head(hall_id, 0, stamp), {}, {})


def write_hall_rows(
    connection: Connection, before: HallRows, hall: Hall, by: Actor, lines: Sequence[TrailEntry]
) -> KeptHall:
    """Write what differs from before, lines of the trail, and the hall's next version."""
    hall_id, version = before.head.hall_id, before.head.version + 1
    wanted = records_of(hall)
    changed = write_records(
        connection, Stamp(hall_id, version, by), wanted, before.kept, before.gone
    )
    connection.execute(
        update(HALL)
        .where(HALL.c.hall_id == hall_id)
        .values(version=version, **_head_columns(hall, by))
    )
    add_lines(connection, lines)
    versions = {where: changed.get(where) or before.kept[where].version for where in wanted}
    return KeptHall(hall_id, hall, version, versions)


def health_lines(hall_id: str, before: HallRows, hall: Hall, by: Actor) -> list[TrailEntry]:
    """Say in the trail whose health records differ, and which; never what they hold."""
    wanted = records_of(hall)
    kinds: dict[str, list[str]] = {}
    for where in sorted({*wanted, *before.kept}, key=lambda one: (one.key, one.kind)):
        if PRIVACY[where.kind] is not Privacy.HEALTH:
            continue
        was = before.kept.get(where)
        now = wanted.get(where)
        if was is None or now is None or not says_the_same(was.record, now):
            kinds.setdefault(where.key, []).append(where.kind.value)
    return [
        line(by, "health.changed", hall_id, person_id, ", ".join(own))
        for person_id, own in kinds.items()
    ]


def _head_columns(hall: Hall, by: Actor) -> dict[str, Any]:
    return {
        "name": hall.settings.name,
        "changed_at": instant_text(by.at),
        "changed_by": by.role,
        "changed_account": by.account_id,
    }
