"""Small classes whose best plan can be worked out by hand."""

from collections.abc import Mapping
from typing import Any

from roundwright.body.anatomy import Muscle
from roundwright.kit.inventory import Inventory
from roundwright.library.catalogue import Catalogue
from roundwright.library.movement import Movement
from roundwright.library.vocabulary import Pattern, StrengthFamily
from roundwright.optimise.fit import FitResult, fit
from roundwright.plan.core import Cell, Core
from roundwright.plan.problem import Problem, ProblemPerson
from tests.support.builders import a_catalogue, a_line, a_movement, lifting, mover

PLAN_ID = "6a2c3a0e-8b1f-4c60-9d4e-2f50b0c7a111"


def a_squat_line() -> Catalogue:
    """One line with one version: a squat of level 3 with a pair of dumbbells."""
    squat = a_movement("pair_squat", level=3, strength_family=StrengthFamily.SQUAT, kit=lifting())
    return a_catalogue([squat], [a_line("squat_line", "pair_squat")])


def an_assumed_lift(slug: str, kg: int) -> Movement:
    """A lift without a family, for which level 3 is authored to take so many kg."""
    return a_movement(
        slug,
        level=3,
        pattern=Pattern.CARRY,
        muscles=mover(Muscle.FOREARMS),
        kit=lifting(1),
        assumed_load_by_level={"3": kg * 1000},
    )


def fitted(problem: Problem, **changes: Any) -> FitResult:
    """Fit with the usual budget."""
    return fit(problem, plan_id=PLAN_ID, **changes)


def core_of(result: FitResult) -> Core:
    """Give the core of a result that must have one."""
    assert result.core is not None, result.outcome
    return result.core


def masses(result: FitResult, position: int = 1) -> dict[str, int]:
    """Give each person's mass at a position, g."""
    return {c.person_id: c.unit_mass_g for c in core_of(result).cells if c.position == position}


def moves(result: FitResult, position: int = 1) -> dict[str, str]:
    """Give each person's first movement at a position, in round 0 or 1."""
    return {
        c.person_id: c.signature[0]
        for c in core_of(result).cells
        if c.position == position and c.round in (0, 1) and c.steps
    }


def cell(result: FitResult, person_id: str, position: int, round_number: int = 0) -> Cell:
    """Give one cell."""
    return next(
        c
        for c in core_of(result).cells
        if (c.person_id, c.position, c.round) == (person_id, position, round_number)
    )


def with_kit(problem: Problem, kit: Inventory) -> Problem:
    """Give the same class with other kit."""
    return problem.model_copy(update={"kit": kit})


def with_people(problem: Problem, people: Mapping[str, ProblemPerson]) -> Problem:
    """Give the same class with other people."""
    return problem.model_copy(update={"people": dict(people)})
