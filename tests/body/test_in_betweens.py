"""Between key positions nothing held slides, nothing dips, no bone shrinks."""

from itertools import pairwise

import numpy as np
import pytest

from roundwright.body.in_betweens import FEW, MANY, motion_faults, transition
from roundwright.body.work import rep_path
from tests.body.examples import example_postures, solved


@pytest.mark.parametrize("slug", sorted(example_postures()))
def test_every_example_moves_without_a_fault(slug):
    whole = solved(slug)
    path = rep_path(whole)
    for start, end in sorted(set(pairwise(path))):
        way = transition(whole, start, end)
        assert motion_faults(whole, way) == ()
        assert len(way.frames.points) == 2 + (MANY if way.is_hop else FEW)


def test_the_ends_are_the_key_positions():
    whole = solved("dumbbell_squat")
    way = transition(whole, 0, 1)
    for frame, key in ((0, whole.keys[0]), (-1, whole.keys[1])):
        assert way.frames.points[frame] == pytest.approx(
            key.placed.points[0, : way.frames.points.shape[1]]
        )


def test_running_plain_coordinates_would_fail_the_gates():
    """The gates can fail: the same way with its middle replaced by coordinates in between."""
    whole = solved("jumping_jack")
    way = transition(whole, 0, 1)
    ends = way.frames.points[[0, -1]]
    parts = np.linspace(0, 1, len(way.frames.points))[:, None, None]
    way.frames.points[:] = ends[0] + parts * (ends[1] - ends[0])
    assert "bone" in {fault.gate for fault in motion_faults(whole, way)}


def test_a_dip_and_a_slide_are_told():
    whole = solved("dumbbell_squat")
    way = transition(whole, 0, 1)
    way.frames.points[4] -= [0.02, 0, 0.02]
    assert {"slide", "dip"} <= {fault.gate for fault in motion_faults(whole, way)}


def test_a_jump_leaves_the_floor_and_a_squat_does_not():
    jack = solved("jumping_jack")
    index = jack.keys[0].asked.skeleton.marks.index
    way = transition(jack, 0, 1)
    assert way.is_hop
    assert way.frames.points[len(way.frames.points) // 2, index["ball_in_left"], 2] > 0.03
    squat = transition(solved("dumbbell_squat"), 0, 1)
    assert not squat.is_hop
    assert squat.frames.points[:, index["ball_in_left"], 2].max() < 0.005
    assert {"heel_left", "ball_in_right"} <= set(squat.held)


def test_a_foot_that_goes_to_another_place_is_carried_over():
    step = solved("step_up")
    way = transition(step, 0, 1)
    index = step.keys[0].asked.skeleton.marks.index
    heights = way.frames.points[:, index["heel_right"], 2]
    assert heights[0] < 0.01
    assert heights[-1] == pytest.approx(0.30, abs=0.01)
    assert heights.max() > 0.31
    assert "heel_left" in way.held
