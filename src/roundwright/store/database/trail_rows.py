"""How lines of the trail are written within the change that they tell of, and read."""

from collections.abc import Sequence
from datetime import datetime

from sqlalchemy import Connection, insert, select

from roundwright.services.keeping.shelves import Actor, TrailEntry
from roundwright.store.database.connection import Database
from roundwright.store.database.record_rows import instant_text
from roundwright.store.database.tables import TRAIL


class KeptTrail:
    """The trail in a database."""

    def __init__(self, database: Database) -> None:
        self._database = database

    def add(self, entries: Sequence[TrailEntry]) -> None:
        """Add lines.

        Raises
        ------
        StoreError
            None was added.
        """
        with self._database.writing() as connection:
            add_lines(connection, entries)

    def entries(
        self, hall_id: str | None = None, person_id: str | None = None, most: int = 200
    ) -> tuple[TrailEntry, ...]:
        """Give the newest lines first.

        Raises
        ------
        StoreError
            The trail cannot be read.
        """
        wanted = select(TRAIL).order_by(TRAIL.c.trail_no.desc()).limit(most)
        if hall_id is not None:
            wanted = wanted.where(TRAIL.c.hall_id == hall_id)
        if person_id is not None:
            wanted = wanted.where(TRAIL.c.person_id == person_id)
        with self._database.reading() as connection:
            rows = connection.execute(wanted).mappings().all()
        return tuple(
            TrailEntry(
                at=datetime.fromisoformat(row["at"]),
                account_id=row["account_id"],
                role=row["role"],
                what=row["what"],
                hall_id=row["hall_id"],
                person_id=row["person_id"],
                about=row["about"],
            )
            for row in rows
        )


def add_lines(connection: Connection, entries: Sequence[TrailEntry]) -> None:
    """Write lines within a change that is being kept."""
    if entries:
        rows = [
            {
                "at": instant_text(one.at),
                "account_id": one.account_id,
                "role": one.role,
                "what": one.what,
                "hall_id": one.hall_id,
                "person_id": one.person_id,
                "about": one.about,
            }
            for one in entries
        ]
        connection.execute(insert(TRAIL), rows)


def line(
    by: Actor, what: str, hall_id: str | None, person_id: str | None = None, about: str = ""
) -> TrailEntry:
    """Make a line on behalf of somebody."""
    return TrailEntry(
        at=by.at,
        account_id=by.account_id,
        role=by.role,
        what=what,
        hall_id=hall_id,
        person_id=person_id,
        about=about,
    )
