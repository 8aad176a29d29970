"""Plans that cannot be read as the problem's class, or whose figures are not true."""

from collections.abc import Callable

from roundwright.goals.class_wish import AfterLastRound, ClassFormat, KeptCell
from roundwright.plan.core import CellState, Handover, KitUnits
from tests.gate.broken_plans import breaks
from tests.gate.small_class import (
    Made,
    a_plan,
    steps_of,
    with_cell,
    with_class,
    with_core,
    with_dose,
    with_problem,
    with_spec,
)
from tests.support.builders import a_side, reps

HANDOVER = Handover(
    round=1, from_position=1, to_position=2, units=1, from_person="p001", to_person="p009"
)


def _more(made: Made, **changes: object) -> Made:
    """Add a cell like the first one."""
    cell = made.core.cells[0].model_copy(update=changes)
    return with_core(made, cells=(*made.core.cells, cell))


KEPT = (KeptCell(person="p001", position=3, version="row", mass_g=8000),)

CHANGES: dict[str, Callable[[Made], Made]] = {
    "chance": lambda m: with_cell(m, "p001", 1, chance_bp=9000),
    "limiter": lambda m: with_cell(m, "p001", 1, limited_by="row"),
    "no_limiter": lambda m: with_cell(m, "p001", 1, limited_by=None),
    "rir_low": lambda m: with_dose(m, "p001", rir=2),
    "rir_below_the_wish": lambda m: with_spec(m, reps_left=4),
    "rir_high": lambda m: with_dose(m, "p001", rir=4),
    "effort": lambda m: with_dose(m, "p001", effort_ceiling=9),
    "count": lambda m: with_cell(m, "p001", 1, count=reps(9)),
    "count_unit": lambda m: with_cell(m, "p001", 1, count=a_side(5)),
    "no_count": lambda m: with_cell(m, "p001", 1, count=None),
    "no_steps": lambda m: with_cell(m, "p001", 1, steps=()),
    "other_line": lambda m: with_cell(m, "p001", 1, steps=steps_of("row"), limited_by="row"),
    "unknown_movement": lambda m: with_cell(m, "p001", 1, steps=steps_of("cartwheel")),
    "sides_swapped": lambda m: with_cell(
        m, "p001", 5, steps=tuple(reversed(steps_of("split_squat", sided=True)))
    ),
    "other_exercise": lambda m: with_cell(m, "p001", 1, exercise_id="row_line"),
    "one_dumbbell": lambda m: with_cell(m, "p001", 1, units=1),
    "no_mass": lambda m: with_cell(m, "p001", 1, unit_mass_g=0),
    "needless_kit": lambda m: with_cell(m, "p001", 1, kit=(KitUnits(item_id="rope", units=1),)),
    "no_cell": lambda m: with_core(m, cells=m.core.cells[1:]),
    "two_cells": lambda m: _more(m),
    "two_cells_in_a_round": lambda m: _more(m, round=2),
    "unknown_person": lambda m: _more(m, person_id="p009"),
    "position": lambda m: _more(m, position=6),
    "round": lambda m: _more(m, round=3),
    "no_dose": lambda m: with_core(m, people=m.core.people[1:]),
    "two_doses": lambda m: with_core(m, people=(*m.core.people, m.core.people[0])),
    "dose_of_a_stranger": lambda m: with_core(
        m, people=(*m.core.people, m.core.people[0].model_copy(update={"person_id": "p009"}))
    ),
    "rounds": lambda m: with_dose(m, "p001", rounds=(1, 2, 3)),
    "no_rounds": lambda m: with_dose(m, "p001", rounds=()),
    "unknown_burst": lambda m: with_dose(m, "p001", burst="row"),
    "groups": lambda m: with_class(m, groups=(("p001",),)),
    "format": lambda m: with_class(m, format=ClassFormat.PAIRS),
    "stations": lambda m: with_class(m, format=ClassFormat.STATIONS),
    "class_id": lambda m: with_class(m, class_id="thursday"),
    "slot": lambda m: with_class(m, slot_s=3600),
    "room": lambda m: with_class(m, room_id="studio"),
    "rounds_of_class": lambda m: with_class(m, rounds=3),
    "positions_of_class": lambda m: with_class(m, positions=4),
    "after_last_round": lambda m: with_class(m, after_last_round=AfterLastRound.NOTHING),
    "exercises": lambda m: with_core(m, exercises=m.core.exercises[1:]),
    "handover": lambda m: with_core(m, handovers=(HANDOVER,)),
    "not_a_substitute": lambda m: with_cell(
        m, "p001", 1, state=CellState.SUBSTITUTE, exercise_id="row_line"
    ),
    "sit_out_with_work": lambda m: with_cell(m, "p001", 1, state=CellState.SIT_OUT),
}


