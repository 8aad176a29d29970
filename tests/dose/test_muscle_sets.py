"""Hard sets by role, and volume by share of the work."""

from roundwright.body.anatomy import Muscle, MuscleRole
from roundwright.dose.counting import StepReps
from roundwright.dose.muscle_sets import half_sets_of_set, muscle_volume
from roundwright.library.movement import MuscleShare
from roundwright.plan.count import count_of
from tests.dose.hand_made_core import BOTH, LEFT, RIGHT, a_core, a_dose, worked_core
from tests.support import worked_count
from tests.support.builders import a_movement

PRIME, HELPER, STABILISER = MuscleRole.PRIME_MOVER, MuscleRole.HELPER, MuscleRole.STABILISER
MOVEMENTS = {
    "press": a_movement(
        "press",
        muscles={
            Muscle.FRONT_DELTS: MuscleShare(role=PRIME, share=0.6),
            Muscle.TRICEPS: MuscleShare(role=HELPER, share=0.3),
            Muscle.ABDOMINALS: MuscleShare(role=STABILISER, share=0.1),
        },
    ),
    "dip": a_movement(
        "dip",
        muscles={
            Muscle.TRICEPS: MuscleShare(role=PRIME, share=0.75),
            Muscle.FRONT_DELTS: MuscleShare(role=HELPER, share=0.25),
        },
    ),
}


def test_prime_mover_one_helper_half_stabiliser_none():
    reps = [StepReps("press", BOTH, 8)]
    assert half_sets_of_set(reps, MOVEMENTS) == {"front_delts": 2, "triceps": 1}


def test_a_set_of_several_steps_is_one_set_at_the_greatest_role():
    reps = [StepReps("press", BOTH, 8), StepReps("dip", BOTH, 8)]
    assert half_sets_of_set(reps, MOVEMENTS) == {"front_delts": 2, "triceps": 2}


def test_both_sides_are_one_set_and_no_reps_are_none():
    sides = [StepReps("press", LEFT, 8), StepReps("press", RIGHT, 8)]
    assert half_sets_of_set(sides, MOVEMENTS) == {"front_delts": 2, "triceps": 1}
    assert half_sets_of_set([StepReps("press", BOTH, 0)], MOVEMENTS) == {}


def test_volume_is_reps_by_share_in_hundredths():
    # press 8 reps: 4.8, 2.4, 0.8; dip 4 reps: 3.0, 1.0
    reps = [StepReps("press", BOTH, 8), StepReps("dip", BOTH, 4)]
    assert muscle_volume(reps, MOVEMENTS) == {
        "front_delts": 580,
        "triceps": 540,
        "abdominals": 80,
    }


def test_the_worked_class_gives_three_sets_a_place():
    # quads: places 1, 3 and 5; lats: 1 and 4; front delts: 1 and 2 - three rounds each
    person = count_of(worked_core(), worked_count.problem()).of("p001")
    halves = person.half_sets
    assert (halves["quads"], halves["lats"], halves["front_delts"]) == (18, 12, 12)
    assert (halves["hamstrings"], halves["chest"], halves["obliques"]) == (6, 6, 6)


def test_sets_with_five_or_more_left_are_not_hard():
    core = worked_core()
    easy = a_core(core.cells, (a_dose("p001", rounds=(1, 2, 3), rir=5),), rounds=3)
    person = count_of(easy, worked_count.problem()).of("p001")
    assert person.half_sets == {}
    assert person.muscle_volume["quads"] == 100 * (24 + 18 + 60)
