"""Which demands an entry must name, because something else in it asks for them.

A limitation caps demands, so a demand that was forgotten counts as 0 and lets
the movement through to somebody who should not do it.
"""

import re
from collections.abc import Callable

from roundwright.library.movement import Movement
from roundwright.library.movement_says import Found, lacks, says
from roundwright.library.vocabulary import Demand, KitKind, KitUse, Pattern

JOINTS: dict[Pattern, tuple[Demand, ...]] = {
    Pattern.SQUAT: (Demand.KNEE,),
    Pattern.HINGE: (Demand.HIP,),
    Pattern.LUNGE: (Demand.KNEE,),
    Pattern.STEP: (Demand.HIP,),
    Pattern.JUMP: (Demand.NEEDS_BOTH_LEGS,),
    Pattern.HORIZONTAL_PUSH: (Demand.SHOULDER,),
    Pattern.VERTICAL_PUSH: (Demand.SHOULDER,),
    Pattern.HORIZONTAL_PULL: (Demand.SHOULDER,),
    Pattern.VERTICAL_PULL: (Demand.SHOULDER,),
    Pattern.ELBOW_FLEXION: (Demand.ELBOW,),
    Pattern.ELBOW_EXTENSION: (Demand.ELBOW,),
    Pattern.TRUNK_EXTENSION: (Demand.LOW_BACK,),
}
"""What a pattern asks at least a low degree of. Common practice, no source."""

ENDS_LOW = re.compile(r"\bshoulder height\b")
"""How the end of a vertical push says that the hands stay below the head."""

OF_LANDING = (
    Demand.IMPACT,
    Demand.NEEDS_STANDING,
    Demand.VIGOROUS,
    Demand.KNEE,
    Demand.ANKLE,
)
ON_BOTH_LEGS = (Pattern.LUNGE, Pattern.STEP)
LIFTED_OVER_THE_FACE = (Pattern.HORIZONTAL_PUSH, Pattern.ELBOW_EXTENSION, Pattern.VERTICAL_PULL)
BRACED = (Pattern.SQUAT, Pattern.HINGE, Pattern.CARRY)


def landings_are_demands(movement: Movement) -> Found:
    """Require shock, standing, vigour, knee and ankle of landings, and a landing of a jump."""
    kinds = {
        "there are foot contacts": movement.contacts_a_rep > 0,
        "there are low hops": movement.low_hops_a_rep > 0,
        "it is a jump": movement.pattern is Pattern.JUMP,
        "a box is jumped on": any(need.use is KitUse.JUMP_ON for need in movement.kit),
    }
    because = next((words for words, holds in kinds.items() if holds), None)
    if because:
        for demand in OF_LANDING:
            yield from lacks(movement, demand, because)
    if movement.pattern is Pattern.JUMP and movement.contacts_a_rep == 0:
        yield says(movement, ("contacts_a_rep",), 0, "1 or more, because it is a jump")


def pattern_is_a_demand(movement: Movement) -> Found:
    """Require the joints and legs that a pattern is about, and overhead of a press overhead.

    A vertical push whose end stays at or below shoulder height is not overhead.
    """
    because = f"it is a {movement.pattern.value}"
    for demand in JOINTS.get(movement.pattern, ()):
        yield from lacks(movement, demand, because)
    if movement.pattern in ON_BOTH_LEGS and movement.demand(Demand.NEEDS_STANDING):
        yield from lacks(movement, Demand.NEEDS_BOTH_LEGS, f"{because}, done standing")
    if movement.pattern is Pattern.VERTICAL_PUSH:
        ends_low = ENDS_LOW.search(movement.teaching.end.casefold())
        if not ends_low:
            yield from lacks(movement, Demand.OVERHEAD, f"{because} that ends above the shoulders")


def kit_is_a_demand(movement: Movement) -> Found:
    """Require grip, arms, sight and balance of kit that is held, leaned or stepped on."""
    if movement.dumbbells_lifted:
        yield from lacks(movement, Demand.GRIP, "a dumbbell is lifted")
    if movement.dumbbells_lifted == 2:
        yield from lacks(movement, Demand.NEEDS_BOTH_ARMS, "two dumbbells are lifted")
    for need in movement.kit:
        if need.item in (KitKind.BAND, KitKind.ROPE):
            yield from lacks(movement, Demand.GRIP, f"a {need.item.value} is held")
        leaned_on = need.use is KitUse.UNDER_HANDS and movement.pattern is not Pattern.MOBILITY
        if leaned_on:
            yield from lacks(movement, Demand.SHOULDER, "weight is on the hands")
        steps = need.use in (KitUse.STEP_ON, KitUse.JUMP_ON)
        if steps and movement.demand(Demand.NEEDS_STANDING):
            because = f"a {need.item.value} is stepped on"
            yield from lacks(movement, Demand.NEEDS_SIGHT, because)
            yield from lacks(movement, Demand.BALANCE, because)


def floor_is_a_demand(movement: Movement) -> Found:
    """Require getting up from the floor of lying or head low on it, unless on a bench."""
    on_bench = any(
        need.item is KitKind.BENCH and need.use is KitUse.LIE_OR_SIT for need in movement.kit
    )
    for demand in (Demand.ON_BACK, Demand.ON_FRONT, Demand.HEAD_LOW):
        if movement.demand(demand) and not on_bench:
            because = f"{demand.value} is {movement.demand(demand)}"
            yield from lacks(movement, Demand.FLOOR_RISE, because)
    on_mat = any(
        need.item is KitKind.MAT and need.use is KitUse.LIE_OR_SIT for need in movement.kit
    )
    if on_mat:
        yield from lacks(movement, Demand.FLOOR_RISE, "it is done on a mat")


def arms_up_or_out_is_a_demand(movement: Movement) -> Found:
    """Require the shoulder of arms overhead, or out and back."""
    for demand in (Demand.OVERHEAD, Demand.ARM_OUT_AND_BACK):
        if movement.demand(demand):
            because = f"{demand.value} is {movement.demand(demand)}"
            yield from lacks(movement, Demand.SHOULDER, because)


def load_is_a_demand(movement: Movement) -> Found:
    """Require over_face of what is lifted lying, and bracing of loaded squats and the like."""
    if not movement.dumbbells_lifted:
        return
    if movement.demand(Demand.ON_BACK) and movement.pattern in LIFTED_OVER_THE_FACE:
        yield from lacks(movement, Demand.OVER_FACE, "dumbbells are lifted lying on the back")
    if movement.demand(Demand.NEEDS_STANDING) and movement.pattern in BRACED:
        because = "dumbbells are lifted standing"
        yield from lacks(movement, Demand.ABDOMINAL_PRESSURE, because)


def curling_up_is_a_demand(movement: Movement) -> Found:
    """Require deep bending of the spine of trunk flexion on the back: osteoporosis caps it."""
    if movement.pattern is Pattern.TRUNK_FLEXION and movement.demand(Demand.ON_BACK):
        because = "it is a trunk_flexion on the back"
        yield from lacks(movement, Demand.DEEP_SPINAL_FLEXION, because)


RULES: tuple[Callable[[Movement], Found], ...] = (
    landings_are_demands,
    pattern_is_a_demand,
    kit_is_a_demand,
    floor_is_a_demand,
    arms_up_or_out_is_a_demand,
    load_is_a_demand,
    curling_up_is_a_demand,
)
