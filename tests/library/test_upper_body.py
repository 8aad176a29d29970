"""The library for the upper body: versions for everybody, published shares, careful loads."""

from collections.abc import Iterable
from datetime import date

import pytest

from roundwright.body.anatomy import Muscle
from roundwright.bootstrap.shipped_library import shipped_catalogue
from roundwright.library.movement import Movement
from roundwright.library.vocabulary import Demand, KitKind, KitUse, Pattern
from roundwright.people.capacity import p_can
from roundwright.people.person import Person, Sex
from roundwright.people.strength_prior import prior_capacities

UPPER = (
    Pattern.HORIZONTAL_PUSH,
    Pattern.VERTICAL_PUSH,
    Pattern.HORIZONTAL_PULL,
    Pattern.VERTICAL_PULL,
    Pattern.ELBOW_FLEXION,
    Pattern.ELBOW_EXTENSION,
)
OVER_THE_FACE = {
    "dumbbell_floor_press",
    "dumbbell_bench_press",
    "floor_pull_over",
    "bench_pull_over",
    "seated_overhead_extension",
    "lying_extension",
}


def of_pattern(pattern: Pattern) -> list[Movement]:
    return [m for m in shipped_catalogue().movements.values() if m.pattern is pattern]


def uses(movement: Movement, *kit_uses: KitUse) -> bool:
    return any(need.use in kit_uses for need in movement.kit)


def spoken(movement: Movement) -> Iterable[str]:
    teaching = movement.teaching
    yield from (teaching.set_up, teaching.start, teaching.end, teaching.feel, teaching.watch)
    yield from (*teaching.steps, *teaching.cues)


@pytest.mark.parametrize("pattern", UPPER)
def test_each_pattern_has_a_seated_and_a_supported_version(pattern: Pattern) -> None:
    movements = of_pattern(pattern)
    assert [
        m.slug
        for m in movements
        if any(n.item is KitKind.CHAIR and n.use is KitUse.LIE_OR_SIT for n in m.kit)
        and not m.demand(Demand.NEEDS_STANDING)
    ]
    assert [
        m.slug
        for m in movements
        if m.demand(Demand.NEEDS_STANDING) and uses(m, KitUse.SUPPORT, KitUse.UNDER_HANDS)
    ]


def test_close_grip_push_ups_run_from_the_wall_to_the_floor() -> None:
    library = shipped_catalogue()
    line = library.lines["close_grip_push_ups"]
    versions = library.versions(line.slug)
    assert [v.kit[0].item if v.kit else None for v in versions] == [
        KitKind.WALL,
        KitKind.BENCH,
        None,
    ]
    shares = [v.lifted_share or 0 for v in versions]
    assert shares == sorted(shares)
    for version in versions:
        assert version.muscles[Muscle.TRICEPS].share > version.muscles[Muscle.CHEST].share
    assert line.min_classes_for("floor_close_push_up") >= 4


def test_the_row_with_the_opposite_leg_extended_is_a_one_leg_balance_with_a_hand_down() -> None:
    library = shipped_catalogue()
    row = library.movements["one_arm_row_leg_extended"]
    line = library.lines["leg_extended_rows"]
    assert row.demand(Demand.BALANCE) == 3
    assert uses(row, KitUse.SUPPORT)
    assert line.versions[-1] == row.slug
    assert line.min_classes_for(row.slug) >= 4
    assert row.limb_factor_bp is not None
    steady = library.movements["bench_row_toe_down"].limb_factor_bp
    assert steady is not None
    assert row.limb_factor_bp < steady


def test_published_shares_of_push_ups_stand_as_published() -> None:
    # ref: pushup-load-ebben (Ebben 2011): hands on 60.96 cm, flexed knee, feet on 30.48 cm
    movements = shipped_catalogue().movements
    assert movements["high_box_push_up"].lifted_share == 0.41
    assert movements["knee_push_up"].lifted_share == 0.49
    assert movements["feet_raised_push_up"].lifted_share == 0.70
    (high,) = movements["high_box_push_up"].kit
    assert high.min_height is not None
    assert abs(high.min_height - 609.6) < 50
    (feet,) = movements["feet_raised_push_up"].kit
    assert feet.min_height is not None
    assert feet.max_height is not None
    assert feet.min_height <= 304.8 <= feet.max_height


def test_hard_ends_wait_for_classes_and_for_what_a_coach_has_seen() -> None:
    library = shipped_catalogue()
    for line_id, slug in (
        ("feet_raised_push_ups", "feet_raised_push_up"),
        ("presses", "leg_drive_press"),
        ("triceps_extensions", "lying_extension"),
        ("straight_arm_pulls", "bench_pull_over"),
    ):
        line = library.lines[line_id]
        assert line.versions[-1] == slug
        assert library.movements[slug].level == 4
        (criteria,) = [step for step in line.steps if step.to == slug]
        assert criteria.min_classes >= 8
        assert criteria.seen


def test_what_is_held_over_the_face_says_so_and_is_never_a_first_version() -> None:
    library = shipped_catalogue()
    held = {
        m.slug
        for m in library.movements.values()
        if m.dumbbells_lifted and m.demand(Demand.OVER_FACE)
    }
    assert held == OVER_THE_FACE
    for slug in held:
        movement = library.movements[slug]
        assert movement.level >= 2
        assert any(fault.urgency == "stop" for fault in movement.teaching.faults)
    assert not held & {line.versions[0] for line in library.lines.values()}


def test_small_muscles_on_long_levers_take_assumed_loads_not_those_of_a_press_or_row() -> None:
    movements = shipped_catalogue().movements
    slugs = (
        "seated_side_raise",
        "standing_front_raise",
        "bent_over_rear_fly",
        "chair_kickback",
        "bench_pull_over",
    )
    for slug in slugs:
        movement = movements[slug]
        assert movement.strength_family is None
        assert movement.assumed_load_by_level is not None
        assert set(movement.assumed_load_by_level) == set("12345")
        assert max(movement.assumed_load_by_level.values()) <= 10_000


def test_alternating_curls_are_as_hard_for_an_arm_as_curls_with_both() -> None:
    movements = shipped_catalogue().movements
    both, turns = movements["standing_curl"], movements["standing_alternating_curl"]
    someone = Person(person_id="p001", shown_name="A", sex=Sex.F, body_mass_g=62_000, level=3)
    (curl,) = [
        c for c in prior_capacities(someone, date(2026, 3, 3)) if c.key == both.strength_family
    ]
    one_kg = 5.0
    effective = one_kg * turns.dumbbells_lifted / ((turns.limb_factor_bp or 5000) / 10_000)
    assert effective == one_kg * both.dumbbells_lifted
    assert p_can(curl, effective, 10, 3, 3) == p_can(curl, one_kg * 2, 10, 3, 3)


def test_a_band_that_is_anchored_has_its_anchor_tested_before_the_first_rep() -> None:
    banded = [
        m
        for m in shipped_catalogue().movements.values()
        if any(n.item is KitKind.BAND for n in m.kit)
    ]
    anchored = [m for m in banded if "nchor the band" in m.teaching.set_up]
    assert len(banded) > len(anchored) >= 10
    for movement in anchored:
        assert "Tug the anchor" in movement.teaching.watch
    for movement in banded:
        assert movement.strength_family is None
        assert not movement.dumbbells_lifted


def test_upper_body_lines_read_at_arms_length() -> None:
    for pattern in UPPER:
        for movement in of_pattern(pattern):
            for sentence in spoken(movement):
                assert len(sentence) <= 105, movement.slug
