"""Each consistency rule finds its broken case and is content with the sound one."""

from typing import Any

import pytest

from roundwright.body.anatomy import Muscle, MuscleRole, Side
from roundwright.library.consistency import contradictions
from roundwright.library.contradiction import Contradiction
from roundwright.library.line import StepCriteria
from roundwright.library.movement import FloorNeed, KitNeed, Movement, MuscleShare
from roundwright.library.vocabulary import (
    Demand,
    KitKind,
    KitUse,
    Laterality,
    Pattern,
    StrengthFamily,
)
from tests.support.builders import (
    a_catalogue,
    a_combination,
    a_line,
    lifting,
    mover,
)
from tests.support.sound_movements import PLAIN, a_sound_movement

BOTH, LEFT, RIGHT = Side.BOTH, Side.LEFT, Side.RIGHT
LIFTS = {Demand.GRIP: 1, Demand.NEEDS_BOTH_ARMS: 1}
LANDS = {Demand.IMPACT: 2, Demand.NEEDS_STANDING: 1, Demand.VIGOROUS: 1, Demand.ANKLE: 1}
JUMPS = LANDS | {Demand.NEEDS_BOTH_LEGS: 1}


def of_movement(**changes: Any) -> tuple[Contradiction, ...]:
    return contradictions(a_catalogue([a_sound_movement("sit", **changes)], []))


def without(demands: dict[Demand, int], demand: Demand) -> dict[Demand, int]:
    return {name: degree for name, degree in demands.items() if name is not demand}


def kit(item: KitKind, use: KitUse, **rest: Any) -> tuple[KitNeed, ...]:
    return (KitNeed(item=item, use=use, **rest),)


def test_a_sound_movement_has_no_contradiction() -> None:
    assert of_movement() == ()
    assert of_movement(kit=lifting(), strength_family=StrengthFamily.SQUAT, demands=LIFTS) == ()


