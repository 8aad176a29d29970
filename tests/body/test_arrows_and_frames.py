"""Arrows: the way of a press in which nothing moves, and no arrow is cut off by the frame."""

import re

import numpy as np
import pytest

from roundwright.body.drawing.arrows import PUSH, arrow_path
from roundwright.body.drawing.camera import Camera
from roundwright.body.drawing.figure import Seen
from roundwright.body.drawing.picture import ARROW_EDGE, frames_of
from roundwright.body.mirror import mirrored
from tests.body.examples import example_postures, read_one, solved, solved_text

PRESS = """
[posture.probe]
base = "seated"
path = "hold"
view = 0
props = { chair = { height = 0.45 } }
touch = { seat = "chair", foot = "floor" }
lean = 0
[[posture.probe.key]]
name = "press"
ARROW
"""


def _arrow(solution, place):
    index = solution.keys[place].asked.skeleton.marks.index
    seen = Seen(solution.keys[place].placed, index, 0, Camera(solution.posture.view), 1.75)
    path = arrow_path(solution, place, seen, 0)
    return np.array(re.findall(r"-?[\d.]+", path), dtype=float).reshape(-1, 2), seen


@pytest.mark.parametrize(
    ("towards", "way"),
    [('"down"', (0, 1)), ('"forward"', (-1, 0)), ("[0, 0, 2]", (0, -1))],
)
def test_a_press_is_drawn_from_its_point_the_way_it_goes(towards, way):
    said = f'arrow = {{ at = "heel", towards = {towards} }}'
    whole = solved_text(PRESS.replace("ARROW", said))
    points, seen = _arrow(whole, 0)
    start, end = points[0], points[1]
    assert (end - start) / PUSH == pytest.approx(way, abs=0.02)
    assert np.linalg.norm(start - seen.mark("heel_left")[:2]) < 10
    plain, _ = _arrow(solved_text(PRESS.replace("ARROW", "")), 0)
    assert len(plain) == 0


def test_a_press_out_to_the_side_goes_the_other_way_on_the_other_side():
    text = PRESS.replace("view = 0", "view = 90")
    ends = {}
    for side in ("left", "right"):
        said = f'arrow = {{ at = "knee_{side}", towards = "out" }}'
        points, _ = _arrow(solved_text(text.replace("ARROW", said)), 0)
        ends[side] = points[1] - points[0]
    assert ends["left"][0] > 10
    assert ends["right"][0] < -10


def test_the_other_side_has_the_press_on_its_own_side():
    said = 'arrow = { at = "heel_left", towards = "out" }'
    posture = read_one(PRESS.replace("ARROW", said))
    other = mirrored(posture)
    assert other.key[0].arrow.at == "heel_right"
    assert other.key[0].arrow.towards == "out"
    assert mirrored(other).key == posture.key
    middle = read_one(PRESS.replace("ARROW", said.replace("heel_left", "hips")))
    assert mirrored(middle).key[0].arrow.towards == (0, -1, 0)


@pytest.mark.parametrize("slug", sorted(example_postures()))
def test_no_arrow_is_cut_off(slug):
    whole = solved(slug)
    for place, frame in enumerate(frames_of(whole)):
        points, _ = _arrow(whole, place)
        for x, y in points:
            assert frame.left + ARROW_EDGE <= x <= frame.left + frame.width - ARROW_EDGE
            assert frame.top + ARROW_EDGE <= y <= frame.top + frame.height - ARROW_EDGE


def test_an_arrow_beyond_all_else_widens_the_frame():
    down = solved_text(PRESS.replace("ARROW", 'arrow = { at = "heel", towards = "down" }'))
    points, _ = _arrow(down, 0)
    low = frames_of(down)[0]
    plain = frames_of(solved_text(PRESS.replace("ARROW", "")))[0]
    assert points[:, 1].max() > plain.top + plain.height - ARROW_EDGE
    assert points[:, 1].max() < low.top + low.height - ARROW_EDGE
