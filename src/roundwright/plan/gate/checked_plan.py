"""What a checked plan is: a plan that the gate let through in this process, and still the same.

Printing, starting and showing take a `CheckedPlan`; only `check` can make one.
"""

from typing import Never

from roundwright.foundation.errors import ChangedMeanwhileError, UnsafePlanError
from roundwright.plan.core import Core
from roundwright.plan.document import PlanDocument
from roundwright.plan.gate.judged_here import judge_once
from roundwright.plan.gate.late import with_late_finding
from roundwright.plan.gate.words import words_of
from roundwright.plan.problem import Problem
from roundwright.plan.verdict import Finding, Verdict

_SEAL = object()
_MOST_NAMED = 12


class CheckedPlan:
    """A plan without any finding that says never or stop, sealed with its digest.

    It cannot be built by hand, copied or unpickled, so a plan from outside
    always passes the gate again. Each use compares the digest.
    """

    __slots__ = ("_digest", "_document", "_seal")

    def __init__(self, document: PlanDocument, seal: object = None) -> None:
        if seal is not _SEAL:
            raise UnsafePlanError("Only the gate makes a checked plan.", "Have the plan checked.")
        self._seal = seal
        self._document = document
        self._digest = document.core.digest

    @property
    def digest(self) -> str:
        """Digest of the core as it was when it was checked."""
        return self._digest

    @property
    def document(self) -> PlanDocument:
        """The document with the verdict of the check; the same as `use`."""
        return self.use()

    @property
    def core(self) -> Core:
        """The core, after comparing its digest."""
        return self.use().core

    def use(self) -> PlanDocument:
        """Give the document if its core is still what was checked.

        Raises
        ------
        ChangedMeanwhileError
            When the core is no longer what it was.
        UnsafePlanError
            When this object was not made by the gate.
        """
        if getattr(self, "_seal", None) is not _SEAL:
            raise UnsafePlanError("This plan was not checked here.", "Have the plan checked.")
        if self._document.core.digest != self._digest:
            raise ChangedMeanwhileError("The plan is not what it was when it was checked.")
        return self._document

    def __repr__(self) -> str:
        return f"CheckedPlan({self._digest[:12]})"

    def __reduce_ex__(self, protocol: object) -> Never:
        raise UnsafePlanError("A checked plan is not copied or stored.", "Store its document.")

    def __setstate__(self, state: object) -> Never:
        raise UnsafePlanError("A checked plan is not read back.", "Read the document; check it.")


def check(document: PlanDocument, problem: Problem | None = None) -> CheckedPlan:
    """Judge a plan and seal it.

    Parameters
    ----------
    document : PlanDocument
        The plan; its stored verdict is not looked at.
    problem : Problem, optional
        What to judge against when that is not the document's own: people, kit and
        limits as they are today.

    Raises
    ------
    UnsafePlanError
        When any finding says never or stop.
    """
    verdict = _verdict_of(document, problem or document.problem)
    if not verdict.is_clear:
        raise _refusal(tuple(f for f in verdict.findings if f.grade != "advise"), document)
    return CheckedPlan(_with(document, verdict), _SEAL)


def judged_once(document: PlanDocument) -> tuple[PlanDocument, CheckedPlan | None]:
    """Give a draft with its verdict in it and, where nothing stops it, the same plan sealed.

    Raises
    ------
    UnsafePlanError
        When any finding says never.
    """
    draft = judged(document)
    return draft, CheckedPlan(draft, _SEAL) if draft.verdict.is_clear else None


def judged(document: PlanDocument, problem: Problem | None = None) -> PlanDocument:
    """Give a draft with its verdict in it; findings that say stop are allowed to stand.

    Raises
    ------
    UnsafePlanError
        When any finding says never.
    """
    verdict = _verdict_of(document, problem or document.problem)
    if verdict.is_refused:
        raise _refusal(tuple(f for f in verdict.findings if f.grade == "never"), document)
    return _with(document, verdict)


def _verdict_of(document: PlanDocument, problem: Problem) -> Verdict:
    return with_late_finding(judge_once(document.core, problem), document.facts, problem)


def _with(document: PlanDocument, verdict: Verdict) -> PlanDocument:
    return document.model_copy(update={"verdict": verdict})


def _refusal(findings: tuple[Finding, ...], document: PlanDocument) -> UnsafePlanError:
    library = document.problem.library
    names = {
        exercise.position: library.exercise_name(exercise.exercise_id)
        for exercise in document.problem.spec.exercises
        if library.has_exercise(exercise.exercise_id)
    }
    lines = [f"[{f.rule}] {words_of(f, {}, names)}" for f in findings[:_MOST_NAMED]]
    if len(findings) > _MOST_NAMED:
        lines.append(f"and {len(findings) - _MOST_NAMED} more")
    return UnsafePlanError("\n".join(lines))
