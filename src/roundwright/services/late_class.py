"""A class that is longer than its slot, with what would make it end on time."""

from roundwright.plan.document import PlanDocument
from roundwright.plan.gate.rules.slot import OVERRUN
from roundwright.plan.outcome import Budget
from roundwright.services.ports import TimeAdviser


def overruns(document: PlanDocument) -> bool:
    """Say whether the gate finds that the class is longer than its slot."""
    return any(finding.rule == OVERRUN for finding in document.verdict.findings)


def with_ways_on_time(document: PlanDocument, seed: int, adviser: TimeAdviser) -> PlanDocument:
    """Add what would make a class end on time to the outcome of one that does not.

    Parameters
    ----------
    document : PlanDocument
        A judged plan; one that ends within its slot is given back as it is.
    seed : int
        As for the plan.
    adviser : TimeAdviser
        Who fits the changes again, each with the work of a quick search.
    """
    if not overruns(document):
        return document
    ways = adviser.ways_on_time(document.problem, seed, Budget.QUICK)
    outcome = document.outcome.model_copy(update={"ways_out": ways})
    return document.model_copy(update={"outcome": outcome})
