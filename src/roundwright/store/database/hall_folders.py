"""A hall's folder is brought into the database whole, and taken out of it again."""

import shutil
import tempfile
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from sqlalchemy import Connection

from roundwright.foundation.errors import StoreError, UnsafePlanError
from roundwright.hall.hall import Hall
from roundwright.library.catalogue import Catalogue
from roundwright.plan.gate.checked_plan import judged
from roundwright.services.keeping.lost_words import require_no_lost_words
from roundwright.services.keeping.records import KeptHall
from roundwright.services.keeping.shelves import Actor
from roundwright.store.database.connection import Database
from roundwright.store.database.kept_halls import KeptHalls
from roundwright.store.database.plan_trees import PlanTree, insert_trees, trees_of
from roundwright.store.database.trail_rows import add_lines, line
from roundwright.store.hall_folder import read_hall, write_hall
from roundwright.store.plan_tree_files import PLANS, read_trees, write_trees


@dataclass(frozen=True, slots=True)
class BroughtIn:
    """What came in: the hall, how many plans, and which plans the gate refuses."""

    hall: KeptHall
    plans: int
    refused: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class LookedAt:
    """What a folder holds: the hall, how many sound plans, and which the gate refuses."""

    hall: Hall
    plans: int
    refused: tuple[str, ...]


class HallFolders:
    """Folders in and out of one database."""

    def __init__(self, database: Database, halls: KeptHalls, base: Callable[[], Catalogue]) -> None:
        self._database = database
        self._halls = halls
        self._base = base

    def bring_in(
        self, folder: Path, hall_id: str, by: Actor, base_version: int | None = None
    ) -> BroughtIn:
        """Keep what a hall's folder holds with its plans and revisions, all of it or nothing.

        Parameters
        ----------
        base_version : int, optional
            The version of the hall that it takes the place of; None for a new hall. Plans that
            are kept stay.

        Raises
        ------
        NotFoundError
            No such folder, or no hall of that id to take the place of.
        BadInputError
            With every fault of every file; nothing was kept.
        ChangedMeanwhileError
            The hall is there already, or was changed since; or a plan differs from the kept one.
        NotAllowedError
            A clinician's word of somebody in the hall would fall away.
        StoreError
            It could not be read or kept.
        """
        hall, sound, refused = self._read(folder)
        count = 0

        def plans_too(connection: Connection) -> None:
            nonlocal count
            count = insert_trees(connection, hall_id, sound, by)
            about = f"{count} plan{'s' * (count != 1)}"
            add_lines(connection, [line(by, "hall.brought_in", hall_id, about=about)])

        if base_version is None:
            kept = self._halls.begin(hall_id, hall, by, plans_too)
        else:
            require_no_lost_words(self._halls.opened(hall_id).hall, hall)
            kept = self._halls.replace(hall_id, hall, base_version, by, plans_too)
        return BroughtIn(kept, count, refused)

    def look_at(self, folder: Path) -> LookedAt:
        """Read what a hall's folder holds; nothing is kept.

        Raises
        ------
        BadInputError
            With every fault of every file.
        """
        hall, sound, refused = self._read(folder)
        return LookedAt(hall, len(sound), refused)

    def _read(self, folder: Path) -> tuple[Hall, list[PlanTree], tuple[str, ...]]:
        hall = read_hall(folder, self._base())
        trees = [PlanTree(*one) for one in read_trees(folder / PLANS)]
        refused = tuple(one.revisions.plan_id for one in trees if _is_refused(one))
        return hall, [t for t in trees if t.revisions.plan_id not in refused], refused

    def take_out(self, hall_id: str, folder: Path, by: Actor) -> int:
        """Write a hall with all its plans to a new folder, and give how many plans.

        Accounts and the trail are not in it.

        Raises
        ------
        NotFoundError
            No such hall.
        StoreError
            There is something in the folder already, or it could not be written.
        """
        hall = self._halls.opened(hall_id).hall
        try:
            if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
                raise StoreError(
                    f"There is something in '{folder.name}' already. Nothing was written.",
                    "Name a folder that is not there yet.",
                )
            folder.parent.mkdir(parents=True, exist_ok=True)
            around = Path(tempfile.mkdtemp(prefix=f".{folder.name}.", dir=folder.parent))
        except OSError:
            raise StoreError(f"The folder '{folder.name}' cannot be written.") from None
        fresh = around / "hall"
        try:
            write_hall(hall, fresh)
            with self._database.reading() as connection:
                found = ((one.revisions, one.documents) for one in trees_of(connection, hall_id))
                count = write_trees(found, fresh / PLANS)
            if folder.is_dir():
                folder.rmdir()
            fresh.rename(folder)
            with self._database.writing() as connection:
                add_lines(connection, [line(by, "hall.taken_out", hall_id)])
        except OSError:
            raise StoreError(f"The folder '{folder.name}' cannot be written.") from None
        finally:
            shutil.rmtree(around, ignore_errors=True)
        return count


def _is_refused(tree: PlanTree) -> bool:
    try:
        for document in tree.documents:
            judged(document)
    except UnsafePlanError:
        return True
    return False
