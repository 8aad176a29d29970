"""Pictures: small, named, in few inks, painted from far to near, the same every time."""

import re
import xml.etree.ElementTree as ET

import numpy as np
import pytest

from roundwright.body.build import bodies_of
from roundwright.body.drawing import picture
from roundwright.body.drawing.camera import Camera
from roundwright.body.drawing.figure import Seen, parts_of
from roundwright.body.drawing.picture import LARGEST_BYTES, draw_key, frames_of, strip
from roundwright.body.drawing.shapes import bar
from roundwright.body.mirror import mirrored_solution
from roundwright.body.solved import solve_posture
from tests.body.examples import MAN, WOMAN, example_postures, solved, solved_text

NS = "{http://www.w3.org/2000/svg}"


@pytest.mark.parametrize("slug", sorted(example_postures()))
def test_every_picture_is_small_named_and_well_formed(slug):
    for key, text in zip(solved(slug).keys, strip(solved(slug)), strict=True):
        assert len(text.encode("utf-8")) <= LARGEST_BYTES
        root = ET.fromstring(text)
        title = root.find(f"{NS}title")
        assert title is not None
        assert title.text == key.pose.name
        assert "nan" not in text


@pytest.mark.parametrize("slug", sorted(example_postures()))
def test_all_that_is_drawn_of_the_body_is_inside_the_frame(slug):
    whole = solved(slug)
    for place, frame in enumerate(frames_of(whole)):
        index = whole.keys[place].asked.skeleton.marks.index
        seen = Seen(whole.keys[place].placed, index, 0, Camera(whole.posture.view), 1.75)
        flat = seen.flat(whole.keys[place].placed.points[0])
        assert flat[:, 0].min() > frame.left
        assert flat[:, 0].max() < frame.left + frame.width
        assert flat[:, 1].min() > frame.top
        assert flat[:, 1].max() < frame.top + frame.height


def test_only_the_inks_of_the_house_are_used():
    inks = set()
    for slug in example_postures():
        for text in strip(solved(slug)):
            inks |= set(re.findall(r"#[0-9a-f]{6}", text))
    known = {v for k, v in vars(picture).items() if isinstance(v, str) and v.startswith("#")}
    known |= set(picture.FILLS.values())
    assert inks <= known


def test_the_same_position_gives_the_same_bytes():
    again = solve_posture(example_postures()["step_up"], bodies_of([MAN]))
    assert strip(again) == strip(solved("step_up"))


def test_all_pictures_of_a_movement_have_one_size_and_key_positions_differ():
    frames = frames_of(solved("chair_sit_to_stand"))
    assert len({(f.width, f.height, f.top) for f in frames}) == 1
    pictures = strip(solved("chair_sit_to_stand"))
    assert len(set(pictures)) == len(pictures)


def test_the_camera_sees_the_left_side_at_0_and_the_front_at_90():
    ahead, left = np.array([1.0, 0, 0]), np.array([0, 1.0, 0])
    assert Camera(0).seen(left)[2] > 0.9  # the left side is near
    assert Camera(0).seen(ahead)[0] == pytest.approx(-1)  # looks to the left of the picture
    assert Camera(90).seen(ahead)[2] > 0.9
    assert Camera(90).seen(left)[0] == pytest.approx(1)
    assert Camera(180).seen(left)[2] < -0.9


def test_near_limbs_are_painted_after_the_trunk_and_far_ones_before():
    whole = solved("dumbbell_curl")
    key = whole.keys[0]
    seen = Seen(key.placed, key.asked.skeleton.marks.index, 0, Camera(0), 1.75)
    names = [part.name for part in parts_of(seen, (True, True))]
    assert names.index("upper_arm_right") < names.index("trunk") < names.index("upper_arm_left")
    far = {part.name: part.is_far for part in parts_of(seen, (True, True))}
    assert far["leg_right"]
    assert not far["leg_left"]
    front = Seen(key.placed, key.asked.skeleton.marks.index, 0, Camera(90), 1.75)
    assert not any(part.is_far for part in parts_of(front, (True, True)))


def test_far_is_told_by_its_outline_as_well_as_by_its_ink():
    text = draw_key(solved("split_squat"), 1)
    far = re.search(r'stroke="(#\w+)" stroke-width="2.0"', text)
    near = re.search(r'stroke="(#\w+)" stroke-width="4.5"', text)
    assert far is not None
    assert near is not None
    assert far[1] != near[1]


def test_loads_and_kit_are_drawn_where_they_are_said():
    assert draw_key(solved("dumbbell_squat"), 0).count(picture.LOAD) == 6  # three pieces each
    assert draw_key(solved("goblet_squat"), 0).count(picture.LOAD) == 3
    assert picture.LOAD not in draw_key(solved("floor_push_up"), 0)
    assert picture.KIT in draw_key(solved("step_up"), 0)


def test_the_arrow_can_be_chosen_or_left_out():
    text = """
[posture.probe]
touch = { foot = "floor" }
[[posture.probe.key]]
name = "tall"
knee = 4
ARROW
[[posture.probe.key]]
name = "low"
knee = 80
"""
    plain = draw_key(solved_text(text.replace("ARROW", "")), 0)
    none = draw_key(solved_text(text.replace("ARROW", 'arrow = "none"')), 0)
    knee = draw_key(solved_text(text.replace("ARROW", 'arrow = "knee"')), 0)
    assert "stroke-linecap" in plain
    assert "stroke-linecap" not in none
    assert "stroke-linecap" in knee
    assert knee != plain
    assert draw_key(solved("side_plank"), 1).count("stroke-linecap") == 0


def test_the_other_side_is_the_picture_turned_over():
    other = mirrored_solution(solved("split_squat"))
    here, there = frames_of(solved("split_squat"))[1], frames_of(other)[1]
    assert there.width == pytest.approx(here.width, abs=0.01)
    assert there.left == pytest.approx(-here.left - here.width, abs=0.01)


def test_rope_band_wall_and_mat_are_drawn():
    text = """
[posture.probe]
touch = { ball = "floor" }
dynamic = true
props = { band = { anchor = [0.6, 0, 1.0] } }
[[posture.probe.key]]
name = "up"
rope = "over"
[[posture.probe.key]]
name = "down"
rope = "under"
"""
    drawn = draw_key(solved_text(text), 0)
    assert drawn.count('fill="none" stroke="' + picture.LOAD) == 3  # two bands, one rope
    assert picture.FILLS["wall"] in draw_key(solved("wall_push_up"), 0)
    assert picture.FILLS["mat"] in draw_key(solved("dead_bug"), 0)


def test_a_bar_between_circles_touches_both():
    path = bar((0, 0, 5), (20, 0, 2))
    assert path.count("A") == 2
    assert bar((0, 0, 5), (1, 0, 2)).count("a") == 2  # one inside the other: a disc


def test_a_title_is_escaped_and_women_are_drawn_too():
    text = draw_key(solved("hip_bridge", WOMAN), 0, title='<up> & "down"')
    assert ET.fromstring(text).find(f"{NS}title").text == '<up> & "down"'
