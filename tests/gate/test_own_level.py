"""When a version above a person's level is said to be needless, and when not (rule 11)."""

from roundwright.goals.class_wish import KeptCell
from roundwright.library.movement import KitNeed
from roundwright.library.vocabulary import Demand, KitKind, KitUse, StrengthFamily
from tests.gate.small_class import (
    Made,
    a_plan,
    rules_of,
    with_cell,
    with_movement,
    with_person,
    with_spec,
)
from tests.support.builders import lifting

OPEN, ABOVE = "version.own_level_open", "version.level_above"


def a_step_up() -> Made:
    """p001 is of level 1 in squats and squats at level 2; the air squat is at their level."""
    return with_person(a_plan(), "p001", level_by_family={StrengthFamily.SQUAT: 1})


def test_a_step_up_is_needless_beside_an_open_version_at_the_own_level() -> None:
    assert {OPEN, ABOVE} <= rules_of(a_step_up())


def test_it_is_not_where_the_person_must_not_do_the_other_one() -> None:
    made = with_movement(a_step_up(), "air_squat", demands={Demand.HIP: 1})
    capped = with_person(made, "p001", caps={Demand.HIP: 0})
    assert OPEN in rules_of(made)
    assert OPEN not in rules_of(capped)
    assert ABOVE in rules_of(capped)


def test_it_is_not_where_no_kit_serves_the_other_one() -> None:
    bench = (KitNeed(item=KitKind.BENCH, use=KitUse.LIE_OR_SIT),)
    assert OPEN not in rules_of(with_movement(a_step_up(), "air_squat", kit=bench))


def test_it_is_not_where_the_other_one_has_a_level_above_as_well() -> None:
    assert OPEN not in rules_of(with_movement(a_step_up(), "air_squat", level=3))


def test_it_is_not_where_the_coach_keeps_the_version_for_the_person() -> None:
    kept = (KeptCell(person="p001", position=1, version="squat"),)
    made = with_spec(with_cell(a_step_up(), "p001", 1, kept=True), keep=kept)
    assert OPEN not in rules_of(made)
    # a mass alone, that an own-level version can be done with, does not ask for the step up
    lifts = {"kit": lifting(), "assumed_load_by_level": {"2": 8000}}
    mass = (KeptCell(person="p001", position=1, mass_g=8000),)
    by_mass = with_spec(with_movement(made, "air_squat", **lifts), keep=mass)
    assert OPEN in rules_of(by_mass)
    assert OPEN not in rules_of(with_spec(made, keep=mass))
