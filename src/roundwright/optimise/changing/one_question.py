"""One question with its exercises given: tier 0 first, then the search for less."""

from dataclasses import dataclass

from roundwright.foundation.errors import NoPlanError
from roundwright.optimise.changing.at_once import AtOnce, best_at_once
from roundwright.optimise.changing.least_harm import Found
from roundwright.optimise.changing.tier_one import TierOne
from roundwright.optimise.changing.today import Today
from roundwright.optimise.choice_value import Choice, Groups
from roundwright.optimise.instance import Instance
from roundwright.optimise.solver import Work
from roundwright.plan.changing.change import Harm


@dataclass(frozen=True, slots=True)
class Best:
    """The better of tier 0 and the search, written down as what a core is made of."""

    harm: Harm
    instance: Instance
    choice: Choice
    groups: Groups
    is_proven: bool
    is_tier_0: bool


def least_of(today: Today, work: Work, seed: int) -> Best:
    """Search one question with its exercises given.

    Raises
    ------
    NoPlanError
        Tier 0 itself has no answer.
    """
    start = best_at_once(today)
    if start is None:
        raise NoPlanError("No plan can be kept together after this change.")
    return _better(start, TierOne(today, start, work, seed).run())


def _better(start: AtOnce, found: Found) -> Best:
    if (
        found.harm is not None
        and found.instance is not None
        and found.groups is not None
        and found.harm.order < start.harm.order
    ):
        return Best(found.harm, found.instance, found.choice, found.groups, found.is_proven, False)
    return Best(start.harm, start.instance, start.choice, start.groups, found.is_proven, True)
