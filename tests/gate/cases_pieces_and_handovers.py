"""Broken plans about warm-up and cool-down pieces, kit that changes hands, and being late."""

from collections.abc import Callable
from dataclasses import replace
from typing import Any

from roundwright.library.line import StepCriteria
from roundwright.library.movement import KitNeed
from roundwright.library.vocabulary import Demand, KitKind, KitUse
from roundwright.people.person import Clearance
from roundwright.plan.core import Handover, Piece, PieceKind
from roundwright.plan.document import ChanceOnTime, Facts
from tests.gate.broken_plans import breaks
from tests.gate.cases_class import stands_in, with_jumps
from tests.gate.cases_kit_and_load import with_item
from tests.gate.cases_people import with_newcomer
from tests.gate.rotating_class import staggered
from tests.gate.small_class import (
    Made,
    a_plan,
    steps_of,
    with_cell,
    with_core,
    with_line,
    with_movement,
    with_person,
    with_problem,
    with_spec,
)

BOTH = ("p001", "p002")


def a_piece(**changes: Any) -> Piece:
    """Make a minute of bridges in the warm-up for both."""
    values: dict[str, Any] = {
        "kind": PieceKind.WARM_UP,
        "line_id": "bridge_line",
        "length_s": 60,
        "why": "pattern",
        "versions": dict.fromkeys(BOTH, "bridge"),
    }
    return Piece(**(values | changes))


def with_piece(made: Made, **changes: Any) -> Made:
    """Add a piece to a plan."""
    return with_core(made, pieces=(*made.core.pieces, a_piece(**changes)))


@breaks("pieces.forbidden")
def a_demand_above_a_cap_in_the_warm_up() -> tuple[Made, Made]:
    made = with_movement(with_piece(a_plan()), "bridge", demands={Demand.ON_BACK: 1})
    return made, with_person(made, "p001", caps={Demand.ON_BACK: 0})


@breaks("pieces.forbidden")
def too_vigorous_a_piece_for_a_walk_in() -> tuple[Made, Made]:
    made = with_movement(with_piece(a_plan()), "bridge", demands={Demand.HEAD_LOW: 2})
    light = with_newcomer(clearance=Clearance.UNKNOWN)
    return made, with_core(with_problem(made, people=light.problem.people), pieces=made.core.pieces)


@breaks("pieces.forbidden")
def a_level_above_two() -> tuple[Made, Made]:
    made = with_piece(a_plan())
    return made, with_movement(made, "bridge", level=3)


@breaks("pieces.forbidden")
def dumbbells_in_the_warm_up() -> tuple[Made, Made]:
    right = with_piece(a_plan(), line_id="squat_line", versions={"p001": "air_squat"})
    return right, with_piece(a_plan(), line_id="squat_line", versions={"p001": "squat"})


@breaks("pieces.forbidden")
def a_landing_for_somebody_who_does_not_jump() -> tuple[Made, Made]:
    made = with_movement(with_jumps(7), "bridge", contacts_a_rep=1)
    right = with_piece(made, why="landing", versions={"p001": "bridge"})
    return right, with_piece(made, why="landing", versions={"p002": "bridge"})


@breaks("pieces.forbidden")
def a_jump_that_is_no_landing_practice() -> tuple[Made, Made]:
    made = with_movement(with_jumps(7), "bridge", contacts_a_rep=1)
    versions = {"p001": "bridge"}
    return with_piece(made, why="landing", versions=versions), with_piece(made, versions=versions)


@breaks("pieces.forbidden")
def a_piece_that_is_ruled_out() -> tuple[Made, Made]:
    made = with_piece(a_plan())
    return made, with_spec(made, ban=("bridge",))


@breaks("pieces.forbidden")
def a_line_that_is_ruled_out() -> tuple[Made, Made]:
    made = with_piece(a_plan())
    return made, with_spec(made, ban=("bridge_line",))


@breaks("pieces.forbidden")
def a_rope_in_the_warm_up_of_a_first_class() -> tuple[Made, Made]:
    made = with_newcomer()
    pulse = {"line_id": "burst_line", "why": "pulse"}
    right = with_piece(made, versions={"p001": "skip", "p002": "march"}, **pulse)
    return right, with_piece(made, versions={"p001": "skip", "p002": "skip"}, **pulse)


@breaks("pieces.forbidden")
def a_step_that_is_too_high_for_the_hall() -> tuple[Made, Made]:
    step = KitNeed(item=KitKind.BOX, use=KitUse.STEP_ON, min_height=300)
    high = step.model_copy(update={"min_height": 301})
    made = with_piece(a_plan())
    return with_movement(made, "bridge", kit=(step,)), with_movement(made, "bridge", kit=(high,))


@breaks("kit.short")
def one_box_in_the_warm_up_for_two() -> tuple[Made, Made]:
    step = KitNeed(item=KitKind.BOX, use=KitUse.STEP_ON)
    made = with_movement(with_piece(a_plan()), "bridge", kit=(step,))
    return with_item(made, "box", count=2), with_item(made, "box", count=1)


@breaks("contacts.over_limit")
def landing_practice_that_makes_one_landing_too_many() -> tuple[Made, Made]:
    # 2 rounds of 7 and 5 practised are 19; 2 of 8 and 5 are 21, of 20
    practice = {"line_id": "bridge_line", "why": "landing", "versions": {"p001": "bridge"}}

    def made(count: int) -> Made:
        return with_movement(with_piece(with_jumps(count), **practice), "bridge", contacts_a_rep=1)

    return made(7), made(8)


