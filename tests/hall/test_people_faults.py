import pytest

from tests.hall.hall_files import LIMITATIONS, PEOPLE, faults_of, hall_files, only_fault, read

NO_LIMITATIONS = LIMITATIONS.split("\n")[0] + "\n"


def test_empty_cells_are_unknown_and_stay_so():
    sunny = read(hall_files()).people[1]
    assert (sunny.clearance, sunny.sex, sunny.body_mass_g) == ("unknown", "unstated", None)


def test_semicolons_take_a_decimal_comma_and_a_byte_order_mark():
    text = "﻿" + PEOPLE.replace(",", ";").replace("62", "62,5")
    assert read(hall_files(people=text)).people[0].body_mass_g == 62_500


def test_with_commas_a_decimal_comma_is_a_fault():
    assert only_fault(hall_files(people=PEOPLE.replace("62", '"62,5"'))).code == "field.value"


def test_columns_may_come_in_any_order():
    text = "shown_name,level,person_id\nMaren T,3,p001\n"
    assert read(hall_files(people=text)).people[0].level == 3


@pytest.mark.parametrize(
    "text",
    [
        PEOPLE.replace("person_id,shown_name", "person_id;shown_name"),
        PEOPLE.replace("p001,Maren T,f,62,cleared", "p001;Maren T;f;62;cleared"),
        PEOPLE.replace(",", ";").replace("p002;Sunny L;;;", "p002,Sunny L,,,"),
    ],
)
def test_mixed_separators_are_a_fault_of_their_own(text):
    assert only_fault(hall_files(people=text)).code == "table.separator"


def test_an_unknown_column_gives_the_nearest():
    fault = only_fault(hall_files(people=PEOPLE.replace("body_mass_kg", "bodymass_kg")))
    assert (fault.code, fault.column, fault.nearest[0]) == ("table.header", 4, "body_mass_kg")


def test_a_needed_column_that_is_not_there_is_named():
    text = "person_id,level\np001,3\n"
    assert "shown_name" in [f.field for f in faults_of(hall_files(people=text))]


@pytest.mark.parametrize("text", ["", "\n", "person_id,person_id,shown_name\n"])
def test_an_empty_or_doubled_header_is_a_fault(text):
    faults = faults_of(hall_files(people=text))
    assert "table.header" in {f.code for f in faults}


@pytest.mark.parametrize("row", ["p003,Ike B", "p003,Ike B,m,78,cleared,more"])
def test_a_row_with_the_wrong_number_of_cells_gives_both_numbers(row):
    fault = only_fault(hall_files(people=PEOPLE + row + "\n"))
    assert (fault.code, fault.line, fault.expected) == (
        "table.width",
        4,
        "5 cells as in the header",
    )


def test_the_line_is_right_after_a_cell_with_a_line_break():
    text = PEOPLE.replace("Maren T", '"Maren\nT"').replace("Sunny L,,,", "Sunny L,,x,")
    assert [(f.line, f.code) for f in faults_of(hall_files(people=text))] == [
        (2, "field.value"),
        (4, "field.value"),
    ]


def test_open_quotes_are_a_fault():
    assert "file.syntax" in [f.code for f in faults_of(hall_files(people=PEOPLE + '"p003,Ike'))]


def test_a_person_given_twice_is_a_fault_on_the_second_line():
    fault = only_fault(hall_files(people=PEOPLE.replace("p002", "p001")))
    assert (fault.code, fault.line, fault.value) == ("table.duplicate", 3, "p001")


@pytest.mark.parametrize(
    ("old", "new", "code"),
    [
        ("62", "-62", "field.range"),
        ("62", "1000", "field.range"),
        ("p001,Maren", "P 1,Maren", "field.slug"),
        (",f,", ",female,", "field.value"),
        ("Maren T", "", "field.missing"),
        ("Maren T", "M" * 41, "field.range"),
    ],
)
def test_a_cell_that_cannot_be_is_told_by_its_column(old, new, code):
    fault = only_fault(hall_files(people=PEOPLE.replace(old, new), limitations=NO_LIMITATIONS))
    assert (fault.code, fault.file, fault.line) == (code, "people.csv", 2)


def test_nobody_is_a_fault_of_the_class():
    head = PEOPLE.split("\n")[0] + "\n"
    fault = only_fault(hall_files(people=head, limitations=NO_LIMITATIONS))
    assert (fault.code, fault.file) == ("people.none", "classes/tuesday.toml")


@pytest.mark.parametrize(("count", "is_fault"), [(41, False), (60, False), (61, True)])
def test_sixty_people_are_the_most_of_a_class(count, is_fault):
    rows = "".join(f"p{n:03d},Name {n}\n" for n in range(1, count + 1))
    files = hall_files(people=f"person_id,shown_name\n{rows}")
    if is_fault:
        fault = only_fault(files)
        assert (fault.code, fault.value) == ("people.too_many", "61 people")
    else:
        assert len(read(files).people) == count


