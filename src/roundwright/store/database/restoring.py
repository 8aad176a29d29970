"""A backup is put in place of a database file that nobody uses."""

import sqlite3
from pathlib import Path

from roundwright.foundation.errors import NotFoundError, StoreError
from roundwright.store.database.connection import OURS
from roundwright.store.database.failures import DAMAGED, failure_of
from roundwright.store.database.migrating import NEWER, NEWEST, VERSION_TABLE
from roundwright.store.database.sqlite_files import (
    BESIDE,
    copy_into,
    fresh_beside,
    opened_alone,
    problems_of,
    put_in_place,
)

ASIDE = ".before-restore"
"""The end of the name of the file that a backup took the place of."""


def restore(backup: Path, into: Path) -> Path | None:
    """Put a backup in place of a database file that nobody uses.

    The file that was there is kept beside it, and comes back when anything goes wrong.

    Returns
    -------
    Path or None
        Where the old file is now; None when there was none.

    Raises
    ------
    NotFoundError
        There is no such backup.
    StoreError
        The backup is damaged, not of this program, or of a newer one; or the database is in use;
        or it could not be written. What was there is as it was.
    """
    if not backup.is_file():
        raise NotFoundError(f"There is no backup '{backup.name}'.")
    require_ours(backup)
    with fresh_beside(into) as fresh:
        with opened_alone(backup) as source:
            try:
                copy_into(source, fresh)
            except sqlite3.Error as error:
                raise failure_of(error) from None
        problems = problems_of(fresh)
        if problems:
            raise StoreError("The backup is damaged. Nothing was changed.", problems[0])
        kept = _set_aside(into)
        try:
            put_in_place(fresh, into)
        except StoreError:
            if kept is not None:
                _move(kept, into)
            raise
    return kept


def require_ours(path: Path) -> None:
    """Refuse a file that is not a database of this program, or of a newer one.

    Raises
    ------
    StoreError
        In words.
    """
    with opened_alone(path) as connection:
        mark = connection.execute("PRAGMA application_id").fetchone()[0]
        if mark != OURS:
            raise StoreError(
                f"The file '{path.name}' is no database of this program. Nothing was changed."
            )
        form = connection.execute(f"SELECT version_num FROM {VERSION_TABLE}").fetchone()
    if form is None or str(form[0]) > NEWEST:
        raise StoreError(*NEWER)


def _set_aside(path: Path) -> Path | None:
    """Move a database file aside, if nobody uses it; a damaged one goes as it is."""
    if not path.exists():
        return None
    try:
        with opened_alone(path) as connection:
            # Only who is alone with the file may end its write-ahead file.
            connection.execute("PRAGMA journal_mode=DELETE")
    except StoreError as error:
        if not error.detail.startswith(DAMAGED):
            raise StoreError(
                "The database is in use. Nothing was changed.",
                "Stop Roundwright wherever it uses this database, then restore.",
            ) from None
    aside = path.with_name(path.name + ASIDE)
    number = 1
    while aside.exists():
        number += 1
        aside = path.with_name(f"{path.name}{ASIDE}-{number}")
    _move(path, aside)
    return aside


def _move(path: Path, to: Path) -> None:
    try:
        for end in BESIDE:
            beside = Path(f"{path}{end}")
            if beside.exists():
                beside.replace(Path(f"{to}{end}"))
        path.replace(to)
    except OSError:
        raise StoreError(f"The file '{path.name}' cannot be moved aside.") from None
