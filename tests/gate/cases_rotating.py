"""Broken plans at stations and in staggered groups: order, kit, neighbours, offsets, groups."""

from collections.abc import Callable

from roundwright.body.anatomy import Muscle
from roundwright.kit.inventory import KitItem
from roundwright.library.movement import KitNeed
from roundwright.library.vocabulary import Demand, KitKind, KitUse
from roundwright.plan.core import KitUnits
from tests.gate.broken_plans import breaks
from tests.gate.rotating_class import staggered, stations, with_offsets
from tests.gate.small_class import (
    Made,
    a_plan,
    with_cell,
    with_class,
    with_core,
    with_movement,
    with_problem,
)
from tests.support.builders import lifting, mover

BOX = (KitUnits(item_id="box", units=1),)
STEADY = KitNeed(item=KitKind.BOX, use=KitUse.SUPPORT)


@breaks("order.last_place")
def the_second_group_ends_on_one_leg() -> tuple[Made, Made]:
    one_leg = {"demands": {Demand.BALANCE: 3}}
    right = with_movement(stations(), "row", **one_leg)
    return right, with_movement(staggered(), "row", **one_leg)


@breaks("order.last_place")
def the_second_group_ends_with_16_kg_overhead() -> tuple[Made, Made]:
    return staggered(), staggered(2, (30, 30, 36, 30, 36))


@breaks("order.after_burst")
def the_second_group_begins_a_round_lying() -> tuple[Made, Made]:
    made = staggered(rest_s=29)
    rules = made.problem.rules.model_copy(update={"rest_floor_s": 20})
    made, lying = with_problem(made, rules=rules), {"demands": {Demand.ON_BACK: 1}}
    return with_movement(made, "row", **lying), with_movement(made, "hinge", **lying)


def one_box(made: Made) -> Made:
    """Let the squat be held on to a box, of which there is one."""
    made = with_movement(made, "squat", kit=(*lifting(), STEADY))
    for person_id in ("p001", "p002"):
        made = with_cell(made, person_id, 1, kit=BOX)
    box = KitItem(id="box", kind=KitKind.BOX, count=1, height=300, strength=200_000)
    kit = made.problem.kit.model_copy(update={"items": (box,)})
    return with_problem(made, kit=kit)


@breaks("kit.short")
def one_box_for_two_at_a_time() -> tuple[Made, Made]:
    return one_box(staggered()), one_box(a_plan())


@breaks("kit.short")
def dumbbells_of_two_places_at_once() -> tuple[Made, Made]:
    def eights(made: Made, count: int) -> Made:
        rack = tuple(d.model_copy(update={"count": count}) for d in made.problem.kit.dumbbells)
        return with_problem(made, kit=made.problem.kit.model_copy(update={"dumbbells": rack}))

    return eights(stations(), 4), eights(stations(), 3)


@breaks("neighbours.same_muscle")
def the_round_closes_on_the_same_muscle() -> tuple[Made, Made]:
    made = staggered()
    return made, with_movement(made, "split_squat", muscles=mover(Muscle.QUADS))


@breaks("neighbours.same_muscle")
def the_second_group_goes_from_the_burst_to_its_muscle() -> tuple[Made, Made]:
    calves = {"muscles": mover(Muscle.CALVES)}
    return with_movement(a_plan(), "hinge", **calves), with_movement(staggered(), "hinge", **calves)


@breaks("timeline.wrong")
def an_interval_as_long_as_the_first_group_takes() -> tuple[Made, Made]:
    return staggered(), staggered(3, (30, 30, 30, 30, 36))


@breaks("timeline.wrong")
def the_first_group_one_place_ahead_of_itself() -> tuple[Made, Made]:
    return staggered(), with_offsets(staggered(), 1, 4)


def _with_window(made: Made, *positions: int) -> Made:
    """Send the groups elsewhere in the third work window."""
    windows = list(made.core.timeline)
    at = [i for i, w in enumerate(windows) if w.positions][2]
    windows[at] = windows[at].model_copy(update={"positions": positions})
    return with_core(made, timeline=tuple(windows))


UNEVEN = (("p001", "p002"),)
CHANGES: dict[str, Callable[[], Made]] = {
    "both_groups_at_one_place": lambda: with_offsets(staggered(), 0, 0),
    "an_offset_that_changes": lambda: _with_window(staggered(), 3, 4),
    "a_place_that_is_none": lambda: _with_window(staggered(), 3, 6),
    "a_window_for_one_group": lambda: _with_window(staggered(), 3),
    "stations_two_apart": lambda: with_offsets(stations(), 0, 2),
    "one_staggered_group": lambda: with_class(staggered(), groups=UNEVEN),
    "one_station_for_two": lambda: with_class(stations(), groups=UNEVEN),
    "an_empty_group": lambda: with_class(staggered(), groups=(*UNEVEN, ())),
}


def _register(name: str, make: Callable[[], Made]) -> None:
    def build() -> tuple[Made, Made]:
        return (stations() if "station" in name else staggered()), make()

    build.__name__ = name
    breaks("plan.malformed")(build)


for _name, _make in CHANGES.items():
    _register(_name, _make)
