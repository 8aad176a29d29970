"""Whatever stands in a library file, the reader gives a catalogue or faults and never breaks."""

from hypothesis import given, settings
from hypothesis import strategies as st

from tests.library.small_library import faults_of, small

TEXT = small()
PIECES = [
    "[",
    "]]",
    "{",
    '"',
    "'''",
    "=",
    "\n",
    "true",
    "nan",
    "-inf",
    "1e400",
    "9" * 60,
    f'"{"9" * 60} kg"',
    "2026-03-03",
    "[movement.easy_sit]\n",
    "[[line.sits]]\n",
    "[combination]\n",
    "sits",
    "\x00",
    "é",
    "",
]


@settings(max_examples=250, deadline=None, derandomize=True, database=None)
@given(
    cuts=st.lists(
        st.tuples(
            st.integers(0, len(TEXT)), st.integers(0, 40), st.sampled_from(PIECES) | st.text()
        ),
        min_size=1,
        max_size=3,
    )
)
def test_a_mangled_file_gives_faults_with_lines_and_no_exception(
    cuts: list[tuple[int, int, str]],
) -> None:
    text = TEXT
    for at, length, piece in cuts:
        text = text[:at] + piece + text[at + length :]
    for fault in faults_of(text):
        assert fault.in_words()
        assert fault.line is None or 1 <= fault.line <= text.count("\n") + 1


@settings(max_examples=150, deadline=None, derandomize=True, database=None)
@given(
    line=st.integers(0, TEXT.count("\n") - 1),
    value=st.sampled_from(PIECES) | st.integers().map(str) | st.floats().map(str),
)
def test_any_value_in_any_field_is_taken_or_named(line: int, value: str) -> None:
    rows = TEXT.split("\n")
    key, equals, _ = rows[line].partition(" = ")
    rows[line] = f"{key} = {value}" if equals else rows[line]
    for fault in faults_of("\n".join(rows)):
        assert fault.in_words()
