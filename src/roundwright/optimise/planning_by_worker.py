"""Planning in the warm process: questions and answers as JSON, a guard as a value."""

import json
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from roundwright.optimise.worker import Worker
from roundwright.optimise.worker_tasks import HERE, TASKS
from roundwright.plan.best_so_far import StillOpen
from roundwright.plan.core import Core
from roundwright.plan.outcome import Budget, Clash, Outcome, Status, StoppedBy, WayOut
from roundwright.plan.planning_problem import PlanningProblem
from roundwright.plan.problem import Problem


@dataclass(frozen=True, slots=True)
class FoundClass:
    """The class that was chosen, its core, and how the search ended; not judged yet."""

    problem: Problem | None
    core: Core | None
    outcome: Outcome


OnBetter = Callable[[FoundClass, StillOpen], bool]
"""Hears of each better class and of what is still sought; gives whether to go on."""


def planning_worker() -> Worker:
    """Give the process that plans; it starts with the first call or `start`."""
    return Worker(TASKS, preload=(HERE,))


class WorkerPlanner:
    """Chooses classes in the warm process.

    Parameters
    ----------
    worker : Worker
        The process; whoever made it closes it.
    """

    def __init__(self, worker: Worker) -> None:
        self._worker = worker

    def plan(
        self,
        planning: PlanningProblem,
        *,
        seed: int,
        budget: Budget,
        plan_id: str,
        on_better: OnBetter | None = None,
    ) -> FoundClass:
        """Search within counted work.

        Parameters
        ----------
        on_better : callable, optional
            Hears of each better class; with False the search ends.

        Returns
        -------
        FoundClass
            After a guard that fired or a stop: the best that was told of, `found` and not
            repeatable, else undecided.

        Raises
        ------
        RoundwrightError
            The process ended in the middle. What was told of before is with `on_better`.
        """
        best: list[FoundClass] = []

        def told(words: bytes) -> bool:
            told_of = json.loads(words)
            best.append(_found(told_of))
            return on_better is None or on_better(best[-1], StillOpen(told_of["still_open"]))

        payload = _payload(
            planning=_values(planning),
            seed=seed,
            budget=budget.value,
            plan_id=plan_id,
            tells=on_better is not None,
        )
        answer = self._worker.try_call("plan", payload, told=told)
        if not isinstance(answer, StoppedBy):
            return _found(json.loads(answer))
        if not best:
            return _undecided(answer, seed, budget)
        outcome = best[-1].outcome.model_copy(update={"stopped_by": answer, "repeatable": False})
        return FoundClass(best[-1].problem, best[-1].core, outcome)

    def why_not(self, planning: PlanningProblem, seed: int, budget: Budget) -> tuple[Clash, ...]:
        """Give the smallest set of things that cannot all hold."""
        answer = self._ask("why_not", planning=_values(planning), seed=seed, budget=budget.value)
        return tuple(Clash.model_validate(one) for one in answer["clash"])

    def ways_out(
        self, planning: PlanningProblem, clash: tuple[Clash, ...], seed: int, budget: Budget
    ) -> tuple[WayOut, ...]:
        """Give changes that were solved again and help."""
        answer = self._ask(
            "find_ways_out",
            planning=_values(planning),
            clash=[_values(one) for one in clash],
            seed=seed,
            budget=budget.value,
        )
        return tuple(WayOut.model_validate(one) for one in answer["ways"])

    def ways_on_time(self, problem: Problem, seed: int, budget: Budget) -> tuple[WayOut, ...]:
        """Give what would make a class end on time; none when a guard fired or it was stopped."""
        payload = _payload(problem=_values(problem), seed=seed, budget=budget.value)
        told = self._worker.try_call("find_ways_on_time", payload)
        if isinstance(told, StoppedBy):
            return ()
        return tuple(WayOut.model_validate(one) for one in json.loads(told)["ways"])

    def shopping(self, problem: Problem, core: Core, seed: int) -> tuple[WayOut, ...]:
        """Give what would help most if the hall had it."""
        answer = self._ask("shop", problem=_values(problem), core=_values(core), seed=seed)
        return tuple(WayOut.model_validate(one) for one in answer["wishes"])

    def _ask(self, task: str, **values: object) -> dict[str, Any]:
        answer: dict[str, Any] = json.loads(self._worker.call(task, _payload(**values)))
        return answer


def _found(answer: dict[str, Any]) -> FoundClass:
    problem, core = answer["problem"], answer["core"]
    return FoundClass(
        problem=None if problem is None else Problem.model_validate(problem),
        core=None if core is None else Core.model_validate(core),
        outcome=Outcome.model_validate(answer["outcome"]),
    )


def _payload(**values: object) -> bytes:
    return json.dumps(values).encode()


def _values(model: PlanningProblem | Problem | Core | Clash) -> Any:
    return model.model_dump(mode="json", by_alias=True)


def _undecided(stopped_by: StoppedBy, seed: int, budget: Budget) -> FoundClass:
    outcome = Outcome(
        status=Status.UNDECIDED, stopped_by=stopped_by, seed=seed, budget=budget, repeatable=False
    )
    return FoundClass(None, None, outcome)
