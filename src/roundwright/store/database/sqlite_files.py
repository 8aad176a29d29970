"""Files of SQLite as such: copied, looked at, put in place whole or not at all."""

import contextlib
import os
import sqlite3
import tempfile
from collections.abc import Iterator
from pathlib import Path

from roundwright.foundation.errors import StoreError
from roundwright.store.database.failures import failure_of
from roundwright.store.hall_folder import sync_folder

BESIDE = ("-wal", "-shm", "-journal")
"""What SQLite keeps beside a file while it is in use."""


@contextlib.contextmanager
def opened_alone(path: Path) -> Iterator[sqlite3.Connection]:
    """Open an existing file without waiting for others.

    Raises
    ------
    StoreError
        It cannot be read.
    """
    try:
        connection = sqlite3.connect(
            f"{path.absolute().as_uri()}?mode=rw", uri=True, isolation_level=None, timeout=0
        )
        try:
            yield connection
        finally:
            connection.close()
    except sqlite3.Error as error:
        raise failure_of(error) from None


@contextlib.contextmanager
def fresh_beside(target: Path) -> Iterator[Path]:
    """Give the name of a new file beside another; what is left of it goes at the end.

    Raises
    ------
    StoreError
        The folder cannot be written.
    """
    try:
        target.parent.mkdir(parents=True, exist_ok=True)
        folder = Path(tempfile.mkdtemp(prefix=f".{target.name}.", dir=target.parent))
    except OSError:
        raise StoreError(f"The folder of '{target.name}' cannot be written.") from None
    fresh = folder / "fresh"
    try:
        yield fresh
    finally:
        with contextlib.suppress(OSError):
            for name in ("", *BESIDE):
                Path(f"{fresh}{name}").unlink(missing_ok=True)
            folder.rmdir()


def copy_into(source: sqlite3.Connection, fresh: Path) -> None:
    """Copy a whole database, as it is at one moment, by SQLite's own backup call.

    The copy may be read by whoever made it alone.

    Raises
    ------
    StoreError
        The file cannot be made.
    sqlite3.Error
        It could not be read or written.
    """
    private_file(fresh)
    copy = sqlite3.connect(fresh)
    try:
        source.backup(copy)
        copy.execute("PRAGMA journal_mode=DELETE")
    finally:
        copy.close()


def private_file(path: Path) -> None:
    """Make an empty file that nobody else on this machine may read; one that is there stays.

    Raises
    ------
    StoreError
        It cannot be made.
    """
    try:
        os.close(os.open(path, os.O_CREAT | os.O_WRONLY, 0o600))
    except OSError:
        raise StoreError(f"The file '{path.name}' cannot be written.") from None


def problems_of(path: Path) -> tuple[str, ...]:
    """Have SQLite check every page of a file.

    Raises
    ------
    StoreError
        It cannot be read.
    """
    with opened_alone(path) as connection:
        found = [str(row[0]) for row in connection.execute("PRAGMA integrity_check")]
    return tuple(one for one in found if one != "ok")


def put_in_place(fresh: Path, target: Path) -> None:
    """Give a finished file its name: old or new, never half.

    Raises
    ------
    StoreError
        What was there is as it was.
    """
    try:
        with fresh.open("rb") as file:
            os.fsync(file.fileno())
        fresh.replace(target)
        sync_folder(target.parent)
    except OSError:
        raise StoreError(f"The file '{target.name}' cannot be written.") from None
