"""Halls on every database: kept as they were, changed record by record, never half."""

import pytest
from sqlalchemy import event

from roundwright.foundation.errors import BadInputError, ChangedMeanwhileError, NotFoundError
from roundwright.hall.written_hall import written_hall
from roundwright.services.keeping.hall_records import records_of
from roundwright.services.keeping.records import RecordEdit, RecordKind
from tests.store_database.a_kept_hall import (
    HALL_ID,
    LIMITATIONS,
    PEOPLE,
    a_hall,
    begun,
    by,
    key,
    person_edit,
)


def test_a_hall_comes_back_as_it_was(kept, url, opening):
    opened = begun(kept)
    assert opened.hall == a_hall()
    assert opened.version == 1
    assert set(opened.versions) == set(records_of(a_hall()))
    assert set(opened.versions.values()) == {1}
    again = kept if url == "sqlite://" else opening(url)
    again.halls._known.clear()
    assert again.halls.opened(HALL_ID) == opened
    assert written_hall(again.halls.opened(HALL_ID).hall) == written_hall(a_hall())


def test_halls_are_listed_by_name(kept):
    begun(kept, hall_id="b_hall")
    begun(kept, a_hall(hall=HALL_TEXT.replace("Tern Quay Hall", "annexe")), "z_hall")
    listed = [(one.name, one.hall_id, one.version) for one in kept.halls.halls()]
    assert listed == [("annexe", "z_hall", 1), ("Tern Quay Hall", "b_hall", 1)]


def test_a_hall_that_has_not_changed_costs_one_select(kept):
    begun(kept)
    kept.halls._known.clear()
    first = kept.halls.opened(HALL_ID)
    asked = []
    event.listen(kept.database.engine, "before_cursor_execute", lambda *told: asked.append(told[2]))
    assert kept.halls.opened(HALL_ID) is first
    selects = [one for one in asked if not one.startswith("BEGIN")]
    assert len(selects) == 1, asked
    assert selects[0].startswith("SELECT hall.version")


def test_what_another_program_changed_is_read_anew(shared_url, opening):
    one, other = opening(shared_url), opening(shared_url)
    begun(one)
    assert other.halls.opened(HALL_ID).version == 1
    one.halls.edit(HALL_ID, [person_edit(1, shown_name="Sunny P")], by())
    assert other.halls.version(HALL_ID) == 2
    assert other.halls.opened(HALL_ID).hall.person("p002").shown_name == "Sunny P"


def test_a_hall_removed_and_begun_anew_elsewhere_is_another_one(shared_url, opening):
    one, other = opening(shared_url), opening(shared_url)
    begun(one)
    other.halls.opened(HALL_ID)
    one.halls.remove(HALL_ID, by("owner"))
    begun(one, a_hall(people=PEOPLE.replace("Maren", "Marit")))
    assert other.halls.opened(HALL_ID).hall.person("p001").shown_name == "Marit T"


def test_an_id_is_taken_once(kept):
    begun(kept)
    with pytest.raises(ChangedMeanwhileError, match="tern_quay"):
        begun(kept)


@pytest.mark.parametrize(
    "ask",
    [
        lambda halls: halls.version("nowhere"),
        lambda halls: halls.opened("nowhere"),
        lambda halls: halls.person_ids("nowhere"),
        lambda halls: halls.edit("nowhere", [person_edit(1)], by()),
        lambda halls: halls.replace("nowhere", a_hall(), 1, by()),
        lambda halls: halls.forget_person("nowhere", "p001", by()),
        lambda halls: halls.remove("nowhere", by()),
    ],
    ids=("version", "opened", "person_ids", "edit", "replace", "forget", "remove"),
)
def test_a_hall_that_is_not_there_is_not_found(kept, ask):
    with pytest.raises(NotFoundError, match="nowhere"):
        ask(kept.halls)


