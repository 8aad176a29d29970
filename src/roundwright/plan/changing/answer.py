"""An answer to a change, as search and services hand it on: sections C3, C4 and C7."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Protocol

from roundwright.library.catalogue import Catalogue
from roundwright.plan.changing.change import Harm
from roundwright.plan.changing.restate import Restated
from roundwright.plan.core import Core
from roundwright.plan.document import PlanDocument
from roundwright.plan.outcome import Budget, Outcome
from roundwright.plan.problem import Problem


@dataclass(frozen=True, slots=True)
class Answer:
    """One core for today's problem.

    `problem` is the restated one, with the exercise that the tool chose where a place was
    open. `tier` is the one that found it. `outcome` says whether it is the least harm over
    what that tier leaves free (`proven`) or the best so far (`found`); `least` is a harm that
    no answer of that tier can be below, None where nothing is known.
    """

    problem: Problem
    core: Core
    harm: Harm
    tier: int
    outcome: Outcome
    least: Harm | None = None


Better = Callable[[Answer], bool]
"""Told of each better answer; gives whether the search is to go on."""


class Mender(Protocol):
    """Who finds answers to changes."""

    def at_once(self, before: PlanDocument, asked: Restated, library: Catalogue) -> Answer:
        """Give the safe answer of tier 0, in this process, without any solver."""

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
        """Give the best answer over all tiers within the counted budget."""
