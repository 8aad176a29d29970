"""Who finds answers to changes: tier 0 here, tiers 1 and 2 in the warm process.

Nothing in here loads a solver, so that the safe answer never waits for one.
"""

import json
from dataclasses import replace
from hashlib import sha256
from typing import Any

from roundwright.library.catalogue import Catalogue
from roundwright.optimise.changing.asked import Asked
from roundwright.optimise.changing.at_once import answer_at_once, held_as
from roundwright.optimise.changing.makers import Makers
from roundwright.optimise.changing.old_plan import overrun_before
from roundwright.optimise.changing.wire import (
    answer_of_values,
    as_bytes,
    asked_as_values,
)
from roundwright.optimise.worker import Worker
from roundwright.plan.changing.answer import NO_HARM, Answer, Better
from roundwright.plan.changing.change import Harm
from roundwright.plan.changing.restate import Restated
from roundwright.plan.document import PlanDocument
from roundwright.plan.outcome import Budget, Status, StoppedBy
from roundwright.plan.problem import Problem

SWAPPING_TIER = 2
"""Where exercises are swapped."""


class WorkerMender:
    """Answers changes of plans.

    Parameters
    ----------
    worker : Worker
        The warm process, with the tasks of `worker_tasks`; whoever made it closes it.
    """

    def __init__(self, worker: Worker) -> None:
        self._worker = worker
        self._makers = Makers()
        self._library: tuple[Catalogue, str] | None = None

    def at_once(self, before: PlanDocument, asked: Restated, library: Catalogue) -> Answer:
        """Give the safe answer of tier 0, in this process and without any solver.

        Raises
        ------
        NoPlanError
            Nobody takes part any more.
        """
        return answer_at_once(before, asked, self._makers)

    def mend(
        self,
        before: PlanDocument,
        asked: Restated,
        library: Catalogue,
        *,
        seed: int,
        budget: Budget,
        on_better: Better | None = None,
        most_tier: int = 2,
    ) -> Answer:
        """Give the best answer over the tiers up to one, within the counted budget.

        Better answers of tiers 1 and 2 come as they are found. A worker that was stopped, or ended
        by its guard, leaves the best answer so far standing; its outcome says so.

        Raises
        ------
        NoPlanError
            Nobody takes part any more.
        """
        best = self.at_once(before, asked, library)
        if on_better is not None and not on_better(best):
            return _stopped(best, StoppedBy.CALLER)
        question = asked_as_values(
            Asked(
                before.core,
                overrun_before(before.core, before.problem.spec.slot_s),
                asked,
                seed,
                budget,
            )
        )
        hearing = _Hearing(best, held_as(asked, before.core).problem, on_better)
        told = self._ask("mend", question, hearing)
        if isinstance(told, StoppedBy):
            return _stopped(hearing.best, told)
        best = _of(best, answer_of_values(told["answer"], hearing.problem))
        if not hearing.hear(best):
            return _stopped(best, StoppedBy.CALLER)
        if not told["swap_at"] or most_tier < SWAPPING_TIER:
            return best
        more = {
            "swap_at": told["swap_at"],
            "left_out": None if asked.open_positions else best.harm.left_out,
        }
        hearing = _Hearing(replace(best, least=NO_HARM), hearing.problem, on_better)
        told = self._by_swap(question | more, library, hearing)
        if isinstance(told, StoppedBy):
            return _stopped(hearing.best, told)
        if told["answer"] is not None:
            best = answer_of_values(told["answer"], hearing.problem)
            hearing.hear(best)
            return best
        least = told["least"]
        return best if least is None else _open_below(best, Harm.model_validate(least))

    def _by_swap(
        self, question: dict[str, Any], library: Catalogue, hearing: "_Hearing"
    ) -> dict[str, Any] | StoppedBy:
        """Ask for a swap; the library goes along only where the process does not have it."""
        known = self._library
        if known is None or known[0] is not library:
            values = library.model_dump(mode="json")
            known = self._library = (library, sha256(as_bytes(values)).hexdigest())
        asked = question | {"library_digest": known[1]}
        told = self._ask("mend_by_swap", asked, hearing)
        if isinstance(told, StoppedBy) or "needs_library" not in told:
            return told
        whole = asked | {"library": library.model_dump(mode="json")}
        return self._ask("mend_by_swap", whole, hearing)

    def _ask(
        self, task: str, values: dict[str, Any], hearing: "_Hearing"
    ) -> dict[str, Any] | StoppedBy:
        told = self._worker.try_call(task, as_bytes(values), told=hearing)
        if isinstance(told, StoppedBy):
            return told
        answer: dict[str, Any] = json.loads(told)
        return answer


class _Hearing:
    """Hears of better answers and bounds while a task is done, and hands better ones on.

    Parameters
    ----------
    best : Answer
        What is there already; its `least` is taken for the bound so far.
    problem : Problem
        Of answers that bring none of their own.
    """

    def __init__(self, best: Answer, problem: Problem, on_better: Better | None) -> None:
        self.best = best
        self.problem = problem
        self._on_better = on_better
        self._handed_on = best.core

    def __call__(self, words: bytes) -> bool:
        told = json.loads(words)
        if told["answer"] is None:
            least = Harm.model_validate(told["least"])
            self.best = _open_below(self.best, least)
            return True
        return self.hear(answer_of_values(told["answer"], self.problem))

    def hear(self, answer: Answer) -> bool:
        """Take a better answer; what was handed on already is not handed on again."""
        self.best = answer
        if self._on_better is None or answer.core == self._handed_on:
            return True
        self._handed_on = answer.core
        return self._on_better(answer)


def _of(safe: Answer, found: Answer) -> Answer:
    """Take the answer of tier 1; where it is no better, the safe one stands with what is known."""
    if found.harm.order < safe.harm.order:
        return found
    return replace(safe, outcome=found.outcome, least=found.least)


def _open_below(answer: Answer, least: Harm) -> Answer:
    """Give an answer that may still improve, with what none can be below."""
    same = least.order[:4] == answer.harm.order[:4]
    outcome = answer.outcome.model_copy(
        update={
            "status": Status.FOUND,
            "stopped_by": StoppedBy.BUDGET,
            "bound": least.price if same else None,
        }
    )
    return replace(answer, outcome=outcome, least=least)


def _stopped(answer: Answer, why: StoppedBy) -> Answer:
    outcome = answer.outcome.model_copy(
        update={"status": Status.FOUND, "stopped_by": why, "repeatable": False}
    )
    return replace(answer, outcome=outcome)
