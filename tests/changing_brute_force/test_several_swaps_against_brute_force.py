"""Places that are emptied together are filled together: held to the brute force.

The seeds are drawn classes in which kit that is lost, or a ban, empties two places.
"""

import pytest

from roundwright.plan.changing.change import Banned, KitLost
from roundwright.plan.changing.restate import restate
from roundwright.plan.document import PlanDocument
from tests.changing_brute_force.drawn_cases import FORMS, Case
from tests.changing_brute_force.test_swaps_against_brute_force import (
    a_small_plan,
    places_of_the_best_swap,
)

BY_KIT = {0: 1, 73: 2, 78: 2}
"""Seeds, and at how many places the least harm puts another exercise."""
BY_BAN = (5, 9, 33, 65, 79, 82)


def the_plan(seed: int) -> PlanDocument:
    plan = a_small_plan(seed)
    assert plan is not None
    return plan


def all_lost(plan: PlanDocument) -> list[Case]:
    """Each kind of kit lost whole."""
    kit = plan.problem.kit
    changes = [KitLost(unit_mass_g=d.unit_mass_g, units=d.count) for d in kit.dumbbells]
    changes += [KitLost(item_id=i.id, units=i.count) for i in kit.items]
    return [
        Case(plan, change, restate(plan.problem, plan.core, change, plan.problem.library))
        for change in changes
    ]


def two_banned(plan: PlanDocument) -> Case:
    """The lines of the first two exercises, banned one on the other: both places are open."""
    problem, library = plan.problem, plan.problem.library
    first, second = (
        Banned(slug=library.lines_of_exercise(e.exercise_id)[0]) for e in problem.spec.exercises[:2]
    )
    before = restate(problem, plan.core, first, library).problem
    return Case(plan, second, restate(before, plan.core, second, library))


@pytest.mark.parametrize("seed", BY_KIT)
def test_lost_kit_that_empties_two_places(seed: int) -> None:
    places = [places_of_the_best_swap(case) for case in all_lost(the_plan(seed))]
    assert max(places) == BY_KIT[seed]


@pytest.mark.parametrize("seed", BY_BAN)
def test_a_ban_that_hits_two_exercises_opens_both(seed: int) -> None:
    case = two_banned(the_plan(seed))
    assert case.asked.open_positions == (1, 2)
    assert places_of_the_best_swap(case) == 2


def test_the_seeds_hold_all_formats() -> None:
    forms = {the_plan(seed).core.class_.format for seed in (*BY_KIT, *BY_BAN)}
    assert forms == set(FORMS)