@pytest.mark.parametrize(
    ("changes", "code", "path"),
    [
        (
            {"muscles": {Muscle.QUADS: MuscleShare(role=MuscleRole.PRIME_MOVER, share=0.99)}},
            "library.shares",
            ("muscles",),
        ),
        (
            {"muscles": {Muscle.QUADS: MuscleShare(role=MuscleRole.HELPER, share=1.0)}},
            "library.consistency",
            ("muscles",),
        ),
        ({"muscles": mover(Muscle.BICEPS)}, "library.consistency", ("muscles",)),
        ({"kit": lifting(), "demands": LIFTS}, "library.consistency", ("strength_family",)),
        (
            {
                "kit": lifting(),
                "demands": LIFTS,
                "assumed_load_by_level": {"1": 4000, "2": 2000},
            },
            "library.consistency",
            ("assumed_load_by_level",),
        ),
        (
            {"kit": lifting(), "demands": LIFTS, "assumed_load_by_level": {"6": 4000}},
            "library.consistency",
            ("assumed_load_by_level",),
        ),
        (
            {"assumed_load_by_level": {"1": 4000}},
            "library.consistency",
            ("assumed_load_by_level",),
        ),
        (
            {"strength_family": StrengthFamily.VERTICAL_PUSH},
            "library.consistency",
            ("strength_family",),
        ),
        ({"lifted_share": 0.5}, "library.consistency", ("strength_family",)),
        (
            {"contacts_a_rep": 1, "demands": without(LANDS, Demand.IMPACT)},
            "library.consistency",
            ("demands", "impact"),
        ),
        (
            {"low_hops_a_rep": 1, "demands": without(LANDS, Demand.IMPACT)},
            "library.consistency",
            ("demands", "impact"),
        ),
        (
            {"contacts_a_rep": 1, "demands": without(LANDS, Demand.NEEDS_STANDING)},
            "library.consistency",
            ("demands", "needs_standing"),
        ),
        (
            {"pattern": Pattern.JUMP, "demands": JUMPS},
            "library.consistency",
            ("contacts_a_rep",),
        ),
        (
            {
                "pattern": Pattern.JUMP,
                "contacts_a_rep": 1,
                "demands": without(JUMPS, Demand.IMPACT),
            },
            "library.consistency",
            ("demands", "impact"),
        ),
        (
            {
                "kit": kit(KitKind.BOX, KitUse.JUMP_ON),
                "demands": without(LANDS, Demand.IMPACT)
                | {Demand.NEEDS_SIGHT: 1, Demand.BALANCE: 1},
            },
            "library.consistency",
            ("demands", "impact"),
        ),
        (
            {"demands": {Demand.ONE_FOOT_LANDING: 1}},
            "library.consistency",
            ("demands", "one_foot_landing"),
        ),
        (
            {
                "pattern": Pattern.VERTICAL_PUSH,
                "muscles": mover(Muscle.FRONT_DELTS),
                "demands": {Demand.SHOULDER: 1},
            },
            "library.consistency",
            ("demands", "overhead"),
        ),
        (
            {"pattern": Pattern.LUNGE, "demands": {Demand.NEEDS_STANDING: 1}},
            "library.consistency",
            ("demands", "needs_both_legs"),
        ),
        (
            {
                "kit": lifting(1),
                "strength_family": StrengthFamily.SQUAT,
            },
            "library.consistency",
            ("demands", "grip"),
        ),
        (
            {
                "kit": lifting(2),
                "strength_family": StrengthFamily.SQUAT,
                "demands": {Demand.GRIP: 1},
            },
            "library.consistency",
            ("demands", "needs_both_arms"),
        ),
        ({"demands": {Demand.ON_BACK: 1}}, "library.consistency", ("demands", "floor_rise")),
        ({"demands": {Demand.ON_FRONT: 2}}, "library.consistency", ("demands", "floor_rise")),
        ({"demands": {Demand.HEAD_LOW: 1}}, "library.consistency", ("demands", "floor_rise")),
        ({"kit": kit(KitKind.CHAIR, KitUse.STEP_ON)}, "library.consistency", ("kit", 0, "item")),
        (
            {"kit": kit(KitKind.ROPE, KitUse.SUPPORT), "demands": {Demand.GRIP: 1}},
            "library.consistency",
            ("kit", 0, "item"),
        ),
        (
            {"kit": kit(KitKind.BENCH, KitUse.SUPPORT, min_height=30_000)},
            "field.range",
            ("kit", 0, "min_height"),
        ),
        (
            {
                "kit": (*lifting(2), *kit(KitKind.DUMBBELL, KitUse.UNDER_HANDS)),
                "strength_family": StrengthFamily.SQUAT,
                "demands": LIFTS | {Demand.SHOULDER: 1},
            },
            "library.consistency",
            ("kit",),
        ),
        ({"floor": FloorNeed(length=200_000, width=2000)}, "field.range", ("floor", "length")),
        ({"limb_factor_bp": 7000}, "library.consistency", ("limb_factor_bp",)),
    ],
)
def test_a_movement_that_contradicts_itself_is_found(
    changes: dict[str, Any], code: str, path: tuple[str | int, ...]
) -> None:
    found = of_movement(**changes)
    assert [(each.code, each.path) for each in found] == [(code, path)]


def test_lying_on_a_bench_asks_for_no_rise_from_the_floor() -> None:
    on_bench = kit(KitKind.BENCH, KitUse.LIE_OR_SIT)
    assert of_movement(kit=on_bench, demands={Demand.ON_BACK: 1}) == ()


def test_a_cue_that_names_another_movement_is_found_and_its_own_name_is_not() -> None:
    teaching = PLAIN.model_copy(update={"cues": ("Like the hip bridge.", "Slow goblet squat.")})
    movements = [
        a_sound_movement("goblet", name="Goblet squat", teaching=teaching),
        a_sound_movement("squat", name="Squat"),
        a_sound_movement("bridge", name="Hip bridge"),
    ]
    found = contradictions(a_catalogue(movements, []))
    assert [(each.slug, each.path) for each in found] == [("goblet", ("teaching", "cues", 0))]


def jump(**changes: Any) -> Movement:
    values = {"pattern": Pattern.JUMP, "contacts_a_rep": 1, "demands": JUMPS, "level": 4}
    return a_sound_movement("jump", **(values | changes))


