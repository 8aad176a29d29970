"""An answer to a change, as search and services hand it on: sections C3, C4 and C7."""

from collections.abc import Callable
from dataclasses import dataclass
from enum import StrEnum
from typing import Protocol

from roundwright.library.catalogue import Catalogue
from roundwright.plan.changing.change import Harm
from roundwright.plan.changing.restate import Restated
from roundwright.plan.core import Core
from roundwright.plan.document import PlanDocument
from roundwright.plan.outcome import Budget, Outcome
from roundwright.plan.problem import Problem

NO_HARM = Harm(left_out=0, overrun_s=0, people=0, cells=0, price=0)
"""What no answer can be below: the bound before anything else is known."""


class StillSought(StrEnum):
    """What a better answer would have, the weightiest figure first (C3)."""

    LEFT_OUT = "left_out"
    OVERRUN = "overrun"
    PEOPLE = "people"
    CELLS = "cells"
    PRICE = "price"


@dataclass(frozen=True, slots=True)
class Answer:
    """One core for today's problem.

    `problem` is the restated one, with the exercises that the tool chose where places were
    in need. `tier` is the one that found it. `outcome` says whether it is the least harm over
    what the tiers gone through leave free (`proven`) or the best so far (`found`); `least` is
    a harm that none of their answers can be below, read in the order of harm (C4).
    """

    problem: Problem
    core: Core
    harm: Harm
    tier: int
    outcome: Outcome
    least: Harm = NO_HARM

    @property
    def still_sought(self) -> StillSought | None:
        """Why the answer may still improve: the first figure above its bound; None: it cannot."""
        return still_sought(self.harm, self.least)


def still_sought(harm: Harm, least: Harm) -> StillSought | None:
    """Give the first figure, in the order of harm, that is above its bound.

    Examples
    --------
    >>> still_sought(NO_HARM.model_copy(update={"people": 2}), NO_HARM).value
    'people'
    """
    for figure, had, bound in zip(StillSought, harm.order, least.order, strict=True):
        if had != bound:
            return figure if had > bound else None
    return None


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
        most_tier: int = 2,
    ) -> Answer:
        """Give the best answer over the tiers up to one, within the counted budget."""
