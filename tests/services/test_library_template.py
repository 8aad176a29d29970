"""The template of a coach's own library file: accepted as it is, and it names every word."""

from pathlib import Path

import pytest

from roundwright.body.anatomy import Muscle, MuscleRole
from roundwright.bootstrap.shipped_library import shipped_catalogue
from roundwright.foundation.errors import BadInputError
from roundwright.hall.hall_text import read_hall_texts
from roundwright.library import vocabulary
from roundwright.services.check_library import check_library
from roundwright.services.library_template import library_template

HALLS = Path(__file__).parents[1] / "halls"


def test_the_template_adds_one_of_each_kind_to_the_shipped_library() -> None:
    base = shipped_catalogue()
    before = check_library({}, base)
    after = check_library({"mine.toml": library_template()}, base)
    assert after == {kind: number + 1 for kind, number in before.items()}


@pytest.mark.parametrize(
    "words",
    [
        vocabulary.Pattern,
        vocabulary.StrengthFamily,
        vocabulary.Laterality,
        vocabulary.Demand,
        vocabulary.KitKind,
        vocabulary.KitUse,
        Muscle,
        MuscleRole,
    ],
)
def test_every_word_to_choose_from_stands_in_a_note(words) -> None:
    notes = [line for line in library_template().splitlines() if line.startswith("#")]
    said = {word.strip(" #") for line in notes for word in line.replace(":", ",").split(",")}
    assert {word.value for word in words} <= said


def test_no_line_is_too_long_to_read() -> None:
    assert max(map(len, library_template().splitlines())) <= 100


@pytest.mark.parametrize(
    ("written", "instead", "code"),
    [
        ("level = 1", "level = 7", "field.range"),
        ('"mobility"', '"stretching"', "field.value"),
        ('line = "hinges"', 'line = "hinge"', "name.unknown"),
        ("[movement.my_heel_raise]", "[movement.goblet_squat]", "name.duplicate"),
        ("share = 1.0", "share = 0.5", "library.shares"),
        ("contacts_a_rep = 0", "contacts_a_rep = 2", "library.consistency"),
        ('side = "both" },\n]', 'side = "left" },\n]', "library.sides"),
        ('tempo = "1-1-1"\n', "", "field.missing"),
        ('tempo = "1-1-1"', 'tempo = "1-1-1"\npace = 3', "field.unknown"),
    ],
)
def test_what_is_spoiled_in_it_is_told_with_its_line(written, instead, code) -> None:
    text = library_template()
    assert written in text
    with pytest.raises(BadInputError) as caught:
        check_library({"mine.toml": text.replace(written, instead)}, shipped_catalogue())
    found = {fault.code: fault for fault in caught.value.faults}
    assert code in found
    assert found[code].line


def test_a_class_of_a_hall_with_the_file_may_use_its_line() -> None:
    folder = HALLS / "harbour_room"
    files = {
        path.relative_to(folder).as_posix(): path.read_bytes()
        for path in folder.rglob("*")
        if path.suffix in (".toml", ".csv")
    }
    files["library/mine.toml"] = library_template().encode()
    files["classes/whole.toml"] += (
        b'\n[[exercise]]\nexercise = "my_heel_raises"\ncount = { value = 10, unit = "reps" }\n'
    )
    hall = read_hall_texts(files, shipped_catalogue())
    assert hall.classes["whole"].exercise[-1].exercise == "my_heel_raises"
    assert "my_heel_raise" in hall.catalogue.movements
