"""Authored files that are named on the command line, as text."""

from pathlib import Path

from roundwright.foundation.errors import BadInputError, NotFoundError, StoreError
from roundwright.foundation.faults import Fault

MOST_BYTES = 5_000_000


def read_text(path: Path) -> str:
    """Read a file as UTF-8, its size looked at first.

    Parameters
    ----------
    path : Path
        As it was typed.

    Raises
    ------
    NotFoundError
        When there is no such file.
    BadInputError
        When it is too large, or not UTF-8 text.
    StoreError
        When it is there and cannot be read.
    """
    if not path.is_file():
        raise NotFoundError(f"There is no file {path}.", "Check the name and the folder.")
    try:
        if path.stat().st_size > MOST_BYTES:
            raise BadInputError([Fault(code="file.too_large", file=str(path))])
        return path.read_bytes().decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise BadInputError([Fault(code="file.not_text", file=str(path))]) from error
    except OSError as error:
        raise StoreError(f"{path} could not be read: {error.strerror}.") from error


def write_new_text(path: Path, text: str) -> None:
    """Write a file that is not there yet, as UTF-8; nothing is ever written over.

    Raises
    ------
    StoreError
        When something of that name is there, or it cannot be written.
    """
    try:
        with path.open("x", encoding="utf-8", newline="\n") as file:
            file.write(text)
    except FileExistsError as error:
        raise StoreError(f"{path} is there already.", "Give the name of a new file.") from error
    except OSError as error:
        raise StoreError(
            f"{path} could not be written: {error.strerror}.", "Check the folder."
        ) from error


def write_text(path: Path, text: str) -> Path:
    """Write a file of the tool's own making as UTF-8, over an older one; its folder is made.

    Raises
    ------
    StoreError
        When it cannot be written.
    """
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8", newline="\n")
    except OSError as error:
        raise StoreError(
            f"{path} could not be written: {error.strerror}.", "Check the folder."
        ) from error
    return path
