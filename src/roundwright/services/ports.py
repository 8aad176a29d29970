"""What the services need from outside, as narrow protocols; the adapters are named in bootstrap."""

from collections.abc import Callable, Sequence
from datetime import date
from typing import Protocol

from roundwright.body.anatomy import Side
from roundwright.body.moving_sequence import MovingSequence
from roundwright.foundation.identifiers import IdSource
from roundwright.plan.best_so_far import StillOpen
from roundwright.plan.core import Core
from roundwright.plan.document import ChanceOnTime
from roundwright.plan.outcome import Budget, Clash, Outcome, WayOut
from roundwright.plan.planning_problem import PlanningProblem
from roundwright.plan.problem import Problem


class Fit(Protocol):
    """What a planner gives back: a core where there is one, and how the search ended."""

    @property
    def core(self) -> Core | None:
        """The plan itself, None when impossible or undecided."""

    @property
    def outcome(self) -> Outcome:
        """Status, cost, bound and what it took."""


class Planner(Protocol):
    """Who searches for a plan."""

    def fit(self, problem: Problem, *, seed: int, budget: Budget, plan_id: str) -> Fit:
        """Search the plan of least overrun, then least price, within counted work."""


class Planned(Protocol):
    """What a choice of class gives back: the class chosen, its core, and how it ended."""

    @property
    def problem(self) -> Problem | None:
        """The class with its exercises, None when there is none."""

    @property
    def core(self) -> Core | None:
        """The plan of that class, None when impossible or undecided."""

    @property
    def outcome(self) -> Outcome:
        """Status, cost, bound and what it took."""


OnBetterPlan = Callable[[Planned, StillOpen], bool]
"""Hears of each better class and of what is still sought; gives whether to go on."""


class ClassPlanner(Protocol):
    """Who chooses exercises, order, format and rounds."""

    def plan(
        self,
        planning: PlanningProblem,
        *,
        seed: int,
        budget: Budget,
        plan_id: str,
        on_better: OnBetterPlan | None = None,
    ) -> Planned:
        """Search the class of least overrun, then least price, within counted work.

        `on_better` hears of each better class before the answer, and may end the search.
        """


class Rehearse(Protocol):
    """Who plays a plan through."""

    def __call__(self, core: Core, problem: Problem, seed: int) -> ChanceOnTime:
        """Give the chance that the class ends within its slot."""


class TimeAdviser(Protocol):
    """Who says what would make a class end within its slot."""

    def ways_on_time(self, problem: Problem, seed: int, budget: Budget) -> tuple[WayOut, ...]:
        """Give changes that were fitted again and end on time, the least change first."""


class FitAdviser(Protocol):
    """Who says what would help where a class with its exercises is impossible."""

    def fit_ways_out(
        self, problem: Problem, clash: tuple[Clash, ...], seed: int, budget: Budget
    ) -> tuple[WayOut, ...]:
        """Give changes that were fitted again and help, the kindest first."""


class Adviser(TimeAdviser, Protocol):
    """Who says why there is no class, what would help, and what is worth buying."""

    def why_not(self, planning: PlanningProblem, seed: int, budget: Budget) -> tuple[Clash, ...]:
        """Give the smallest set of things that cannot all hold."""

    def ways_out(
        self, planning: PlanningProblem, clash: tuple[Clash, ...], seed: int, budget: Budget
    ) -> tuple[WayOut, ...]:
        """Give changes that were solved again and help, the kindest first."""

    def shopping(self, problem: Problem, core: Core, seed: int) -> tuple[WayOut, ...]:
        """Give what would help most if the hall had it, the best first."""


class Pictures(Protocol):
    """Who draws movements; a movement without a posture has no picture."""

    def small(self, movement_id: str, side: Side = Side.LEFT) -> str | None:
        """Give the one picture that shows a movement best, as SVG text."""

    def key_pictures(self, movement_id: str) -> tuple[str, ...]:
        """Give the pictures of all key positions in order, as SVG text; empty without posture."""

    def moving(self, steps: Sequence[tuple[str, Side]]) -> MovingSequence | None:
        """Give one rep of some movements as a moving figure; None where one has no posture."""


class Clock(Protocol):
    """Who knows the day and how long something took."""

    def today(self) -> date:
        """Give the local date."""

    def monotonic_ms(self) -> int:
        """Give milliseconds since some fixed moment; only differences mean anything."""


class IdsFor(Protocol):
    """Who gives identifiers for one purpose."""

    def __call__(self, seed: int, purpose: str) -> IdSource:
        """Give the source that belongs to a seed and a purpose."""
