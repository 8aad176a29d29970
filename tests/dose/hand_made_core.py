"""Cores put together by hand, without the maker of plans."""

from datetime import time

from roundwright.body.anatomy import Side
from roundwright.goals.class_wish import AfterLastRound, ClassFormat, Count, CountUnit
from roundwright.library.version import Step
from roundwright.plan.core import (
    Cell,
    Core,
    CoreClass,
    CoreExercise,
    PersonDose,
    Window,
    WindowKind,
)
from tests.support.builders import CLASS_DAY

BOTH, LEFT, RIGHT = Side.BOTH, Side.LEFT, Side.RIGHT
PLAN_ID = "00000000-0000-4000-8000-000000000001"


def steps(*listing):
    """Make steps from (movement, side) or (movement, side, times)."""
    return tuple(
        Step(movement_id=name, side=side, times=times[0] if times else 1)
        for name, side, *times in listing
    )


def count(value, unit="reps"):
    return Count(value=value, unit=CountUnit(unit))


def a_cell(position, exercise_id, listing, own, person_id="p001", **changes):
    values = {
        "person_id": person_id,
        "position": position,
        "exercise_id": exercise_id,
        "steps": listing,
        "count": own,
    }
    return Cell(**(values | changes))


def a_dose(person_id="p001", rounds=(1,), **changes):
    values = {
        "person_id": person_id,
        "dose_bp": 10_000,
        "rounds": rounds,
        "effort_ceiling": 8,
        "rir": 3,
    }
    return PersonDose(**(values | changes))


def a_core(cells, people, timeline=(), rounds=1, after=AfterLastRound.BURST, exercises=()):
    return Core(
        plan_id=PLAN_ID,
        revision=1,
        class_=CoreClass(
            class_id="tuesday",
            starts_on=CLASS_DAY,
            starts_at_local=time(18, 0),
            slot_s=2700,
            room_id="main",
            format=ClassFormat.TOGETHER,
            groups=(tuple(p.person_id for p in people),),
            rounds=rounds,
            positions=max((c.position for c in cells), default=0),
            after_last_round=after,
        ),
        exercises=tuple(
            CoreExercise(position=k, exercise_id=name, count=own) for k, name, own in exercises
        ),
        people=people,
        cells=cells,
        timeline=timeline,
    )


def windows(*parts):
    """Lay windows (kind, length, round) end to end."""
    at, laid = 0, []
    for kind, length, round_number in parts:
        laid.append(Window(at_s=at, length_s=length, kind=WindowKind(kind), round=round_number))
        at += length
    return tuple(laid)


WORKED_EXERCISES = (
    (1, "hinge_row_squat_press", count(8)),
    (2, "split_squats_press", count(8)),
    (3, "push_up_rows_squat", count(6)),
    (4, "one_arm_row_line", count(12, "reps_per_side")),
    (5, "step_up_line", count(10, "reps_per_side")),
)


def worked_core(jumpers=("p002",)):
    """Make the worked count's plan by hand; jumpers take the box jump, 20 on both feet."""
    people = ("p001", "p002")
    cells = []
    for person in people:
        mass = {"person_id": person, "unit_mass_g": 8000}
        four = steps(("hinge", BOTH), ("row", BOTH), ("squat", BOTH), ("press", BOTH))
        three = steps(("split_squat", LEFT), ("split_squat", RIGHT), ("press", BOTH))
        rows = steps(("push_up", BOTH), ("plank_row", LEFT), ("plank_row", RIGHT), ("squat", BOTH))
        one_arm = steps(("one_arm_row", LEFT), ("one_arm_row", RIGHT))
        cells += [
            a_cell(1, "hinge_row_squat_press", four, count(8), units=2, **mass),
            a_cell(2, "split_squats_press", three, count(8), units=2, **mass),
            a_cell(3, "push_up_rows_squat", rows, count(6), units=2, **mass),
            a_cell(4, "one_arm_row_line", one_arm, count(12, "reps_per_side"), units=1, **mass),
        ]
        if person in jumpers:
            listing, own = steps(("box_jump", BOTH)), count(20)
        else:
            listing = steps(("step_up", LEFT), ("step_up", RIGHT))
            own = count(10, "reps_per_side")
        cells.append(a_cell(5, "step_up_line", listing, own, person_id=person))
    doses = tuple(a_dose(p, rounds=(1, 2, 3), burst="skip_rope") for p in people)
    parts = [("warm_up", 300, 0), ("demonstration", 240, 0)]
    for number in (1, 2, 3):
        for length in (96, 72, 72, 60, 60):
            parts += [("work", length, number), ("change", 15, number)]
        parts += [("burst", 60, number), ("rest", 60, number)]
    parts.append(("cool_down", 300, 0))
    after = AfterLastRound.BURST_AND_REST
    return a_core(tuple(cells), doses, windows(*parts), 3, after, WORKED_EXERCISES)
