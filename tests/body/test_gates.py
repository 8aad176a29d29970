"""Every gate lets the examples through and stops what it is for."""

from dataclasses import replace

import numpy as np
import pytest

from roundwright.body.joints import INDEX
from roundwright.body.pose_faults import pose_faults
from roundwright.body.pose_merge import full_pose
from roundwright.body.solved import SolvedKey, SolvedPosture
from tests.body.examples import MAN, WOMAN, example_postures, read_one, solved, solved_text

STANDING = """
[posture.probe]
path = "hold"
touch = {{ foot = "floor" }}
{more}
[[posture.probe.key]]
name = "only"
{key}
"""


def _gates(more="", key=""):
    return {f.gate for f in pose_faults(solved_text(STANDING.format(more=more, key=key)))}


@pytest.mark.parametrize("person", [MAN, WOMAN], ids=["man", "woman"])
@pytest.mark.parametrize("slug", sorted(example_postures()))
def test_every_example_passes(slug, person):
    assert [fault.in_words() for fault in pose_faults(solved(slug, person))] == []


def test_contacts_that_cannot_be_are_told():
    faults = pose_faults(
        solved_text(
            STANDING.format(more="", key="height = { hips = 0.52 }").replace(
                'foot = "floor"', 'foot = "floor", palm = "floor", head_back = "floor"'
            )
        )
    )
    assert "contact" in {fault.gate for fault in faults}


def _tilted(dynamic):
    whole = solved("dumbbell_squat")
    key = whole.keys[0]
    q = key.q.copy()
    q[0, INDEX["root_pitch"]] += 0.35
    pose = replace(key.pose, dynamic=dynamic)
    goals = replace(key.goals, balance=not dynamic)
    placed = key.asked.skeleton.place(q)
    tilted = SolvedKey(pose, goals, key.asked, q, placed, key.cost)
    faults = pose_faults(SolvedPosture(whole.posture, whole.bodies, (tilted,)))
    return {fault.gate: fault.in_words() for fault in faults}


def test_what_would_fall_over_is_told():
    assert "the body would fall: its weight is" in _tilted(dynamic=False)["balance"]


def test_a_position_in_flight_is_not_asked_for_balance():
    assert "balance" not in _tilted(dynamic=True)


def test_words_that_disagree_are_told_with_their_names():
    faults = pose_faults(
        solved_text(STANDING.format(more="", key="knee = 90\nheight = { hips = 0.52 }"))
    )
    assert {"knee_left", "knee_right"} <= {f.part for f in faults if f.gate == "said"}
    assert "key 'only': knee_left misses what was said by" in " ".join(f.in_words() for f in faults)


def test_an_aim_and_a_place_out_of_reach_are_told():
    assert "aim" in _gates(key='lean = 0\nback = 0\nhip = 0\naim = { thigh = "level" }')
    assert "put" in _gates(key='lean = 0\nput = { hand = { by = "ankle" } }\nhip = 0\nknee = 0')


def test_beyond_the_range_and_below_the_floor_are_told():
    whole = solved("dumbbell_squat")
    key = whole.keys[0]
    q = key.q.copy()
    q[0, INDEX["elbow_left"]] = np.radians(-20)
    q[0, 2] -= 0.02
    placed = key.asked.skeleton.place(q)
    moved = SolvedKey(key.pose, key.goals, key.asked, q, placed, key.cost)
    faults = pose_faults(SolvedPosture(whole.posture, whole.bodies, (moved,)))
    gates = {fault.gate for fault in faults}
    assert {"range", "floor", "contact"} <= gates
    assert any("elbow_left is 20 degrees beyond its range" in f.in_words() for f in faults)
    assert any("below the floor" in f.in_words() for f in faults)


def test_what_touches_twice_stays_where_it_was_and_what_moves_does_not():
    squat = solved("dumbbell_squat").keys
    for point in ("heel_left", "ball_in_right"):
        assert np.linalg.norm(squat[0].point(point) - squat[1].point(point)) < 0.005
    jack = solved("jumping_jack").keys
    assert np.linalg.norm(jack[0].point("ball_in_left") - jack[1].point("ball_in_left")) > 0.2


def test_symmetry_is_kept_and_given_up():
    assert all(key.pose.is_symmetric for key in solved("goblet_squat").keys)
    assert not any(key.pose.is_symmetric for key in solved("split_squat").keys)
    key = solved("dumbbell_squat").keys[1]
    assert key.point("knee_left")[0] * [1, -1, 1] == pytest.approx(key.point("knee_right")[0])


def test_a_later_name_without_a_side_overrides_both():
    posture = read_one(STANDING.format(more="knee_left = 40", key="knee = 10"))
    assert full_pose(posture, posture.key[0]).angles == {"knee_left": 10, "knee_right": 10}
