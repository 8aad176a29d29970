"""The question of a change, as a search takes it."""

from dataclasses import dataclass

from roundwright.plan.changing.restate import Restated
from roundwright.plan.core import Core
from roundwright.plan.outcome import Budget


@dataclass(frozen=True, slots=True)
class Asked:
    """What a search of a change needs to know: the plan before, and the question.

    `overrun_s` is by how much the plan before was longer than its slot.
    """

    before: Core
    overrun_s: int
    restated: Restated
    seed: int
    budget: Budget
