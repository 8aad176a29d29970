"""Care for the database itself: backup while in use, a look for faults, overwriting."""

import sqlite3
from pathlib import Path

from sqlalchemy import text

from roundwright.foundation.errors import StoreError
from roundwright.store.database.connection import Database
from roundwright.store.database.sqlite_files import (
    copy_into,
    fresh_beside,
    problems_of,
    put_in_place,
)

_POSTGRES = (
    "This program does not copy a PostgreSQL database.",
    "Use PostgreSQL's own command: pg_dump --format=custom --file=FILE DATABASE.",
)


class DatabaseUpkeep:
    """Upkeep of one database."""

    def __init__(self, database: Database) -> None:
        self._database = database

    def backup(self, to: Path) -> None:
        """Write a whole copy while the house is in use, checked before it gets its name.

        Raises
        ------
        StoreError
            It could not be written; what was there is as it was. On PostgreSQL: with the words
            of the command that does it there.
        """
        if not self._database.is_sqlite:
            raise StoreError(*_POSTGRES)
        with fresh_beside(to) as fresh:
            with self._database.outside_transactions() as connection:
                inner = connection.connection.driver_connection
                assert isinstance(inner, sqlite3.Connection)
                copy_into(inner, fresh)
            problems = problems_of(fresh)
            if problems:
                raise StoreError("The copy is damaged, and was thrown away.", problems[0])
            put_in_place(fresh, to)

    def faults(self) -> tuple[str, ...]:
        """Check the database and give what is wrong with it, in plain words.

        Raises
        ------
        StoreError
            It cannot be read.
        """
        with self._database.outside_transactions() as connection:
            if not self._database.is_sqlite:
                connection.execute(text("SELECT 1")).scalar()
                return ()
            found = [str(row[0]) for row in connection.execute(text("PRAGMA integrity_check"))]
            loose = connection.execute(text("PRAGMA foreign_key_check")).all()
        problems = [f"The file is damaged: {one}" for one in found if one != "ok"]
        if loose:
            tables = ", ".join(sorted({str(row[0]) for row in loose}))
            problems.append(f"Rows that belong to nothing stand in: {tables}.")
        return tuple(problems)

    def tidy(self) -> None:
        """Overwrite what deletions may have left in the file and in its write-ahead file.

        PostgreSQL does this by its own vacuum.

        Raises
        ------
        StoreError
            It could not be done now; the deletion itself is kept.
        """
        if not self._database.is_sqlite:
            return
        with self._database.outside_transactions() as connection:
            connection.execute(text("VACUUM"))
            connection.execute(text("PRAGMA wal_checkpoint(TRUNCATE)"))
