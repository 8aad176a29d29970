from collections.abc import Callable

import pytest

from roundwright.kit.inventory import Dumbbells
from roundwright.library.vocabulary import Demand, Pattern
from roundwright.people.capacity import p_can
from roundwright.plan.gate.judge import judge
from roundwright.plan.verdict import Verdict
from tests.gate.cases_class import in_pairs, stands_in
from tests.gate.cases_kit_and_load import a_weak_row, eights, with_rack, with_strength
from tests.gate.small_class import (
    Made,
    a_plan,
    steps_of,
    with_cell,
    with_dose,
    with_movement,
    with_person,
    with_spec,
)


def judged(made: Made) -> Verdict:
    return judge(made.core, made.problem)


def points(made: Made) -> dict[str, int]:
    return {line.term: line.points for line in judged(made).cost_lines}


def test_a_plan_with_easier_version_short_load_third_mass_and_substitute() -> None:
    rack = [Dumbbells(unit_mass_g=m, count=40, flat_sided=True) for m in (6000, 10_000)]
    made = with_rack(a_plan(), rack[0], eights(), rack[1])
    made = with_cell(made, "p001", 1, unit_mass_g=10_000)
    made = with_cell(made, "p001", 2, unit_mass_g=6000)
    made = stands_in(made, "p002", 3)
    air = {"steps": steps_of("air_squat"), "unit_mass_g": 0, "units": 0, "limited_by": None}
    made = with_cell(made, "p002", 1, **air)
    # target 10 kg everywhere. p001: 0 at 10 kg; 6 kg: 40 x 4 / 10 = 16; row and hinge at 8 kg:
    # 40 x 2 / 10 = 8 each. p002: press and hinge 8 each.
    # p001 uses 10, 6 and 8 kg: one beyond two.
    # p002 squats without a load: one level below: 8, and could lift: 12; with p001's squat two
    # versions at the place.
    assert points(made) == {
        "burst_below": 8,
        "further_version": 10,
        "load_short": 16 + 8 + 8 + 8 + 8,
        "substitute": 120,
        "third_mass": 15,
        "unloaded": 12,
        "version_below": 8,
    }
    assert judged(made).cost == 8 + 10 + 48 + 120 + 15 + 12 + 8


def unlifted() -> Made:
    """Let p002, of level 2, squat without the load that the line's next version has."""
    air = {"steps": steps_of("air_squat"), "unit_mass_g": 0, "units": 0, "limited_by": None}
    return with_cell(a_plan(), "p002", 1, **air)


def test_lifting_nothing_where_one_could_lift_costs_its_term() -> None:
    assert points(unlifted())["unloaded"] == 12
    assert "unloaded" not in points(a_plan())


CANNOT_LIFT_THERE: list[tuple[str, Callable[[Made], Made]]] = [
    ("the version that lifts is above the level", lambda m: with_person(m, "p002", level=1)),
    ("it asks too much of the knees", lambda m: with_person(m, "p002", caps={Demand.KNEE: 0})),
    ("the rack has nothing to lift", lambda m: with_rack(m, eights(in_use=False))),
    ("all that is there is too heavy", lambda m: with_strength(m, "p002", "squat", 9.0)),
    ("it is banned", lambda m: with_spec(m, ban=("squat",))),
    ("it jumps", lambda m: with_movement(m, "squat", contacts_a_rep=1)),
    ("it is for the trunk", lambda m: with_movement(m, "air_squat", pattern=Pattern.TRUNK_FLEXION)),
]


@pytest.mark.parametrize(("why", "change"), CANNOT_LIFT_THERE)
def test_who_could_not_lift_there_pays_nothing_for_it(
    why: str, change: Callable[[Made], Made]
) -> None:
    made = with_movement(unlifted(), "squat", demands={Demand.KNEE: 2})
    assert points(made)["unloaded"] == 12
    assert "unloaded" not in points(change(made)), why


def test_a_load_managed_less_surely_than_aimed_at_costs_its_base_and_the_chance_missing() -> None:
    # the row: 16 kg, 10 reps with 3 left in the second round; an even chance at
    # 16 x exp(ln(1 + 13 / 30) + 0.011) = 23.2 kg
    made = with_strength(a_plan(), "p001", "row", 23.0)
    capacity = made.problem.people["p001"].capacities[-1]
    chance = p_can(capacity, 16.0, 10, 3, 2)
    made = with_cell(made, "p001", 3, chance_bp=chance)
    assert 3000 < chance < 6000
    missing = 60 * (6000 - chance) / 10_000
    assert points(made) == {"burst_below": 8, "load_over_base": 4, "load_over": round(missing)}


def test_what_the_weakest_part_of_a_combination_keeps_from_the_others_costs_its_share() -> None:
    # the row decides: 8 kg. Squat (and hinge) could take 16 kg: a half of their own goes without,
    # a quarter as a mean of both parts: 6 x 1/4 = 1.5, to even: 2, at each of two places
    made = a_weak_row(16_000)
    assert points(made)["held_back"] == 4
    # 14 kg: 6 x (6 / 14) / 2 = 1.29
    assert points(a_weak_row(14_000))["held_back"] == 2
    # a rack whose heaviest is what the row takes: nothing is kept from anyone
    assert "held_back" not in points(with_rack(made, eights()))
    # what is light by choice is short of the target and no more: the row still takes 8 kg
    lighter = with_rack(made, Dumbbells(unit_mass_g=6000, count=40), *made.problem.kit.dumbbells)
    six = with_cell(lighter, "p001", 1, unit_mass_g=6000)
    assert points(six)["held_back"] == 4
    assert points(six)["load_short"] == 10


def test_the_part_that_decides_is_named_with_its_people_and_what_another_would_take() -> None:
    found = [f for f in judged(a_weak_row(16_000)).findings if f.rule == "load.part_decides"]
    assert [(f.persons, f.positions) for f in found] == [(("p001",), (1,)), (("p001",), (2,))]
    assert found[0].figures == {"part": "Row", "mass_g": 8000, "most_g": 16_000}


def test_a_place_left_out_by_an_unreadable_cell_costs_nothing_twice() -> None:
    made = a_plan()
    assert points(with_cell(made, "p001", 3, steps=steps_of("cartwheel"))) == {"burst_below": 8}


def test_two_first_timers_as_partners_cost_their_term_once() -> None:
    # level 2 and the march of level 1: 2 x 4
    assert points(in_pairs({"p001", "p002"})) == {"burst_below": 8, "first_timer_pair": 100}


def test_no_burst_costs_nothing() -> None:
    assert points(with_dose(a_plan(), "p001", burst=None)) == {"burst_below": 4}
