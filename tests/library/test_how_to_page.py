"""The example of the how-to page is a library file that adds to the shipped library."""

import re
from pathlib import Path

from roundwright.bootstrap.shipped_library import shipped_catalogue
from roundwright.library.catalogue_text import read_catalogue
from roundwright.library.movement import Movement, Teaching

PAGE = Path(__file__).parents[2] / "docs/how-to/write-a-library-file.md"


def example() -> str:
    (block,) = re.findall(r"```toml\n(.*?)```", PAGE.read_text(encoding="utf-8"), flags=re.S)
    return str(block)


def test_the_example_is_accepted_and_adds_one_of_each_kind() -> None:
    base = shipped_catalogue()
    catalogue, faults = read_catalogue({"page.toml": example()}, base)
    assert faults == ()
    assert catalogue is not None
    assert catalogue.movements.keys() - base.movements.keys() == {"chair_heel_raise"}
    assert catalogue.lines.keys() - base.lines.keys() == {"heel_raises"}
    assert catalogue.combinations.keys() - base.combinations.keys() == {"hinge_heel_raise"}


def test_the_page_names_every_field_that_a_coach_may_write() -> None:
    text = PAGE.read_text(encoding="utf-8")
    left_out = {"slug", "posture", "lifted_share_by", "name"}
    fields = (set(Movement.model_fields) | set(Teaching.model_fields)) - left_out
    assert {field for field in fields if field not in text} == set()
