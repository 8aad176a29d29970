"""Choosing a class, and saying why there is none, in this process."""

from roundwright.optimise.planning.on_time import ways_on_time
from roundwright.optimise.planning.plan_class import OnBetter, PlanResult, plan_class
from roundwright.optimise.planning.shelves import Shelves
from roundwright.optimise.planning.shopping import shopping_list
from roundwright.optimise.planning.ways_out import ways_out
from roundwright.optimise.planning.why_not import explain
from roundwright.plan.core import Core
from roundwright.plan.outcome import Budget, Clash, WayOut
from roundwright.plan.planning_problem import PlanningProblem
from roundwright.plan.problem import Problem
from roundwright.rehearsal.finishing_time import chance_on_time

PLAYS = 400
"""Plays by which the planner judges the chance on time, SD at most 2.5 %; our choice."""


class ClassSearch:
    """Searches here and now; the caller waits.

    Parameters
    ----------
    shelves : Shelves, optional
        What is remembered of people from one planning to the next; one thread at a time.
    """

    def __init__(self, shelves: Shelves | None = None) -> None:
        self._shelves = shelves

    def plan(
        self,
        planning: PlanningProblem,
        *,
        seed: int,
        budget: Budget,
        plan_id: str,
        on_better: OnBetter | None = None,
    ) -> PlanResult:
        """Search the class of least overrun, then least price, that keeps its chance on time.

        `on_better` hears of each better one, and ends the search by giving False.
        """
        return plan_class(
            planning,
            seed=seed,
            budget=budget,
            plan_id=plan_id,
            chance=lambda problem, core: chance_on_time(core, problem, seed, PLAYS).chance_bp,
            on_better=on_better,
            shelves=self._shelves,
        )

    def why_not(self, planning: PlanningProblem, seed: int, budget: Budget) -> tuple[Clash, ...]:
        """Give the smallest set of things that cannot all hold."""
        return explain(planning, seed, budget, proven=True)

    def ways_out(
        self, planning: PlanningProblem, clash: tuple[Clash, ...], seed: int, budget: Budget
    ) -> tuple[WayOut, ...]:
        """Give changes that were solved again and help, the kindest first."""
        return ways_out(planning, clash, seed, budget)

    def fit_ways_out(
        self, problem: Problem, clash: tuple[Clash, ...], seed: int, budget: Budget
    ) -> tuple[WayOut, ...]:
        """Give changes that were fitted again and help, the kindest first."""
        return ways_out(problem, clash, seed, budget)

    def ways_on_time(self, problem: Problem, seed: int, budget: Budget) -> tuple[WayOut, ...]:
        """Give changes that were fitted again and end on time, the least change first."""
        return ways_on_time(problem, seed, budget)

    def shopping(self, problem: Problem, core: Core, seed: int) -> tuple[WayOut, ...]:
        """Give what would help most if the hall had it, the best first."""
        return shopping_list(problem, core, seed)
