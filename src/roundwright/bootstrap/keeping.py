"""Where halls, plans, accounts and the trail are kept: the shelves over one database."""

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from roundwright.bootstrap.settings import Settings
from roundwright.bootstrap.shipped_library import shipped_catalogue
from roundwright.foundation.errors import StoreError
from roundwright.library.catalogue import Catalogue
from roundwright.services.keeping.shelves import (
    AccountShelf,
    HallShelf,
    PlanShelf,
    Trail,
    Upkeep,
)
from roundwright.store.database.connection import IN_MEMORY, Database
from roundwright.store.database.hall_folders import HallFolders
from roundwright.store.database.kept_accounts import KeptAccounts
from roundwright.store.database.kept_halls import KeptHalls
from roundwright.store.database.kept_plans import KeptPlans
from roundwright.store.database.migrating import migrate
from roundwright.store.database.person_folders import PersonFolders
from roundwright.store.database.restoring import restore
from roundwright.store.database.sqlite_files import private_file
from roundwright.store.database.trail_rows import KeptTrail
from roundwright.store.database.upkeep import DatabaseUpkeep


@dataclass(frozen=True, slots=True)
class Keeping:
    """Every shelf of one database."""

    database: Database
    halls: HallShelf
    plans: PlanShelf
    accounts: AccountShelf
    trail: Trail
    upkeep: Upkeep
    folders: HallFolders
    people: PersonFolders

    def close(self) -> None:
        """Let go of the database."""
        self.database.close()


def keeping(settings: Settings) -> Keeping:
    """Open the database that the settings name, bring it to today's form, give its shelves.

    Raises
    ------
    StoreError
        It cannot be reached or written, or is of a newer program.
    """
    return keeping_at(settings.database)


def restored(settings: Settings, backup: Path) -> Path | None:
    """Put a backup in place of the database that the settings name, which nobody uses.

    Returns
    -------
    Path or None
        Where the file that was there is now.

    Raises
    ------
    NotFoundError
        There is no such backup.
    StoreError
        It cannot be used, or the database is in use or is PostgreSQL; nothing was changed.
    """
    file = Database(settings.database).file
    if file is None:
        raise StoreError(
            "This program does not restore a PostgreSQL database. Nothing was changed.",
            "Use PostgreSQL's own command: pg_restore --clean --dbname=DATABASE FILE.",
        )
    return restore(backup, file)


def keeping_in_memory() -> Keeping:
    """Give shelves that end with this process."""
    return keeping_at(IN_MEMORY)


def keeping_at(url: str, base: Callable[[], Catalogue] = shipped_catalogue) -> Keeping:
    """Give the shelves of a database by its address.

    Raises
    ------
    BadInputError
        It is no address.
    StoreError
        It cannot be reached or written, or is of a newer program.
    """
    database = Database(url)
    if database.file is not None:
        try:
            database.file.parent.mkdir(parents=True, exist_ok=True, mode=0o700)
        except OSError:
            raise StoreError("The data folder cannot be made.") from None
        private_file(database.file)
    try:
        migrate(database)
    except BaseException:
        database.close()
        raise
    upkeep = DatabaseUpkeep(database)
    halls = KeptHalls(database, base, upkeep.tidy)
    trail = KeptTrail(database)
    return Keeping(
        database=database,
        halls=halls,
        plans=KeptPlans(database),
        accounts=KeptAccounts(database),
        trail=trail,
        upkeep=upkeep,
        folders=HallFolders(database, halls, base),
        people=PersonFolders(database, halls, trail),
    )
