"""A better answer to a change, taken in the place of the one that was kept at once."""

from dataclasses import dataclass

from roundwright.foundation.errors import ChangedMeanwhileError
from roundwright.plan.changing.revisions import Revisions
from roundwright.plan.document import PlanDocument
from roundwright.services.changing.change_plan import ChangedPlan
from roundwright.services.judged_plan import judged_plan
from roundwright.services.ports import Rehearse


@dataclass(frozen=True, slots=True)
class TakenInstead:
    """The document that is kept, and the revisions with it as the current one."""

    document: PlanDocument
    revisions: Revisions


def taken_instead(
    better: ChangedPlan, kept: Revisions, seed: int, rehearse: Rehearse | None
) -> TakenInstead:
    """Put a better answer on the plan before the change; the first answer stays as a branch.

    Parameters
    ----------
    better : ChangedPlan
        An answer to the change that led to the current revision.
    kept : Revisions
        As they are kept now.

    Raises
    ------
    ChangedMeanwhileError
        The plan is no longer at the answer to that change.
    UnsafePlanError
        The gate says never.
    """
    now = kept.at(kept.current)
    base = better.document.core.parent_revision
    if now.change != better.change or now.parent != base or base is None:
        raise ChangedMeanwhileError(
            "The plan was changed since this answer was looked for.",
            "Look at it as it is now, then ask again.",
        )
    core = better.document.core.model_copy(update={"revision": kept.next_number})
    document = judged_plan(core, better.document.problem, better.document.outcome, seed, rehearse)
    grown = kept.undone().with_change(base, document.core.digest, better.change, better.sentence)
    return TakenInstead(document, grown)
