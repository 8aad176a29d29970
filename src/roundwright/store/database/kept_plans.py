"""The shelf of plans in a database."""

from collections.abc import Collection
from datetime import date

from sqlalchemy import Connection, select

from roundwright.foundation.errors import ChangedMeanwhileError
from roundwright.plan.changing.revisions import Revisions
from roundwright.plan.document import PlanDocument
from roundwright.plan.gate.checked_plan import judged
from roundwright.services.keeping.forgetting import emptied_plan
from roundwright.services.keeping.records import RecordKind
from roundwright.services.keeping.shelves import Actor, KeptPlan, PlanEntry
from roundwright.store.database.connection import Database
from roundwright.store.database.hall_rows import head_of
from roundwright.store.database.plan_rows import (
    document_of,
    entry_of,
    insert_plan,
    insert_revision,
    plan_row,
    point_to,
    revisions_of,
)
from roundwright.store.database.record_rows import gone_records
from roundwright.store.database.tables import PLAN, PLAN_REVISION
from roundwright.store.database.trail_rows import add_lines, line


class KeptPlans:
    """Plans in a database: immutable revisions, and a pointer to the current one."""

    def __init__(self, database: Database) -> None:
        self._database = database

    def plans(
        self, hall_id: str, days: Collection[date] | None = None, class_id: str | None = None
    ) -> tuple[PlanEntry, ...]:
        """List plans in the order in which they were kept, of some days or one class.

        Raises
        ------
        NotFoundError
            No such hall.
        """
        wanted = select(PLAN).where(PLAN.c.hall_id == hall_id).order_by(PLAN.c.kept_no)
        if days is not None:
            wanted = wanted.where(PLAN.c.on_day.in_([day.isoformat() for day in days]))
        if class_id is not None:
            wanted = wanted.where(PLAN.c.class_id == class_id)
        with self._database.reading() as connection:
            head_of(connection, hall_id)
            return tuple(entry_of(row) for row in connection.execute(wanted).mappings())

    def opened(self, hall_id: str, plan_id: str, revision: int | None = None) -> KeptPlan:
        """Give a plan at its current or another revision, as it was judged when it was kept.

        Raises
        ------
        NotFoundError
            No such plan or revision.
        """
        with self._database.reading() as connection:
            row = plan_row(connection, hall_id, plan_id)
            number = row["revision"] if revision is None else revision
            document = document_of(connection, hall_id, plan_id, number)
            return KeptPlan(document, revisions_of(row), row["kept_no"])

    def recent(self, hall_id: str, days: Collection[date]) -> tuple[PlanDocument, ...]:
        """Give the current revisions of the plans of some days: recent work."""
        wanted = (
            select(PLAN_REVISION.c.document)
            .join(
                PLAN,
                (PLAN.c.hall_id == PLAN_REVISION.c.hall_id)
                & (PLAN.c.plan_id == PLAN_REVISION.c.plan_id)
                & (PLAN.c.revision == PLAN_REVISION.c.revision),
            )
            .where(PLAN.c.hall_id == hall_id, PLAN.c.on_day.in_([day.isoformat() for day in days]))
            .order_by(PLAN.c.kept_no)
        )
        with self._database.reading() as connection:
            texts = connection.execute(wanted).scalars().all()
        return tuple(PlanDocument.model_validate_json(text) for text in texts)

    def keep(self, hall_id: str, document: PlanDocument, by: Actor) -> KeptPlan:
        """Keep a new plan, with the verdict that the gate gives it now.

        Raises
        ------
        NotFoundError
            No such hall.
        ChangedMeanwhileError
            There is a plan of that id.
        UnsafePlanError
            The gate says never.
        """
        core = document.core
        revisions = Revisions.begun(core.plan_id, core.digest, core.revision)
        with self._database.writing() as connection:
            head_of(connection, hall_id, locked=True)
            kept = judged(_without_the_gone(connection, hall_id, document))
            there = connection.execute(
                select(PLAN.c.plan_id).where(
                    PLAN.c.hall_id == hall_id, PLAN.c.plan_id == core.plan_id
                )
            )
            if there.first() is not None:
                raise ChangedMeanwhileError("This plan is kept already.")
            kept_no = insert_plan(connection, hall_id, kept, revisions, by)
            insert_revision(connection, hall_id, kept, by.at)
            add_lines(connection, [line(by, "plan.kept", hall_id, about=core.plan_id)])
        return KeptPlan(kept, revisions, kept_no)

    def keep_change(
        self,
        hall_id: str,
        document: PlanDocument,
        grown: Revisions,
        before: Revisions,
        by: Actor,
    ) -> KeptPlan:
        """Keep a change: the new revision and the pointer to it.

        Raises
        ------
        NotFoundError
            No such hall or plan.
        ChangedMeanwhileError
            The plan was changed since `before` was read, with what was done since.
        UnsafePlanError
            The gate says never.
        """
        core = document.core
        if grown.current != core.revision or grown.at(core.revision).digest != core.digest:
            raise ChangedMeanwhileError("The plan is not the one that its revisions point to.")
        with self._database.writing() as connection:
            head_of(connection, hall_id, locked=True)
            row = plan_row(connection, hall_id, core.plan_id, locked=True)
            now = revisions_of(row)
            _require_unmoved(now, before)
            kept = judged(_without_the_gone(connection, hall_id, document))
            made = grown.at(core.revision)
            grown = grown.model_copy(update={"revisions": (*now.revisions, made)})
            insert_revision(connection, hall_id, kept, by.at)
            kept_no = point_to(connection, hall_id, kept, grown, by)
            add_lines(connection, [line(by, "plan.changed", hall_id, about=core.plan_id)])
        return KeptPlan(kept, grown, kept_no)

    def move(self, hall_id: str, moved: Revisions, before: Revisions, by: Actor) -> KeptPlan:
        """Point to another revision: undo or redo.

        Raises
        ------
        NotFoundError
            No such hall, plan or revision.
        ChangedMeanwhileError
            The plan was changed since `before` was read.
        """
        with self._database.writing() as connection:
            head_of(connection, hall_id, locked=True)
            row = plan_row(connection, hall_id, moved.plan_id, locked=True)
            now = revisions_of(row)
            _require_unmoved(now, before)
            if moved.revisions != before.revisions:
                raise ChangedMeanwhileError("Undo and redo add no revision.")
            document = document_of(connection, hall_id, moved.plan_id, moved.current)
            moved = moved.model_copy(update={"revisions": now.revisions})
            kept_no = point_to(connection, hall_id, document, moved, by)
            add_lines(connection, [line(by, "plan.moved", hall_id, about=moved.plan_id)])
        return KeptPlan(document, moved, kept_no)


def _without_the_gone(connection: Connection, hall_id: str, document: PlanDocument) -> PlanDocument:
    """Empty the entries of people who left for good while the plan was being made."""
    for where in gone_records(connection, hall_id):
        if where.kind is RecordKind.PERSON and where.key in document.problem.people:
            document = emptied_plan(document, where.key) or document
    return document


def _require_unmoved(now: Revisions, before: Revisions) -> None:
    """Refuse where the plan grew or its pointer moved since it was read."""
    if before.current != now.current:
        now.require_current(before.current)
    seen = [(one.revision, one.digest) for one in before.revisions]
    if seen != [(one.revision, one.digest) for one in now.revisions]:
        raise ChangedMeanwhileError(
            "The plan was changed meanwhile.", "Look at the plan as it is now, then ask again."
        )
