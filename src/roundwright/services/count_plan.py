"""Count a plan: reps, contacts, tonnage and sets by person, and times by round."""

from roundwright.plan.class_count import ClassCount
from roundwright.plan.count import count_of
from roundwright.plan.document import PlanDocument


def count_plan(document: PlanDocument) -> ClassCount:
    """Count a plan afresh; the facts stored with it are not trusted.

    Raises
    ------
    BadInputError
        When the plan names a movement or person that its own problem does not hold.
    """
    return count_of(document.core, document.problem)
