"""Names in library files lead somewhere, once; combinations are made of lines alone."""

import pytest

from roundwright.library.catalogue_text import read_catalogue
from tests.library.small_library import (
    SCHEMA,
    broken,
    combination,
    faults_of,
    line,
    line_with,
    movement,
    only_fault,
    small,
)


def test_an_unknown_version_of_a_line_is_named_with_its_line() -> None:
    text = broken('"deep_sit"]', '"deap_sit"]')
    fault = only_fault(text)
    assert (fault.code, fault.value) == ("name.unknown", "deap_sit")
    assert fault.nearest[0] == "deep_sit"
    assert fault.line == line_with(text, "versions =")


def test_an_unknown_line_of_a_combination_is_named() -> None:
    fault = only_fault(broken('line = "sits"', 'line = "sitz"'))
    assert (fault.code, fault.field) == ("name.unknown", "combination.double_sit.parts.1.line")


def test_a_movement_in_place_of_a_line_is_explained() -> None:
    assert "this is a movement" in only_fault(broken('line = "sits"', 'line = "easy_sit"')).expected


@pytest.mark.parametrize(
    ("named", "words"), [("double_sit", "itself"), ("other_sit", "another combination")]
)
def test_a_combination_within_a_combination_is_refused(named: str, words: str) -> None:
    text = broken('line = "sits"', f'line = "{named}"')
    text += combination("other_sit", ("sits", "both"), ("sits", "both"))
    fault = only_fault(text)
    assert fault.code == "library.combination"
    assert words in fault.expected


@pytest.mark.parametrize(
    ("first", "second"),
    [
        (movement("twice", "One"), movement("twice", "Two")),
        (line("twice", "easy_sit"), line("twice", "easy_sit").replace("Line", "Other")),
        (line("twice", "easy_sit"), combination("twice", ("sits", "both"), ("sits", "both"))),
    ],
)
def test_a_short_name_used_twice_is_a_fault_in_one_file_and_in_two(first: str, second: str) -> None:
    one = only_fault(small() + first + second)
    two = only_fault(small() + first, SCHEMA + second)
    assert one.code == two.code == "name.duplicate"
    assert one.value == two.value == "twice"
    assert two.file == "f1.toml"
    assert (one.line or 0) > (small() + first).count("\n")


def test_a_short_name_of_the_base_cannot_be_used_anew_but_its_names_can_be_used() -> None:
    base, _ = read_catalogue({"base.toml": small()})
    assert base is not None
    own, faults = read_catalogue({"own.toml": SCHEMA + line("more", "easy_sit")}, base)
    assert faults == ()
    assert own is not None
    assert own.lines.keys() == {"sits", "more"}
    for text in (movement("easy_sit", "New"), line("double_sit", "easy_sit")):
        none, faults = read_catalogue({"own.toml": SCHEMA + text}, base)
        assert none is None
        assert [fault.code for fault in faults] == ["name.duplicate"]


def test_a_shown_name_used_twice_is_a_fault() -> None:
    fault = only_fault(small() + movement("third_sit", "Easy SIT"))
    assert (fault.code, fault.field) == ("name.duplicate", "movement.third_sit.name")


def test_a_version_named_twice_is_a_fault() -> None:
    fault = only_fault(broken('"deep_sit"]', '"deep_sit", "deep_sit"]'))
    assert (fault.code, fault.value) == ("name.duplicate", "deep_sit")


def test_criteria_for_something_that_is_no_version_are_a_fault() -> None:
    text = small() + '\n[[line.sits.steps]]\nto = "deep"\nmin_classes = 2\nseen = ["Well."]\n'
    fault = only_fault(text)
    assert (fault.code, fault.field) == ("name.unknown", "line.sits.steps.1.to")
    assert fault.line == line_with(text, 'to = "deep"')


def test_criteria_given_twice_for_a_version_are_a_fault() -> None:
    step = '\n[[line.sits.steps]]\nto = "deep_sit"\nmin_classes = 2\n'
    assert only_fault(small() + step + step).code == "name.duplicate"


def test_an_old_name_still_in_use_is_a_fault() -> None:
    fault = only_fault(broken('tempo = "2-0-1"', 'tempo = "2-0-1"\nwas = ["deep_sit"]'))
    assert (fault.code, fault.field) == ("name.duplicate", "movement.easy_sit.was.1")
    assert faults_of(broken('tempo = "2-0-1"', 'tempo = "2-0-1"\nwas = ["old_sit"]')) == ()


@pytest.mark.parametrize(
    ("old", "new", "code", "words"),
    [
        ("share = 0.4", "share = 0.39", "library.shares", "sum to 1"),
        ("level = 1", "level = 4", "library.line", "level 4 or more"),
        ('side = "both"', 'side = "left"', "library.sides", "both"),
        ('load = "none"', 'load = "held"', "library.consistency", "'none'"),
        ("quads = {", "biceps = {", "library.consistency", "glutes"),
    ],
)
def test_a_contradiction_is_placed_in_its_file(old: str, new: str, code: str, words: str) -> None:
    text = broken(old, new)
    fault = only_fault(text)
    assert fault.code == code
    assert fault.line is not None
    assert words in fault.expected
    assert fault.in_words().startswith(f"f0.toml, line {fault.line}")


def test_one_file_broken_in_many_ways_names_each() -> None:
    text = (
        broken('"deep_sit"]', '"deap_sit"]')
        .replace("share = 0.4", "share = 0.3", 1)
        .replace("knee = 1", "kneee = 1", 1)
        .replace('line = "sits"', 'line = "double_sit"', 1)
        + "\n[line.Wrong]\nname = 'x'\n\n[lines.more]\nname = 'Name'\n"
    )
    codes = [fault.code for fault in faults_of(text)]
    for code in ("name.unknown", "field.value", "library.combination", "field.slug"):
        assert code in codes
    assert codes.count("field.missing") == 3
    assert "field.unknown" in codes