@pytest.mark.parametrize(
    ("old", "new", "column", "code"),
    [
        (",knee,", ",kneee,", "region_or_condition", "field.value"),
        (",right,", ",rihgt,", "side", "field.value"),
        (",avoid,", ",never,", "amount", "field.value"),
        (",avoid,", ",,", "amount", "field.missing"),
        (",2026-01-05", ",2026-13-05", "from_on", "field.value"),
        (",2026-01-05", ",2026-02-30", "from_on", "field.value"),
        (",2026-01-05", ",20260105", "from_on", "field.value"),
        (",2026-01-05", ",", "from_on", "field.missing"),
        ("p001,", "p00,", "person_id", "name.unknown"),
    ],
)
def test_a_limitation_that_cannot_be_is_told_without_its_value(old, new, column, code):
    fault = only_fault(hall_files(limitations=LIMITATIONS.replace(old, new, 1)))
    assert (fault.code, fault.field, fault.line) == (code, column, 2)
    assert fault.value in ("", "(hidden)")


def test_an_unknown_region_is_answered_with_the_words_that_are_allowed():
    fault = only_fault(hall_files(limitations=LIMITATIONS.replace(",knee,", ",kneee,")))
    assert "low_back" in fault.expected


def test_an_unknown_person_is_answered_with_the_nearest_ids():
    fault = only_fault(hall_files(limitations=LIMITATIONS.replace("p001", "p011")))
    assert fault.nearest[0] == "p001"


OVERRIDDEN = """person_id,region_or_condition,amount,from_on,override_demand,override_reason,\
override_by,override_until_on
p001,knee,avoid,2026-01-05,impact,seen by the physiotherapist,coach,2026-04-01
"""


def test_a_whole_override_is_accepted():
    row = read(hall_files(limitations=OVERRIDDEN)).limitations[0]
    assert (row.override_demand, row.override_by) == ("impact", "coach")


@pytest.mark.parametrize("part", ["impact", "seen by the physiotherapist", "coach", "2026-04-01"])
def test_an_override_needs_demand_reason_role_and_end(part):
    assert only_fault(hall_files(limitations=OVERRIDDEN.replace(part, ""))).code == (
        "limitation.override"
    )


@pytest.mark.parametrize("set_by", ["", "person", "coach"])
def test_what_no_clinician_set_is_lifted_by_a_coach(set_by):
    files = hall_files(limitations=set_by_column(OVERRIDDEN, set_by))
    assert read(files).limitations[0].set_by == (set_by or "person")


@pytest.mark.parametrize("role", ["coach", "owner"])
def test_what_a_clinician_set_is_lifted_by_nobody_else(role):
    text = set_by_column(OVERRIDDEN, "clinician").replace(",coach,", f",{role},")
    fault = only_fault(hall_files(limitations=text))
    assert (fault.code, fault.field, fault.value, fault.expected) == (
        "limitation.clinician",
        "override_by",
        "(hidden)",
        "clinician",
    )


def test_a_clinician_lifts_what_a_clinician_set():
    text = set_by_column(OVERRIDDEN, "clinician").replace(",coach,", ",clinician,")
    row = read(hall_files(limitations=text)).limitations[0]
    assert (row.set_by, row.override_by) == ("clinician", "clinician")


def set_by_column(text: str, value: str) -> str:
    """Add the column at the front of the rows."""
    head, row, *_ = text.splitlines()
    return f"set_by,{head}\n{value},{row}\n"


def test_an_assistant_can_lift_nothing():
    fault = only_fault(hall_files(limitations=OVERRIDDEN.replace(",coach,", ",assistant,")))
    assert (fault.field, fault.expected) == ("override_by", "one of coach, owner, clinician")


WEEKS = """person_id,region_or_condition,amount,from_on,weeks
p001,pregnancy,ease,2026-01-05,14
"""


def test_weeks_are_read_for_what_changes_by_the_week():
    (row,) = read(hall_files(limitations=WEEKS)).limitations
    assert row.weeks == 14


@pytest.mark.parametrize(("concern", "weeks"), [("knee", "14"), ("pregnancy", "-1")])
def test_weeks_of_anything_else_or_out_of_range_are_a_fault_that_hides_them(concern, weeks):
    text = WEEKS.replace("pregnancy", concern).replace("14", weeks)
    fault = only_fault(hall_files(limitations=text))
    assert (fault.field, fault.value) == ("weeks", "(hidden)")


@pytest.mark.parametrize(
    ("concern", "demand"), [("pregnancy", "on_back"), ("osteoporosis", "deep_spinal_flexion")]
)
def test_what_only_a_clinician_lifts_is_a_fault_with_another_role(concern, demand):
    text = OVERRIDDEN.replace("knee", concern).replace("impact", demand)
    fault = only_fault(hall_files(limitations=text))
    assert (fault.code, fault.field) == ("limitation.clinician", "override_by")
    assert concern not in fault.in_words()
    lifted = text.replace(",coach,", ",clinician,")
    assert read(hall_files(limitations=lifted)).limitations[0].override_by == "clinician"
