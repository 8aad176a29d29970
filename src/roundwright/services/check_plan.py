"""Check a plan: by what it was made for, or by the hall as it is today."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from roundwright.foundation.errors import UnsafePlanError
from roundwright.hall.hall import Hall
from roundwright.plan.build_planning import build_chosen
from roundwright.plan.build_problem import build_problem
from roundwright.plan.changing.revisions import Step
from roundwright.plan.document import PlanDocument
from roundwright.plan.gate.checked_plan import check
from roundwright.plan.gate.judged_here import judge_once
from roundwright.plan.gate.late import with_late_finding
from roundwright.plan.problem import Problem
from roundwright.plan.verdict import Verdict
from roundwright.services.changing.replay import replayed

UNKNOWN_CHANGES = (
    "This plan was changed; what was changed is not known here. Keep it beside its .revisions.json."
)


@dataclass(frozen=True, slots=True)
class PlanCheck:
    """What the gate says now, and by which problem it judged.

    `refusal` is the gate's own error when a finding says never or stop. `not_replayed` says in
    words which recorded changes could not be done again on today's problem, people as `{p001}`.
    """

    verdict: Verdict
    problem: Problem
    against: Literal["plan", "today"]
    refusal: UnsafePlanError | None
    not_replayed: tuple[str, ...] = ()


def check_plan(
    document: PlanDocument, hall: Hall | None = None, steps: Sequence[Step] = ()
) -> PlanCheck:
    """Judge a plan again; the stored verdict is not trusted.

    Parameters
    ----------
    document : PlanDocument
        The plan as it was read.
    hall : Hall, optional
        When given, the problem is built anew from it for the plan's class and date,
        so that people, limits and kit are those of today.
    steps : sequence of Step
        The changes from the plan's first revision to this one, done again on top of that.

    Returns
    -------
    PlanCheck
        The fresh verdict. Findings are values here; who prints or runs the plan refuses it.
        The chance on time is the one that was played through when the plan was made.

    Raises
    ------
    NotFoundError
        When the hall no longer has the plan's class.
    """
    problem, words = document.problem, tuple[str, ...]()
    if hall is not None:
        first = steps[0].before if steps else document
        today = replayed(problem_today(first, hall), steps, hall)
        problem, words = today.problem, today.not_replayed
        if not steps and document.core.parent_revision is not None:
            words = (UNKNOWN_CHANGES,)
    verdict = with_late_finding(judge_once(document.core, problem), document.facts, problem)
    return PlanCheck(
        verdict=verdict,
        problem=problem,
        against="plan" if hall is None else "today",
        refusal=refusal_of(document, problem),
        not_replayed=words,
    )


def problem_today(document: PlanDocument, hall: Hall) -> Problem:
    """Build the problem of a plan's class and date anew from a hall as it is today.

    Raises
    ------
    NotFoundError
        When the hall no longer has the plan's class.
    """
    booked = document.core.class_
    planned = document.problem.spec
    if "tool" in (planned.chosen_by, planned.length_by):
        return build_chosen(hall, document.core, document.problem.recent, planned)
    return build_problem(hall, booked.class_id, booked.starts_on)


def refusal_of(document: PlanDocument, problem: Problem | None = None) -> UnsafePlanError | None:
    """Give the gate's refusal of a plan, None when it passes.

    Parameters
    ----------
    document : PlanDocument
        The plan.
    problem : Problem, optional
        What to judge by; the document's own when left out.
    """
    try:
        check(document, problem)
    except UnsafePlanError as refusal:
        return refusal
    return None
