"""What goes wrong with a database, as one error in plain words without any value of a row."""

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager

from sqlalchemy.exc import DBAPIError, SQLAlchemyError
from sqlalchemy.exc import TimeoutError as PoolTimeoutError

from roundwright.foundation.errors import StoreError

BUSY = "Another change is being kept at this moment, and it takes too long."
FULL = "There is no room left on the disk."
LOST = "The connection to the database was lost, or it cannot be reached."
DAMAGED = "The database file is damaged, or it is not a database of this program."
IOERR = "The disk did not do what was asked of it."
FORBIDDEN = "The database may not be written, or not be opened."
OTHER = "The database refused."
WAS_LOST_KEEPING = "Look whether the change is there before it is made again."

_SQLITE = {
    sqlite3.SQLITE_BUSY: BUSY,
    sqlite3.SQLITE_LOCKED: BUSY,
    sqlite3.SQLITE_FULL: FULL,
    sqlite3.SQLITE_IOERR: IOERR,
    sqlite3.SQLITE_CORRUPT: DAMAGED,
    sqlite3.SQLITE_NOTADB: DAMAGED,
    sqlite3.SQLITE_READONLY: FORBIDDEN,
    sqlite3.SQLITE_CANTOPEN: FORBIDDEN,
    sqlite3.SQLITE_PERM: FORBIDDEN,
}
_STATES = {"53100": FULL, "55P03": BUSY, "40001": BUSY, "40P01": BUSY, "57014": BUSY}
_LOST_CLASSES = ("08", "57P")
_NEXT = {
    BUSY: "Try again.",
    FULL: "Make room on the disk, then try again.",
    LOST: "See that the database runs, then try again.",
    DAMAGED: "Restore the last backup.",
    FORBIDDEN: "Check the rights of the folder and of the file.",
}


def failure_of(error: BaseException) -> StoreError:
    """Give the error in our words; nothing of a statement or a row is taken over."""
    words = _words(error)
    return StoreError(f"{words} Nothing was changed.", _NEXT.get(words, ""))


def lost_while_keeping(error: BaseException) -> StoreError:
    """Give the error of a change of which nobody knows whether the database kept it."""
    if _words(error) is not LOST:
        return failure_of(error)
    return StoreError(
        "The connection to the database was lost while a change was being kept.", WAS_LOST_KEEPING
    )


@contextmanager
def in_our_words() -> Iterator[None]:
    """Turn whatever a driver raises into one `StoreError`."""
    try:
        yield
    except (SQLAlchemyError, sqlite3.Error) as error:
        raise failure_of(error) from None


def _words(error: BaseException) -> str:
    if isinstance(error, PoolTimeoutError):
        return BUSY
    inner: BaseException | None = error.orig if isinstance(error, DBAPIError) else error
    if isinstance(error, DBAPIError) and error.connection_invalidated:
        return LOST
    if isinstance(inner, sqlite3.Error):
        code = getattr(inner, "sqlite_errorcode", 0) & 0xFF
        return _SQLITE.get(code, OTHER)
    state = getattr(inner, "sqlstate", None)
    if state is None:
        return LOST if isinstance(error, DBAPIError) else OTHER
    if state.startswith(_LOST_CLASSES):
        return LOST
    return _STATES.get(state, OTHER)