def test_an_edit_changes_one_record_and_the_hall(kept):
    begun(kept)
    changed = kept.halls.edit(HALL_ID, [person_edit(1, body_mass_g=64_000)], by())
    assert changed.version == 2
    assert changed.versions[key(RecordKind.PERSON, "p002")] == 2
    assert sum(changed.versions.values()) == len(changed.versions) + 1
    assert changed.hall.person("p002").body_mass_g == 64_000
    assert changed.hall.person("p001") == a_hall().person("p001")
    kept.halls._known.clear()
    assert kept.halls.opened(HALL_ID) == changed


def test_an_edit_does_not_touch_clearance_that_stands_in_a_record_of_its_own(kept):
    begun(kept)
    edit = person_edit(1, "p003", shown_name="Ivo B")
    changed = kept.halls.edit(HALL_ID, [edit], by())
    assert changed.hall.person("p003").clearance == "moderate_only"


def test_two_who_change_different_records_do_not_meet(kept):
    begun(kept)
    kept.halls.edit(HALL_ID, [person_edit(1, shown_name="Sunny P")], by())
    changed = kept.halls.edit(HALL_ID, [person_edit(1, "p003", shown_name="Ivo B")], by())
    assert [p.shown_name for p in changed.hall.people] == ["Maren T", "Sunny P", "Ivo B"]


def test_who_changes_what_was_changed_is_told_which_by_whom_and_when(kept):
    begun(kept)
    kept.halls.edit(HALL_ID, [person_edit(1, shown_name="Sunny P")], by("owner", 5))
    fine = person_edit(1, "p003", shown_name="Ivo B")
    with pytest.raises(ChangedMeanwhileError) as caught:
        kept.halls.edit(HALL_ID, [fine, person_edit(1, shown_name="Sunny Q")], by())
    assert caught.value.detail == (
        "The person p002 was changed meanwhile by the owner on 2026-03-01 at 09:05 UTC."
    )
    assert "Sunny" not in str(caught.value)
    now = kept.halls.opened(HALL_ID)
    assert now.version == 2
    assert [p.shown_name for p in now.hall.people] == ["Maren T", "Sunny P", "Ivo K"]


def test_who_changes_what_was_removed_is_told_so(kept):
    begun(kept)
    where = key(RecordKind.LIMITATIONS, "p003")
    kept.halls.edit(HALL_ID, [RecordEdit(where, None, 1)], by("owner", 7))
    with pytest.raises(ChangedMeanwhileError, match=r"removed by the owner on .* at 09:07 UTC"):
        kept.halls.edit(HALL_ID, [RecordEdit(where, None, 1)], by())


def test_who_adds_what_was_added_is_told_so(kept):
    begun(kept)
    new = person_edit(None, "p009", shown_name="Ada B")
    kept.halls.edit(HALL_ID, [new], by())
    with pytest.raises(ChangedMeanwhileError, match="person p009 was added meanwhile"):
        kept.halls.edit(HALL_ID, [new], by())


def test_a_record_that_comes_back_goes_on_from_its_last_version(kept):
    begun(kept)
    where = key(RecordKind.LIMITATIONS, "p003")
    values = records_of(a_hall())[where].values
    kept.halls.edit(HALL_ID, [RecordEdit(where, None, 1)], by())
    back = kept.halls.edit(HALL_ID, [RecordEdit(where, values, None)], by())
    assert back.versions[where] == 2
    with pytest.raises(ChangedMeanwhileError):
        kept.halls.edit(HALL_ID, [RecordEdit(where, None, 1)], by())


def test_a_new_person_stands_last(kept):
    begun(kept)
    changed = kept.halls.edit(HALL_ID, [person_edit(None, "p009", shown_name="Ada B")], by())
    assert [p.person_id for p in changed.hall.people] == ["p001", "p002", "p003", "p009"]
    assert changed.hall.person("p009").clearance == "unknown"


