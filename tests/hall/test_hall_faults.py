import pytest

from roundwright.hall.file_text import LARGEST_FILE
from tests.hall.hall_files import (
    CLASS,
    HALL,
    KIT,
    LIMITATIONS,
    PEOPLE,
    faults_of,
    hall_files,
    only_fault,
    read,
)


def test_the_files_that_every_test_spoils_are_sound():
    hall = read(hall_files())
    assert [person.person_id for person in hall.people] == ["p001", "p002"]
    assert hall.kit.dumbbells[1].unit_mass_g == 9072
    assert hall.kit.dumbbells[1].label == "20 lb"
    assert hall.classes["tuesday"].slot_s == 2700


def test_every_fault_of_every_file_is_told_at_once():
    faults = faults_of(
        hall_files(
            hall=HALL.replace("Europe/London", "Europe/Londn"),
            kit=KIT.replace("count = 8", "count = -8"),
            people=PEOPLE.replace("62", "heavy"),
            limitations=LIMITATIONS.replace("p001", "p009"),
            tuesday=CLASS.replace("squat_line", "squat_lin").replace("rounds = 2", "rounds = 0"),
        )
    )
    assert [(f.file, f.line, f.code) for f in faults] == [
        ("classes/tuesday.toml", 7, "field.range"),
        ("classes/tuesday.toml", 14, "name.unknown"),
        ("hall.toml", 3, "field.value"),
        ("kit.toml", 5, "field.range"),
        ("limitations.csv", 2, "name.unknown"),
        ("people.csv", 2, "field.value"),
    ]


@pytest.mark.parametrize("name", ["hall.toml", "kit.toml", "people.csv", "limitations.csv"])
def test_a_missing_file_is_named(name):
    files = hall_files()
    del files[name]
    found = [f for f in faults_of(files) if f.code == "file.missing"]
    assert [f.file for f in found] == [name]


def test_no_files_at_all_is_four_missing_files():
    assert {f.code for f in faults_of({})} == {"file.missing"}


def test_a_file_that_is_not_text_is_named_with_its_line():
    fault = only_fault(hall_files(kit=KIT.encode() + b"\xff\xfe"))
    assert (fault.code, fault.file, fault.line) == ("file.not_text", "kit.toml", 17)


def test_a_picture_in_place_of_a_table_is_not_text():
    fault = only_fault(hall_files(limitations=b"\x89PNG\r\n\x1a\n\0\0\0"))
    assert fault.code == "file.not_text"


def test_a_huge_file_is_refused_by_its_size():
    fault = only_fault(hall_files(limitations=b"x" * (LARGEST_FILE + 1)))
    assert fault.code == "file.too_large"
    assert fault.expected == "at most 5 MB"


def test_broken_toml_gives_line_and_column():
    fault = only_fault(hall_files(limitations=LIMITATIONS, hall=HALL + "name = \n"))
    assert (fault.code, fault.line, fault.column) == ("file.syntax", 10, 8)


def test_deeply_nested_toml_is_a_fault_and_no_crash():
    assert only_fault(hall_files(tuesday="a = " + "[" * 5000)).code == "file.syntax"


@pytest.mark.parametrize(
    ("schema", "words"),
    [
        ("roundwright.hall/2", "newer version"),
        ("roundwright.kit/1", "roundwright.hall/1"),
        ("something", "roundwright.hall/1"),
    ],
)
def test_another_schema_is_refused_in_words(schema, words):
    fault = only_fault(hall_files(hall=HALL.replace("roundwright.hall/1", schema)))
    assert (fault.code, fault.line) == ("file.schema", 1)
    assert words in fault.in_words()


def test_a_missing_schema_says_what_to_write():
    fault = only_fault(hall_files(hall=HALL.split("\n", 1)[1]))
    assert (fault.code, fault.expected) == ("field.missing", 'schema = "roundwright.hall/1"')


