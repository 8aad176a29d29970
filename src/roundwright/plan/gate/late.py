"""Whether a class that was played through ends in time often enough.

The chance is a fact stored with the plan, made by the play-through; the gate compares it
with what the coach asked for and does not play the class itself.
"""

from roundwright.plan.document import Facts
from roundwright.plan.gate.found import in_order, of_class
from roundwright.plan.problem import Problem
from roundwright.plan.verdict import Finding, Grade, Verdict

CHANCE = "slot.chance"
GRADES = {CHANCE: Grade.ADVISE}


def late_finding(facts: Facts, problem: Problem) -> Finding | None:
    """Give the finding that a class ends in time too seldom.

    Parameters
    ----------
    facts : Facts
        The plan's facts; without a play-through in them nothing is found.
    problem : Problem
        What the plan answers to; says which chance was asked for.

    Returns
    -------
    Finding or None
        Of the rule `slot.chance`, with both chances in 1/10,000.
    """
    played, asked_bp = facts.chance_on_time, problem.spec.chance_on_time_bp
    if played is None or played.chance_bp >= asked_bp:
        return None
    return of_class(CHANCE, Grade.ADVISE, chance_bp=played.chance_bp, asked_bp=asked_bp)


def with_late_finding(verdict: Verdict, facts: Facts, problem: Problem) -> Verdict:
    """Give a verdict that also says whether the class ends in time too seldom."""
    finding = late_finding(facts, problem)
    if finding is None:
        return verdict
    return verdict.model_copy(update={"findings": in_order((*verdict.findings, finding))})
