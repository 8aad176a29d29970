"""The price of the class itself by hand: balance, recent use, what is tired, neighbours."""

from typing import Any

import pytest

from roundwright.body.anatomy import Muscle, MuscleRole
from roundwright.library.movement import MuscleShare
from roundwright.library.vocabulary import Demand
from roundwright.people.person import Clearance
from roundwright.plan.cost_table import CostTable
from roundwright.plan.recent import Recent, RecentExercise
from tests.gate.cases_choice import of_combinations
from tests.gate.rotating_class import staggered, stations
from tests.gate.small_class import (
    Made,
    a_plan,
    points_of,
    with_line,
    with_movement,
    with_person,
    with_problem,
    with_spec,
)

CLASS_TERMS = {
    *("push_pull", "knee_hip", "recent_use", "worked_lately", "combination"),
    *("repeated_part", "unloaded_hip"),
    *("shared_mover", "grip_run", "back_run", "overhead_run", "floor_change"),
}


def by_the_tool(made: Made) -> Made:
    """Let the tool have chosen the exercises."""
    return with_spec(made, chosen_by="tool")


def of_the_class(made: Made) -> dict[str, int]:
    """Give the terms of the class itself."""
    return {term: points for term, points in points_of(made).items() if term in CLASS_TERMS}


def with_recent(made: Made, *exercises: tuple[str, int], **worked: tuple[Muscle, ...]) -> Made:
    """Let exercises have been done so many days ago, and people be tired."""
    recent = tuple(RecentExercise(exercise_id=e, days_ago=d) for e, d in exercises)
    return with_problem(made, recent=Recent(exercises=recent, worked=worked))


def prime(*muscles: Muscle) -> dict[Muscle, MuscleShare]:
    """Give prime movers that share the work, the first with the most."""
    return {
        m: MuscleShare(role=MuscleRole.PRIME_MOVER, share=0.6 - 0.1 * i)
        for i, m in enumerate(muscles)
    }


def test_a_class_that_a_coach_chose_has_no_price_of_its_own() -> None:
    made = with_recent(a_plan(), ("row_line", 1), p001=(Muscle.LATS,))
    assert of_the_class(made) == {}
    assert of_the_class(by_the_tool(made)) != {}


def test_two_knee_exercises_to_one_hip_cost_their_difference() -> None:
    # squat and split squat against the hinge; press against row
    assert of_the_class(by_the_tool(a_plan())) == {"knee_hip": 6}


def test_recent_exercises_count_in_the_balance_for_two_weeks_and_as_recent_for_one() -> None:
    made = by_the_tool(a_plan())
    # 7 days: recent, and a second pull
    assert of_the_class(with_recent(made, ("row_line", 7))) == {
        "knee_hip": 6,
        "push_pull": 6,
        "recent_use": 8,
    }
    assert of_the_class(with_recent(made, ("row_line", 8))) == {"knee_hip": 6, "push_pull": 6}
    assert of_the_class(with_recent(made, ("hinge_line", 14))) == {}
    assert of_the_class(with_recent(made, ("hinge_line", 15))) == {"knee_hip": 6}


def test_each_entry_counts_and_what_the_library_does_not_know_does_not() -> None:
    made = by_the_tool(a_plan())
    twice = with_recent(made, ("row_line", 1), ("row_line", 3), ("cartwheels", 1))
    assert of_the_class(twice) == {"knee_hip": 6, "push_pull": 12, "recent_use": 16}
    # bridges stand in the library and not in the class: a second hip exercise
    assert of_the_class(with_recent(made, ("bridge_line", 1))) == {}


def test_each_person_with_a_tired_main_muscle_counts_once_an_exercise() -> None:
    made = with_recent(
        by_the_tool(a_plan()),
        p001=(Muscle.LATS, Muscle.QUADS),
        p002=(Muscle.LATS, Muscle.CALVES),
        p009=(Muscle.LATS,),
    )
    assert of_the_class(made) == {"knee_hip": 6, "worked_lately": 3 * 3}


def test_combinations_must_be_taught() -> None:
    # squat + row and row + hinge; both main patterns: squat, pull
    made = by_the_tool(of_combinations(2))
    # neighbours: squat_jump (of level 3) and row against row and hinge: lats and biceps
    assert of_the_class(made) == {
        "combination": 8,
        "knee_hip": 6,
        "push_pull": 6,
        "shared_mover": 10,
    }


