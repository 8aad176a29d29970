"""Broken plans about a chosen pair of work and rest. The two regulars make a trained room."""

from roundwright.goals.class_wish import Pace
from roundwright.people.person import Clearance
from roundwright.plan.rule_table import WorkRest
from tests.gate.broken_plans import breaks
from tests.gate.small_class import Made, a_plan, with_person, with_spec

TRAINED = WorkRest(room="trained", work_s=45, rest_s=15)


def with_pair(pair: WorkRest = TRAINED) -> Made:
    """Let the tool have chosen a pair; the work lasts 30, 30, 30, 30, 36 s, the change 15 s."""
    return with_spec(a_plan(), work_rest=pair)


@breaks("work_rest.room")
def a_mixed_room_s_pair_for_trained_people() -> tuple[Made, Made]:
    return with_pair(), with_pair(WorkRest(room="mixed", work_s=40, rest_s=20))


@breaks("work_rest.room")
def a_trained_room_s_pair_when_a_newcomer_is_there() -> tuple[Made, Made]:
    return with_pair(), with_person(with_pair(), "p002", classes_done=3)


@breaks("work_rest.room")
def a_pair_that_is_in_no_table() -> tuple[Made, Made]:
    return with_pair(), with_pair(WorkRest(room="trained", work_s=50, rest_s=10))


@breaks("work_rest.short_change")
def a_change_below_the_rest_of_the_pair() -> tuple[Made, Made]:
    return with_pair(), with_spec(with_pair(), change_s=14)


@breaks("work_rest.longer_work")
def the_last_exercise_lasts_longer_than_the_work() -> tuple[Made, Made]:
    return with_pair(), with_pair(WorkRest(room="heavier", work_s=35, rest_s=60))


@breaks("work_rest.own_short")
def a_newcomer_in_a_coach_s_own_class_of_little_rest() -> tuple[Made, Made]:
    made = with_spec(a_plan(), pace=Pace.TIMED)
    return made, with_person(made, "p002", classes_done=3)


@breaks("work_rest.own_short")
def somebody_unknown_in_a_coach_s_own_class_of_little_rest() -> tuple[Made, Made]:
    made = with_spec(a_plan(), pace=Pace.TIMED)
    return made, with_person(made, "p001", clearance=Clearance.UNKNOWN)


@breaks("work_rest.too_little_rest")
def somebody_for_whom_only_light_work_is_allowed_has_come() -> tuple[Made, Made]:
    return with_pair(), with_person(with_pair(), "p002", clearance=Clearance.UNKNOWN)
