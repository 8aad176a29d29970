"""Waits until an authored file is saved."""

from collections.abc import Iterator
from pathlib import Path

from watchfiles import watch

from roundwright.foundation.errors import NotFoundError


def saves_of(path: Path) -> Iterator[None]:
    """Yield at once, then each time the file is saved, until it is stopped.

    Raises
    ------
    NotFoundError
        When there is no such file to begin with.
    """
    if not path.is_file():
        raise NotFoundError(f"There is no file {path}.", "Check the name and the folder.")
    yield
    wanted = path.resolve()
    for changes in watch(path.parent, recursive=False, raise_interrupt=False):
        if any(Path(changed).resolve() == wanted for _, changed in changes) and path.is_file():
            yield