def test_a_hall_with_faults_is_never_kept_and_every_fault_is_told(kept):
    begun(kept)
    wish = dict(records_of(a_hall())[key(RecordKind.CLASS, "tuesday")].values)
    wish |= {"room": "attic", "people": ["p001", "p077"]}
    room = key(RecordKind.ROOM, "main_floor")
    edits = [
        RecordEdit(key(RecordKind.CLASS, "tuesday"), wish, 1),
        RecordEdit(room, None, 1),
    ]
    with pytest.raises(BadInputError) as caught:
        kept.halls.edit(HALL_ID, edits, by())
    told = {(f.file, f.code) for f in caught.value.faults}
    assert ("classes/tuesday.toml", "name.unknown") in told
    assert {f.file for f in caught.value.faults} >= {"hall.toml", "classes/tuesday.toml"}
    assert kept.halls.version(HALL_ID) == 1


def test_no_edit_changes_nothing(kept):
    begun(kept)
    assert kept.halls.edit(HALL_ID, [], by()).version == 1


def test_one_record_is_edited_once_at_a_time(kept):
    begun(kept)
    with pytest.raises(BadInputError, match="one edit"):
        kept.halls.edit(HALL_ID, [person_edit(1), person_edit(1)], by())


def test_an_imported_hall_takes_the_place_of_one(kept):
    begun(kept)
    people = PEOPLE.replace("Sunny L", "Sunny P").replace("p003,Ivo K,m,81,moderate_only,\n", "")
    fewer = a_hall(people=people, limitations=LIMITATIONS.replace("p003", "p002"))
    changed = kept.halls.replace(HALL_ID, fewer, 1, by())
    assert changed.hall == fewer
    assert changed.versions[key(RecordKind.PERSON, "p001")] == 1
    assert changed.versions[key(RecordKind.PERSON, "p002")] == 2
    assert key(RecordKind.PERSON, "p003") not in changed.versions
    kept.halls._known.clear()
    assert kept.halls.opened(HALL_ID) == changed
    assert kept.halls.person_ids(HALL_ID) == {"p001", "p002", "p003"}


def test_an_import_over_what_changed_says_what_changed(kept):
    begun(kept)
    kept.halls.edit(HALL_ID, [person_edit(1, shown_name="Sunny P")], by("owner"))
    where = key(RecordKind.LIMITATIONS, "p003")
    kept.halls.edit(HALL_ID, [RecordEdit(where, None, 1)], by("coach", 3))
    with pytest.raises(ChangedMeanwhileError) as caught:
        kept.halls.replace(HALL_ID, a_hall(), 1, by())
    assert "limitations p003 by the coach, person p002 by the owner" in caught.value.detail
    assert kept.halls.version(HALL_ID) == 3


def test_a_hall_that_is_removed_takes_everything_along(kept):
    begun(kept)
    kept.halls.remove(HALL_ID, by("owner"))
    assert kept.halls.halls() == ()
    with pytest.raises(NotFoundError):
        kept.halls.opened(HALL_ID)
    assert [one.what for one in kept.trail.entries()] == ["hall.removed", "hall.begun"]


def test_who_changed_whose_health_stands_in_the_trail(kept):
    begun(kept)
    where = key(RecordKind.CLEARANCE, "p002")
    edit = RecordEdit(where, {"clearance": "cleared", "effort_only": False}, 1)
    kept.halls.edit(HALL_ID, [edit, person_edit(1, "p003")], by("owner", 1, "a1"))
    (told,) = kept.trail.entries(HALL_ID, "p002")
    assert (told.what, told.role, told.account_id) == ("health.changed", "owner", "a1")
    assert told.about == "clearance"
    assert kept.trail.entries(HALL_ID, "p003") == ()


HALL_TEXT = """schema = "roundwright.hall/1"
name = "Tern Quay Hall"
time_zone = "Europe/London"

[[room]]
id = "main_floor"
name = "Main floor"
length = "18 m"
width = "12 m"
"""
