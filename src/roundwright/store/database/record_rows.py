"""How records stand in their three tables, and who wrote each of them last."""

import json
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import Connection, Table, delete, insert, select, tuple_, update

from roundwright.foundation.instants import written
from roundwright.services.keeping.hall_records import says_the_same
from roundwright.services.keeping.records import Plain, Privacy, Record, RecordKey, RecordKind
from roundwright.services.keeping.shelves import Actor
from roundwright.store.database.tables import RECORDS, REMOVED


@dataclass(frozen=True, slots=True)
class KeptRecord:
    """A record as it stands in the database; it never shows its values."""

    record: Record
    version: int
    hall_version: int
    changed_at: str
    changed_by: str

    def __repr__(self) -> str:
        return f"KeptRecord({self.record.where}, version {self.version})"


@dataclass(frozen=True, slots=True)
class GoneRecord:
    """A record that was there: its last version, when and by which role it was removed."""

    version: int
    hall_version: int
    changed_at: str
    changed_by: str


@dataclass(frozen=True, slots=True)
class Stamp:
    """What is written beside each changed record of one change."""

    hall_id: str
    hall_version: int
    by: Actor

    def columns(self) -> dict[str, Any]:
        """Give the columns that all records of the change share."""
        return {
            "hall_version": self.hall_version,
            "changed_at": instant_text(self.by.at),
            "changed_by": self.by.role,
            "changed_account": self.by.account_id,
        }


def instant_text(at: datetime) -> str:
    """Write an instant as it is kept; one without a zone is a fault of ours."""
    if at.tzinfo is None:
        raise ValueError("an instant that is kept has a zone")
    return written(at)


def values_text(values: Plain) -> str:
    """Give values as canonical JSON text: keys sorted, nothing between."""
    return json.dumps(
        values, ensure_ascii=False, sort_keys=True, separators=(",", ":"), allow_nan=False
    )


def kept_records(connection: Connection, hall_id: str) -> dict[RecordKey, KeptRecord]:
    """Read every record of a hall."""
    found: dict[RecordKey, KeptRecord] = {}
    for privacy, table in RECORDS.items():
        for row in connection.execute(select(table).where(table.c.hall_id == hall_id)).mappings():
            where = RecordKey(RecordKind(row["kind"]), row["key"])
            found[where] = KeptRecord(
                record=Record(
                    where=where,
                    place=row["place"],
                    privacy=privacy,
                    person_id=row["person_id"],
                    values=json.loads(row["values"]),
                ),
                version=row["version"],
                hall_version=row["hall_version"],
                changed_at=row["changed_at"],
                changed_by=row["changed_by"],
            )
    return found


def gone_records(connection: Connection, hall_id: str) -> dict[RecordKey, GoneRecord]:
    """Read which records of a hall were removed."""
    rows = connection.execute(select(REMOVED).where(REMOVED.c.hall_id == hall_id)).mappings()
    return {
        RecordKey(RecordKind(row["kind"]), row["key"]): GoneRecord(
            row["version"], row["hall_version"], row["changed_at"], row["changed_by"]
        )
        for row in rows
    }


def write_records(
    connection: Connection,
    stamp: Stamp,
    wanted: Mapping[RecordKey, Record],
    kept: Mapping[RecordKey, KeptRecord],
    gone: Mapping[RecordKey, GoneRecord],
) -> dict[RecordKey, int]:
    """Make the tables hold exactly the wanted records, and give the new version of the changed.

    A record that says the same keeps its version, also where it stands at another place.
    """
    changed: dict[RecordKey, int] = {}
    fresh: dict[Privacy, list[dict[str, Any]]] = {privacy: [] for privacy in RECORDS}
    for where, record in wanted.items():
        text = values_text(record.values)
        before = kept.get(where)
        columns = {"place": record.place, "values": text}
        if before is None:
            changed[where] = gone[where].version + 1 if where in gone else 1
            fresh[record.privacy].append(
                {
                    "hall_id": stamp.hall_id,
                    "kind": where.kind.value,
                    "key": where.key,
                    "person_id": record.person_id,
                    "version": changed[where],
                    **columns,
                    **stamp.columns(),
                }
            )
        elif not says_the_same(record, before.record):
            changed[where] = before.version + 1
            columns |= {"version": changed[where], **stamp.columns()}
            _update(connection, stamp.hall_id, record, columns)
        elif record != before.record:
            _update(connection, stamp.hall_id, record, columns)
    for privacy, rows in fresh.items():
        if rows:
            connection.execute(insert(RECORDS[privacy]), rows)
    added = [where for where in wanted if where in gone and where not in kept]
    _forget_removal(connection, stamp.hall_id, added)
    lost = [one for where, one in kept.items() if where not in wanted]
    _remove_records(connection, stamp, lost)
    return changed


def _remove_records(connection: Connection, stamp: Stamp, lost: Iterable[KeptRecord]) -> None:
    """Remove records, and keep that they were there."""
    rows: list[dict[str, Any]] = []
    for one in lost:
        where, table = one.record.where, RECORDS[one.record.privacy]
        connection.execute(delete(table).where(*_is(table, stamp.hall_id, where)))
        columns = {name: v for name, v in stamp.columns().items() if name != "changed_account"}
        rows.append(
            {
                "hall_id": stamp.hall_id,
                "kind": where.kind.value,
                "key": where.key,
                "version": one.version,
                **columns,
            }
        )
    if rows:
        connection.execute(insert(REMOVED), rows)


def _update(
    connection: Connection, hall_id: str, record: Record, columns: Mapping[str, Any]
) -> None:
    table = RECORDS[record.privacy]
    connection.execute(update(table).where(*_is(table, hall_id, record.where)).values(**columns))


def _is(table: Table, hall_id: str, where: RecordKey) -> tuple[Any, ...]:
    return (
        table.c.hall_id == hall_id,
        table.c.kind == where.kind.value,
        table.c.key == where.key,
    )


def _forget_removal(connection: Connection, hall_id: str, wheres: Iterable[RecordKey]) -> None:
    keys = [(where.kind.value, where.key) for where in wheres]
    if keys:
        connection.execute(
            delete(REMOVED).where(
                REMOVED.c.hall_id == hall_id, tuple_(REMOVED.c.kind, REMOVED.c.key).in_(keys)
            )
        )
