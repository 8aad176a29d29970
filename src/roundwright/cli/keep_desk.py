"""What the commands of ``roundwright keep`` share: the database that is named, and who asks."""

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Annotated

import typer

from roundwright.bootstrap.keeping import Keeping, keeping
from roundwright.bootstrap.settings import Settings, read_settings
from roundwright.bootstrap.wiring import wired
from roundwright.foundation.errors import NotFoundError
from roundwright.foundation.identifiers import is_slug, nearest_names
from roundwright.hall.hall import Hall
from roundwright.services.keeping.shelves import Actor

ROLE = "command line"
"""Who asks by a command, as the trail and those who meet the change are told."""

DataDir = Annotated[
    Path | None,
    typer.Option(
        "--data-dir", metavar="FOLDER", help="The data folder; the user's own when left out."
    ),
]
KeptHallId = Annotated[str, typer.Argument(metavar="HALL", help="The hall's name in the database.")]
KeptPerson = Annotated[
    str, typer.Argument(metavar="PERSON", help="Somebody's id, or name as it is shown.")
]


def settings_of(data_dir: Path | None) -> Settings:
    """Read the settings; the database's address, which may hold a password, is never typed."""
    return read_settings({"data_dir": data_dir})


@contextmanager
def the_database(data_dir: Path | None) -> Iterator[Keeping]:
    """Open the database that the settings name, and let go of it at the end."""
    shelves = keeping(settings_of(data_dir))
    try:
        yield shelves
    finally:
        shelves.close()


def by_command() -> Actor:
    """Give on whose behalf a command changes something: nobody's account."""
    return Actor(account_id=None, role=ROLE, at=wired().clock.instant())


def require_short_name(name: str, option: str) -> None:
    """Refuse a name that cannot be a hall's."""
    if not is_slug(name):
        expected = "2 to 41 of a-z, 0-9 and _, beginning with a letter"
        raise typer.BadParameter(f"expected {expected}", param_hint=option)


def person_in(hall: Hall, text: str) -> str:
    """Give the id of somebody, by id or shown name.

    Raises
    ------
    NotFoundError
        Nobody, or more than one, is called that.
    """
    if hall.person(text) is not None:
        return text
    found = [one.person_id for one in hall.people if one.shown_name == text]
    if len(found) == 1:
        return found[0]
    if found:
        raise NotFoundError(f"{len(found)} people have this name.", f"One of: {', '.join(found)}.")
    near = nearest_names(text, (one.shown_name for one in hall.people))
    raise NotFoundError("Nobody in this hall has that id or name.", f"Nearest: {', '.join(near)}.")
