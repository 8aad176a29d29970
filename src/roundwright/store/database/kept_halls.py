"""The shelf of halls in a database."""

import secrets
import threading
from collections.abc import Callable, Sequence

from sqlalchemy import Connection, delete, select
from sqlalchemy.exc import IntegrityError

from roundwright.foundation.errors import ChangedMeanwhileError, NotFoundError
from roundwright.hall.hall import Hall
from roundwright.library.catalogue import Catalogue
from roundwright.services.keeping.forgetting import classes_without
from roundwright.services.keeping.hall_records import hall_of, records_of
from roundwright.services.keeping.records import (
    KeptHall,
    Record,
    RecordEdit,
    RecordKey,
    RecordKind,
)
from roundwright.services.keeping.shelves import Actor, HallEntry
from roundwright.store.database.connection import Database
from roundwright.store.database.edited_records import changed_since, edited
from roundwright.store.database.forgotten_plans import empty_plans
from roundwright.store.database.hall_rows import (
    Head,
    begin_rows,
    head_of,
    health_lines,
    locked_rows,
    write_hall_rows,
)
from roundwright.store.database.record_rows import gone_records, kept_records
from roundwright.store.database.tables import HALL
from roundwright.store.database.trail_rows import add_lines, line

MOST_REMEMBERED = 64
"""Halls that stay read at most; our choice."""


InTheSame = Callable[[Connection], object]
"""Something that is kept in the same transaction, or not at all."""


