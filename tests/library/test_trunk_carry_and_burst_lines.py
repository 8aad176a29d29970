"""Trunk, carries, moving about and bursts: who finds a version, what lands, what waits."""

import pytest

from roundwright.bootstrap.shipped_library import shipped_catalogue
from roundwright.goals.class_wish import BurstWish
from roundwright.library.movement import Movement
from roundwright.library.vocabulary import Demand, KitKind, KitUse, Pattern
from roundwright.plan.menu_table import TRUNK, may_be_proposed
from tests.optimise.small_classes import core_of, fitted
from tests.support.builders import a_person, a_problem, a_spec, reps

LIBRARY = shipped_catalogue()
OF_THIS_FILE = (*sorted(TRUNK), Pattern.CARRY, Pattern.LOCOMOTION, Pattern.CARDIO)
ON_THE_FLOOR = (Demand.ON_BACK, Demand.ON_FRONT)
BEFORE_A_JUMP = {
    "jumping_jack": ("jacks", "step_jack"),
    "high_knees": ("high_knee_bursts", "high_march"),
    "skater_hop": ("skaters", "skater_step"),
    "burpee": ("burpees", "stepped_burpee"),
}
"""The line of each jumped version, and the version without landings before it."""


def of_pattern(pattern: Pattern) -> list[Movement]:
    return [m for m in LIBRARY.movements.values() if m.pattern is pattern]


def is_seated(movement: Movement) -> bool:
    return any(n.item is KitKind.CHAIR and n.use is KitUse.LIE_OR_SIT for n in movement.kit)


@pytest.mark.parametrize("pattern", OF_THIS_FILE)
def test_each_pattern_has_a_seated_version_for_a_first_class(pattern: Pattern) -> None:
    seated = [m for m in of_pattern(pattern) if is_seated(m) and m.level == 1]
    assert seated
    for movement in seated:
        assert movement.demand(Demand.NEEDS_STANDING) == 0
        assert movement.demand(Demand.FLOOR_RISE) == 0
        assert movement.demand(Demand.VIGOROUS) <= 1


def test_landings_are_counted_as_the_trade_counts_them() -> None:
    # Common practice: burpee with jumps 3, jack 2, high knee 1 a step; any other landing 1.
    landings = {slug: LIBRARY.movements[slug].contacts_a_rep for slug in BEFORE_A_JUMP}
    assert landings == {"jumping_jack": 2, "high_knees": 1, "skater_hop": 1, "burpee": 3}


@pytest.mark.parametrize("slug", sorted(BEFORE_A_JUMP))
def test_a_jumped_version_waits_and_has_a_version_without_landings_before_it(slug: str) -> None:
    line_id, before = BEFORE_A_JUMP[slug]
    line = LIBRARY.lines[line_id]
    assert line.versions[-1] == slug
    assert before in line.versions
    assert line.min_classes_for(slug) >= 4
    (criteria,) = [step for step in line.steps if step.to == slug]
    assert any("seen by the coach" in sentence for sentence in criteria.seen)
    stepped = LIBRARY.movements[before]
    assert (stepped.contacts_a_rep, stepped.demand(Demand.IMPACT)) == (0, 0)
    assert stepped.level < LIBRARY.movements[slug].level


def test_bursts_begin_without_a_chair_so_that_first_timers_need_none() -> None:
    for line_id in ("jacks", "high_knee_bursts", "punches", "skaters", "burpees"):
        first = LIBRARY.versions(line_id)[0]
        assert {need.item for need in first.kit} <= {KitKind.WALL}
        assert first.contacts_a_rep == first.low_hops_a_rep == 0


@pytest.mark.parametrize("jumped", ["jumping_jack", "high_knees"])
def test_a_burst_of_ordinary_length_is_stepped_even_by_those_who_may_jump_most(
    jumped: str,
) -> None:
    # 45 s are 90 landings of a jack and 128 of high knees; nobody has more than 60 in a class
    line, stepped = BEFORE_A_JUMP[jumped]

    def burst_of(length_s: int) -> str | None:
        burst = BurstWish(line=line, length_s=length_s)
        spec = a_spec(("squats", reps(8)), rounds=2, burst=burst, after_last_round="nothing")
        result = fitted(a_problem(spec, LIBRARY, {"p001": a_person(level=4, classes_done=60)}))
        return core_of(result).people[0].burst

    assert burst_of(45) == stepped
    assert burst_of(8) == jumped


def test_burpees_and_climbers_may_be_exercises_and_jacks_may_not() -> None:
    assert may_be_proposed(LIBRARY, "burpees")
    assert may_be_proposed(LIBRARY, "mountain_climbers")
    assert not may_be_proposed(LIBRARY, "jacks")


@pytest.mark.parametrize("pattern", sorted(TRUNK))
def test_what_is_done_lying_says_so_and_asks_for_getting_up(pattern: Pattern) -> None:
    for movement in of_pattern(pattern):
        lies = any(movement.demand(demand) for demand in ON_THE_FLOOR)
        assert not lies or movement.demand(Demand.FLOOR_RISE) >= 2, movement.slug


def test_bending_the_spine_and_turning_under_load_are_demands() -> None:
    bending = {m.slug for m in of_pattern(Pattern.TRUNK_FLEXION) if not is_seated(m)}
    for slug in bending:
        assert LIBRARY.movements[slug].demand(Demand.DEEP_SPINAL_FLEXION) >= 1
    for movement in of_pattern(Pattern.TRUNK_ROTATION):
        loaded = any(n.item in (KitKind.DUMBBELL, KitKind.BAND) for n in movement.kit)
        assert bool(movement.demand(Demand.LOADED_TWIST)) == loaded


def test_carries_need_their_length_and_a_load_that_is_marked_assumed() -> None:
    for slug in ("farmers_carry", "suitcase_carry", "front_rack_carry", "overhead_carry"):
        carry = LIBRARY.movements[slug]
        assert carry.floor.length == 5000
        assert carry.strength_family is None
        assert set(carry.assumed_load_by_level or ()) == set("12345")
        assert carry.demand(Demand.NEEDS_SIGHT) >= 1
