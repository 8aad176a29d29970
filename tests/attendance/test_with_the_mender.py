"""With the real mending: what is said to hold does, counted apart, in all four formats."""

import pytest

from roundwright.bootstrap.mending import mending_process
from roundwright.goals.class_wish import ClassFormat
from roundwright.optimise.fit import fit
from roundwright.people.person import Clearance
from roundwright.plan.attendance.attendance_table import AttendanceTable
from roundwright.plan.attendance.holding import Ending
from roundwright.plan.attendance.rosters import restated_for
from roundwright.plan.gate.judge import judge
from roundwright.plan.outcome import Budget
from roundwright.services.judged_plan import judged_plan
from roundwright.services.steady_class import Attendance
from tests.support.random_halls import a_middling_hall

PLAN_ID = "00000000-0000-4000-8000-000000000001"
TABLE = AttendanceTable(telling=6)
FORMS = (
    ClassFormat.TOGETHER,
    ClassFormat.PAIRS,
    ClassFormat.STAGGERED,
    ClassFormat.STATIONS,
)


@pytest.fixture(scope="module")
def mender():
    with mending_process() as made:
        yield made


def _plans(form):
    """Give a few drawn classes of one format, each with somebody to spare."""
    found = 0
    for seed in range(300, 330):
        hall = a_middling_hall(seed, most_people=8)
        problem = hall.model_copy(
            update={"spec": hall.spec.model_copy(update={"format": form, "slot_s": 5400})}
        )
        if len(problem.taking_part) < 4:
            continue
        made = fit(problem, seed=1, budget=Budget.QUICK, plan_id=PLAN_ID)
        if made.core is None:
            continue
        yield judged_plan(made.core, problem, made.outcome, 1, None)
        found += 1
        if found == 3:
            return


def _attendance(plan, mender):
    first = plan.problem.people[plan.problem.taking_part[0]]
    stranger = first.model_copy(
        update={"clearance": Clearance.UNKNOWN, "level": 1, "classes_done": None}
    )
    chances = dict.fromkeys(plan.problem.taking_part, 8000)
    return Attendance(chances, stranger, plan.problem.library, mender, 1, TABLE)


def _doing(core, person):
    return {
        (c.position, c.round): (c.state, c.exercise_id, c.steps, c.count, c.unit_mass_g, c.units)
        for c in core.cells
        if c.person_id == person
    }


@pytest.mark.parametrize("form", FORMS)
def test_every_answer_passes_the_gate_and_what_holds_disturbs_few(form, mender):
    held = tried = 0
    for plan in _plans(form):
        attendance = _attendance(plan, mender)
        for roster in attendance.rosters("telling", TABLE.telling):
            asked = restated_for(
                plan.problem, plan.core, roster, attendance.stranger, attendance.library
            )
            if not asked.persons:
                continue
            tried += 1
            answer = mender.at_once(plan, asked, attendance.library)
            assert not judge(answer.core, answer.problem).is_refused
            stay = set(plan.problem.taking_part) & set(roster.coming)
            changed = {p for p in stay if _doing(plan.core, p) != _doing(answer.core, p)}
            assert len(changed) <= answer.harm.people
            ending = attendance.ending(plan, roster)
            if answer.harm.people <= 2 and not (answer.harm.left_out or answer.harm.overrun_s):
                assert ending is Ending.HELD
            held += ending is Ending.HELD
    assert tried >= 8
    assert held >= 1
