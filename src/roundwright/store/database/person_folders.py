"""Everything that is kept of one person, as a document or as a new folder."""

import shutil
import tempfile
from pathlib import Path

from roundwright.foundation.errors import NotFoundError, StoreError
from roundwright.services.keeping.person_export import person_document, person_files
from roundwright.services.keeping.shelves import Actor, HallShelf, Trail
from roundwright.store.database.connection import Database
from roundwright.store.database.plan_trees import trees_of
from roundwright.store.database.trail_rows import add_lines, line
from roundwright.store.hall_folder import sync_folder, write_synced

MOST_LINES = 100_000
"""Lines of the trail of one person at most."""


class PersonFolders:
    """What is kept of people of one database, for themselves."""

    def __init__(self, database: Database, halls: HallShelf, trail: Trail) -> None:
        self._database, self._halls, self._trail = database, halls, trail

    def document(self, hall_id: str, person_id: str, by: Actor) -> dict[str, object]:
        """Give everything that is kept of a person; that it was asked for stands in the trail.

        Raises
        ------
        NotFoundError
            No such hall, or no such person in it.
        StoreError
            It could not be read.
        """
        hall = self._halls.opened(hall_id).hall
        if hall.person(person_id) is None:
            raise NotFoundError(f"There is nobody with the id '{person_id}' in this hall.")
        with self._database.writing() as connection:
            add_lines(connection, [line(by, "person.exported", hall_id, person_id)])
        told = self._trail.entries(hall_id, person_id, MOST_LINES)
        with self._database.reading() as connection:
            plans = (one for tree in trees_of(connection, hall_id) for one in tree.documents)
            return person_document(hall, person_id, plans, told, by.at)

    def take_out(self, hall_id: str, person_id: str, folder: Path, by: Actor) -> None:
        """Write everything that is kept of a person to a new folder.

        Raises
        ------
        NotFoundError
            No such hall, or no such person in it.
        StoreError
            The folder is there already, or could not be written.
        """
        if folder.exists():
            raise StoreError(
                f"There is something named '{folder.name}' already. Nothing was written.",
                "Name a folder that is not there yet.",
            )
        files = person_files(self.document(hall_id, person_id, by))
        try:
            folder.parent.mkdir(parents=True, exist_ok=True)
            fresh = Path(tempfile.mkdtemp(prefix=f".{folder.name}.", dir=folder.parent))
        except OSError:
            raise StoreError(f"The folder '{folder.name}' cannot be written.") from None
        try:
            for name, content in files.items():
                write_synced(fresh / name, content)
            sync_folder(fresh)
            fresh.rename(folder)
        except OSError:
            raise StoreError(f"The folder '{folder.name}' cannot be written.") from None
        finally:
            shutil.rmtree(fresh, ignore_errors=True)
