"""One question with its exercises given: tier 0 first, then the search for less."""

from collections.abc import Callable
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
    least: Harm
    instance: Instance
    choice: Choice
    groups: Groups
    is_proven: bool
    is_tier_0: bool


Hears = Callable[[Best], None]
"""Told of each better answer as it is found; its `least` is the bound so far."""


def least_of(
    today: Today,
    work: Work,
    seed: int,
    hears: Hears | None = None,
    bounds: Callable[[Harm], None] | None = None,
    below: Harm | None = None,
) -> Best:
    """Search one question with its exercises given.

    Parameters
    ----------
    hears : callable, optional
        Told of each answer that is better than tier 0's and all before.
    bounds : callable, optional
        Told what no answer can be below, before the search begins.
    below : Harm, optional
        Only an answer below its first four figures is of use.

    Raises
    ------
    NoPlanError
        Tier 0 itself has no answer.
    """
    start = best_at_once(today)
    if start is None:
        raise NoPlanError("No plan can be kept together after this change.")

    def heard(found: Found) -> None:
        if hears is not None:
            hears(_better(start, found))

    search = TierOne(today, start, work, seed, heard, below)
    if bounds is not None:
        bounds(search.least_possible())
    return _better(start, search.run())


def _better(start: AtOnce, found: Found) -> Best:
    harm, instance, groups = found.harm, found.instance, found.groups
    if harm is None or instance is None or groups is None or harm.order >= start.harm.order:
        harm, instance, groups, choice = start.harm, start.instance, start.groups, start.choice
    else:
        choice = found.choice
    least = harm if found.is_proven or found.least is None else found.least
    is_tier_0 = harm is start.harm
    return Best(harm, least, instance, choice, groups, found.is_proven, is_tier_0)
