"""The worked count of the contracts, every figure of it."""

import pytest

from roundwright.foundation.errors import BadInputError
from roundwright.plan.count import count_of
from roundwright.plan.facts import facts_of
from tests.dose.hand_made_core import worked_core
from tests.support import worked_count


@pytest.fixture(scope="module")
def counted():
    return count_of(worked_core(), worked_count.problem())


def _totals(person):
    return {m.movement_id: m.total for m in person.movements}


def test_the_reps_of_each_component_movement(counted):
    assert _totals(counted.of("p001")) == {
        "hinge": 24,
        "row": 24,
        "squat": 42,
        "press": 48,
        "split_squat": 48,
        "push_up": 18,
        "plank_row": 36,
        "one_arm_row": 72,
        "step_up": 60,
    }


def test_split_squats_are_24_a_side(counted):
    split = next(m for m in counted.of("p001").movements if m.movement_id == "split_squat")
    assert (split.left, split.right, split.both) == (24, 24, 0)


def test_the_box_jump_keeps_the_total_of_60_and_lands_60_times(counted):
    jumper = counted.of("p002")
    assert _totals(jumper)["box_jump"] == 60
    assert "step_up" not in _totals(jumper)
    assert jumper.contacts == 60
    assert counted.of("p001").contacts == 0


def test_low_hops_are_360_and_stand_apart(counted):
    assert [p.low_hops for p in counted.people] == [360, 360]


def test_windows_round_and_class(counted):
    assert [r.work_s for r in counted.rounds] == [(96, 72, 72, 60, 60)] * 3
    assert [r.total_s for r in counted.rounds] == [555] * 3
    assert counted.total_s == 2505


def test_the_first_exercise_lifts_1536_kg_with_two_eights(counted):
    lifted = {place.position: place.tonnage_g for place in counted.of("p001").by_place}
    # 3 rounds x 8 passes x 4 movements x 16 kg
    assert lifted[1] == 1_536_000
    # 3 x 8 x 3 x 16 kg; push-ups lift none and a plank row one: 3 x 6 x (8 + 8 + 16) kg
    assert lifted[2] == 1_152_000
    assert lifted[3] == 576_000
    # 3 x 24 x 8 kg; the step-up none
    assert lifted[4] == 576_000
    assert lifted[5] == 0


def test_the_facts_say_the_same(counted):
    facts = facts_of(worked_core(), worked_count.problem())
    assert facts.total_s == 2505
    by_person = {p.person_id: p for p in facts.people}
    assert by_person["p001"].reps_by_movement == _totals(counted.of("p001"))
    assert by_person["p002"].contacts == 60
    assert by_person["p001"].tonnage_g == counted.of("p001").tonnage_g == 3_840_000


def test_a_plan_that_names_an_unknown_movement_is_bad_input():
    core = worked_core()
    step = core.cells[0].steps[0].model_copy(update={"movement_id": "moon_walk"})
    cell = core.cells[0].model_copy(update={"steps": (step,)})
    broken = core.model_copy(update={"cells": (cell, *core.cells[1:])})
    with pytest.raises(BadInputError) as caught:
        count_of(broken, worked_count.problem())
    assert [f.value for f in caught.value.faults] == ["moon_walk"]


def test_the_whole_class_at_full_dose_with_easiest_and_hardest_versions(counted):
    easiest, hardest = counted.full_dose
    assert (easiest.versions, hardest.versions) == ("easiest", "hardest")
    easy = {m.movement_id: m.total for m in easiest.movements}
    hard = {m.movement_id: m.total for m in hardest.movements}
    assert easy == _totals(counted.of("p001"))
    assert hard == _totals(counted.of("p002"))
    assert (easiest.contacts, hardest.contacts) == (0, 60)
    assert easiest.low_hops == hardest.low_hops == 360
