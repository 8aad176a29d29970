"""Broken plans about kit and loads."""

from typing import Any

from roundwright.kit.inventory import Dumbbells
from roundwright.library.movement import KitNeed
from roundwright.library.vocabulary import KitKind, KitUse, StrengthFamily
from roundwright.plan.core import KitUnits
from tests.gate.broken_plans import breaks
from tests.gate.cases_choice import of_combinations
from tests.gate.small_class import (
    Made,
    a_plan,
    with_cell,
    with_dose,
    with_movement,
    with_person,
    with_problem,
)
from tests.support.builders import a_capacity

STEP = KitNeed(item=KitKind.BOX, use=KitUse.STEP_ON)
JUMP = KitNeed(item=KitKind.BOX, use=KitUse.JUMP_ON)
BOX = (KitUnits(item_id="box", units=1),)
ROPES = (KitUnits(item_id="rope", units=1),)


def with_need(need: KitNeed, kit: tuple[KitUnits, ...] = BOX) -> Made:
    """Let the last exercise need a piece of kit, and give it to both."""
    made = with_movement(a_plan(), "split_squat", kit=(need,))
    for person_id in ("p001", "p002"):
        made = with_cell(made, person_id, 5, kit=kit)
    return made


def with_item(made: Made, item_id: str, **changes: Any) -> Made:
    """Change fields of one kit item."""
    items = tuple(
        i.model_copy(update=changes) if i.id == item_id else i for i in made.problem.kit.items
    )
    return with_problem(made, kit=made.problem.kit.model_copy(update={"items": items}))


def with_rack(made: Made, *dumbbells: Dumbbells) -> Made:
    """Change the rack."""
    kit = made.problem.kit.model_copy(update={"dumbbells": dumbbells})
    return with_problem(made, kit=kit)


def eights(count: int = 40, **changes: Any) -> Dumbbells:
    """Give dumbbells of 8 kg."""
    return Dumbbells(**({"unit_mass_g": 8000, "count": count, "flat_sided": True} | changes))


def with_strength(made: Made, person_id: str, key: str, one_rep_max_kg: float) -> Made:
    """Give somebody another strength for one movement."""
    capacities = made.problem.people[person_id].capacities
    return with_person(
        made, person_id, capacities=(*capacities, a_capacity(person_id, key, one_rep_max_kg))
    )


@breaks("kit.unknown")
def a_mass_that_is_not_on_the_rack() -> tuple[Made, Made]:
    made = a_plan()
    return made, with_cell(made, "p001", 3, unit_mass_g=9000)


@breaks("kit.unknown")
def an_item_that_is_not_in_the_store() -> tuple[Made, Made]:
    made = with_need(STEP)
    return made, with_cell(made, "p001", 5, kit=(KitUnits(item_id="crate", units=1),))


@breaks("kit.unqualified")
def round_dumbbells_under_the_hands() -> tuple[Made, Made]:
    hands = KitNeed(item=KitKind.DUMBBELL, units=2, use=KitUse.UNDER_HANDS)
    made = with_movement(a_plan(), "row", kit=(hands,))
    for person_id in ("p001", "p002"):
        made = with_cell(made, person_id, 3, limited_by=None)
    made = with_movement(made, "row", strength_family=None, kit=(hands,))
    return made, with_rack(made, eights(flat_sided=False))


@breaks("kit.unqualified")
def dumbbells_out_of_use() -> tuple[Made, Made]:
    made = a_plan()
    return made, with_rack(made, eights(in_use=False))


@breaks("kit.unqualified")
def a_box_out_of_use() -> tuple[Made, Made]:
    made = with_need(STEP)
    return made, with_item(made, "box", in_use=False)


@breaks("kit.unqualified")
def a_box_in_another_room() -> tuple[Made, Made]:
    made = with_item(with_need(STEP), "box", room="main")
    return made, with_item(made, "box", room="studio")


@breaks("kit.unqualified")
def a_box_rated_for_less() -> tuple[Made, Made]:
    made = with_item(with_need(STEP), "box", strength=70_000)
    return made, with_item(made, "box", strength=69_999)


@breaks("kit.unqualified")
def a_box_of_unknown_rating() -> tuple[Made, Made]:
    made = with_need(STEP)
    return made, with_item(made, "box", strength=None)


@breaks("kit.unqualified")
def a_box_that_may_tip() -> tuple[Made, Made]:
    made = with_need(STEP)
    return made, with_item(made, "box", stable=False)


@breaks("kit.unqualified")
def a_box_too_high_to_jump_on() -> tuple[Made, Made]:
    made = with_item(with_need(JUMP), "box", height=450)
    return made, with_item(made, "box", height=451)


@breaks("kit.unqualified")
def a_box_of_unknown_height_to_jump_on() -> tuple[Made, Made]:
    made = with_need(JUMP)
    return made, with_item(made, "box", height=None)


@breaks("kit.unqualified")
def a_box_too_low() -> tuple[Made, Made]:
    made = with_need(KitNeed(item=KitKind.BOX, use=KitUse.SUPPORT, min_height=300))
    return made, with_item(made, "box", height=299)


@breaks("kit.unqualified")
def a_box_too_high_for_a_low_step() -> tuple[Made, Made]:
    made = with_need(KitNeed(item=KitKind.BOX, use=KitUse.SUPPORT, max_height=300))
    return with_item(made, "box", height=300), with_item(made, "box", height=301)