def test_levels_that_fall_along_a_line_are_found() -> None:
    movements = [a_sound_movement("one", level=3), a_sound_movement("two", level=2)]
    (found,) = contradictions(a_catalogue(movements, [a_line("sits", "one", "two")]))
    assert (found.code, found.path) == ("library.line", ("versions", 1))
    assert contradictions(a_catalogue(movements, [a_line("sits", "two", "one")])) == ()


def test_classes_asked_for_that_fall_along_a_line_are_found() -> None:
    movements = [a_sound_movement("one"), a_sound_movement("two"), a_sound_movement("three")]
    steps = (StepCriteria(to="two", min_classes=4), StepCriteria(to="three", min_classes=2))
    line = a_line("sits", "one", "two", "three", steps=steps)
    (found,) = contradictions(a_catalogue(movements, [line]))
    assert (found.code, found.path) == ("library.line", ("steps",))


@pytest.mark.parametrize(
    "steps",
    [(), (StepCriteria(to="jump", min_classes=8),), (StepCriteria(to="jump", seen=("Well.",)),)],
)
def test_a_version_with_landings_needs_classes_and_something_seen(
    steps: tuple[StepCriteria, ...],
) -> None:
    line = a_line("steps", "sit", "jump", steps=steps)
    (found,) = contradictions(a_catalogue([a_sound_movement("sit"), jump()], [line]))
    assert (found.code, found.value) == ("library.consistency", "jump")
    full = StepCriteria(to="jump", min_classes=8, seen=("Lands softly.",))
    sound = a_line("steps", "sit", "jump", steps=(full,))
    assert contradictions(a_catalogue([a_sound_movement("sit"), jump()], [sound])) == ()


def lunge(slug: str = "lunge", **changes: Any) -> Movement:
    values = {
        "pattern": Pattern.LUNGE,
        "laterality": Laterality.UNILATERAL,
        "demands": {Demand.NEEDS_BOTH_LEGS: 1},
    }
    return a_sound_movement(slug, **(values | changes))


@pytest.mark.parametrize(
    ("line", "side", "is_sound"),
    [
        ("sits", BOTH, True),
        ("sits", LEFT, False),
        ("lunges", BOTH, False),
        ("lunges", RIGHT, True),
        ("mixed", BOTH, False),
        ("mixed", LEFT, True),
    ],
)
def test_sides_of_a_part_fit_its_versions(line: str, side: Side, is_sound: bool) -> None:
    lines = [a_line("sits", "sit"), a_line("lunges", "lunge"), a_line("mixed", "sit", "lunge")]
    parts = ((line, side), ("sits", BOTH))
    combination = a_combination("pair", *parts, load="none")
    found = contradictions(a_catalogue([a_sound_movement("sit"), lunge()], lines, [combination]))
    expected = [] if is_sound else [("library.sides", ("parts", 0, "side"))]
    assert [(each.code, each.path) for each in found] == expected


@pytest.mark.parametrize(
    ("load", "line", "is_sound"),
    [
        ("held", "sits", False),
        ("none", "sits", True),
        ("held", "loaded", True),
        ("none", "loaded", False),
    ],
)
def test_a_load_is_held_only_where_something_lifts(load: str, line: str, is_sound: bool) -> None:
    loaded = a_sound_movement(
        "goblet", kit=lifting(), strength_family=StrengthFamily.SQUAT, demands=LIFTS
    )
    lines = [a_line("sits", "sit"), a_line("loaded", "goblet")]
    combination = a_combination("pair", ("sits", BOTH), (line, BOTH), load=load)
    found = contradictions(a_catalogue([a_sound_movement("sit"), loaded], lines, [combination]))
    assert [each.path for each in found] == ([] if is_sound else [("load",)])


def test_a_main_muscle_that_works_in_no_part_is_found() -> None:
    lines = [a_line("sits", "sit")]
    for muscle, paths in ((Muscle.BICEPS, [("main_muscle",)]), (Muscle.QUADS, [])):
        combination = a_combination(
            "pair", ("sits", BOTH), ("sits", BOTH), load="none", main_muscle=muscle
        )
        found = contradictions(a_catalogue([a_sound_movement("sit")], lines, [combination]))
        assert [each.path for each in found] == paths
