"""A found core becomes a plan document only through the gate, in the process that asks."""

from roundwright.foundation.errors import UnsafePlanError
from roundwright.plan.core import Core
from roundwright.plan.document import PlanDocument
from roundwright.plan.facts import facts_of
from roundwright.plan.gate.judged_here import judge_once
from roundwright.plan.gate.late import with_late_finding
from roundwright.plan.outcome import Outcome
from roundwright.plan.pieces import with_pieces
from roundwright.plan.problem import Problem
from roundwright.services.ports import Rehearse


def judged_plan(
    core: Core, problem: Problem, outcome: Outcome, seed: int, rehearse: Rehearse | None
) -> PlanDocument:
    """Give the document of a plan with the gate's verdict, its facts and its chance on time.

    Warm-up and cool-down get their content here. It may be a draft: the verdict may say stop.

    Raises
    ------
    UnsafePlanError
        When the gate says never: a fault of ours, never shown as a plan.
    """
    core = with_pieces(core, problem)
    verdict = judge_once(core, problem)
    if verdict.is_refused:
        rules = sorted({finding.rule for finding in verdict.findings if finding.grade == "never"})
        raise UnsafePlanError(
            f"The plan that was made for {problem.spec.class_id} breaks {', '.join(rules)}."
            " It was thrown away.",
            "This is a fault of ours, not of your files: report it with the class's file.",
        )
    chance = rehearse(core, problem, seed) if rehearse is not None else None
    facts = facts_of(core, problem, chance)
    return PlanDocument(
        core=core,
        problem=problem,
        outcome=outcome,
        verdict=with_late_finding(verdict, facts, problem),
        facts=facts,
    )
