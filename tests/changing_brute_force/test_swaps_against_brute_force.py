"""Tier 2 held to the brute force: every exercise that may be chosen, the least harm of all."""

from functools import cache

import pytest

from roundwright.foundation.errors import BadInputError
from roundwright.optimise.changing.asked import Asked
from roundwright.optimise.changing.at_once import answer_at_once
from roundwright.optimise.changing.makers import Makers
from roundwright.optimise.changing.old_plan import overrun_before
from roundwright.optimise.changing.search import answer_tier_one, answer_tier_two, needs_swap
from roundwright.plan.changing.change import Banned, ExerciseSwapped, PersonCame
from roundwright.plan.changing.restate import Restated, restate
from roundwright.plan.document import PlanDocument
from roundwright.plan.outcome import Budget, Status
from roundwright.plan.problem import Problem
from tests.changing_brute_force.drawn_cases import (
    FORMS,
    MOST_PEOPLE_AND_PLACES,
    MOST_ROTATING,
    Case,
)
from tests.changing_brute_force.oracle_harm import arrangement_of
from tests.changing_brute_force.oracle_swap import least_swap
from tests.changing_brute_force.test_changes_against_brute_force import counted
from tests.support.random_changes import a_plan_of
from tests.support.random_halls import Dice, a_drawn_person, a_tiny_hall

SEEDS = range(52)


@cache
def a_small_plan(seed: int) -> PlanDocument | None:
    """A drawn plan without substitutes, None where there is none or it is too large."""
    problem = a_tiny_hall(2_000 + seed)
    form = FORMS[seed % len(FORMS)]
    size = len(problem.people) * problem.spec.positions
    if size > MOST_PEOPLE_AND_PLACES.get(form, MOST_ROTATING):
        return None
    spec = problem.spec.model_copy(update={"format": form})
    return a_plan_of(problem.model_copy(update={"spec": spec, "substitutes": ()}), seed)


@cache
def swaps_of(seed: int) -> tuple[Case, ...]:
    """An open place, a ban, and somebody who comes, for one drawn plan."""
    plan = a_small_plan(seed)
    if plan is None:
        return ()
    spec = plan.problem.spec
    dice = Dice(seed, "swaps")
    position = dice.between(1, spec.positions)
    lines = plan.problem.library.lines_of_exercise(spec.exercises[position - 1].exercise_id)
    changes = (
        ExerciseSwapped(position=position),
        Banned(slug=lines[0]),
        PersonCame(person="p999", known=a_drawn_person(dice, "p999")),
    )
    made = []
    for change in changes[seed % 3 :: 2]:
        try:
            asked = restate(plan.problem, plan.core, change, plan.problem.library)
        except BadInputError:
            continue
        made.append(Case(plan, change, asked))
    return tuple(made)


@pytest.mark.parametrize("seed", SEEDS)
def test_a_swap_is_the_least_harm_of_all_swaps(seed: int) -> None:
    for case in swaps_of(seed):
        places_of_the_best_swap(case)


def places_of_the_best_swap(case: Case) -> int:
    """Hold tier 2 to the brute force, and give at how many places it swaps."""
    makers, library = Makers(), case.plan.problem.library
    slot_s = case.plan.problem.spec.slot_s
    overrun_s = overrun_before(case.plan.core, slot_s)
    asked = Asked(case.plan.core, overrun_s, case.asked, 1, Budget.THOROUGH)
    safe = answer_at_once(case.plan, case.asked, makers)
    first = answer_tier_one(asked, makers)
    left_out = None if case.asked.open_positions else first.harm.left_out
    positions = needs_swap(asked, first)
    swapped = answer_tier_two(asked, library, positions, left_out, makers)
    found, groups = swapped.answer, arrangement_of(safe.core)
    assert swapped.least is None
    least = least_swap(case.plan.core, slot_s, case.asked, library, positions, groups, left_out)
    if least is None:
        assert found is None, case.change
        return 0
    assert found is not None, case.change
    assert found.outcome.status is Status.PROVEN
    assert found.least == found.harm
    assert (_swapped(case, found.problem), found.harm.order) == least, case.change
    stay = {n: o for n, o in case.asked.came_from.items() if _same(case, found.problem, n)}
    restated = Restated(found.problem, stay, case.asked.persons)
    assert counted(Case(case.plan, case.change, restated), found) == found.harm.order
    return least[0]


def _swapped(case: Case, now: Problem) -> int:
    """At how many places another exercise stands."""
    return sum(not _same(case, now, position) for position in range(1, now.spec.positions + 1))


def _same(case: Case, now: Problem, position: int) -> bool:
    before, after = case.asked.problem.spec.exercises, now.spec.exercises
    return before[position - 1].exercise_id == after[position - 1].exercise_id


def test_the_swaps_hold_all_formats_and_both_answers() -> None:
    cases = [case for seed in SEEDS for case in swaps_of(seed)]
    assert len(cases) >= 30
    assert {case.plan.core.class_.format for case in cases} == set(FORMS)
    assert {case.change.kind for case in cases} == {"exercise_swapped", "banned", "person_came"}
    is_open = [bool(case.asked.open_positions) for case in cases]
    assert 10 <= sum(is_open) < len(cases)
