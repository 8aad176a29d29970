"""What lies in front of what: hands on a wall have a shade there, a near chest hides the hips."""

import re

import numpy as np
import pytest

from roundwright.body.drawing.camera import Camera
from roundwright.body.drawing.figure import Seen, parts_of
from roundwright.body.drawing.picture import CLOTH, TRUNK, WALL_SHADE, draw_key
from roundwright.body.solved import SolvedPosture
from tests.body.examples import solved_text

AT_THE_WALL = """
[posture.probe]
view = 60
props = { wall = { side = "right", away = 0.25 } }
touch = { foot = { on = "floor", out = 0.05 } }
[[posture.probe.key]]
name = "hand on the wall"
touch = { palm_right = { on = "wall", up = 0.66, light = true } }
[[posture.probe.key]]
name = "hand off"
touch = { palm_right = "air" }
"""

BENT_OVER = """
[posture.probe]
view = VIEW
path = "hold"
lean = 60
back = 0
knee = 30
touch = { foot = { on = "floor", out = 0.06 } }
[[posture.probe.key]]
name = "low"
"""


def seen_of(whole: SolvedPosture, place: int) -> Seen:
    key = whole.keys[place]
    index = key.asked.skeleton.marks.index
    return Seen(key.placed, index, 0, Camera(whole.posture.view), 1.75)


def shade_of(text: str) -> np.ndarray:
    found = re.search(rf'<path d="M([^"]*)Z" fill="{WALL_SHADE}"/>', text)
    assert found is not None
    return np.array([[float(v) for v in pair.split()] for pair in found[1].split("L")])


def test_a_hand_on_a_wall_has_a_shade_there_and_none_when_it_is_off():
    whole = solved_text(AT_THE_WALL)
    assert draw_key(whole, 0).count(WALL_SHADE) == 1
    assert WALL_SHADE not in draw_key(whole, 1)


def test_the_shade_is_round_the_whole_hand_and_under_it():
    whole = solved_text(AT_THE_WALL)
    text = draw_key(whole, 0)
    shade = shade_of(text)
    for name in ("palm_heel_right", "finger_tips_right"):
        at = seen_of(whole, 0).mark(name)[:2]
        assert (shade.min(axis=0) < at).all()
        assert (at < shade.max(axis=0)).all()
    assert text.index(WALL_SHADE) < text.index(TRUNK)


@pytest.mark.parametrize(("view", "hidden"), [(10, False), (80, True), (270, False)])
def test_a_chest_that_leans_far_to_the_camera_hides_the_shorts(view, hidden):
    whole = solved_text(BENT_OVER.replace("VIEW", str(view)))
    trunk = next(p for p in parts_of(seen_of(whole, 0), (False, False)) if p.name == "trunk")
    assert trunk.cloth_behind is hidden
    text = draw_key(whole, 0)
    cloth = text.index(f'd="{"".join(trunk.cloth)}" fill="{CLOTH}"')
    skin = text.index(f'fill="{TRUNK}"')
    assert (cloth < skin) is hidden
