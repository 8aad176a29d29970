"""How a database is brought to the form of this program, or refused in words."""

from importlib.resources import files

from sqlalchemy import Connection, inspect, text

from roundwright.foundation.errors import StoreError
from roundwright.store.database.connection import OURS, Database

NEWEST = "0002"
"""The last migration that this program has; a test holds it to the scripts."""
VERSION_TABLE = "alembic_version"
_LOCK = 0x5257
NEWER = (
    "The database was made by a newer version of this program. Nothing was changed.",
    "Use that version; an older one does not write into it.",
)
_FOREIGN = (
    "The database holds something else. Nothing was changed.",
    "Give the address of an empty database, or of one of this program.",
)


def migrate(database: Database) -> str | None:
    """Bring the database to the form of this program, all or nothing.

    Returns
    -------
    str or None
        From which form: '0000' for an empty database; None when there was nothing to do.

    Raises
    ------
    StoreError
        It is of a newer program, or not one of this program; nothing was changed.
    """
    with database.reading() as connection:
        if _form_of(connection) == NEWEST:
            return None
    with database.writing() as connection:
        if not database.is_sqlite:
            connection.execute(text(f"SELECT pg_advisory_xact_lock({_LOCK})"))
        form = _form_of(connection)
        if form == NEWEST:
            return None
        _upgrade(connection, NEWEST)
        if database.is_sqlite:
            connection.execute(text(f"PRAGMA application_id = {OURS}"))
        return form


def scripts() -> str:
    """Give the folder of the migrations."""
    return str(files("roundwright.store.database") / "migrations")


def upgrade_to(connection: Connection, form: str) -> None:
    """Bring a database to an earlier form than the newest; for tests of the migrations."""
    _upgrade(connection, form)


def _form_of(connection: Connection) -> str:
    """Give the number of the last migration that the database has had."""
    names = set(inspect(connection).get_table_names())
    if VERSION_TABLE not in names:
        if names:
            raise StoreError(*_FOREIGN)
        return "0000"
    found = connection.execute(text(f"SELECT version_num FROM {VERSION_TABLE}")).scalar()
    if found is None or "hall" not in names:
        raise StoreError(*_FOREIGN)
    if str(found) > NEWEST or not str(found).isdigit():
        raise StoreError(*NEWER)
    return str(found)


def _upgrade(connection: Connection, form: str) -> None:
    from alembic import command  # takes 0.2 s, and is needed once in the life of a database
    from alembic.config import Config

    config = Config()
    config.set_main_option("script_location", scripts().replace("%", "%%"))
    config.attributes["connection"] = connection
    command.upgrade(config, form)