@breaks("kit.unqualified")
def a_chair_to_step_on() -> tuple[Made, Made]:
    chair = (KitUnits(item_id="chair", units=1),)
    made = with_need(KitNeed(item=KitKind.CHAIR, use=KitUse.LIE_OR_SIT), chair)
    need = KitNeed(item=KitKind.CHAIR, use=KitUse.STEP_ON)
    return made, with_movement(made, "split_squat", kit=(need,))


@breaks("kit.unqualified")
def a_rope_in_place_of_a_box() -> tuple[Made, Made]:
    made = with_need(STEP)
    return made, with_cell(made, "p001", 5, kit=ROPES)


@breaks("kit.unqualified")
def no_box_at_all() -> tuple[Made, Made]:
    made = with_need(STEP)
    return made, with_cell(made, "p001", 5, kit=())


@breaks("kit.unqualified")
def no_rope_for_skipping() -> tuple[Made, Made]:
    made = with_dose(a_plan(), "p001", burst="skip", burst_kit=ROPES)
    return made, with_dose(made, "p001", burst_kit=())


@breaks("kit.short")
def one_dumbbell_too_few() -> tuple[Made, Made]:
    made = with_rack(a_plan(), eights(4))
    return made, with_rack(made, eights(3))


@breaks("kit.short")
def one_box_too_few() -> tuple[Made, Made]:
    made = with_item(with_need(STEP), "box", count=2)
    return made, with_item(made, "box", count=1)


@breaks("kit.short")
def one_rope_too_few_in_the_burst() -> tuple[Made, Made]:
    made = a_plan()
    for person_id in ("p001", "p002"):
        made = with_dose(made, person_id, burst="skip", burst_kit=ROPES)
    made = with_item(made, "rope", count=2)
    return made, with_item(made, "rope", count=1)


@breaks("load.may_fail")
def a_load_that_falls_on_the_head() -> tuple[Made, Made]:
    # ln 40 - ln 16 - curve(10) = 0.63, SD 0.1: fails 1 in 10,000,000; with 24 kg far more often
    made = with_strength(a_plan(), "p001", "press", 40.0)
    return made, with_strength(a_plan(), "p001", "press", 26.0)


@breaks("load.above_aim")
def a_load_overhead_above_the_aim() -> tuple[Made, Made]:
    made = a_plan()
    return made, with_strength(made, "p001", "press", 23.0)


@breaks("load.above_aim")
def more_than_is_authored_without_a_family() -> tuple[Made, Made]:
    made = with_movement(a_plan(), "row", strength_family=None, assumed_load_by_level={"2": 8000})
    return made, with_movement(made, "row", assumed_load_by_level={"2": 7999})


@breaks("load.above_aim")
def nothing_authored_without_a_family() -> tuple[Made, Made]:
    made = with_movement(a_plan(), "row", strength_family=None, assumed_load_by_level={"2": 8000})
    return made, with_movement(made, "row", assumed_load_by_level={"3": 8000})


@breaks("load.chance_low")
def a_load_that_is_rarely_managed() -> tuple[Made, Made]:
    made = a_plan()
    return made, with_strength(made, "p001", "row", 21.0)


@breaks("load.below_aim")
def a_load_that_is_managed_half_the_time() -> tuple[Made, Made]:
    # half of 70 kg on one leg: 70 kg as both would feel it; 6 reps and 3 left, second round:
    # 70 x exp(ln(1 + 9 / 30) + 0.011) = 92 kg is an even chance; body weight, so no load to fail
    made = with_movement(
        a_plan(), "split_squat", lifted_share=0.5, strength_family=StrengthFamily.LUNGE_STEP
    )
    for person_id in ("p001", "p002"):
        made = with_cell(made, person_id, 5, limited_by="split_squat")
    return made, with_strength(made, "p001", "split_squat", 92.0)


@breaks("load.light")
def a_load_far_below_the_target() -> tuple[Made, Made]:
    # 8 kg are 80 % of 10 kg, and 67 % of 12 kg
    ten = Dumbbells(unit_mass_g=10_000, count=40)
    twelve = Dumbbells(unit_mass_g=12_000, count=40)
    return with_rack(a_plan(), eights(), ten), with_rack(a_plan(), eights(), twelve)


def a_weak_row(heavy_g: int) -> Made:
    """Two combinations with a row; p001 rows 2 x 8 kg, and 40 kg once: 2 x 14 kg is too much."""
    rack = Dumbbells(unit_mass_g=heavy_g, count=40)
    made = with_strength(with_rack(of_combinations(2), eights(), rack), "p001", "row", 40.0)
    for position in (1, 2):
        made = with_cell(made, "p001", position, limited_by="row")
    return made


@breaks("load.part_decides")
def a_row_that_halves_what_the_squat_could_take() -> tuple[Made, Made]:
    # 8 kg are 57 % of 14 kg, and half of 16 kg
    return a_weak_row(14_000), a_weak_row(16_000)


@breaks("load.assumed")
def a_load_without_an_estimate() -> tuple[Made, Made]:
    made = a_plan()
    return made, with_movement(made, "row", strength_family=None, assumed_load_by_level={"2": 8000})
