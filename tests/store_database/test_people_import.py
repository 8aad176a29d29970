"""A list of people: columns matched, previewed, every fault at once, nothing ever erased."""

import pytest

from roundwright.bootstrap.keeping import keeping_at
from roundwright.foundation.errors import ChangedMeanwhileError
from roundwright.services.keeping.people_import import preview_people
from roundwright.services.keeping.records import RecordKind
from tests.store_database.a_kept_hall import HALL_ID, LIBRARY, a_hall, begun, by, person_edit


@pytest.fixture
def kept():
    opened = keeping_at("sqlite://", lambda: LIBRARY)
    begun(opened)
    yield opened
    opened.close()


def preview(kept, text, *, may_health=True, choice=None):
    content = text if isinstance(text, bytes) else text.encode()
    ids = kept.halls.person_ids(HALL_ID)
    opened = kept.halls.opened(HALL_ID)
    return preview_people("members.csv", content, opened, ids, may_health=may_health, choice=choice)


def brought(kept, text, **more):
    return kept.halls.edit(HALL_ID, preview(kept, text, **more).edits, by()).hall


def rows(found):
    return [(one.line, one.person_id, one.state, one.fields) for one in found.rows]


def test_new_changed_and_same_are_told_apart(kept):
    text = "shown_name,body_mass_kg\nSunny L,70\nMaren T,62.5\n\nAda B,55\n"
    found = preview(kept, text)
    assert rows(found) == [
        (2, "p002", "changed", ("body_mass_g",)),
        (3, "p001", "same", ()),
        (5, "p004", "new", ()),
    ]
    assert found.faults == ()
    hall = brought(kept, text)
    assert [(p.person_id, p.shown_name, p.body_mass_g) for p in hall.people] == [
        ("p001", "Maren T", 62_500),
        ("p002", "Sunny L", 70_000),
        ("p003", "Ivo K", 81_000),
        ("p004", "Ada B", 55_000),
    ]
    assert hall.person("p004").clearance == "unknown"
    assert hall.limitations == a_hall().limitations


def test_a_list_brought_in_twice_is_the_same(kept):
    text = "shown_name;body_mass_kg;clearance\nAda B;55,5;cleared\n"
    hall = brought(kept, text)
    assert (hall.person("p004").body_mass_g, hall.person("p004").clearance) == (55_500, "cleared")
    found = preview(kept, text)
    assert [one.state for one in found.rows] == ["same"]
    assert found.edits == ()


def test_an_empty_cell_erases_nothing(kept):
    text = "shown_name,own_kit,body_mass_kg,clearance,level_squat\nSunny L,,,,2\nMaren T,,,,\n"
    hall = brought(kept, text)
    assert hall.person("p002").own_kit == "a band, door anchor"
    assert hall.person("p002").level_by_family == {"squat": 2}
    assert hall.person("p001") == a_hall().person("p001")
    more = brought(kept, "name,level_hinge\nSunny L,3\n")
    assert more.person("p002").level_by_family == {"squat": 2, "hinge": 3}


def test_an_id_is_never_given_twice(kept):
    kept.halls.forget_person(HALL_ID, "p003", by())
    assert rows(preview(kept, "shown_name\nAda B\nOlu T\n")) == [
        (2, "p004", "new", ()),
        (3, "p005", "new", ()),
    ]


def test_people_are_found_by_id_and_may_be_called_otherwise(kept):
    hall = brought(kept, "person_id,shown_name\np003,Ivo B\n")
    assert hall.person("p003").shown_name == "Ivo B"
    assert hall.person("p003").clearance == "moderate_only"


def test_names_are_found_in_any_case_and_spacing(kept):
    found = preview(kept, "shown_name\n  maren   t \n")
    assert rows(found) == [(2, "p001", "changed", ("shown_name",))]


MATCHES = {
    "Shown Name,Body-mass (kg)": [("shown_name", "exact"), ("body_mass_kg", "exact")],
    "Name,Weight,Shoe size": [("shown_name", "near"), ("body_mass_kg", "near"), (None, "not_used")],
    "Shown nane,hight cm": [("shown_name", "near"), ("height_cm", "near")],
    "Name,Member": [("shown_name", "near"), (None, "not_used")],
    "Member,shown_name": [(None, "not_used"), ("shown_name", "exact")],
}


