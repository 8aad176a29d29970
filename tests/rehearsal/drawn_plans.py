"""Drawn plans of all four formats, small enough to be simulated event by event.

Each is fitted to a drawn hall. Those of staggered groups and stations have people rising from the
floor between places and, once fitted, exactly as much kit as their fullest window takes.
"""

from collections.abc import Iterable
from functools import cache

from roundwright.goals.class_wish import ClassFormat
from roundwright.kit.inventory import Dumbbells, Inventory
from roundwright.library.catalogue import Catalogue
from roundwright.library.vocabulary import Demand
from roundwright.optimise.fit import fit
from roundwright.plan.core import Core
from roundwright.plan.outcome import Budget
from roundwright.plan.problem import Problem
from tests.rehearsal.kit_simulation import most_used
from tests.support.random_halls import a_hasty_hall, a_middling_hall, a_tiny_hall

PLAN_ID = "00000000-0000-4000-8000-000000000001"
Plan = tuple[Core, Problem]


@cache
def few_plans() -> tuple[Plan, ...]:
    """Fit a few of the halls in all four formats, for tests that need no more."""
    pairs = [a_middling_hall(seed, most_people=7, form=ClassFormat.PAIRS) for seed in range(50, 53)]
    fitted = (a_middling_hall(seed, most_people=10) for seed in range(5))
    turning = (a_middling_hall(seed, most_people=9) for seed in range(60, 66))
    return (*_fitted((*fitted, *pairs)), *_rotating(turning))


@cache
def fitted_plans() -> tuple[Plan, ...]:
    """Fit drawn halls: together and in pairs, 2 to 10 people."""
    halls = [a_tiny_hall(seed) for seed in range(130)]
    halls += [a_hasty_hall(seed) for seed in range(40)]
    halls += [a_middling_hall(seed, most_people=10) for seed in range(48)]
    halls += [
        a_middling_hall(seed, most_people=7, form=ClassFormat.PAIRS) for seed in range(50, 60)
    ]
    return _fitted(halls)


def _fitted(halls: Iterable[Problem]) -> tuple[Plan, ...]:
    found = []
    for problem in halls:
        core = fit(problem, seed=1, budget=Budget.QUICK, plan_id=PLAN_ID).core
        if core is not None:
            found.append((core, problem))
    return tuple(found)


@cache
def rotating_plans() -> tuple[Plan, ...]:
    """Fit drawn halls in staggered groups and at stations, 2 to 9 people taking part."""
    halls = [a_middling_hall(seed, most_people=9) for seed in range(60, 90)]
    halls += [a_tiny_hall(seed) for seed in range(200, 300)]
    return _rotating(halls)


def _rotating(halls: Iterable[Problem]) -> tuple[Plan, ...]:
    found: list[Plan] = []
    for hall in halls:
        if len(hall.taking_part) < 2:
            continue  # nobody to share kit with or to wait for
        library = _half_on_the_floor(hall)
        for form in (ClassFormat.STAGGERED, ClassFormat.STATIONS):
            spec = hall.spec.model_copy(update={"format": form})
            problem = hall.model_copy(update={"spec": spec, "library": library})
            core = fit(problem, seed=1, budget=Budget.QUICK, plan_id=PLAN_ID).core
            if core is not None:
                kit = _just_enough(core, problem)
                found.append((core, problem.model_copy(update={"kit": kit})))
    return tuple(found)


def _half_on_the_floor(problem: Problem) -> Catalogue:
    """Say of every second movement that it is done on the floor, so that people rise from it."""
    library, low = problem.library, {Demand.FLOOR_RISE: 2}
    movements = {
        slug: m.model_copy(update={"demands": m.demands | low}) if n % 2 else m
        for n, (slug, m) in enumerate(sorted(library.movements.items()))
    }
    return library.model_copy(update={"movements": movements})


def _just_enough(core: Core, problem: Problem) -> Inventory:
    """Give the kit of the fullest window, the most units of each kind, and nothing else."""
    most = most_used(core)
    return Inventory(
        dumbbells=tuple(
            Dumbbells(unit_mass_g=key, count=units, flat_sided=True)
            for key, units in sorted((k, u) for k, u in most.items() if isinstance(k, int))
        ),
        items=tuple(
            item.model_copy(update={"count": most[item.id]})
            for item in problem.kit.items
            if item.id in most
        ),
    )
