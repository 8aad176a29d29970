"""Who comes is drawn from a seed; a roster becomes one change of the plan's people."""

from statistics import mean

from roundwright.people.person import Clearance
from roundwright.plan.attendance.attendance_table import AttendanceTable
from roundwright.plan.attendance.rosters import Roster, restated_for, sampled_roster
from tests.support.plans import a_fitted_plan, the_demo_hall

TABLE = AttendanceTable()
CHANCES = {"p001": 10_000, "p002": 0, "p003": 3000, "p004": None}


def _drawn(number, table=TABLE, seed=1, purpose="telling"):
    return [
        sampled_roster(CHANCES, table, seed=seed, purpose=purpose, index=n) for n in range(number)
    ]


def test_equal_seeds_give_equal_rosters_and_the_first_of_many_are_those_of_few():
    assert _drawn(30)[:10] == _drawn(10)
    assert _drawn(30) != _drawn(30, seed=2)
    assert _drawn(30) != _drawn(30, purpose="choosing")


def test_people_come_as_often_as_is_said_of_them_and_unknown_as_the_table_has_it():
    drawn = _drawn(4000)
    came = {p: mean(p in roster.coming for roster in drawn) for p in CHANCES}
    assert (came["p001"], came["p002"]) == (1, 0)
    assert abs(came["p003"] - 0.3) < 0.03
    assert abs(came["p004"] - 0.8) < 0.03
    both = mean({"p003", "p004"} <= set(roster.coming) for roster in drawn)
    assert abs(both - 0.24) < 0.03


def test_walk_ins_have_the_mean_of_the_table_and_never_more_than_the_most():
    few = AttendanceTable(walk_ins_bp=5000, most_walk_ins=9)
    assert abs(mean(r.walk_ins for r in _drawn(4000, few)) - 0.5) < 0.05
    assert max(r.walk_ins for r in _drawn(400, AttendanceTable(walk_ins_bp=90_000))) == 4
    assert {r.walk_ins for r in _drawn(50, AttendanceTable(walk_ins_bp=0))} == {0}


def test_a_roster_takes_people_out_and_brings_walk_ins_in_and_names_them_all():
    plan = a_fitted_plan()
    stranger = plan.problem.people[plan.problem.taking_part[0]].model_copy(
        update={"clearance": Clearance.UNKNOWN}
    )
    first, *others = plan.problem.taking_part
    asked = restated_for(
        plan.problem, plan.core, Roster(tuple(others), 2), stranger, the_demo_hall().catalogue
    )
    assert asked.persons == {first, "walk_in_1", "walk_in_2"}
    assert set(asked.problem.taking_part) == {*others, "walk_in_1", "walk_in_2"}
    assert asked.problem.spec.exercises == plan.problem.spec.exercises
    assert dict(asked.came_from) == {k: k for k in range(1, plan.problem.spec.positions + 1)}
    not_today = set(plan.problem.people) - set(plan.problem.taking_part)
    assert not_today <= set(asked.problem.people)


def test_everybody_and_nobody_else_is_no_change():
    plan = a_fitted_plan()
    everybody = Roster(plan.problem.taking_part, 0)
    stranger = plan.problem.people[plan.problem.taking_part[0]]
    asked = restated_for(plan.problem, plan.core, everybody, stranger, the_demo_hall().catalogue)
    assert asked.persons == frozenset()
    assert asked.problem.people == plan.problem.people
