"""Which demands an entry may not name without something in it that asks for them.

A demand too many keeps a version from people who could do it.
"""

from collections.abc import Callable

from roundwright.library.movement import Movement
from roundwright.library.movement_says import Found, says, without_reason
from roundwright.library.vocabulary import Demand, KitKind, KitUse, Pattern

GRIPPED = (KitKind.DUMBBELL, KitKind.BAND, KitKind.ROPE, KitKind.OTHER)
LOADING = (KitUse.LIFT, KitUse.PULL)
TWISTING = (Pattern.TRUNK_ROTATION, Pattern.TRUNK_ANTI_ROTATION)


def _lands(movement: Movement) -> bool:
    return movement.contacts_a_rep + movement.low_hops_a_rep > 0


def shock_has_a_reason(movement: Movement) -> Found:
    """Require landings of clear impact or Achilles spring, and of any one-foot landing."""
    if _lands(movement) or movement.pattern is Pattern.JUMP:
        return
    for demand, allowed in (
        (Demand.IMPACT, 1),
        (Demand.ONE_FOOT_LANDING, 0),
        (Demand.ACHILLES_SPRING, 1),
    ):
        if movement.demand(demand) > allowed:
            expected = "contacts_a_rep or low_hops_a_rep above 0, or no such demand"
            yield without_reason(movement, demand, expected)


def grip_has_a_reason(movement: Movement) -> Found:
    """Require kit to hold where grip is a demand."""
    if movement.demand(Demand.GRIP) and not any(n.item in GRIPPED for n in movement.kit):
        expected = f"kit of {', '.join(kind.value for kind in GRIPPED)}, or no grip"
        yield without_reason(movement, Demand.GRIP, expected)


def over_face_has_a_reason(movement: Movement) -> Found:
    """Require a load, and the back or the head under it, where something is over the face."""
    if not movement.demand(Demand.OVER_FACE):
        return
    loaded = any(need.use in LOADING for need in movement.kit)
    under = movement.demand(Demand.ON_BACK) or movement.demand(Demand.OVERHEAD)
    if not loaded or not under:
        expected = "something lifted or pulled, with on_back or overhead, or no over_face"
        yield without_reason(movement, Demand.OVER_FACE, expected)


def twist_has_a_reason(movement: Movement) -> Found:
    """Require a load, or a pattern about turning, of a clear loaded twist."""
    loaded = any(need.use in LOADING for need in movement.kit)
    if movement.demand(Demand.LOADED_TWIST) >= 2 and not (loaded or movement.pattern in TWISTING):
        expected = "something lifted or pulled, or at most 1"
        yield without_reason(movement, Demand.LOADED_TWIST, expected)


def hip_has_its_part(movement: Movement) -> Found:
    """Require the hip beside a clear deep bend of it or a stretch of the groin."""
    for demand, allowed in ((Demand.DEEP_HIP_BEND, 1), (Demand.GROIN_STRETCH, 0)):
        if movement.demand(demand) > allowed and not movement.demand(Demand.HIP):
            expected = f"hip 1 or more, because {demand.value} is {movement.demand(demand)}"
            yield says(movement, ("demands", Demand.HIP.value), 0, expected)


def one_posture_at_a_time(movement: Movement) -> Found:
    """Require that nobody lies on back and front at once, or stands while on the back."""
    if not movement.demand(Demand.ON_BACK):
        return
    for other in (Demand.ON_FRONT, Demand.NEEDS_STANDING):
        if movement.demand(other):
            expected = f"no {other.value}, because on_back is {movement.demand(Demand.ON_BACK)}"
            yield without_reason(movement, other, expected)


def first_classes_are_mild(movement: Movement) -> Found:
    """Require of level 1 no high demand and no landing."""
    if movement.level > 1:
        return
    if _lands(movement):
        yield says(movement, ("level",), 1, "level 2 or more, because there are landings")
    for demand, degree in movement.demands.items():
        if degree >= 3:
            expected = f"level 2 or more, because {demand.value} is {degree}"
            yield says(movement, ("level",), 1, expected)


RULES: tuple[Callable[[Movement], Found], ...] = (
    shock_has_a_reason,
    grip_has_a_reason,
    over_face_has_a_reason,
    twist_has_a_reason,
    hip_has_its_part,
    one_posture_at_a_time,
    first_classes_are_mild,
)
