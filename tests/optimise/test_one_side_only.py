"""Somebody who uses one arm or one leg does the count a side on that side alone."""

import pytest

from roundwright.body.anatomy import Limb, Muscle, Side
from roundwright.goals.class_wish import Count, CountUnit
from roundwright.library.vocabulary import Laterality, Pattern
from roundwright.optimise.fit import fit
from roundwright.plan.core import Cell
from roundwright.plan.gate.judge import judge
from roundwright.plan.problem import Problem
from roundwright.plan.verdict import Grade
from tests.support.builders import (
    a_catalogue,
    a_combination,
    a_line,
    a_movement,
    a_person,
    a_problem,
    a_side,
    a_spec,
    mover,
    reps,
)

PULL = {"pattern": Pattern.HORIZONTAL_PULL, "muscles": mover(Muscle.LATS)}
LIBRARY = a_catalogue(
    [
        a_movement("row", laterality=Laterality.UNILATERAL, seconds_a_rep=2.5, **PULL),
        a_movement("pair_row", **PULL),
        a_movement("turn_row", laterality=Laterality.ALTERNATING, **PULL),
        a_movement("split", laterality=Laterality.UNILATERAL, pattern=Pattern.LUNGE),
        a_movement("tap", laterality=Laterality.UNILATERAL, pattern=Pattern.TRUNK_ANTI_ROTATION),
    ],
    [
        a_line("rows", "row"),
        a_line("pair_rows", "pair_row"),
        a_line("turn_rows", "turn_row"),
        a_line("splits", "split"),
        a_line("taps", "tap"),
    ],
    [a_combination("both_rows", ("rows", Side.LEFT), ("rows", Side.RIGHT), load="none")],
)


def problem_of(exercise: str, count: Count, unused: dict[Limb, Side]) -> Problem:
    spec = a_spec((exercise, count), side_change_s=4)
    people = {"p001": a_person(unused=unused)}
    return a_problem(spec, LIBRARY, people, substitutes=("pair_rows",))


def cell_of(problem: Problem) -> Cell:
    core = fit(problem, seed=1, plan_id="00000000-0000-4000-8000-000000000001").core
    assert core is not None
    verdict = judge(core, problem)
    assert verdict.of_grade(Grade.NEVER) == verdict.of_grade(Grade.STOP) == ()
    (cell,) = core.cells
    return cell


@pytest.mark.parametrize(
    ("wish", "value", "unit"),
    [
        (a_side(12), 12, CountUnit.REPS),
        (reps(12), 6, CountUnit.REPS),
        (Count(value=40, unit=CountUnit.SECONDS), 20, CountUnit.SECONDS),
    ],
)
@pytest.mark.parametrize(("unused", "used"), [(Side.LEFT, "right"), (Side.RIGHT, "left")])
def test_one_arm_rows_on_its_own_side(
    wish: Count, value: int, unit: CountUnit, unused: Side, used: str
) -> None:
    cell = cell_of(problem_of("rows", wish, {Limb.ARM: unused}))
    assert cell.count == Count(value=value, unit=unit)
    assert [(s.movement_id, s.side) for s in cell.steps] == [("row", used)]


def test_there_is_no_change_of_side() -> None:
    def work_s(unused: dict[Limb, Side]) -> int:
        problem = problem_of("rows", a_side(12), unused)
        core = fit(problem, seed=1, plan_id="00000000-0000-4000-8000-000000000001").core
        assert core is not None
        return next(w.length_s for w in core.timeline if w.kind == "work")

    # 12 x 2.5 s on one side; on both 24 x 2.5 s and 4 s to change
    assert (work_s({Limb.ARM: Side.LEFT}), work_s({})) == (30, 64)


@pytest.mark.parametrize(
    ("exercise", "unused"),
    [
        ("splits", {Limb.ARM: Side.LEFT}),
        ("rows", {Limb.LEG: Side.LEFT}),
        ("taps", {Limb.ARM: Side.LEFT, Limb.LEG: Side.LEFT}),
    ],
)
def test_other_limbs_and_the_trunk_keep_both_sides(exercise: str, unused: dict[Limb, Side]) -> None:
    cell = cell_of(problem_of(exercise, a_side(8), unused))
    assert cell.count == a_side(8)
    assert len(cell.steps) == 2


@pytest.mark.parametrize(
    ("exercise", "count", "unused"),
    [
        ("rows", a_side(12), Side.BOTH),
        ("turn_rows", Count(value=12, unit=CountUnit.REPS_ALTERNATING), Side.LEFT),
        ("both_rows", reps(6), Side.LEFT),
    ],
)
def test_where_no_side_will_do_another_exercise_stands_in(
    exercise: str, count: Count, unused: Side
) -> None:
    cell = cell_of(problem_of(exercise, count, {Limb.ARM: unused}))
    assert (cell.state, cell.exercise_id) == ("substitute", "pair_rows")
