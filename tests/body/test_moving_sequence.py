"""Movements played one after the other: stretches, the camera, the other side, faulty ways."""

from itertools import pairwise

import numpy as np
import pytest

from roundwright.body import moving_sequence as module
from roundwright.body.anatomy import Side
from roundwright.body.in_betweens import MotionFault
from roundwright.body.moving_sequence import GRAIN, POINTS, MovingSequence, sequence_of
from roundwright.bootstrap.shipped_bodies import shipped_bodies
from roundwright.bootstrap.shipped_pictures import ShippedPictures


def sequence(*slugs: str) -> MovingSequence:
    return sequence_of([(slug, shipped_bodies().solved(slug)) for slug in slugs])


def place(of: MovingSequence, frame: int, point: str) -> np.ndarray:
    start = 3 * POINTS.index(point)
    return np.array(of.frames[frame][start : start + 3]) / GRAIN


def test_stretches_cover_all_frames_in_order_with_a_way_between() -> None:
    made = sequence("dumbbell_squat", "standing_dumbbell_press")
    assert [s.name for s in made.stretches] == ["dumbbell_squat", "", "standing_dumbbell_press"]
    assert made.stretches[0].first == 0
    assert made.stretches[-1].last == len(made.frames) - 1
    ends = [(s.first, s.last) for s in made.stretches]
    assert all(a[1] + 1 == b[0] for a, b in pairwise(ends))
    assert all(len(frame) == 3 * len(POINTS) for frame in made.frames)


def test_the_way_joins_the_end_of_one_movement_to_the_start_of_the_next() -> None:
    made = sequence("dumbbell_squat", "standing_dumbbell_press")
    one, way, two = made.stretches
    for point in ("crown", "grip_left", "heel_right"):
        assert np.abs(place(made, way.first, point) - place(made, one.last, point)).max() <= 1
        assert np.abs(place(made, way.last, point) - place(made, two.first, point)).max() <= 1


def test_everything_lies_within_the_box() -> None:
    made = sequence("burpee")
    left, top, width, height = made.box
    flat = np.array(made.frames).reshape(-1, 3)[:, :2] / GRAIN
    assert (flat >= [left, top]).all()
    assert (flat <= [left + width, top + height]).all()


def test_hands_kit_and_band_are_those_of_the_movement() -> None:
    (row,) = sequence("bench_one_arm_row").stretches
    assert row.hands == ("left",)
    assert {ink for _, ink in row.kit} == {"kit", "kit_top"}
    (band,) = sequence("seated_band_row").stretches
    assert {name for name, _, _ in band.band} == {"grip_left", "grip_right"}


def test_the_other_side_is_seen_from_where_the_first_is_seen() -> None:
    pictures = ShippedPictures()
    both = pictures.moving([("split_squat", Side.LEFT), ("split_squat", Side.RIGHT)])
    assert both is not None
    left, right = both.stretches[0], both.stretches[-1]
    low = left.keys[1]
    other = right.keys[1]
    # The front knee is ahead (to the left in the picture) on the side at work, in both.
    assert place(both, low, "knee_left")[0] < place(both, low, "knee_right")[0]
    assert place(both, other, "knee_right")[0] < place(both, other, "knee_left")[0]


def test_a_faulty_way_is_left_out(monkeypatch: pytest.MonkeyPatch) -> None:
    whole = sequence("dumbbell_squat", "standing_dumbbell_press")
    fault = (MotionFault("slide", "heel_left", 0.02),)
    monkeypatch.setattr(module, "motion_faults", lambda *_: fault)
    cut = sequence("dumbbell_squat", "standing_dumbbell_press")
    assert [s.name for s in cut.stretches] == ["dumbbell_squat", "standing_dumbbell_press"]
    assert len(cut.frames) == 3 + 3 < len(whole.frames)


def test_the_camera_turns_the_short_way() -> None:
    assert module._turning(350, 10, 3) == [350.0, 360.0, 370.0]
    assert module._turning(10, 350, 3) == [10.0, 0.0, -10.0]


def test_what_has_no_posture_has_no_picture() -> None:
    pictures = ShippedPictures()
    assert pictures.small("of_my_own") is None
    assert pictures.key_pictures("of_my_own") == ()
    assert pictures.moving([("of_my_own", Side.LEFT)]) is None
    assert pictures.moving([]) is None
    assert pictures.small("split_squat", Side.LEFT) != pictures.small("split_squat", Side.RIGHT)