def test_strong_people_count_for_a_hip_exercise_that_is_not_loaded() -> None:
    bare = with_movement(by_the_tool(a_plan()), "hinge", kit=())
    assert "unloaded_hip" not in of_the_class(bare)  # both are of level 2
    one = with_person(bare, "p001", level=3)
    assert of_the_class(one)["unloaded_hip"] == 2
    assert of_the_class(with_person(one, "p002", level=5))["unloaded_hip"] == 4
    unknown = with_person(one, "p001", clearance=Clearance.UNKNOWN)
    assert "unloaded_hip" not in of_the_class(unknown)
    # a squat that is not loaded is a knee exercise
    lifted = with_person(by_the_tool(a_plan()), "p001", level=3)
    assert "unloaded_hip" not in of_the_class(with_movement(lifted, "squat", kit=()))


def test_a_part_that_repeats_the_muscle_of_another_costs_its_term() -> None:
    made = with_movement(by_the_tool(of_combinations(2)), "row", muscles=prime(Muscle.QUADS))
    # squat + row: both the quads; row + hinge: quads and hamstrings
    assert of_the_class(made)["repeated_part"] == 8
    assert "repeated_part" not in of_the_class(by_the_tool(of_combinations(2)))


NEIGHBOURS: list[tuple[dict[str, dict[str, Any]], dict[str, int]]] = [
    ({"row": {"muscles": prime(Muscle.LATS, Muscle.HAMSTRINGS)}}, {"shared_mover": 5}),
    (
        {
            "row": {"muscles": prime(Muscle.LATS, Muscle.HAMSTRINGS, Muscle.GLUTES)},
            "hinge": {"muscles": prime(Muscle.HAMSTRINGS, Muscle.LATS)},
        },
        {"shared_mover": 10},
    ),
    ({"row": {"demands": {Demand.GRIP: 2}}, "hinge": {"demands": {Demand.GRIP: 1}}}, {}),
    (
        {"row": {"demands": {Demand.GRIP: 3}}, "hinge": {"demands": {Demand.GRIP: 2}}},
        {"grip_run": 4},
    ),
    (
        {"row": {"demands": {Demand.LOW_BACK: 2}}, "hinge": {"demands": {Demand.LOW_BACK: 2}}},
        {"back_run": 6},
    ),
    ({"row": {"demands": {Demand.OVERHEAD: 2}}}, {"overhead_run": 5}),
    # down for the row and up again
    ({"row": {"demands": {Demand.FLOOR_RISE: 2}}}, {"floor_change": 4}),
]


@pytest.mark.parametrize(("changes", "points"), NEIGHBOURS)
def test_neighbours_are_compared_by_their_reference_versions(
    changes: dict[str, dict[str, Any]], points: dict[str, int]
) -> None:
    made = by_the_tool(a_plan())
    for slug, fields in changes.items():
        made = with_movement(made, slug, **fields)
    assert of_the_class(made) == {"knee_hip": 6} | points


def test_the_reference_version_is_the_hardest_up_to_level_three_or_the_first() -> None:
    made = with_movement(by_the_tool(a_plan()), "press", demands={Demand.GRIP: 2})
    made = with_line(made, "row_line", versions=("row", "squat_jump"))
    grip = {"demands": {Demand.GRIP: 2}}
    # the line's hardest of level 3 asks for grip, its first does not
    assert of_the_class(with_movement(made, "squat_jump", **grip))["grip_run"] == 2 * 4
    assert "grip_run" not in of_the_class(with_movement(made, "row", **grip))
    above = with_movement(made, "squat_jump", level=4, **grip)
    assert "grip_run" not in of_the_class(above)
    hard = with_movement(with_movement(made, "row", level=4, **grip), "squat_jump", level=5)
    assert of_the_class(hard)["grip_run"] == 4


def test_where_groups_rotate_the_round_closes() -> None:
    down = {"demands": {Demand.FLOOR_RISE: 2}}
    for made, changes in ((a_plan(), 1), (staggered(), 2), (stations(), 2)):
        last = with_movement(by_the_tool(made), "split_squat", **down)
        assert of_the_class(last) == {"knee_hip": 6, "floor_change": 2 * changes}


def test_every_term_is_a_field_of_the_cost_table() -> None:
    assert set(CostTable.model_fields) >= CLASS_TERMS
