"""Tiers 1 and 2 of one change, wherever they run: in the warm process, or here for tests."""

from collections.abc import Callable
from dataclasses import dataclass
from functools import cache

from roundwright.library.catalogue import Catalogue
from roundwright.optimise.changing.asked import Asked
from roundwright.optimise.changing.at_once import as_next, held_as, outcome_of
from roundwright.optimise.changing.makers import Makers
from roundwright.optimise.changing.old_plan import OldPlan
from roundwright.optimise.changing.one_question import Best, least_of
from roundwright.optimise.changing.tier_one import work_of
from roundwright.optimise.changing.tier_two import Swap, TierTwo, places_in_need
from roundwright.optimise.changing.today import Today
from roundwright.optimise.fit import solver_versions
from roundwright.optimise.plan_core import core_of
from roundwright.optimise.solver import Work
from roundwright.plan.changing.answer import Answer
from roundwright.plan.changing.change import Harm
from roundwright.plan.changing.restate import Restated
from roundwright.plan.outcome import StoppedBy

Hears = Callable[[Answer], None]
"""Told of each better answer as it is found; its `least` is the bound so far."""


def answer_tier_one(
    asked: Asked,
    makers: Makers,
    hears: Hears | None = None,
    bounds: Callable[[Harm], None] | None = None,
) -> Answer:
    """Give the least harm with the same exercises, or the answer of tier 0 where none is less.

    Parameters
    ----------
    hears : callable, optional
        Told of each answer that is better than that of tier 0 and all before.
    bounds : callable, optional
        Told what no answer can be below, before anything is solved.
    """
    restated = held_as(asked.restated, asked.before)
    work = work_of(asked.budget)
    today = Today(OldPlan(asked.before, restated, asked.overrun_s), makers)

    def heard(best: Best) -> None:
        if hears is not None:
            hears(_answer(asked, restated, best, 1, work))

    best = least_of(today, work, asked.seed, heard, bounds)
    return _answer(asked, restated, best, 1, work)


def needs_swap(asked: Asked, answer: Answer) -> tuple[int, ...]:
    """Give the places at which another exercise is called for, after the answer of tier 1."""
    return places_in_need(asked.before, held_as(asked.restated, asked.before), answer.core)


@dataclass(frozen=True, slots=True)
class Swapped:
    """What came of tier 2.

    `answer` is None where no swap is allowed or better; `least` is what no swap that was left
    unsearched can be below, None where all were searched.
    """

    answer: Answer | None
    least: Harm | None


def answer_tier_two(
    asked: Asked,
    library: Catalogue,
    positions: tuple[int, ...],
    left_out: int | None,
    makers: Makers,
    hears: Hears | None = None,
    bounds: Callable[[Harm], None] | None = None,
) -> Swapped:
    """Give the least harm with exercises swapped.

    Parameters
    ----------
    positions : tuple of int
        As `needs_swap` gives them.
    left_out : int, optional
        Of the answer of tier 1; None where a place is open and has to be filled.
    hears : callable, optional
        Told of each better swap as it is found.
    bounds : callable, optional
        Told what no swap can be below, as it becomes known.
    """
    restated = held_as(asked.restated, asked.before)
    work = work_of(asked.budget)

    def heard(swap: Swap) -> None:
        if hears is not None:
            hears(_answer(asked, swap.restated, swap.best, 2, work))

    search = TierTwo(
        asked.before, asked.overrun_s, restated, library, makers, work, asked.seed, heard, bounds
    )
    swap = search.run(positions, left_out)
    answer = None if swap is None else _answer(asked, swap.restated, swap.best, 2, work)
    return Swapped(answer, search.unfinished)


@cache
def _versions() -> dict[str, str]:
    return solver_versions()


def _answer(asked: Asked, restated: Restated, best: Best, tier: int, work: Work) -> Answer:
    core = core_of(best.instance, best.choice, best.groups, asked.before.plan_id)
    least = best.least
    return Answer(
        problem=restated.problem,
        core=as_next(core, asked.before),
        harm=best.harm,
        tier=tier,
        outcome=outcome_of(
            restated.problem,
            best.harm,
            proven=best.is_proven,
            stopped_by=StoppedBy.PROOF if best.is_proven else StoppedBy.BUDGET,
            bound=least.price if least.order[:4] == best.harm.order[:4] else None,
            seed=asked.seed,
            budget=asked.budget,
            work_used=work.used,
            versions=dict(_versions()),
        ),
        least=least,
    )
