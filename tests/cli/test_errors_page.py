"""The page on errors says what the code says, and the family keeps its promises."""

import json
import re
from pathlib import Path

import pytest

from roundwright.cli.faults_shown import OURS_ENTRY, tell_error
from roundwright.foundation import errors
from roundwright.foundation.fault_codes import CODES
from roundwright.foundation.faults import Fault

PAGE = (Path(__file__).parents[2] / "docs" / "reference" / "errors.md").read_text(encoding="utf-8")


def _family(kind=errors.RoundwrightError):
    for child in kind.__subclasses__():
        yield child
        yield from _family(child)


FAMILY = [errors.RoundwrightError, *_family()]


def _made(kind):
    if kind is errors.BadInputError:
        return kind([Fault(code="field.missing", file="hall.toml", line=3, field="name")])
    return kind("Bench 3 is taken twice.")


def _rows(heading):
    section = PAGE.split(f"## {heading}\n", 1)[1].split("\n## ", 1)[0]
    lines = [line for line in section.splitlines() if line.startswith("| ")][2:]
    return [[cell.strip().strip("`") for cell in line.strip("| ").split(" | ")] for line in lines]


def test_every_code_stands_on_the_page_as_in_the_table():
    shown = {row[0]: row[1:] for row in _rows("Codes")}
    expected = {
        code: [entry.title, str(entry.status), str(entry.exit_code), entry.remedy]
        for code, entry in CODES.items()
    }
    assert shown == expected


def test_every_error_of_the_family_stands_on_the_page():
    shown = {row[0]: row[1:] for row in _rows("The family")}
    expected = {
        kind.__name__: [kind.code, str(CODES[kind.code].exit_code), CODES[kind.code].title]
        for kind in FAMILY
    }
    assert shown == expected


def test_the_exit_codes_of_page_and_table_are_the_same():
    on_page = {int(row[0]) for row in _rows("Exit codes")}
    used = {entry.exit_code for entry in CODES.values()} | {0}
    assert used == on_page == set(range(10))
    assert OURS_ENTRY.exit_code == 1


def test_each_error_has_a_code_of_its_own():
    codes = [kind.code for kind in FAMILY]
    assert len(set(codes)) == len(codes) >= 9


@pytest.mark.parametrize("kind", FAMILY, ids=lambda k: k.__name__)
def test_each_error_says_what_to_do_next_in_words_and_in_json(kind, capsys):
    error = _made(kind)
    assert error.next_step.endswith(".")
    assert tell_error(error, as_json=False) == error.exit_code != 0
    told = capsys.readouterr()
    assert told.out == ""
    assert error.detail.split(":")[0] in told.err
    assert tell_error(error, as_json=True) == error.exit_code
    told = capsys.readouterr()
    problem = json.loads(told.out)
    assert told.err == ""
    assert problem["type"] == f"urn:roundwright:{kind.code}"
    assert problem["next_step"] == error.next_step


def test_codes_are_slugs_of_area_and_what():
    assert all(re.fullmatch(r"[a-z]+\.[a-z_]+", code) for code in CODES)
