"""A marked health word turns up in no fault, error, repr or problem details."""

import json
import traceback

import pytest

from roundwright.foundation.errors import BadInputError
from roundwright.hall.hall import Hall
from tests.hall.hall_files import LIMITATIONS, PEOPLE, hall_files, read

MARK = "zzsarcoidosis"
HEADER = LIMITATIONS.split("\n")[0]
WIDE = (
    "person_id,region_or_condition,side,amount,from_on,until_on,override_demand,"
    "override_reason,override_by,override_until_on\n"
)


def everything_said_of(files: dict[str, bytes]) -> str:
    with pytest.raises(BadInputError) as caught:
        read(files)
    error = caught.value
    shown = [str(error), repr(error), json.dumps(error.as_problem())]
    shown += [fault.in_words() + repr(fault) for fault in error.faults]
    shown += traceback.format_exception(error)
    return "\n".join(shown)


@pytest.mark.parametrize("column", range(10))
def test_a_marked_word_in_any_cell_of_a_limitation_is_hidden(column):
    cells = ["p001", "knee", "left", "avoid", "2026-01-05", "", "impact", "why", "coach", ""]
    cells[column] = MARK
    said = everything_said_of(hall_files(limitations=WIDE + ",".join(cells) + "\n"))
    assert MARK not in said
    assert "limitations.csv, line 2" in said


@pytest.mark.parametrize(
    "text",
    [
        f"{HEADER}\np001,{MARK}\n",
        f"{HEADER}\np001;{MARK};left;avoid;2026-01-05\n",
        f"p001,{MARK},left,avoid,2026-01-05\n",
        f'{HEADER}\np001,"{MARK}\n',
        f"{HEADER},{MARK}\n",
        f"{HEADER}\np001,{MARK}\t,left,avoid,2026-01-05\n",
    ],
)
def test_a_marked_word_in_a_misshapen_table_is_hidden(text):
    assert MARK not in everything_said_of(hall_files(limitations=text))


@pytest.mark.parametrize("old", [",cleared", "clearance"])
def test_a_marked_word_about_clearance_is_hidden(old):
    faulty = PEOPLE.replace(old, f",{MARK}" if old.startswith(",") else MARK)
    said = everything_said_of(hall_files(people=faulty))
    assert MARK not in said
    assert "not_cleared" in said or "clearance" in said


def test_effort_only_is_hidden():
    text = f"person_id,shown_name,effort_only\np001,Maren T,{MARK}\n"
    assert MARK not in everything_said_of(hall_files(people=text))


def a_marked_hall() -> Hall:
    row = f"p001,knee,right,avoid,2026-01-05,,impact,{MARK},coach,2026-04-01\n"
    return read(hall_files(limitations=WIDE + row))


def test_a_hall_shows_neither_people_nor_limitations():
    hall = a_marked_hall()
    assert hall.limitations[0].override_reason == MARK
    shown = repr(hall) + str(hall)
    for word in (MARK, "knee", "Maren"):
        assert word not in shown
