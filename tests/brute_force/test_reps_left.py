"""What the class asks to leave in reserve: held by maker, gate and brute force; it only raises."""

from uuid import UUID

import pytest

from roundwright.goals.class_wish import ClassFormat
from roundwright.optimise.fit import fit
from roundwright.plan.gate.judge import judge
from roundwright.plan.outcome import Status
from roundwright.plan.problem import Problem
from roundwright.plan.verdict import Grade
from tests.brute_force.drawn_cases import TOO_LARGE
from tests.brute_force.oracle_people import dosage
from tests.brute_force.oracle_search import best_plan, space_of
from tests.support.builders import (
    a_capacity,
    a_catalogue,
    a_kit,
    a_line,
    a_movement,
    a_person,
    a_problem,
    a_spec,
    lifting,
    reps,
)
from tests.support.random_halls import a_tiny_hall

PLAN_ID = str(UUID(int=1, version=4))
SEEDS = tuple(
    seed
    for seed in range(48)
    if seed not in TOO_LARGE["tiny"] and a_tiny_hall(seed).spec.format is not ClassFormat.ANY
)


def _drawn(seed: int, left: int | None) -> Problem:
    """Draw weak people whose strength is well known: there what is left decides loads."""
    problem = a_tiny_hall(seed)
    people = {
        p: person.model_copy(
            update={
                "capacities": tuple(
                    one.model_copy(
                        update={
                            "ln_1rm_mean": one.ln_1rm_mean - 0.9,
                            "ln_1rm_sd": 0.03,
                            "rep_exponent_sd": 0.0,
                        }
                    )
                    for one in person.capacities
                )
            }
        )
        for p, person in problem.people.items()
    }
    return _with_left(problem.model_copy(update={"people": people}), left)


def _with_left(problem: Problem, left: int | None) -> Problem:
    spec = problem.spec.model_copy(update={"reps_left": left})
    return problem.model_copy(update={"spec": spec})


@pytest.mark.parametrize("seed", SEEDS)
def test_maker_and_gate_find_the_best_that_leaves_as_many(seed: int) -> None:
    problem = _drawn(seed, 4 + seed % 3)
    best = best_plan(space_of(problem))
    result = fit(problem, seed=1, plan_id=PLAN_ID)
    if best is None:
        assert result.outcome.status is Status.IMPOSSIBLE
        return
    assert result.core is not None
    assert (result.outcome.overrun_s, result.outcome.cost) == (best.overrun_s, best.price)
    verdict = judge(result.core, problem)
    assert verdict.of_grade(Grade.NEVER) == ()
    assert verdict.cost == best.price
    for dose in result.core.people:
        own = dosage(_with_left(problem, None), dose.person_id).rir
        assert dose.rir == max(own, 4 + seed % 3)


def test_it_bites_often_enough_to_be_a_test() -> None:
    dearer = 0
    for seed in SEEDS:
        free = fit(_drawn(seed, None), seed=1, plan_id=PLAN_ID)
        held = fit(_drawn(seed, 6), seed=1, plan_id=PLAN_ID)
        if free.core is not None and held.core is not None:
            dearer += free.outcome.cost != held.outcome.cost
    assert dearer >= 5


@pytest.mark.parametrize(("left", "mass_g"), [(None, 8000), (3, 8000), (6, 6000)])
def test_a_load_is_taken_with_which_as_many_are_left(left: int | None, mass_g: int) -> None:
    # Two of 8 kg, ten reps, three left: 16 kg x (1 + 13/30) = 22.9 of the 24 kg that one rep
    # takes; with six left 24.5, so two of 6 kg.
    library = a_catalogue(
        [a_movement("pair_squat", strength_family="squat", kit=lifting())],
        [a_line("squat_line", "pair_squat")],
    )
    person = a_person(capacities=(a_capacity("p001", "squat", 24, sd=0.02),))
    spec = a_spec(("squat_line", reps(10)), reps_left=left)
    problem = a_problem(spec, library, {"p001": person}, a_kit({8000: 2, 6000: 2}))
    core = fit(problem, seed=1, plan_id=PLAN_ID).core
    assert core is not None
    assert [cell.unit_mass_g for cell in core.cells] == [mass_g]


@pytest.mark.parametrize("seed", SEEDS[:12])
def test_fewer_than_everybody_must_leave_changes_nothing(seed: int) -> None:
    free = fit(_drawn(seed, None), seed=1, plan_id=PLAN_ID)
    held = fit(_drawn(seed, 2), seed=1, plan_id=PLAN_ID)
    assert (free.core is None) == (held.core is None)
    if free.core is not None and held.core is not None:
        assert free.core.digest == held.core.digest
