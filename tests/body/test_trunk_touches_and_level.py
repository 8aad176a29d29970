"""Belly and low back carry weight, and a trunk that nobody told to hang is refused."""

import pytest

from roundwright.body.pose_faults import pose_faults
from roundwright.body.statics import HeldPosition
from tests.body.examples import solved_text

ON_THE_BELLY = """
[posture.probe]
base = "prone"
path = "hold"
touch = { TOUCH knee = "mat", foot_top = "mat" }
hip = 0
knee = 3
ankle = -55
shoulder = -12
shoulder_out = 14
elbow = 4
[[posture.probe.key]]
name = "lifted"
height = { breastbone = 0.07 }
"""
HIPS_OFF = """
[posture.probe]
base = "supine"
path = "hold"
touch = { upper_back = "mat", head_back = "mat", TOUCH palm = { on = "mat", light = true } }
[[posture.probe.key]]
name = "hips off"
hip = 112
knee = 110
aim = { hips = [-1, 0, -0.55] }
height = { seat = 0.10 }
"""


@pytest.mark.parametrize(("text", "touch"), [(ON_THE_BELLY, "belly"), (HIPS_OFF, "low_back")])
def test_the_trunk_carries_what_nothing_else_can(text, touch):
    whole = solved_text(text.replace("TOUCH", f'{touch} = "mat",'))
    assert [fault.in_words() for fault in pose_faults(whole)] == []
    held = HeldPosition(whole.keys[0], 0).held()
    assert held.is_balanced
    assert 0.5 < held.touches[touch][2] < 1.0
    without = pose_faults(solved_text(text.replace("TOUCH", "")))
    assert without != ()  # it would fall, or its words cannot all be true


REACH = """
[posture.probe]
path = "hold"
lean = 10
knee = 12
SAID
touch = { foot = { on = "floor", out = 0.05 } }
put = { hand_left = { by = "knee_left", out = 0.02, up = -0.02 } }
elbow_left = 5
[[posture.probe.key]]
name = "reach"
"""


def _level(said):
    faults = pose_faults(solved_text(REACH.replace("SAID", said)))
    return {fault.part: fault.in_words() for fault in faults if fault.gate == "level"}


def test_a_tilt_that_nobody_said_is_refused_with_its_remedy():
    told = _level("")
    assert "shoulders" in told
    assert "out of level though nothing says so; say back_side = 0" in told["shoulders"]


@pytest.mark.parametrize(
    "said",
    [
        "back_side = 20",
        "aim = { trunk = [0.3, 0.4, 1], hips = [0.2, 0.3, 1] }",
        "aim = { breast = [1, -0.3, 0] }",
    ],
)
def test_a_tilt_that_was_said_is_the_authors(said):
    assert _level(said) == {}


@pytest.mark.parametrize("said", ["back_turn = 0", 'aim = { breast = "forward" }'])
def test_what_leaves_the_tilt_open_does_not_say_it(said):
    assert "shoulders" in _level(said)
