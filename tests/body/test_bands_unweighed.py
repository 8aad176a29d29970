"""A band's pull is not known: such postures have pictures, but nothing is said of what they ask."""

import numpy as np

from roundwright.body.body_table import make_body_table
from roundwright.body.demand_bands import Band, compared
from roundwright.body.figures import demand_bands, figures_of
from roundwright.body.people_figures import Builds, demand_of, moments_nm_per_kg
from tests.body.examples import read_one, solved_text

ROW = """
[posture.probe]
lift = "none"
touch = { foot = "floor" }
lean = 2
knee = 12
PROPS
[[posture.probe.key]]
name = "long"
aim = { upper_arm = [1, 0.1, -0.75] }
elbow = 8
[[posture.probe.key]]
name = "pulled"
aim = { upper_arm = [-0.3, 0.1, -1], forearm = "forward" }
"""
WITH = ROW.replace("PROPS", "props = { band = { anchor = [1.15, 0, 1.0] } }")
WITHOUT = ROW.replace("PROPS", "")


def test_no_demand_is_given_with_a_band_and_one_is_without():
    banded, bare = (figures_of(solved_text(text), 0) for text in (WITH, WITHOUT))
    assert banded.band_pulls_unweighed
    assert not bare.band_pulls_unweighed
    assert {demand.band for demand in demand_bands(banded).values()} == {None}
    assert demand_bands(bare)["shoulder"].band in set(Band)


def test_the_row_says_so_and_holds_no_moments():
    rows = {}
    for name, text in (("banded", WITH), ("bare", WITHOUT)):
        table, faults = make_body_table([read_one(text)])
        assert faults == ()
        rows[name] = table
    row = rows["banded"].movements["probe"]
    assert row.band_pulls_unweighed
    assert [key.name for key in row.keys] == ["long", "pulled"]
    assert all(key.total == key.bend == key.hands_bp == key.feet_left_bp == () for key in row.keys)
    assert rows["bare"].movements["probe"].keys[0].total
    builds = Builds(np.array([1.7]), np.array([1.0]))
    moments = moments_nm_per_kg(rows["banded"], "probe", builds, np.array([0.0]))
    assert all(np.isnan(each).all() for each in moments.values())
    asked = demand_of(rows["banded"], "probe", 1.7, 1.0, 0.0)
    assert {demand.band for demand in asked.values()} == {None}
    known = demand_of(rows["bare"], "probe", 1.7, 1.0, 0.0)
    assert known["shoulder"].band is not None
    assert all(compared(joint, asked, known) is None for joint in asked)
