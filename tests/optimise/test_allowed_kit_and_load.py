"""What a person may use and lift: kit that is fit for it, chances, caps, the limiter."""

from typing import Any

import pytest

from roundwright.body.anatomy import Muscle, Side
from roundwright.kit.inventory import Dumbbells, Inventory, KitItem
from roundwright.library.movement import KitNeed
from roundwright.library.version import Step
from roundwright.library.vocabulary import (
    Demand,
    KitKind,
    KitUse,
    Laterality,
    Pattern,
    StrengthFamily,
)
from roundwright.optimise.kit_choice import Rack
from roundwright.optimise.loads import reps_of_steps
from roundwright.optimise.movement_facts import facts_of_movement
from roundwright.plan.core import CellState
from roundwright.plan.rule_table import RuleTable
from tests.optimise.small_classes import a_squat_line, cell, fitted, masses
from tests.support.builders import (
    a_capacity,
    a_catalogue,
    a_combination,
    a_kit,
    a_line,
    a_movement,
    a_person,
    a_problem,
    a_spec,
    lifting,
    mover,
    reps,
)

GOOD = {
    "id": "box",
    "kind": KitKind.BOX,
    "count": 1,
    "height": 400,
    "strength": 80_000,
    "stable": True,
}


def _serves(item: dict[str, Any], need: dict[str, Any], mass_g: int = 0) -> bool:
    lifted = lifting(1) if mass_g else ()
    movement = a_movement("step_up", kit=(KitNeed(item=KitKind.BOX, **need), *lifted))
    rack = Rack(Inventory(items=(KitItem(**(GOOD | item)),)), "main", RuleTable())
    return bool(rack.item_choices((facts_of_movement(movement),), 70_000, mass_g))


@pytest.mark.parametrize("use", [KitUse.STEP_ON, KitUse.JUMP_ON])
def test_a_box_that_carries_must_be_rated_stable_and_there(use: KitUse) -> None:
    need = {"use": use}
    assert _serves({}, need, 10_000)
    for worse in (
        {"strength": 79_999},
        {"strength": None},
        {"stable": False},
        {"in_use": False},
        {"room": "attic"},
        {"count": 0},
        {"kind": KitKind.BENCH},
    ):
        assert not _serves(worse, need, 10_000), worse
    assert _serves({"room": "main"}, need, 10_000)
    assert not _serves({"height": None}, need | {"min_height": 300})
    assert not _serves({"height": 299}, need | {"min_height": 300})


def test_a_box_to_jump_on_is_low_and_of_known_height_and_support_needs_no_rating() -> None:
    assert not _serves({"height": 451}, {"use": KitUse.JUMP_ON})
    assert not _serves({"height": None}, {"use": KitUse.JUMP_ON})
    assert _serves({"height": 451}, {"use": KitUse.STEP_ON})
    assert _serves({"strength": None, "stable": False}, {"use": KitUse.SUPPORT})


def test_dumbbells_under_hands_are_flat_sided() -> None:
    plank = a_movement(
        "plank",
        level=3,
        kit=(KitNeed(item=KitKind.DUMBBELL, units=2, use=KitUse.UNDER_HANDS),),
    )
    library = a_catalogue([plank], [a_line("plank_line", "plank")])
    kit = Inventory(
        dumbbells=(
            Dumbbells(unit_mass_g=6000, count=4, flat_sided=False),
            Dumbbells(unit_mass_g=8000, count=2, flat_sided=True),
        )
    )
    problem = a_problem(a_spec(("plank_line", reps(8))), library, {"p001": a_person()}, kit)
    result = fitted(problem)
    assert (masses(result)["p001"], result.outcome.cost) == (8000, 0)


