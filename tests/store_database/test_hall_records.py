"""A hall as records and back: nothing is lost, each record is checked, health never shows."""

import json
from dataclasses import replace

import pytest
from hypothesis import given, settings

from roundwright.foundation.errors import BadInputError
from roundwright.hall.hall import Hall
from roundwright.hall.written_hall import written_hall
from roundwright.services.keeping.hall_records import hall_of, records_of
from roundwright.services.keeping.record_forms import FORMS, HALL_FIELDS, PRIVACY
from roundwright.services.keeping.records import Privacy, Record, RecordKey, RecordKind
from tests.store_database.a_kept_hall import LIBRARY, a_hall, key
from tests.store_database.drawn_halls import SEEDS, a_drawn_hall
from tests.support.plans import the_demo_hall


@settings(max_examples=60, deadline=None, derandomize=True)
@given(SEEDS)
def test_records_of_a_drawn_hall_give_the_same_files(seed):
    hall = a_drawn_hall(seed)
    records = records_of(hall)
    again = hall_of([_through_json(one) for one in records.values()], LIBRARY)
    assert again == hall
    assert written_hall(again) == written_hall(hall)
    assert records_of(again) == records


def test_the_demo_hall_comes_back_equal():
    hall = the_demo_hall()
    from roundwright.bootstrap.shipped_library import shipped_catalogue

    again = hall_of(records_of(hall).values(), shipped_catalogue())
    assert again == hall
    assert written_hall(again) == written_hall(hall)


def test_every_field_of_a_hall_is_kept():
    kept = {one.field for one in HALL_FIELDS}
    assert kept == set(Hall.model_fields) - {"catalogue"}
    assert set(PRIVACY) == set(RecordKind)
    assert all(form.kind is kind for kind, form in FORMS.items())


def test_health_stands_in_records_of_health_alone():
    records = records_of(a_hall())
    for where, record in records.items():
        assert record.privacy is PRIVACY[where.kind]
        text = json.dumps(record.values)
        told = any(word in text for word in ("knee", "asthma", "clearance", "moderate_only"))
        assert told == (record.privacy is Privacy.HEALTH), where
        private = record.privacy is not Privacy.HALL
        assert record.person_id == (where.key if private else None)


def test_limitations_of_two_people_in_turn_keep_their_order():
    hall = a_hall()
    assert [row.person_id for row in hall.limitations] == ["p001", "p003", "p001"]
    records = records_of(hall)
    assert records[key(RecordKind.LIMITATIONS, "p001")].values["places"] == [0, 2]
    assert records[key(RecordKind.LIMITATIONS, "p003")].values["places"] is None
    assert hall_of(records.values(), LIBRARY).limitations == hall.limitations


def test_a_person_without_a_record_of_clearance_is_unknown():
    records = records_of(a_hall())
    del records[key(RecordKind.CLEARANCE, "p001")]
    assert hall_of(records.values(), LIBRARY).person("p001").clearance == "unknown"


SPOILT = {
    "a field too much": (RecordKind.ROOM, "main_floor", {"colour": "red"}, "field.unknown"),
    "a wrong type": (RecordKind.ITEM, "rope", {"count": "six"}, "field.value"),
    "out of range": (RecordKind.DUMBBELL, "8000", {"count": -1}, "field.range"),
    "another key": (RecordKind.DUMBBELL, "8000", {"mass": 9000}, "field.value"),
    "health in a person's row": (RecordKind.PERSON, "p001", {"clearance": "x"}, "field.unknown"),
    "another person's rows": (RecordKind.LIMITATIONS, "p001", {}, "field.value"),
}


@pytest.mark.parametrize("name", SPOILT)
def test_a_spoilt_record_is_told(name):
    kind, slug, change, code = SPOILT[name]
    records = records_of(a_hall())
    where = key(kind, slug)
    values = {**records[where].values, **change}
    if name == "another person's rows":
        values = dict(records[key(kind, "p003")].values)
    records[where] = replace(records[where], values=values)
    with pytest.raises(BadInputError) as caught:
        hall_of(records.values(), LIBRARY)
    (fault,) = caught.value.faults
    assert fault.code == code
    assert fault.file == f"{kind.value} {slug}"


def test_all_faults_of_all_records_come_at_once():
    records = records_of(a_hall())
    for where in (key(RecordKind.ROOM, "main_floor"), key(RecordKind.ITEM, "rope")):
        records[where] = replace(records[where], values={**records[where].values, "x": 1})
    records.pop(key(RecordKind.PERSON, "p003"))
    with pytest.raises(BadInputError) as caught:
        hall_of(records.values(), LIBRARY)
    assert [f.file for f in caught.value.faults] == [
        *("clearance p003", "item rope", "limitations p003", "room main_floor"),
    ]


def test_a_hall_without_settings_is_a_fault():
    records = records_of(a_hall())
    records.pop(key(RecordKind.SETTINGS))
    with pytest.raises(BadInputError, match="settings"):
        hall_of(records.values(), LIBRARY)


@pytest.mark.parametrize("canary", ["canary_sore_rib", 987_654_321])
def test_no_health_value_stands_in_a_fault(canary):
    records = records_of(a_hall())
    where = key(RecordKind.LIMITATIONS, "p001")
    rows = [{**row, "concern": canary} for row in records[where].values["limitations"]]
    records[where] = replace(records[where], values={"limitations": rows, "weeks": canary})
    clearance = key(RecordKind.CLEARANCE, "p001")
    records[clearance] = replace(records[clearance], values={"clearance": canary})
    with pytest.raises(BadInputError) as caught:
        hall_of(records.values(), LIBRARY)
    assert {f.file for f in caught.value.faults} == {"limitations p001", "clearance p001"}
    told = "".join(f.in_words() for f in caught.value.faults) + repr(caught.value.faults)
    assert str(canary) not in told + str(caught.value)


def test_a_kind_without_a_form_is_a_fault():
    kinds = [kind for kind in RecordKind if kind not in FORMS]
    for kind in kinds:
        odd = Record(RecordKey(kind, "p001"), 0, PRIVACY[kind], None, {})
        with pytest.raises(BadInputError) as caught:
            hall_of([*records_of(a_hall()).values(), odd], LIBRARY)
        assert caught.value.faults[0].code == "name.unknown"


def _through_json(record: Record) -> Record:
    return replace(record, values=json.loads(json.dumps(record.values)))