class KeptHalls:
    """Halls in a database; reading one that has not changed costs one look at its version.

    Parameters
    ----------
    base : callable
        Gives the shipped library, to which a hall's own entries are added.
    tidy : callable
        Called after a person was deleted: overwrites what the file may still hold.
    """

    def __init__(
        self, database: Database, base: Callable[[], Catalogue], tidy: Callable[[], None]
    ) -> None:
        self._database = database
        self._base = base
        self._tidy = tidy
        self._known: dict[str, tuple[str, KeptHall]] = {}
        self._turn = threading.Lock()

    def halls(self) -> tuple[HallEntry, ...]:
        """List the halls, by name."""
        with self._database.reading() as connection:
            rows = connection.execute(select(HALL.c.hall_id, HALL.c.name, HALL.c.version)).all()
        found = [HallEntry(row.hall_id, row.name, row.version) for row in rows]
        return tuple(sorted(found, key=lambda one: (one.name.casefold(), one.hall_id)))

    def version(self, hall_id: str) -> int:
        """Give a hall's version without reading it.

        Raises
        ------
        NotFoundError
            No such hall.
        """
        with self._database.reading() as connection:
            return head_of(connection, hall_id).version

    def opened(self, hall_id: str) -> KeptHall:
        """Give a hall, checked like a hall folder.

        Raises
        ------
        NotFoundError
            No such hall.
        """
        with self._database.reading() as connection:
            head = head_of(connection, hall_id)
            known = self._remembered(head)
            if known is not None:
                return known
            kept = kept_records(connection, hall_id)
        hall = hall_of([one.record for one in kept.values()], self._base())
        versions = {where: one.version for where, one in kept.items()}
        return self._remember(head.stamp, KeptHall(hall_id, hall, head.version, versions))

    def person_ids(self, hall_id: str) -> frozenset[str]:
        """Give every id that a person of the hall has or ever had: none is given twice.

        Raises
        ------
        NotFoundError
            No such hall.
        """
        with self._database.reading() as connection:
            head_of(connection, hall_id)
            found = (*kept_records(connection, hall_id), *gone_records(connection, hall_id))
        return frozenset(where.key for where in found if where.kind is RecordKind.PERSON)

    def begin(self, hall_id: str, hall: Hall, by: Actor, also: InTheSame | None = None) -> KeptHall:
        """Keep a new hall, and what else is done in the same transaction.

        Raises
        ------
        ChangedMeanwhileError
            There is a hall of that id.
        BadInputError
            With every fault of the hall.
        """
        checked = hall_of(records_of(hall).values(), self._base())
        stamp = secrets.token_hex(8)
        taken = f"There is a hall '{hall_id}' already."
        with self._database.writing() as connection:
            there = connection.execute(select(HALL.c.name).where(HALL.c.hall_id == hall_id))
            if there.first() is not None:
                raise ChangedMeanwhileError(taken, "Choose another name for it.")
            try:
                rows = begin_rows(connection, hall_id, stamp, checked, by)
            except IntegrityError:  # somebody else was faster by a moment
                rows = None
            if rows is None:
                raise ChangedMeanwhileError(taken, "Choose another name for it.")
            said = [line(by, "hall.begun", hall_id)]
            kept = write_hall_rows(connection, rows, checked, by, said)
            if also is not None:
                also(connection)
        return self._remember(stamp, kept)

    def replace(
        self,
        hall_id: str,
        hall: Hall,
        base_version: int,
        by: Actor,
        also: InTheSame | None = None,
    ) -> KeptHall:
        """Put an imported hall in place of one; plans stay. `also` is done in the same transaction.

        Raises
        ------
        NotFoundError
            No such hall.
        ChangedMeanwhileError
            The hall was changed since `base_version`, with what changed.
        BadInputError
            With every fault of the hall.
        """
        checked = hall_of(records_of(hall).values(), self._base())
        with self._database.writing() as connection:
            rows = locked_rows(connection, hall_id)
            if rows.head.version != base_version:
                raise changed_since(base_version, rows.kept, rows.gone)
            said = [line(by, "hall.replaced", hall_id), *health_lines(hall_id, rows, checked, by)]
            kept = write_hall_rows(connection, rows, checked, by, said)
            if also is not None:
                also(connection)
        return self._remember(rows.head.stamp, kept)

    def edit(self, hall_id: str, edits: Sequence[RecordEdit], by: Actor) -> KeptHall:
        """Write or remove records, all or none; the whole hall is checked before it is kept.

        Raises
        ------
        NotFoundError
            No such hall.
        ChangedMeanwhileError
            A record is not what it was at its `base_version`: which, by whom, when.
        BadInputError
            With every fault that the hall would have; nothing was changed.
        """
        if not edits:
            return self.opened(hall_id)
        with self._database.writing() as connection:
            rows = locked_rows(connection, hall_id)
            wanted = edited(edits, rows.kept, rows.gone)
            checked = hall_of(wanted.values(), self._base())
            said = health_lines(hall_id, rows, checked, by)
            kept = write_hall_rows(connection, rows, checked, by, said)
        return self._remember(rows.head.stamp, kept)

    def forget_person(self, hall_id: str, person_id: str, by: Actor) -> int:
        """Delete a person for good and give how many plans were emptied of their entries.

        A class for which nobody would be left stops it: somebody else is put into it first.

        Raises
        ------
        NotFoundError
            No such hall, or no such person in it.
        BadInputError
            Nobody would be left for a class.
        """
        with self._database.writing() as connection:
            rows = locked_rows(connection, hall_id)
            if RecordKey(RecordKind.PERSON, person_id) not in rows.kept:
                raise NotFoundError(f"There is nobody with the id '{person_id}' in this hall.")
            left = {w: k.record for w, k in rows.kept.items() if k.record.person_id != person_id}
            for where, values in classes_without(left, person_id).items():
                one = left[where]
                left[where] = Record(where, one.place, one.privacy, one.person_id, values)
            checked = hall_of(left.values(), self._base())
            emptied = empty_plans(connection, hall_id, person_id)
            about = f"{emptied} plan{'s' * (emptied != 1)} emptied"
            said = [line(by, "person.deleted", hall_id, person_id, about)]
            kept = write_hall_rows(connection, rows, checked, by, said)
        self._remember(rows.head.stamp, kept)
        self._tidy()
        return emptied

    def remove(self, hall_id: str, by: Actor) -> None:
        """Delete a hall with everything that is kept of it.

        Raises
        ------
        NotFoundError
            No such hall.
        """
        with self._database.writing() as connection:
            head_of(connection, hall_id, locked=True)
            connection.execute(delete(HALL).where(HALL.c.hall_id == hall_id))
            add_lines(connection, [line(by, "hall.removed", hall_id)])
        with self._turn:
            self._known.pop(hall_id, None)
        self._tidy()

    def _remembered(self, head: Head) -> KeptHall | None:
        with self._turn:
            stamp, known = self._known.get(head.hall_id, ("", None))
        same = known is not None and stamp == head.stamp and known.version == head.version
        return known if same else None

    def _remember(self, stamp: str, hall: KeptHall) -> KeptHall:
        with self._turn:
            self._known.pop(hall.hall_id, None)
            self._known[hall.hall_id] = (stamp, hall)
            while len(self._known) > MOST_REMEMBERED:
                self._known.pop(next(iter(self._known)))
        return hall
