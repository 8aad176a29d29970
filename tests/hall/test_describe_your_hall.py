"""The example of the how-to page is a hall, and its tables name what the program knows."""

import re
from datetime import date
from pathlib import Path

from roundwright.bootstrap.shipped_library import shipped_catalogue
from roundwright.goals.class_wish import ClassFormat, CountUnit
from roundwright.hall.hall_text import NEEDED_FILES, read_hall_texts
from roundwright.hall.people_text import LIMITATION_COLUMNS, PEOPLE_COLUMNS
from roundwright.library.vocabulary import KitKind, StrengthFamily
from roundwright.people.limitation import Concern
from roundwright.plan.build_problem import build_problem

PAGE = (Path(__file__).parents[2] / "docs/how-to/describe-your-hall.md").read_text("utf-8")
EXAMPLE = re.compile(r"^## (\S+)\n.*?^```(?:toml|csv)\n(.*?)^```", re.M | re.S)


def example() -> dict[str, bytes]:
    return {name: text.encode() for name, text in EXAMPLE.findall(PAGE)}


def test_the_example_reads_and_can_be_planned():
    files = example()
    assert set(NEEDED_FILES) < set(files)
    hall = read_hall_texts(files, shipped_catalogue())
    problem = build_problem(hall, "tuesday_circuit", date(2026, 3, 1))
    assert problem.spec.positions == 3
    assert len(problem.people) == 3


def test_the_page_names_every_word_that_the_files_may_hold():
    words = {
        *LIMITATION_COLUMNS,
        *(column for column in PEOPLE_COLUMNS if not column.startswith("level_")),
        *(kind.value for kind in KitKind if kind is not KitKind.DUMBBELL),
        *(concern.value for concern in Concern),
        *(family.value for family in StrengthFamily),
        *(unit.value for unit in CountUnit),
        *(form.value for form in ClassFormat),
    }
    assert {word for word in words if not re.search(rf"\b{word}\b", PAGE)} == set()
