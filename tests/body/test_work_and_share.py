"""Work is potential energy, and the joints do it: by virtual work along solved in-betweens."""

from dataclasses import replace

import numpy as np
import pytest

from roundwright.body.in_betweens import transition
from roundwright.body.segment_table import GRAVITY_M_S2
from roundwright.body.skeleton import FRAME_INDEX
from roundwright.body.statics import JOINTS, HeldPosition
from roundwright.body.work import body_centre, lift_work, rep_path
from tests.body.examples import MAN, solved, solved_text

ARM_RAISE = """
[posture.probe]
hold = "each"
touch = { foot = "floor" }
lean = 0
hip = 2
knee = 3
back = 0
head = 0
shrug = 0
reach = 0
elbow = 5
shoulder = 0
shoulder_turn = 0
forearm = 10
wrist = 0
[[posture.probe.key]]
name = "down"
shoulder_out = 12
[[posture.probe.key]]
name = "level"
shoulder_out = 88
"""
BOW = """
[posture.probe]
lift = "POINT"
touch = { foot = "floor" }
[[posture.probe.key]]
name = "tall"
lean = 2
knee = 4
shoulder = 0
[[posture.probe.key]]
name = "bowed"
lean = 70
knee = 30
shoulder = ARMS
"""
CURL = """
[posture.probe]
hold = "each"
touch = { foot = "floor" }
lean = 0
knee = 3
hip = 2
back = 0
head = 0
shoulder = 0
shoulder_out = 5
shoulder_turn = 0
forearm = -80
wrist = 0
[[posture.probe.key]]
name = "long"
elbow = 10
[[posture.probe.key]]
name = "bent"
elbow = 120
"""


@pytest.mark.parametrize(("text", "load"), [(ARM_RAISE, 0.05), (CURL, 0.1)], ids=["raise", "curl"])
def test_the_joints_do_the_work_that_the_bodies_rise_needs(text, load):
    """Sum over joints of moment × turning equals the gain in potential energy within 3 per cent."""
    whole = solved_text(text)
    way = transition(whole, 0, 1)
    frames = way.frames
    held = [HeldPosition(whole.keys[0], 0).held(load)]
    held += [HeldPosition(way.between, i).held(load) for i in range(len(way.between.q))]
    held.append(HeldPosition(whole.keys[1], 0).held(load))
    work = 0.0
    for joint in JOINTS:
        if joint.split("_")[0] not in ("shoulder", "elbow"):
            continue
        frame = {"shoulder": "upper_arm", "elbow": "forearm"}[joint.split("_")[0]]
        side = joint.split("_")[1]
        start = frames.turns[:, FRAME_INDEX[f"{frame}_{side}"]]
        root = frames.turns[
            :, FRAME_INDEX["chest" if frame == "upper_arm" else f"upper_arm_{side}"]
        ]
        relative = np.swapaxes(root, 1, 2) @ start
        for i in range(len(relative) - 1):
            change = relative[i].T @ relative[i + 1]
            angle = np.arccos(np.clip((np.trace(change) - 1) / 2, -1, 1))
            # single-axis joints in these two movements: the size of the moment about the bend
            work += angle * (held[i].total[joint] + held[i + 1].total[joint]) / 2
    rise = body_centre(whole.keys[1], 0)[2] - body_centre(whole.keys[0], 0)[2]
    grips = sum(
        whole.keys[1].point(f"grip_{s}")[0][2] - whole.keys[0].point(f"grip_{s}")[0][2]
        for s in ("left", "right")
    )
    assert work == pytest.approx(rise + load * grips, rel=0.03)


def test_work_of_a_rep_is_the_rise_of_body_and_load():
    squat = solved("dumbbell_squat")
    work = lift_work(squat, 0)
    rise = body_centre(squat.keys[0], 0)[2] - body_centre(squat.keys[1], 0)[2]
    grip = squat.keys[0].point("grip_left")[0][2] - squat.keys[1].point("grip_left")[0][2]
    assert work.body_rise_m == pytest.approx(rise)
    assert work.load_rise_m == pytest.approx(2 * grip)
    assert work.joules(70, 8) == pytest.approx(GRAVITY_M_S2 * (70 * rise + 8 * 2 * grip))


def test_shares_of_body_weight_are_of_the_right_size():
    assert lift_work(solved("regular"), 0).lifted_share == pytest.approx(0.68, abs=0.06)
    squat = lift_work(solved("dumbbell_squat"), 0).lifted_share
    assert squat is not None
    assert 0.65 < squat < 0.89  # less than all but shanks and feet: thighs rise only by a part
    step = lift_work(solved("step_up"), 0).lifted_share
    assert step is not None
    assert 0.8 < step < 0.95
    press = lift_work(solved("seated_dumbbell_press"), 0).lifted_share
    assert press is not None
    assert 0.03 < press < 0.1  # the arms
    assert lift_work(solved("dead_bug"), 0).lifted_share is None


def test_where_nothing_is_lifted_no_share_is_given():
    whole = solved("dumbbell_squat")
    none = replace(whole, posture=whole.posture.model_copy(update={"lift": "none"}))
    work, usual = lift_work(none, 0), lift_work(whole, 0)
    assert (work.lifted_share, work.lift_rise_m) == (None, 0.0)
    assert (work.body_rise_m, work.load_rise_m) == (usual.body_rise_m, usual.load_rise_m)


@pytest.mark.parametrize(
    ("point", "arms", "sign"), [("hips", 60, 1), ("grip_left", 175, -1)], ids=["above 1", "below 0"]
)
def test_a_share_outside_0_and_1_is_refused(point, arms, sign):
    whole = solved_text(BOW.replace("POINT", point).replace("ARMS", str(arms)))
    tall, bowed = whole.keys
    rise = tall.point(point)[0][2] - bowed.point(point)[0][2]
    share = (body_centre(tall, 0)[2] - body_centre(bowed, 0)[2]) / rise
    assert abs(rise) > 0.02
    assert sign * share > (1 if sign > 0 else 0)
    assert lift_work(whole, 0).lifted_share is None


def test_a_rep_runs_as_its_path_says():
    assert rep_path(solved("chair_sit_to_stand", MAN)) == [0, 1, 2, 1, 0]
    assert rep_path(solved("plank_row")) == [0, 1, 0]
    assert rep_path(solved("side_plank")) == [0, 1]
