"""How plans and their revisions stand in their tables."""

from datetime import date, datetime
from typing import Any

from sqlalchemy import Connection, func, insert, select, update

from roundwright.foundation.errors import NotFoundError
from roundwright.plan.changing.revisions import Revisions
from roundwright.plan.document import PlanDocument
from roundwright.services.keeping.shelves import Actor, PlanEntry
from roundwright.store.database.record_rows import instant_text
from roundwright.store.database.tables import PLAN, PLAN_REVISION


def document_text(document: PlanDocument) -> str:
    """Give a plan document as JSON text; reading it loses nothing."""
    return document.model_dump_json(by_alias=True)


def revisions_of(row: Any) -> Revisions:
    """Read the tree of revisions of a row of `plan`."""
    return Revisions.model_validate_json(row["revisions"])


def entry_of(row: Any) -> PlanEntry:
    """Read a row of `plan` as an entry of the list."""
    return PlanEntry(
        plan_id=row["plan_id"],
        class_id=row["class_id"],
        on=date.fromisoformat(row["on_day"]),
        revision=row["revision"],
        made_at=datetime.fromisoformat(row["made_at"]),
        kept_no=row["kept_no"],
    )


def plan_row(connection: Connection, hall_id: str, plan_id: str, *, locked: bool = False) -> Any:
    """Give the row of a plan; locked, until the change is kept.

    Raises
    ------
    NotFoundError
        No such plan.
    """
    wanted = select(PLAN).where(PLAN.c.hall_id == hall_id, PLAN.c.plan_id == plan_id)
    found = connection.execute(wanted.with_for_update() if locked else wanted).mappings().first()
    if found is None:
        raise NotFoundError("There is no such plan in this hall.")
    return found


def document_of(connection: Connection, hall_id: str, plan_id: str, revision: int) -> PlanDocument:
    """Read one revision of a plan as it was kept.

    Raises
    ------
    NotFoundError
        No such revision.
    """
    text = connection.execute(
        select(PLAN_REVISION.c.document).where(
            PLAN_REVISION.c.hall_id == hall_id,
            PLAN_REVISION.c.plan_id == plan_id,
            PLAN_REVISION.c.revision == revision,
        )
    ).scalar()
    if text is None:
        raise NotFoundError(f"This plan has no revision {revision}.")
    return PlanDocument.model_validate_json(text)


def next_kept_no(connection: Connection, hall_id: str) -> int:
    """Give the next number in the order of keeping; the hall's row is locked before."""
    most = connection.execute(select(func.max(PLAN.c.kept_no)).where(PLAN.c.hall_id == hall_id))
    return (most.scalar() or 0) + 1


def insert_plan(
    connection: Connection, hall_id: str, document: PlanDocument, revisions: Revisions, by: Actor
) -> int:
    """Write the row of a new plan, and give its number; its revisions are written apart."""
    at, kept_no = instant_text(by.at), next_kept_no(connection, hall_id)
    core = document.core
    connection.execute(
        insert(PLAN).values(
            hall_id=hall_id,
            plan_id=core.plan_id,
            class_id=core.class_.class_id,
            on_day=core.class_.starts_on.isoformat(),
            kept_no=kept_no,
            made_at=at,
            revision=revisions.current,
            revisions=revisions.model_dump_json(by_alias=True),
            changed_at=at,
            changed_by=by.role,
        )
    )
    return kept_no


def insert_revision(
    connection: Connection, hall_id: str, document: PlanDocument, at: datetime
) -> None:
    """Write one immutable revision."""
    connection.execute(
        insert(PLAN_REVISION).values(
            hall_id=hall_id,
            plan_id=document.core.plan_id,
            revision=document.core.revision,
            document=document_text(document),
            made_at=instant_text(at),
        )
    )


def point_to(
    connection: Connection, hall_id: str, document: PlanDocument, revisions: Revisions, by: Actor
) -> int:
    """Point a plan to its current revision; give its number, in the order the newest then."""
    booked, kept_no = document.core.class_, next_kept_no(connection, hall_id)
    connection.execute(
        update(PLAN)
        .where(PLAN.c.hall_id == hall_id, PLAN.c.plan_id == revisions.plan_id)
        .values(
            class_id=booked.class_id,
            on_day=booked.starts_on.isoformat(),
            kept_no=kept_no,
            revision=revisions.current,
            revisions=revisions.model_dump_json(by_alias=True),
            changed_at=instant_text(by.at),
            changed_by=by.role,
        )
    )
    return kept_no
