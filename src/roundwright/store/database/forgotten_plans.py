"""Kept plans when a person leaves for good: their entries in each problem are emptied."""

from sqlalchemy import Connection, select, update

from roundwright.plan.document import PlanDocument
from roundwright.services.keeping.forgetting import emptied_plan, emptied_revisions
from roundwright.store.database.plan_rows import document_text, revisions_of
from roundwright.store.database.tables import PLAN, PLAN_REVISION


def empty_plans(connection: Connection, hall_id: str, person_id: str) -> int:
    """Empty a person's entries in all revisions of all plans, and give how many plans had any."""
    touched: set[str] = set()
    keys = connection.execute(
        select(PLAN_REVISION.c.plan_id, PLAN_REVISION.c.revision)
        .where(
            PLAN_REVISION.c.hall_id == hall_id,
            PLAN_REVISION.c.document.contains(f'"{person_id}"', autoescape=True),
        )
        .order_by(PLAN_REVISION.c.plan_id, PLAN_REVISION.c.revision)
    ).all()
    for plan_id, revision in keys:
        is_it = (
            PLAN_REVISION.c.hall_id == hall_id,
            PLAN_REVISION.c.plan_id == plan_id,
            PLAN_REVISION.c.revision == revision,
        )
        text = connection.execute(select(PLAN_REVISION.c.document).where(*is_it)).scalar_one()
        emptied = emptied_plan(PlanDocument.model_validate_json(text), person_id)
        if emptied is not None:
            touched.add(plan_id)
            connection.execute(
                update(PLAN_REVISION).where(*is_it).values(document=document_text(emptied))
            )
    for row in connection.execute(select(PLAN).where(PLAN.c.hall_id == hall_id)).mappings().all():
        revisions = emptied_revisions(revisions_of(row), person_id)
        if revisions is not None:
            touched.add(row["plan_id"])
            connection.execute(
                update(PLAN)
                .where(PLAN.c.hall_id == hall_id, PLAN.c.plan_id == row["plan_id"])
                .values(revisions=revisions.model_dump_json(by_alias=True))
            )
    return len(touched)