def test_the_load_is_the_largest_that_meets_the_aim_and_less_is_priced() -> None:
    # 38 kg at one rep, SD 5 %: a pair of 12s for 8 reps is sure, a pair of 16s is not
    person = a_person(capacities=(a_capacity("p001", "squat", 38.0, sd=0.05),))
    spec = a_spec(("squat_line", reps(8)))
    kit = a_kit({6000: 2, 12_000: 2, 16_000: 2})
    result = fitted(a_problem(spec, a_squat_line(), {"p001": person}, kit))
    assert (masses(result)["p001"], result.outcome.cost) == (12_000, 0)
    assert cell(result, "p001", 1).chance_bp >= 6000


def test_no_capacity_known_is_no_chance_and_nothing_lifted() -> None:
    unknown = {"p001": a_person(capacities=())}
    result = fitted(a_problem(a_spec(("squat_line", reps(8))), a_squat_line(), unknown))
    assert cell(result, "p001", 1).state is CellState.SIT_OUT


def test_overhead_is_held_to_the_careful_cap_on_failing() -> None:
    def heaviest(demands: dict[Demand, int]) -> int:
        press = a_movement(
            "press",
            level=3,
            pattern=Pattern.VERTICAL_PUSH,
            strength_family=StrengthFamily.SQUAT,
            kit=lifting(),
            demands=demands,
        )
        library = a_catalogue([press], [a_line("press_line", "press")])
        person = a_person(
            level=4,
            classes_done=60,
            capacities=(a_capacity("p001", "squat", 30.0, sd=0.1),),
        )
        sit = a_movement("sit", level=4)
        library = a_catalogue([press, sit], [*library.lines.values(), a_line("sit_line", "sit")])
        kit = a_kit({m * 500: 2 for m in range(4, 40)})
        spec = a_spec(("press_line", reps(8)), ("sit_line", reps(8)))
        return masses(fitted(a_problem(spec, library, {"p001": person}, kit)))["p001"]

    # spread² = 0.1² + (0.2364 x 0.1)² + 0.022², so 0.1051; failing 1 %: z 2.326, 0.2 %: 2.878
    # 30 / e^(0.2364 + 2.326 x 0.1051) / 2 = 9.27 kg; with 2.878: 8.75 kg
    assert heaviest({}) == 9000
    assert heaviest({Demand.OVERHEAD: 1}) == 8500


def test_the_weakest_part_of_a_combination_decides_and_is_named() -> None:
    squat = a_movement("squat", level=3, strength_family=StrengthFamily.SQUAT, kit=lifting())
    press = a_movement(
        "press",
        level=3,
        strength_family=StrengthFamily.VERTICAL_PUSH,
        kit=lifting(),
        muscles=mover(Muscle.FRONT_DELTS),
    )
    library = a_catalogue(
        [squat, press],
        [a_line("squat_line", "squat"), a_line("press_line", "press")],
        [a_combination("squat_press", ("squat_line", Side.BOTH), ("press_line", Side.BOTH))],
    )
    person = a_person(
        capacities=(
            a_capacity("p001", "squat", 200.0),
            a_capacity("p001", "vertical_push", 38.0, sd=0.05),
        )
    )
    kit = a_kit({6000: 2, 12_000: 2, 16_000: 2})
    result = fitted(a_problem(a_spec(("squat_press", reps(8))), library, {"p001": person}, kit))
    assert cell(result, "p001", 1).limited_by == "press"
    assert masses(result)["p001"] == 12_000


def test_reps_are_tired_by_other_steps_of_the_same_muscle_on_this_side() -> None:
    lunge = facts_of_movement(a_movement("lunge", laterality=Laterality.UNILATERAL))
    squat = facts_of_movement(a_movement("squat"))
    press = facts_of_movement(a_movement("press", muscles=mover(Muscle.FRONT_DELTS)))
    steps = (
        Step(movement_id="lunge", side=Side.LEFT),
        Step(movement_id="lunge", side=Side.RIGHT),
        Step(movement_id="squat", side=Side.BOTH, times=2),
        Step(movement_id="press", side=Side.BOTH),
    )
    # lunge: 8 + a quarter of 16 squats; squat: 16 + a quarter of both lunges
    assert reps_of_steps(steps, (lunge, lunge, squat, press), 8, 2500) == [12, 12, 20, 8]
