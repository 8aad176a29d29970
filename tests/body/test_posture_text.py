"""Posture files: every fault is told with its file, line, movement, key and field."""

import pytest

from roundwright.body.posture_text import read_postures
from tests.body.examples import example_postures, read_one

UNKNOWN, VALUE, RANGE = "field.unknown", "field.value", "field.range"
LOW = "knee = 90"
HEAD = 'schema = "roundwright.posture/1"\n'
GOOD = """
[posture.probe]
touch = { foot = "floor" }
[[posture.probe.key]]
name = "tall"
knee = 4
[[posture.probe.key]]
name = "low"
knee = 90
"""


def _faults(text, head=HEAD):
    postures, faults = read_postures({"mine.toml": head + text})
    return postures, faults


def test_the_sound_file_is_read():
    postures, faults = _faults(GOOD)
    assert faults == ()
    assert [key.name for key in postures["probe"].key] == ["tall", "low"]


@pytest.mark.parametrize(
    ("old", "new", "code", "field", "line", "nearest"),
    [
        (LOW, "kne = 90", UNKNOWN, "key.2.kne", 10, "knee"),
        (LOW, "knee = 190", RANGE, "key.2.knee", 10, None),
        (LOW, 'knee = "bent"', VALUE, "key.2.knee", 10, None),
        (LOW, 'aim = { thigh = "levle" }', VALUE, "key.2.aim.thigh", 10, "level"),
        (LOW, 'aim = { thihg = "level" }', UNKNOWN, "key.2.aim.thihg", 10, "thigh"),
        (LOW, 'put = { hand = "sholder" }', VALUE, "key.2.put.hand", 10, "shoulder"),
        (LOW, 'touch = { foot = "flor" }', VALUE, "key.2.touch.foot.on", 10, "floor"),
        (LOW, 'touch = { foots = "floor" }', UNKNOWN, "key.2.touch.foots", 10, "foot"),
        (LOW, 'hold = "eech"', VALUE, "key.2.hold", 10, "each"),
        (LOW, "height = { hip_left = 2 }", RANGE, "key.2.height.hip_left", 10, None),
        ('name = "low"', "", "field.missing", "key.2.name", 8, None),
        ('name = "low"', 'name = "tall"', "name.duplicate", "key.2.name", 9, None),
        ("touch =", 'first = "lo"\ntouch =', "name.unknown", "first", 4, "low"),
        ("touch =", 'likes = "x"\ntouch =', UNKNOWN, "likes", 4, "like"),
        ("touch =", 'like = "prob"\ntouch =', "name.unknown", "like", 4, "probe"),
        ("touch =", 'base = "proned"\ntouch =', VALUE, "base", 4, "prone"),
        (LOW, "weight = { knee_left = 0.8, seat = 0.7 }", RANGE, "key.2.weight", 10, None),
        (LOW, 'arrow = "hel"', VALUE, "key.2.arrow", 10, "heel"),
        (LOW, 'arrow = { at = "hel", towards = "up" }', VALUE, "key.2.arrow.at", 10, "heel"),
        (LOW, 'arrow = { at = "heel", towards = "dow" }', VALUE, "key.2.arrow.towards", 10, "down"),
        ("touch =", 'lift = "gripp"\ntouch =', VALUE, "lift", 4, "grip"),
    ],
)  # fmt: skip
def test_each_fault_names_its_place(old, new, code, field, line, nearest):
    postures, faults = _faults(GOOD.replace(old, new))
    assert "probe" not in postures
    told = [f for f in faults if f.code == code and f.field == f"posture.probe.{field}"]
    assert told, [f.in_words() for f in faults]
    assert told[0].file == "mine.toml"
    assert told[0].line == line
    if nearest:
        assert nearest in told[0].nearest
    assert len(faults) <= 2


@pytest.mark.parametrize(
    ("old", "new", "field", "expected"),
    [
        ("touch =", 'arrow = "heel"\ntouch =', "arrow", "only in a key"),
        (LOW, 'lift = "none"', "key.2.lift", "only above the keys"),
        (LOW, "view = 20", "key.2.view", "only above the keys"),
    ],
)
def test_a_word_in_the_wrong_place_is_told_where_it_belongs(old, new, field, expected):
    _, faults = _faults(GOOD.replace(old, new))
    assert [(f.code, f.field) for f in faults] == [(UNKNOWN, f"posture.probe.{field}")]
    assert faults[0].expected == expected


def test_one_key_is_only_enough_for_a_hold():
    one = GOOD[: GOOD.index('[[posture.probe.key]]\nname = "low"')]
    assert [f.code for f in _faults(one)[1]] == [RANGE]
    assert _faults(one.replace("touch =", 'path = "hold"\ntouch ='))[1] == ()


def test_all_faults_of_all_postures_at_once():
    both = GOOD.replace(LOW, "kne = 90") + GOOD.replace("probe", "other").replace(
        'foot = "floor"', 'foot = "flor"'
    )
    assert [f.field.split(".")[1] for f in _faults(both)[1]] == ["probe", "other"]


def test_a_broken_file_and_a_wrong_schema_are_told():
    _, faults = _faults("[posture.probe\n")
    assert [(f.code, f.line) for f in faults] == [("file.syntax", 2)]
    _, faults = _faults(GOOD, head='schema = "roundwright.posture/9"\n')
    assert [f.code for f in faults] == ["file.schema"]
    _, faults = _faults(GOOD + "\n[postures.x]\n")
    assert [(f.code, f.nearest) for f in faults] == [(UNKNOWN, ("posture",))]


def test_like_takes_all_and_overlays_by_side():
    child = """
[posture.child]
like = "probe"
without = ["tall"]
path = "hold"
[[posture.child.key]]
name = "low"
knee_left = 70
[[posture.child.key]]
name = "lower"
knee = 110
"""
    postures, faults = _faults(GOOD + child)
    assert faults == ()
    low, lower = postures["child"].key
    assert (low.name, low.angles) == ("low", {"knee": 90, "knee_left": 70})
    assert (lower.name, lower.angles) == ("lower", {"knee": 110})


def test_like_may_not_run_in_a_ring_and_names_what_it_leaves_out():
    ring = GOOD.replace("touch =", 'like = "other"\ntouch =') + GOOD.replace(
        "probe", "other"
    ).replace("touch =", 'like = "probe"\ntouch =')
    assert {f.code for f in _faults(ring)[1]} == {"name.unknown"}
    child = '\n[posture.child]\nlike = "probe"\nwithout = ["high"]\n'
    _, faults = _faults(GOOD + child)
    assert [(f.code, f.field) for f in faults] == [("name.unknown", "posture.child.without")]


def test_like_may_name_a_posture_that_was_read_before():
    base = example_postures()
    texts = {"own.toml": HEAD + '[posture.own]\nlike = "goblet_squat"\nview = 70\n'}
    postures, faults = read_postures(texts, base)
    assert faults == ()
    assert postures["own"].key == base["goblet_squat"].key
    assert postures["own"].view == 70


def test_the_digest_changes_with_any_word_and_not_with_the_short_name():
    one = read_one(GOOD)
    assert one.digest == read_one(GOOD.replace("probe", "other"), "other").digest
    assert one.digest != read_one(GOOD.replace(LOW, "knee = 91")).digest
