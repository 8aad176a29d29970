"""Who finds answers to changes: tier 0 here, tiers 1 and 2 in the warm process.

Nothing in here loads a solver, so that the safe answer never waits for one.
"""

import json
from dataclasses import replace
from typing import Any

from roundwright.library.catalogue import Catalogue
from roundwright.optimise.changing.asked import Asked
from roundwright.optimise.changing.at_once import answer_at_once
from roundwright.optimise.changing.makers import Makers
from roundwright.optimise.changing.old_plan import overrun_before
from roundwright.optimise.changing.wire import (
    answer_of_values,
    as_bytes,
    asked_as_values,
)
from roundwright.optimise.worker import Worker
from roundwright.plan.changing.answer import Answer, Better
from roundwright.plan.changing.restate import Restated
from roundwright.plan.document import PlanDocument
from roundwright.plan.outcome import Budget, Status, StoppedBy


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
    ) -> Answer:
        """Give the best answer over all tiers within the counted budget.

        A worker that was stopped, or ended by its guard, leaves the best answer so far standing;
        its outcome says so.

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
        told = self._ask("mend", question)
        if isinstance(told, StoppedBy):
            return _stopped(best, told)
        best = _of(best, told)
        if on_better is not None and not on_better(best):
            return _stopped(best, StoppedBy.CALLER)
        if not told["swap_at"]:
            return best
        more = {
            "library": library.model_dump(mode="json"),
            "swap_at": told["swap_at"],
            "left_out": None if asked.open_position is not None else best.harm.left_out,
        }
        told = self._ask("mend_by_swap", question | more)
        if isinstance(told, StoppedBy):
            return _stopped(best, told)
        if told["answer"] is None:
            return best
        best = answer_of_values(told["answer"])
        if on_better is not None:
            on_better(best)
        return best

    def _ask(self, task: str, values: dict[str, Any]) -> dict[str, Any] | StoppedBy:
        told = self._worker.try_call(task, as_bytes(values))
        if isinstance(told, StoppedBy):
            return told
        answer: dict[str, Any] = json.loads(told)
        return answer


def _of(safe: Answer, told: dict[str, Any]) -> Answer:
    """Take the answer of tier 1; where it is no better, the safe one stands with what is known."""
    found = answer_of_values(told["answer"])
    if found.harm.order < safe.harm.order:
        return found
    return replace(safe, outcome=found.outcome, least=found.least)


def _stopped(answer: Answer, why: StoppedBy) -> Answer:
    outcome = answer.outcome.model_copy(
        update={"status": Status.FOUND, "stopped_by": why, "repeatable": why is not StoppedBy.GUARD}
    )
    return replace(answer, outcome=outcome)