def test_an_unknown_field_gives_the_nearest():
    fault = only_fault(hall_files(kit=KIT.replace("flat_sided", "flat_side")))
    assert (fault.code, fault.line, fault.nearest) == ("field.unknown", 10, ("flat_sided",))


def test_the_programs_own_field_names_are_not_the_files():
    fault = faults_of(hall_files(kit=KIT.replace('mass = "8 kg"', "unit_mass_g = 8000")))
    assert {f.code for f in fault} == {"field.missing", "field.unknown"}


@pytest.mark.parametrize(
    "mass", ["-8", "0", '"-8 kg"', "nan", "inf", "1e300", '"' + "9" * 30 + ' kg"']
)
def test_a_load_that_cannot_be_is_out_of_range(mass):
    fault = only_fault(hall_files(kit=KIT.replace('"8 kg"', mass)))
    assert (fault.code, fault.line) == ("field.range", 4)


@pytest.mark.parametrize("value", ["true", '"eight"', '"8 stone"'])
def test_a_mass_that_is_no_mass_is_a_wrong_value(value):
    fault = only_fault(hall_files(kit=KIT.replace('"8 kg"', value)))
    assert (fault.code, fault.field) == ("field.value", "dumbbell 1: mass")


def test_a_hall_without_kit_is_a_fault():
    assert only_fault(hall_files(kit='schema = "roundwright.kit/1"\n')).code == "hall.no_kit"
    none = KIT.replace("count = 8", "count = 0").replace("count = 4", "count = 0")
    assert only_fault(hall_files(kit=none.replace("count = 6", "count = 0"))).code == "hall.no_kit"


def test_a_mass_or_an_item_given_twice_is_a_fault():
    fault = only_fault(hall_files(kit=KIT.replace('"20 lb"', '"8000 g"')))
    assert (fault.code, fault.line, fault.value) == ("name.duplicate", 8, "8 kg")
    twice = KIT + '\n[[item]]\nid = "rope"\nkind = "rope"\ncount = 1\n'
    assert only_fault(hall_files(kit=twice)).code == "name.duplicate"


def test_an_item_in_an_unknown_room_gives_the_nearest():
    fault = only_fault(hall_files(kit=KIT.replace("main_floor", "main_flor")))
    assert (fault.code, fault.nearest) == ("name.unknown", ("main_floor",))


def test_a_hall_without_rooms_or_with_a_room_twice_is_a_fault():
    head, room = HALL.split("\n[[room]]")
    assert "room" in [f.field for f in faults_of(hall_files(hall=head))]
    fault = only_fault(hall_files(hall=f"{head}\n[[room]]{room}\n[[room]]{room}"))
    assert fault.code == "name.duplicate"


def test_a_file_that_no_hall_has_is_named():
    files = hall_files() | {"peopl.csv": b""}
    fault = only_fault(files)
    assert (fault.code, fault.nearest) == ("name.unknown", ("people.csv",))


def test_a_class_file_needs_a_short_name():
    files = hall_files()
    files["classes/Tuesday Class.toml"] = files["classes/tuesday.toml"]
    assert only_fault(files).code == "field.slug"


def test_a_combination_that_contains_itself_is_a_fault():
    text = """schema = "roundwright.library/1"

[combination.round_and_round]
name = "Round and round"
parts = [{ line = "round_and_round" }, { line = "squat_line" }]
"""
    fault = only_fault(hall_files() | {"library/own.toml": text.encode()})
    assert (fault.code, fault.file) == ("library.combination", "library/own.toml")


def test_own_library_entries_can_be_used_by_a_class():
    text = """schema = "roundwright.library/1"

[combination.squat_and_press]
name = "Squat and press"
parts = [{ line = "squat_line" }, { line = "press_line" }]
"""
    own = CLASS.replace('"squat_line"', '"squat_and_press"')
    hall = read(hall_files(tuesday=own) | {"library/own.toml": text.encode()})
    assert hall.catalogue.has_exercise("squat_and_press")
    assert hall.library_texts == {"library/own.toml": text}