@pytest.mark.parametrize("header", MATCHES)
def test_columns_are_matched_exactly_then_by_the_nearest_name(kept, header):
    found = preview(kept, f"{header}\n")
    assert [(one.column, one.how) for one in found.columns] == MATCHES[header]


def test_the_choice_of_the_coach_wins(kept):
    text = "Name,Weight,Vorname\nBecker,62,Ada\n"
    found = preview(kept, text, choice={"Vorname": "shown_name", "Weight": None})
    assert [(one.column, one.how) for one in found.columns] == [
        (None, "not_used"),
        (None, "chosen"),
        ("shown_name", "chosen"),
    ]
    assert found.columns[0].nearest == ("shown_name",)
    hall = brought(kept, text, choice={"Vorname": "shown_name", "Weight": None})
    assert (hall.people[-1].shown_name, hall.people[-1].body_mass_g) == ("Ada", None)


def test_health_is_left_out_for_who_may_not_change_it(kept):
    text = "shown_name,clearance,effort_only\nSunny L,cleared,yes\nAda B,cleared,no\n"
    found = preview(kept, text, may_health=False)
    assert [one.how for one in found.columns] == ["exact", "not_allowed", "not_allowed"]
    assert [one.where.kind for one in found.edits] == [RecordKind.PERSON]
    hall = brought(kept, text, may_health=False)
    assert [p.clearance for p in hall.people] == [
        *("cleared", "unknown", "moderate_only", "unknown")
    ]
    health = [one for one in preview(kept, text).edits if one.where.kind is RecordKind.CLEARANCE]
    assert [one.where.key for one in health] == ["p002", "p004"]


def test_every_fault_is_told_at_once_and_nothing_would_be_done(kept):
    text = (
        "Name,Weight,clearance,born,person_id\n"
        "Ada B,900,canary_ill,1990,\n"
        '"Olu\nT",61,,18,\n'
        "Ada B,60,,,\n"
        "Zed,60,,,p777\n"
    )
    found = preview(kept, text)
    assert [(f.line, f.column, f.field, f.code) for f in found.faults] == [
        (2, 2, "body_mass_kg", "field.range"),
        (2, 3, "clearance", "field.value"),
        (3, 4, "birth_year", "field.range"),
        (5, 1, "shown_name", "table.duplicate"),
        (6, 5, "person_id", "name.unknown"),
    ]
    assert "canary_ill" not in repr(found)
    assert found.edits == ()


@pytest.mark.parametrize(
    ("content", "code"),
    [
        (b"\xff\xfe\x00", "file.not_text"),
        (b"", "table.header"),
        (b'shown_name\n"Ada', "file.syntax"),
        (b"shown_name,level\nAda\n", "table.width"),
        (b"colour\nred\n", "table.header"),
        (b"shown_name\n" + b"Ada\n" * 5001, "field.range"),
    ],
    ids=("not text", "empty", "open quote", "width", "no name", "too long"),
)
def test_what_is_no_list_of_people_is_told(kept, content, code):
    found = preview(kept, content)
    assert code in {f.code for f in found.faults}
    assert found.edits == ()


def test_a_name_that_two_people_have_needs_an_id(kept):
    kept.halls.edit(HALL_ID, [person_edit(1, shown_name="Maren T")], by())
    (fault,) = preview(kept, "shown_name\nMaren T\n").faults
    assert fault.code == "table.duplicate"
    assert "2 people" in fault.expected


def test_a_list_with_tabs_and_decimal_commas_is_read(kept):
    hall = brought(kept, "Name\tWeight\nAda; B\t55,5\n")
    assert (hall.people[-1].shown_name, hall.people[-1].body_mass_g) == ("Ada; B", 55_500)


def test_who_changed_a_person_after_the_preview_is_not_written_over(kept):
    found = preview(kept, "shown_name,body_mass_kg\nSunny L,70\n")
    kept.halls.edit(HALL_ID, [person_edit(1)], by("owner"))
    with pytest.raises(ChangedMeanwhileError, match="p002 was changed meanwhile by the owner"):
        kept.halls.edit(HALL_ID, found.edits, by())
