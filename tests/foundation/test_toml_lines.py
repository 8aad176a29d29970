"""Faults name the line: the scanner finds tables, lists, keys, and skips long values."""

import tomllib

from hypothesis import given
from hypothesis import strategies as st

from roundwright.foundation.toml_lines import line_of, lines_of

TEXT = '''schema = "x/1"
[movement.squat]
name = "Squat"  # [not.a.table]
note = """
[movement.ghost]
name = "no"
"""
kit = [
  { item = "box" },
  { item = "mat" },
]
after = 1
[[exercise]]
exercise = "a"
[[exercise]]
exercise = "b"
[exercise.count]
value = 3
'''


def test_lines_are_those_a_reader_counts():
    places = lines_of(TEXT)
    assert places["movement", "squat"] == 2
    assert places["movement", "squat", "after"] == 12
    assert places["exercise", 1, "exercise"] == 16
    assert places["exercise", 1, "count", "value"] == 18
    assert ("movement", "ghost") not in places


def test_an_unknown_path_falls_back_to_its_table():
    assert line_of(lines_of(TEXT), ("exercise", 0, "missing")) == 13
    assert line_of(lines_of(TEXT), ("nothing",)) is None


@given(st.lists(st.sampled_from(["a", "b", "c", "dd"]), unique=True, min_size=1))
def test_every_key_that_the_standard_reader_sees_is_located(keys):
    text = "".join(f"[t_{key}]\nx = 1\n" for key in keys)
    places = lines_of(text)
    for number, table in enumerate(tomllib.loads(text)):
        assert places[table, "x"] == 2 * number + 2