def _register(name: str, change: Callable[[Made], Made]) -> None:
    def build() -> tuple[Made, Made]:
        return a_plan(), change(a_plan())

    build.__name__ = name
    breaks("plan.malformed")(build)


for _name, _change in CHANGES.items():
    _register(_name, _change)


@breaks("plan.malformed")
def a_kept_version_changed() -> tuple[Made, Made]:
    kept = with_cell(with_spec(a_plan(), keep=KEPT), "p001", 3, kept=True)
    other = (KEPT[0].model_copy(update={"version": "hinge"}),)
    return kept, with_spec(kept, keep=other)


@breaks("plan.malformed")
def a_kept_mass_changed() -> tuple[Made, Made]:
    kept = with_cell(with_spec(a_plan(), keep=KEPT), "p001", 3, kept=True)
    return kept, with_spec(kept, keep=(KEPT[0].model_copy(update={"mass_g": 10_000}),))


RESTS = (KeptCell(person="p001", position=3, rests=True),)
INSTEAD = (KeptCell(person="p001", position=1, instead="row_line"),)


def _resting(kept: bool) -> Made:
    """Give the small class in which one of the two is to have nothing to do at a place."""
    made = with_spec(a_plan(), keep=RESTS)
    return with_cell(
        made,
        "p001",
        3,
        state=CellState.SIT_OUT,
        exercise_id=None,
        steps=(),
        count=None,
        unit_mass_g=0,
        units=0,
        limited_by=None,
        kept=kept,
    )


def _rowing(**changes: object) -> Made:
    """Give the small class in which one of the two rows at the squat, as the coach said."""
    made = with_spec(a_plan(), keep=INSTEAD)
    said: dict[str, object] = {
        "state": CellState.SUBSTITUTE,
        "exercise_id": "row_line",
        "steps": steps_of("row"),
        "limited_by": "row",
        "kept": True,
    }
    return with_cell(made, "p001", 1, **(said | changes))


@breaks("plan.malformed")
def somebody_works_who_was_to_rest() -> tuple[Made, Made]:
    return _resting(kept=True), with_cell(with_spec(a_plan(), keep=RESTS), "p001", 3, kept=True)


@breaks("plan.malformed")
def a_rest_that_does_not_say_that_it_was_asked_for() -> tuple[Made, Made]:
    return _resting(kept=True), _resting(kept=False)


@breaks("plan.malformed")
def the_exercise_of_the_class_where_another_was_asked_for() -> tuple[Made, Made]:
    asked_for = with_cell(with_spec(a_plan(), keep=INSTEAD), "p001", 1, kept=True)
    return _rowing(), asked_for


@breaks("plan.malformed")
def another_exercise_that_does_not_say_that_it_was_asked_for() -> tuple[Made, Made]:
    return _rowing(), _rowing(kept=False)


@breaks("sit_out")
def a_lock_that_is_not_held_and_rests() -> tuple[Made, Made]:
    kept = with_cell(with_spec(a_plan(), keep=KEPT), "p001", 3, kept=True)
    return kept, with_spec(_resting(kept=False), keep=KEPT)


@breaks("substitute.asks")
def another_exercise_without_the_coachs_yes() -> tuple[Made, Made]:
    lines = ("row_line",)
    return _rowing(), with_problem(with_spec(_rowing(), keep=()), substitutes=lines)