@breaks("pieces.too_long")
def a_warm_up_a_second_longer_than_its_time() -> tuple[Made, Made]:
    first = with_piece(a_plan(), length_s=200)
    return with_piece(first, length_s=100), with_piece(first, length_s=101)


@breaks("pieces.too_long")
def a_cool_down_a_second_longer_than_its_time() -> tuple[Made, Made]:
    end = {"kind": PieceKind.COOL_DOWN, "why": "floor"}
    return with_piece(a_plan(), length_s=300, **end), with_piece(a_plan(), length_s=301, **end)


@breaks("criteria.not_met")
def a_piece_shown_early() -> tuple[Made, Made]:
    made = with_piece(a_plan())
    after = (StepCriteria(to="bridge", min_classes=30),)
    early = (StepCriteria(to="bridge", min_classes=31),)
    return with_line(made, "bridge_line", steps=after), with_line(made, "bridge_line", steps=early)


MALFORMED: dict[str, dict[str, Any]] = {
    "a_piece_of_no_line": {"line_id": "cartwheels"},
    "a_combination_as_a_piece": {"line_id": "first_pair"},
    "a_version_of_another_line": {"versions": {"p001": "row"}},
    "a_version_that_is_none": {"versions": {"p001": "cartwheel"}},
    "a_piece_for_a_stranger": {"versions": {"p009": "bridge"}},
    "a_pulse_in_the_cool_down": {"why": "pulse", "kind": PieceKind.COOL_DOWN},
    "a_walk_in_the_warm_up": {"why": "walk"},
}


def _register(name: str, changes: dict[str, Any]) -> None:
    def build() -> tuple[Made, Made]:
        return with_piece(a_plan()), with_piece(a_plan(), **changes)

    build.__name__ = name
    breaks("plan.malformed")(build)


for _name, _changes in MALFORMED.items():
    _register(_name, _changes)


@breaks("clearance.not_cleared")
def a_piece_for_somebody_who_should_see_a_doctor_first() -> tuple[Made, Made]:
    made = with_piece(a_plan())
    refused = made.problem.people["p001"].model_copy(update={"clearance": Clearance.NOT_CLEARED})
    return made, with_piece(
        with_problem(a_plan(), people=made.problem.people | {"p003": refused}),
        versions={"p003": "bridge"},
    )


def passed_on() -> Made:
    """Let p001 be free of dumbbells from the second place on, and p002 want them there."""
    made = stands_in(a_plan(), "p001", 2)
    bare = {"unit_mass_g": 0, "units": 0, "limited_by": None}
    return with_cell(made, "p002", 1, steps=steps_of("air_squat"), **bare)


def handed(made: Made, **changes: Any) -> Made:
    """Let p001 hand two dumbbells of 8 kg to p002 between first and second place."""
    values: dict[str, Any] = {
        "round": 1,
        "from_position": 1,
        "to_position": 2,
        "unit_mass_g": 8000,
        "units": 2,
        "from_person": "p001",
        "to_person": "p002",
    }
    handover = Handover(**(values | changes))
    return with_core(made, handovers=(*made.core.handovers, handover))


HANDOVERS: dict[str, tuple[str, Callable[[], Made]]] = {
    "more_than_are_held": ("handovers.not_held", lambda: handed(passed_on(), units=3)),
    "the_same_twice": ("handovers.not_held", lambda: handed(handed(passed_on()))),
    "dumbbells_of_another_mass": (
        "handovers.not_held",
        lambda: handed(passed_on(), unit_mass_g=6000),
    ),
    "an_item_nobody_holds": ("handovers.not_held", lambda: handed(passed_on(), item_id="box")),
    "a_round_that_is_none": ("handovers.not_held", lambda: handed(passed_on(), round=3)),
    "still_in_use": ("handovers.wrong", lambda: handed(a_plan())),
    "to_somebody_who_has_some": (
        "handovers.wrong",
        lambda: handed(stands_in(a_plan(), "p001", 2)),
    ),
    "backwards": (
        "handovers.wrong",
        lambda: handed(passed_on(), from_position=2, to_position=1),
    ),
    "over_a_place": ("handovers.wrong", lambda: handed(passed_on(), to_position=3)),
    "to_no_place": ("handovers.wrong", lambda: handed(passed_on(), to_position=6)),
    "of_nothing": ("handovers.wrong", lambda: handed(passed_on(), units=0)),
}


def _register_handover(name: str, rule: str, make: Callable[[], Made]) -> None:
    def build() -> tuple[Made, Made]:
        return handed(passed_on()), make()

    build.__name__ = name
    breaks(rule)(build)


for _name, (_rule, _make) in HANDOVERS.items():
    _register_handover(_name, _rule, _make)


@breaks("handovers.wrong")
def between_groups_that_are_three_places_apart() -> tuple[Made, Made]:
    # after the third interval p001 goes from place 3 to 4 and p002 from 1 to 2
    made = stands_in(stands_in(staggered(), "p001", 4), "p002", 1)
    right = handed(made, from_position=3, to_position=2)
    return right, handed(made, from_position=3, to_position=4)


def with_chance(made: Made, chance_bp: int) -> Made:
    """Let the class have been played through: in time so often."""
    played = ChanceOnTime(chance_bp=chance_bp, seed=1, plays=2000)
    return replace(made, facts=Facts(chance_on_time=played))


@breaks("slot.chance")
def too_seldom_in_time() -> tuple[Made, Made]:
    return with_chance(a_plan(), 9000), with_chance(a_plan(), 8999)
