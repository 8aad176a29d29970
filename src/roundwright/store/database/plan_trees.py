"""Plans with all their revisions: brought in from a folder, taken out, given to a person."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from sqlalchemy import Connection, select

from roundwright.foundation.errors import ChangedMeanwhileError
from roundwright.plan.changing.revisions import Revisions
from roundwright.plan.document import PlanDocument
from roundwright.services.keeping.shelves import Actor
from roundwright.store.database.plan_rows import (
    document_of,
    insert_plan,
    insert_revision,
    revisions_of,
)
from roundwright.store.database.tables import PLAN


@dataclass(frozen=True, slots=True)
class PlanTree:
    """A plan with the documents of all its revisions, in the order of the revisions."""

    revisions: Revisions
    documents: tuple[PlanDocument, ...]

    @property
    def current(self) -> PlanDocument:
        """The document that the pointer points to."""
        at = [one.revision for one in self.revisions.revisions]
        return self.documents[at.index(self.revisions.current)]


def trees_of(connection: Connection, hall_id: str) -> Iterator[PlanTree]:
    """Read every plan of a hall in the order kept, one after the other."""
    wanted = select(PLAN).where(PLAN.c.hall_id == hall_id).order_by(PLAN.c.kept_no)
    for row in connection.execute(wanted).mappings().all():
        revisions = revisions_of(row)
        documents = tuple(
            document_of(connection, hall_id, row["plan_id"], one.revision)
            for one in revisions.revisions
        )
        yield PlanTree(revisions, documents)


def insert_trees(connection: Connection, hall_id: str, trees: Sequence[PlanTree], by: Actor) -> int:
    """Keep plans as they stand in a folder, verdicts included, and give how many are new.

    The hall's row is locked before. A plan that is kept already, with the same revisions, is
    left as it is.

    Raises
    ------
    ChangedMeanwhileError
        A plan is kept already and holds something else.
    """
    found = connection.execute(select(PLAN).where(PLAN.c.hall_id == hall_id)).mappings()
    there = {row["plan_id"]: _digests(revisions_of(row)) for row in found}
    new = [tree for tree in trees if tree.revisions.plan_id not in there]
    for tree in trees:
        plan_id = tree.revisions.plan_id
        if plan_id in there and there[plan_id] != _digests(tree.revisions):
            raise ChangedMeanwhileError(
                f"The plan {plan_id} is kept already, with other revisions.",
                "Take its files out of the folder, or bring the folder in as another hall.",
            )
    for tree in new:
        insert_plan(connection, hall_id, tree.current, tree.revisions, by)
        for document in tree.documents:
            insert_revision(connection, hall_id, document, by.at)
    return len(new)


def _digests(revisions: Revisions) -> list[tuple[int, str]]:
    return [(one.revision, one.digest) for one in revisions.revisions]
