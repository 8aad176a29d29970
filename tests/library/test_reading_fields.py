"""Each wrong field of a library file is one fault with its line, and hides no other."""

import pytest

from roundwright.library.catalogue_text import read_catalogue
from tests.library.small_library import (
    SCHEMA,
    broken,
    faults_of,
    line_with,
    movement,
    only_fault,
    small,
)


def test_a_valid_file_gives_its_entries_with_stored_integers() -> None:
    catalogue, faults = read_catalogue({"own.toml": small()})
    assert faults == ()
    assert catalogue is not None
    easy = catalogue.movements["easy_sit"]
    assert (easy.kit[0].min_height, easy.floor.length, easy.floor.width) == (300, 2000, 2000)
    assert catalogue.lines["sits"].versions == ("easy_sit", "deep_sit")
    assert [part.line for part in catalogue.combinations["double_sit"].parts] == ["sits", "sits"]


@pytest.mark.parametrize(
    ("old", "new", "code", "field"),
    [
        ("level = 1", "level = 6", "field.range", "level"),
        ("level = 1", 'level = "high"', "field.value", "level"),
        ("level = 1", "level = true", "field.value", "level"),
        ("seconds_a_rep = 3.0", "seconds_a_rep = 0", "field.range", "seconds_a_rep"),
        ("seconds_a_rep = 3.0", "seconds_a_rep = inf", "field.value", "seconds_a_rep"),
        ("seconds_a_rep = 3.0", "seconds_a_rep = nan", "field.value", "seconds_a_rep"),
        ("contacts_a_rep = 0", "contacts_a_rep = -1", "field.range", "contacts_a_rep"),
        ("knee = 1", "knee = 4", "field.range", "demands.knee"),
        ("knee = 1", "kneee = 1", "field.value", "demands.kneee"),
        ('pattern = "squat"', 'pattern = "squatt"', "field.value", "pattern"),
        ('tempo = "2-0-1"', 'tempo = "slow"', "field.value", "tempo"),
        ('tempo = "2-0-1"\n', "", "field.missing", "tempo"),
        ('watch = "Balance."\n', "", "field.missing", "teaching.watch"),
        ('watch = "Balance."', 'watch = ""', "field.range", "teaching.watch"),
        ('cues = ["Slow down.", "Stay tall."]', 'cues = ["Slow."]', "field.range", "teaching.cues"),
        ('tempo = "2-0-1"', 'tempo = "2-0-1"\ntempi = 3', "field.unknown", "tempi"),
        ('tempo = "2-0-1"', 'tempo = "2-0-1"\nslug = "sit"', "field.unknown", "slug"),
        ('min_height = "30 cm"', 'min_height = "30 kg"', "field.value", "kit.1.min_height"),
        ('min_height = "30 cm"', "min_height = 30", "field.range", "kit.1.min_height"),
        ('min_height = "30 cm"', "min_height = -0.3", "field.range", "kit.1.min_height"),
        (
            'min_height = "30 cm"',
            f'min_height = "{"9" * 40} m"',
            "field.value",
            "kit.1.min_height",
        ),
        ('item = "bench"', 'item = "bnch"', "field.value", "kit.1.item"),
        ("share = 0.6", "share = 1.6", "field.range", "muscles.quads.share"),
        ('fix = "Count two."', 'fix = "Count two.", urgency = "soon"', "field.value", None),
    ],
)
def test_a_wrong_field_is_named_with_its_line(
    old: str, new: str, code: str, field: str | None
) -> None:
    text = broken(old, new)
    fault = only_fault(text)
    assert fault.code == code
    assert fault.field == f"movement.easy_sit.{field or 'teaching.faults.1.urgency'}"
    assert fault.expected
    if code == "field.missing":
        assert fault.line in (line_with(text, "[movement.easy_sit"), line_with(text, "teaching]"))
    elif field is not None:
        assert fault.line == line_with(text, new.splitlines()[-1])


@pytest.mark.parametrize(
    ("old", "new", "nearest"),
    [
        ("knee = 1", "kneee = 1", "knee"),
        ('pattern = "squat"', 'pattern = "sqat"', "squat"),
        ("tempo =", "temppo =", "tempo"),
        ("set_up =", "setup =", "set_up"),
        ("share = 0.6", "shares = 0.6", "share"),
        ("[line.sits]", "[lines.sits]", "line"),
        ('versions = ["easy_sit"', 'versions = ["easy_sits"', "easy_sit"),
        ('line = "sits"', 'line = "sitz"', "sits"),
    ],
)
def test_a_misspelt_word_gets_its_nearest(old: str, new: str, nearest: str) -> None:
    assert any(nearest in fault.nearest for fault in faults_of(broken(old, new)))


def test_every_fault_of_every_entry_is_told_at_once() -> None:
    text = small().replace("level = 1", "level = 9").replace("level = 3", "level = 8")
    text = text.replace("knee = 1", "knee = 7").replace('tempo = "2-0-1"', 'tempo = "x"')
    codes = [(fault.line, fault.field) for fault in faults_of(text)]
    assert len(codes) == 6
    assert codes == sorted(codes)


def test_a_broken_movement_is_one_fault_and_not_one_more_in_its_line() -> None:
    assert only_fault(broken("level = 3", "level = 30")).field == "movement.deep_sit.level"


def test_a_bad_short_name_hides_no_field_of_its_entry() -> None:
    text = SCHEMA + movement("Bad-Name").replace("level = 1", "level = 0")
    assert {fault.code for fault in faults_of(text)} == {"field.slug", "field.range"}


def test_a_syntax_fault_has_line_and_column_and_hides_no_other_entry() -> None:
    text = broken("level = 1\n", "level = = 1\n").replace("level = 3", "level = 33")
    syntax, value = sorted(faults_of(text), key=lambda fault: fault.line or 0)
    assert (syntax.code, syntax.line) == ("file.syntax", line_with(text, "level = = 1"))
    assert syntax.column == 9
    assert (value.code, value.line) == ("field.range", line_with(text, "level = 33"))


def test_a_text_left_open_at_the_end_is_a_syntax_fault() -> None:
    assert only_fault(small() + "\n[line.more]\nname = '''open").code == "file.syntax"


def test_lists_nested_beyond_sense_are_a_syntax_fault() -> None:
    assert "file.syntax" in {f.code for f in faults_of(SCHEMA + "x = " + "[" * 100_000)}


@pytest.mark.parametrize(
    ("header", "words"),
    [
        ("", "first line"),
        ('schema = "roundwright.library/2"\n', "newer program"),
        ('schema = "roundwright.hall/1"\n', "first line"),
        ('schema = "roundwright.library/0"\n', "first line"),
        ("schema = 1\n", "first line"),
    ],
)
def test_a_missing_or_other_schema_is_refused_in_words(header: str, words: str) -> None:
    fault = only_fault(header + small().removeprefix(SCHEMA))
    assert (fault.code, fault.line) == ("file.schema", 1)
    assert words in fault.remedy


def test_names_of_a_newer_file_still_count_as_there() -> None:
    newer = 'schema = "roundwright.library/2"\n' + movement("far_sit")
    assert only_fault(small().replace('"deep_sit"]', '"far_sit"]'), newer).code == "file.schema"


@pytest.mark.parametrize("table", ["movement = 3", "movement.x = 3", "[[line]]\nname = 'x'"])
def test_something_other_than_a_table_is_a_fault(table: str) -> None:
    assert only_fault(SCHEMA + table).code == "field.value"


def test_windows_line_ends_and_a_byte_order_mark_are_accepted() -> None:
    assert faults_of("\ufeff" + small().replace("\n", "\r\n")) == ()
