"""The moving figure is small, the table's text comes back, the contact sheet shows all."""

import gzip
import json

import numpy as np
import pytest

from roundwright.body.body_table import BodyTable, make_body_table
from roundwright.body.drawing.contact_sheet import SMALL_PX, contact_sheet
from roundwright.body.moving import POINTS, motion_of
from roundwright.body.table_text import read_table_text, table_text
from tests.body.examples import example_postures, solved, solved_text


@pytest.mark.parametrize("slug", ["dumbbell_squat", "jumping_jack", "burpee", "plank_row"])
def test_a_rep_is_small_begins_and_ends_alike_and_has_no_fault(slug):
    motion = motion_of(solved(slug))
    assert motion.faults == ()
    assert motion.frames_mm[0] == motion.frames_mm[-1]
    text = json.dumps(motion.frames_mm, separators=(",", ":")).encode()
    ways = len(solved(slug).keys) - 1
    assert len(gzip.compress(text)) < 2_200 * ways
    assert all(len(frame) == 3 * len(POINTS) for frame in motion.frames_mm)


def test_its_key_frames_are_the_key_positions_and_the_way_back_is_the_way_there():
    whole = solved("dumbbell_squat")
    motion = motion_of(whole)
    assert motion.keys == (0, 9, 18)
    place = POINTS.index("knee_left")
    low = np.array(motion.frames_mm[9][3 * place : 3 * place + 3])
    assert low == pytest.approx(whole.keys[1].point("knee_left")[0] * 1000, abs=0.6)
    assert motion.frames_mm[:10] == motion.frames_mm[:8:-1]


def test_a_single_hold_is_one_frame():
    text = '[posture.probe]\npath = "hold"\ntouch = { foot = "floor" }\n'
    motion = motion_of(solved_text(text + '[[posture.probe.key]]\nname = "stand"\n'))
    assert len(motion.frames_mm) == 1
    assert motion.keys == (0,)


def test_a_tables_text_comes_back_and_is_the_same_every_time():
    table, _ = make_body_table([example_postures()["wall_sit"], example_postures()["high_knee"]])
    text = table_text(table)
    assert read_table_text("bodies.json", text) == (table, ())
    other_order = BodyTable(
        model=table.model, movements=dict(reversed(list(table.movements.items())))
    )
    assert table_text(other_order) == text
    assert table_text(BodyTable()).count("\n") == 3


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("{", "file.syntax"),
        ("[]", "file.schema"),
        ('{"schema": "roundwright.bodies/7"}', "file.schema"),
        ('{"schema": "roundwright.bodies/1", "movements": {"a": 3}}', "field.value"),
    ],
)
def test_a_broken_table_is_told(text, code):
    table, faults = read_table_text("bodies.json", text)
    assert table is None
    assert [(f.file, f.code) for f in faults] == [("bodies.json", code)]
    assert "anew" in faults[0].in_words()


def test_the_contact_sheet_shows_every_picture_at_both_sizes_and_every_fault():
    bad = solved_text(
        '[posture.probe]\npath = "hold"\ntouch = { foot = "floor" }\nknee = 90\n'
        'height = { hips = 0.52 }\n[[posture.probe.key]]\nname = "only"\n'
    )
    page = contact_sheet({"split_squat": solved("split_squat"), "<bad>": bad})
    assert page.count("<svg") == 2 * (2 + 1)
    assert page.count(f'<svg height="{SMALL_PX}"') == 3
    assert "misses what was said" in page
    assert "&lt;bad&gt;" in page
