"""What the services need from outside, as narrow protocols; the adapters are named in bootstrap."""

from datetime import date
from typing import Protocol

from roundwright.foundation.identifiers import IdSource
from roundwright.plan.core import Core
from roundwright.plan.outcome import Budget, Outcome
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
