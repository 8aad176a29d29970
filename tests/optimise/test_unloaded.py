"""Who lifts nothing where they could lift pays for it, worked out by hand."""

from typing import Any

import pytest

from roundwright.body.anatomy import Muscle
from roundwright.goals.class_wish import KeptCell
from roundwright.library.vocabulary import Demand, Pattern, StrengthFamily
from roundwright.plan.problem import Problem
from tests.optimise.small_classes import fitted, masses, moves
from tests.support.builders import (
    a_catalogue,
    a_kit,
    a_line,
    a_movement,
    a_person,
    a_problem,
    a_spec,
    lifting,
    movers,
    reps,
)


def _hinges(
    kit: dict[int, int] | None = None,
    lifted: dict[str, Any] | None = None,
    wall: dict[str, Any] | None = None,
    **person: Any,
) -> Problem:
    """Give a hinge at the wall (level 1) and one with a pair (level 2), for one of level 2."""
    usual = {"pattern": Pattern.HINGE, "muscles": movers(Muscle.HAMSTRINGS)}
    library = a_catalogue(
        [
            a_movement("wall_hinge", **(usual | {"level": 1} | (wall or {}))),
            a_movement(
                "pair_hinge",
                **(
                    usual
                    | {"level": 2, "strength_family": StrengthFamily.HINGE, "kit": lifting()}
                    | (lifted or {})
                ),
            ),
        ],
        [a_line("hinge_line", "wall_hinge", "pair_hinge")],
    )
    people = {"p001": a_person(**({"level": 2} | person))}
    rack = a_kit({8000: 2} if kit is None else kit)
    return a_problem(a_spec(("hinge_line", reps(10))), library, people, rack)


def test_the_load_is_lifted_where_it_can_be() -> None:
    result = fitted(_hinges())
    assert (masses(result), result.outcome.cost) == ({"p001": 8000}, 0)


def test_a_light_load_beats_none_until_it_is_much_too_light() -> None:
    # nothing at all: one level below 8, and could lift 12: 20. 4 of 8 kg: 40 / 2 = 20, and a
    # tie; 5 of 8 kg: 40 x 3 / 8 = 15; 2 of 8 kg: 30. Heavier pairs are too few for two: none.
    def two(mass_g: int) -> Problem:
        one = _hinges({8000: 2, mass_g: 2})
        people = one.people | {"p002": a_person("p002", level=2)}
        return one.model_copy(update={"people": people})

    five = fitted(two(5000))
    assert (sorted(masses(five).values()), five.outcome.cost) == ([5000, 8000], 15)
    # the wall is then a further version in the room: 10
    two_kg = fitted(two(2000))
    assert (sorted(masses(two_kg).values()), two_kg.outcome.cost) == ([0, 8000], 20 + 10)


COULD_NOT: list[tuple[str, dict[str, Any], int]] = [
    ("nothing on the rack: one level below", {"kit": {}}, 8),
    ("the version that lifts is above the level", {"level": 1}, 0),
    ("too much grip", {"lifted": {"demands": {Demand.GRIP: 2}}, "caps": {Demand.GRIP: 1}}, 8),
    ("a child lifts nothing", {"youngest_age": 15, "oldest_age": 15}, 8),
]


@pytest.mark.parametrize(("why", "changes", "price"), COULD_NOT)
def test_who_could_not_lift_there_pays_nothing_for_it(
    why: str, changes: dict[str, Any], price: int
) -> None:
    result = fitted(_hinges(**changes))
    assert (moves(result), result.outcome.cost) == ({"p001": "wall_hinge"}, price), why


def test_a_version_that_lands_is_not_held_against_those_who_stay_on_the_ground() -> None:
    jumps = {"contacts_a_rep": 1, "seconds_a_rep": 2.0}
    problem = _hinges(lifted=jumps, classes_done=1)  # no landings before the fourth class
    result = fitted(problem)
    assert (moves(result), result.outcome.cost) == ({"p001": "wall_hinge"}, 8)


def test_trunk_work_without_a_load_costs_nothing_more() -> None:
    trunk = {"pattern": Pattern.TRUNK_EXTENSION}
    kept = KeptCell(person="p001", position=1, version="wall_hinge")
    for wall, price in ((trunk, 8), ({}, 20)):
        problem = _hinges(wall=wall)
        spec = problem.spec.model_copy(update={"keep": (kept,)})
        assert fitted(problem.model_copy(update={"spec": spec})).outcome.cost == price
