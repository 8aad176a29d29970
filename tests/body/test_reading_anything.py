"""Whatever stands in a posture file, reading it ends in postures or faults, never in a crash."""

import itertools

import pytest

from roundwright.body.posture_text import read_postures

HEAD = 'schema = "roundwright.posture/1"\n'
PARENT = '[posture.parent]\ntouch = { foot = "floor" }\n[[posture.parent.key]]\nname = "up"\n'
PARENT += '[[posture.parent.key]]\nname = "down"\n'
ODD = (
    "true", "nan", "inf", "-1e300", "9999999999999999999", '""', '"free"', "[]", "[[]]", "{}",
    "{ a = 1 }", "1979-05-27", '["a"]', "[0, 0, 0]", "[nan, 0, 1]", "{ on = true }",
)  # fmt: skip
FIELDS = (
    "base", "view", "path", "first", "lift", "props", "like", "without", "key", "name", "knee",
    "knee_left", "lean", "touch", "aim", "put", "height", "weight", "hold", "dynamic", "rope",
    "arrow", "angles", "slug", "touch.foot", "aim.thigh", "put.hand", "height.hips", "weight.foot",
    "props.bench", "props.bench.height", "props.band.anchor", "touch.foot.forward", "put.hand.by",
)  # fmt: skip


@pytest.mark.parametrize("field", FIELDS)
def test_an_odd_value_is_a_fault_or_is_taken(field):
    for value, inside in itertools.product(ODD, (False, True)):
        line = f"{field} = {value}\n"
        own = '[posture.own]\nlike = "parent"\n' if field != "like" else "[posture.own]\n"
        text = own + ("" if inside else line) + "[[posture.own.key]]\n"
        text += (line if inside else "") + ("" if inside and field == "name" else 'name = "down"\n')
        postures, faults = read_postures({"odd.toml": HEAD + PARENT + text})
        assert "parent" in postures or {f.code for f in faults} == {"file.syntax"}
        assert ("own" in postures) != any("own" in f.field or not f.field for f in faults), line


@pytest.mark.parametrize(
    "text",
    ["", "\x00", "[", "posture = 3", "[posture]\nx = 3", "[posture.X]\n", "x = " + "[" * 2000],
)
def test_odd_files_are_told(text):
    postures, faults = read_postures({"odd.toml": HEAD + text})
    assert postures == {}
    assert faults or text == ""


def test_yes_and_no_are_no_angles():
    text = PARENT.replace('name = "down"', 'name = "down"\nknee = true')
    _, faults = read_postures({"odd.toml": HEAD + text})
    assert [(f.code, f.line) for f in faults] == [("field.value", 8)]
    assert "not yes or no" in faults[0].expected
