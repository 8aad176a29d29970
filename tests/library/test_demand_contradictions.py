"""A demand that was forgotten, or that nothing asks for, is found; the sound entry is not."""

from typing import Any

import pytest

from roundwright.body.anatomy import Muscle
from roundwright.library.consistency import contradictions
from roundwright.library.movement import KitNeed
from roundwright.library.vocabulary import Demand, KitKind, KitUse, Pattern, StrengthFamily
from tests.support.builders import a_catalogue, lifting, mover
from tests.support.sound_movements import PLAIN, a_sound_movement

GRIPS = {Demand.GRIP: 1, Demand.NEEDS_BOTH_ARMS: 1}
LANDS = {Demand.IMPACT: 2, Demand.NEEDS_STANDING: 1, Demand.VIGOROUS: 1, Demand.ANKLE: 1}
LYING = {Demand.ON_BACK: 1, Demand.FLOOR_RISE: 1}
PRESS = {
    "pattern": Pattern.HORIZONTAL_PUSH,
    "muscles": mover(Muscle.CHEST),
    "kit": lifting(),
    "strength_family": StrengthFamily.HORIZONTAL_PUSH,
}
CURL_UP = {"pattern": Pattern.TRUNK_FLEXION, "muscles": mover(Muscle.ABDOMINALS)}
SQUAT = {"kit": lifting(), "strength_family": StrengthFamily.SQUAT}
PUSH_UP_KIT = (KitNeed(item=KitKind.BENCH, use=KitUse.UNDER_HANDS),)
RAISE = {"pattern": Pattern.VERTICAL_PUSH, "muscles": mover(Muscle.FRONT_DELTS)}


def found(**changes: Any) -> list[str]:
    library = a_catalogue([a_sound_movement("sit", **changes)], [])
    return [str(each.path[-1]) for each in contradictions(library)]


def item(kind: KitKind, use: KitUse) -> tuple[KitNeed, ...]:
    return (KitNeed(item=kind, use=use),)


@pytest.mark.parametrize(
    ("changes", "demands", "forgotten"),
    [
        ({}, {}, Demand.KNEE),
        ({"pattern": Pattern.HINGE, "muscles": mover(Muscle.GLUTES)}, {}, Demand.HIP),
        (
            {"pattern": Pattern.HORIZONTAL_PULL, "muscles": mover(Muscle.LATS)},
            {},
            Demand.SHOULDER,
        ),
        (
            {"pattern": Pattern.ELBOW_FLEXION, "muscles": mover(Muscle.BICEPS)},
            {},
            Demand.ELBOW,
        ),
        ({"contacts_a_rep": 1}, LANDS, Demand.VIGOROUS),
        ({"contacts_a_rep": 1}, LANDS, Demand.ANKLE),
        (PRESS, GRIPS | LYING | {Demand.SHOULDER: 1}, Demand.OVER_FACE),
        (SQUAT, GRIPS | {Demand.NEEDS_STANDING: 1}, Demand.ABDOMINAL_PRESSURE),
        (CURL_UP, LYING, Demand.DEEP_SPINAL_FLEXION),
        ({"kit": item(KitKind.BAND, KitUse.PULL)}, {}, Demand.GRIP),
        ({"kit": item(KitKind.MAT, KitUse.LIE_OR_SIT)}, {}, Demand.FLOOR_RISE),
        ({"kit": PUSH_UP_KIT}, {}, Demand.SHOULDER),
        (
            {"kit": item(KitKind.BOX, KitUse.STEP_ON)},
            {Demand.NEEDS_STANDING: 1, Demand.BALANCE: 1},
            Demand.NEEDS_SIGHT,
        ),
        (
            {"kit": item(KitKind.BOX, KitUse.STEP_ON)},
            {Demand.NEEDS_STANDING: 1, Demand.NEEDS_SIGHT: 1},
            Demand.BALANCE,
        ),
        ({}, {Demand.ARM_OUT_AND_BACK: 1}, Demand.SHOULDER),
    ],
)
def test_a_forgotten_demand_is_found(
    changes: dict[str, Any], demands: dict[Demand, int], forgotten: Demand
) -> None:
    assert found(**changes, demands=demands | {forgotten: 0}) == [forgotten.value]
    assert found(**changes, demands=demands | {forgotten: 1}) == []


@pytest.mark.parametrize(
    ("changes", "demands", "groundless"),
    [
        ({}, {Demand.IMPACT: 2}, "impact"),
        ({}, {Demand.ACHILLES_SPRING: 2}, "achilles_spring"),
        ({}, {Demand.GRIP: 1}, "grip"),
        ({}, LYING | {Demand.OVER_FACE: 1}, "over_face"),
        ({}, {Demand.LOADED_TWIST: 2}, "loaded_twist"),
        ({}, {Demand.DEEP_HIP_BEND: 2}, "hip"),
        ({}, {Demand.GROIN_STRETCH: 1}, "hip"),
        ({}, LYING | {Demand.ON_FRONT: 1}, "on_front"),
        ({}, LYING | {Demand.NEEDS_STANDING: 1}, "needs_standing"),
        ({"level": 1}, {Demand.BALANCE: 3}, "level"),
        ({"level": 1, "contacts_a_rep": 1}, LANDS, "level"),
    ],
)
def test_a_demand_that_nothing_asks_for_is_found(
    changes: dict[str, Any], demands: dict[Demand, int], groundless: str
) -> None:
    assert found(**changes, demands=demands) == [groundless]


@pytest.mark.parametrize(
    ("changes", "demands"),
    [
        ({}, {Demand.IMPACT: 1, Demand.ACHILLES_SPRING: 1}),
        ({"contacts_a_rep": 1}, LANDS | {Demand.ACHILLES_SPRING: 2}),
        ({"kit": item(KitKind.BAND, KitUse.PULL)}, {Demand.GRIP: 1, Demand.LOADED_TWIST: 2}),
        ({}, {Demand.DEEP_HIP_BEND: 2, Demand.HIP: 1}),
        ({}, {Demand.ON_FRONT: 1, Demand.FLOOR_RISE: 1, Demand.NEEDS_STANDING: 1}),
    ],
)
def test_a_demand_with_a_reason_stands(changes: dict[str, Any], demands: dict[Demand, int]) -> None:
    assert found(**changes, demands=demands) == []


def test_a_vertical_push_that_ends_at_shoulder_height_is_not_overhead() -> None:
    low = PLAIN.model_copy(update={"end": "Arms level, at shoulder height."})
    demands = {Demand.SHOULDER: 1}
    assert found(**RAISE, demands=demands) == ["overhead"]
    assert found(**RAISE, demands=demands, teaching=low) == []


def test_a_step_done_sitting_may_need_one_leg_only() -> None:
    step = {"pattern": Pattern.STEP, "demands": {Demand.HIP: 1}}
    assert found(**step) == []
    standing = step | {"demands": {Demand.HIP: 1, Demand.NEEDS_STANDING: 1}}
    assert found(**standing) == ["needs_both_legs"]
