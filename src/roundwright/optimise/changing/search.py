"""Tiers 1 and 2 of one change, wherever they run: in the warm process, or here for tests."""

from functools import cache

from roundwright.library.catalogue import Catalogue
from roundwright.optimise.changing.asked import Asked
from roundwright.optimise.changing.at_once import as_next, held_as, outcome_of
from roundwright.optimise.changing.makers import Makers
from roundwright.optimise.changing.old_plan import OldPlan
from roundwright.optimise.changing.one_question import Best, least_of
from roundwright.optimise.changing.tier_one import work_of
from roundwright.optimise.changing.tier_two import TierTwo, places_in_need
from roundwright.optimise.changing.today import Today
from roundwright.optimise.fit import solver_versions
from roundwright.optimise.plan_core import core_of
from roundwright.optimise.solver import Work
from roundwright.plan.changing.answer import Answer
from roundwright.plan.changing.restate import Restated
from roundwright.plan.outcome import StoppedBy


def answer_tier_one(asked: Asked, makers: Makers) -> Answer:
    """Give the least harm with the same exercises, or the answer of tier 0 where none is less."""
    restated = held_as(asked.restated, asked.before)
    work = work_of(asked.budget)
    today = Today(OldPlan(asked.before, restated, asked.overrun_s), makers)
    best = least_of(today, work, asked.seed)
    return _answer(asked, restated, best, 1, work, is_proven=best.is_proven)


def needs_swap(asked: Asked, answer: Answer) -> tuple[int, ...]:
    """Give the places at which another exercise is called for, after the answer of tier 1."""
    return places_in_need(asked.before, held_as(asked.restated, asked.before), answer.core)


def answer_tier_two(
    asked: Asked,
    library: Catalogue,
    positions: tuple[int, ...],
    left_out: int | None,
    makers: Makers,
) -> Answer | None:
    """Give the least harm with one exercise swapped, None where no swap is allowed or better.

    Parameters
    ----------
    positions : tuple of int
        As `needs_swap` gives them.
    left_out : int, optional
        Of the answer of tier 1; None where a place is open and has to be filled.
    """
    if not positions:
        return None
    restated = held_as(asked.restated, asked.before)
    work = work_of(asked.budget)
    search = TierTwo(asked.before, asked.overrun_s, restated, library, makers, work, asked.seed)
    swap = search.run(positions, left_out)
    if swap is None:
        return None
    return _answer(asked, swap.restated, swap.best, 2, work, is_proven=swap.is_proven)


@cache
def _versions() -> dict[str, str]:
    return solver_versions()


def _answer(
    asked: Asked, restated: Restated, best: Best, tier: int, work: Work, *, is_proven: bool
) -> Answer:
    core = core_of(best.instance, best.choice, best.groups, asked.before.plan_id)
    return Answer(
        problem=restated.problem,
        core=as_next(core, asked.before),
        harm=best.harm,
        tier=tier,
        outcome=outcome_of(
            restated.problem,
            best.harm,
            proven=is_proven,
            stopped_by=StoppedBy.PROOF if is_proven else StoppedBy.BUDGET,
            seed=asked.seed,
            budget=asked.budget,
            work_used=work.used,
            versions=dict(_versions()),
        ),
        least=best.harm if is_proven else None,
    )
