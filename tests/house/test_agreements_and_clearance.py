"""Agreements apart, whom to call, clearances by name, and everything that is kept of a person."""

import json
from collections.abc import Iterator
from io import BytesIO
from zipfile import ZipFile

import pytest

from roundwright.accounts.account import Role
from roundwright.people.effective_clearance import effective_clearance
from roundwright.people.person import Clearance
from roundwright.services.keeping.records import RecordKey, RecordKind
from tests.house.a_house import HALL, AHouse, a_house

AT = f"/at/{HALL}/people/p002"


@pytest.fixture
def opened() -> Iterator[AHouse]:
    with a_house() as made:
        yield made


def _version(opened: AHouse, kind: RecordKind) -> str:
    found = opened.keeping.halls.opened(HALL).versions.get(RecordKey(kind, "p002"))
    return "" if found is None else str(found)


def _consents(opened: AHouse):
    hall = opened.keeping.halls.opened(HALL).hall
    return next(c for c in hall.consents if c.person_id == "p002")


def test_each_agreement_is_given_and_taken_back_by_itself(opened: AHouse) -> None:
    client, today = opened.as_(Role.COACH), opened.clock.today()
    sent = {"data": "yes", "training": "yes", "version": ""}
    sent |= {"emergency_name": "Rosa", "emergency_phone": "0123 456", "review_on": "2026-09-01"}
    assert client.post(AT + "/agreements", data=sent).status_code == 303
    mine = _consents(opened)
    assert mine.data.holds_on(today)
    assert mine.training.holds_on(today)
    assert mine.health_data is None
    assert mine.emergency_contact.name == "Rosa"
    opened.clock.forward(days=3)
    client = opened.as_(Role.COACH)
    sent |= {"training": "no", "version": _version(opened, RecordKind.CONSENTS)}
    assert client.post(AT + "/agreements", data=sent).status_code == 303
    later = _consents(opened)
    assert later.data.on == mine.data.on
    assert not later.training.holds_on(opened.clock.today())
    stale = client.post(AT + "/agreements", data=sent | {"version": "1", "data": "no"})
    assert stale.status_code == 409


def test_a_guardian_without_a_phone_is_told_beside_the_field(opened: AHouse) -> None:
    client = opened.as_(Role.COACH)
    wrong = {"guardian_name": "Ines", "guardian_relation": "mother", "review_on": "soon"}
    answer = client.post(AT + "/agreements", data=wrong)
    assert answer.status_code == 422
    assert 'href="#f-guardian_phone"' in answer.text
    assert 'href="#f-review_on"' in answer.text
    assert 'value="Ines"' in answer.text


def _allowed(opened: AHouse) -> Clearance:
    hall, today = opened.keeping.halls.opened(HALL).hall, opened.clock.today()
    person, screen = hall.person("p002"), hall.screen_of("p002")
    return effective_clearance(person, screen, hall.clearance_of("p002"), today).clearance


def test_a_clearance_with_conditions_holds_until_its_end_then_means_ask(opened: AHouse) -> None:
    client = opened.as_(Role.COACH)
    sent = {
        "clearance": "moderate_only",
        "given_by": "clinician",
        "given_by_name": "Dr Vale",
        "on": "2026-02-20",
        "until_on": "2026-03-10",
        "effort_ceiling": "5",
        "cap_overhead": "0",
        "words": "no pressing overhead\nwater at hand",
        "version": "",
    }
    assert client.post(AT + "/clearance", data=sent).status_code == 303
    record = opened.keeping.halls.opened(HALL).hall.clearance_of("p002")
    assert record.caps == {"overhead": 0}
    assert record.words == ("no pressing overhead", "water at hand")
    assert _allowed(opened) is Clearance.MODERATE_ONLY
    opened.clock.forward(days=30)
    assert _allowed(opened) is Clearance.UNKNOWN
    page = opened.as_(Role.COACH).get(AT + "/clearance").text
    assert "What is written down has run out: ask." in page
    assert 'value="Dr Vale"' in page


@pytest.mark.parametrize(
    ("field", "value"),
    [
        ("clearance", "unknown"),
        ("clearance", "super"),
        ("given_by", "friend"),
        ("given_by_name", ""),
        ("on", "yesterday"),
        ("until_on", "2026-13-01"),
        ("effort_ceiling", "11"),
        ("words", "x" * 300),
    ],
)
def test_a_clearance_that_cannot_be_is_told_and_not_kept(
    opened: AHouse, field: str, value: str
) -> None:
    client = opened.as_(Role.COACH)
    right = {"clearance": "cleared", "given_by": "coach", "given_by_name": "Cy", "on": "2026-02-20"}
    answer = client.post(AT + "/clearance", data=right | {field: value})
    assert answer.status_code == 422
    assert f'href="#f-{field}"' in answer.text
    assert opened.keeping.halls.opened(HALL).hall.clearance_of("p002") is None


def test_a_clinicians_word_is_replaced_by_a_clinicians_word_alone(opened: AHouse) -> None:
    client = opened.as_(Role.COACH)
    theirs = {"clearance": "moderate_only", "given_by": "clinician", "given_by_name": "Dr Vale"}
    theirs |= {"on": "2026-02-20", "cap_impact": "0", "version": ""}
    assert client.post(AT + "/clearance", data=theirs).status_code == 303
    mine = theirs | {"given_by": "coach", "clearance": "cleared", "cap_impact": "3"}
    mine |= {"version": _version(opened, RecordKind.CLEARANCE_RECORD)}
    told = client.post(AT + "/clearance", data=mine)
    assert told.status_code == 422
    assert "ends with a clinician" in told.text
    address = f"/api/v1/halls/{HALL}/records/clearance_record/p002"
    values = client.get(address).json()["values"] | {"given_by": "coach", "caps": {}}
    base = int(_version(opened, RecordKind.CLEARANCE_RECORD))
    put = client.put(address, json={"values": values, "base_version": base})
    assert put.status_code == 403
    assert client.delete(f"{address}?base_version={base}").status_code == 403
    kept = opened.keeping.halls.opened(HALL).hall.clearance_of("p002")
    assert (kept.given_by.value, dict(kept.caps)) == ("clinician", {"impact": 0})
    assert client.post(AT + "/clearance", data=mine | {"given_by": "clinician"}).status_code == 303


def test_limits_that_a_clinician_set_do_not_fall_away_by_writing_records(opened: AHouse) -> None:
    client = opened.as_(Role.COACH)
    address = f"/api/v1/halls/{HALL}/records/limitations/p002"
    row = {"person_id": "p002", "concern": "knee", "side": "both", "amount": "avoid"}
    row |= {"from_on": "2026-02-01", "set_by": "clinician"}
    first = {"values": {"limitations": [row]}}
    assert client.put(address, json=first).status_code == 200
    base = client.get(address).json()["version"]
    milder = {"values": {"limitations": [row | {"amount": "ease"}]}, "base_version": base}
    assert client.put(address, json=milder).status_code == 403
    assert client.delete(f"{address}?base_version={base}").status_code == 403
    more = {"values": {"limitations": [row, row | {"concern": "hip"}]}, "base_version": base}
    assert client.put(address, json=more).status_code == 200
    said = milder | {"base_version": base + 1, "clinician_says": True}
    assert client.put(address, json=said).status_code == 200


def test_not_today_is_answered_by_a_clinician_by_name_and_by_no_list(opened: AHouse) -> None:
    client, dilys = opened.as_(Role.COACH), f"/at/{HALL}/people/p012"

    def word() -> Clearance:
        hall, today = opened.keeping.halls.opened(HALL).hall, opened.clock.today()
        person = hall.person("p012")
        record = hall.clearance_of("p012")
        return effective_clearance(person, hall.screen_of("p012"), record, today).clearance

    assert word() is Clearance.NOT_CLEARED
    version = str(opened.keeping.halls.opened(HALL).version)
    listed = {"text": "person_id,shown_name,clearance\np012,Dilys R,cleared\n", "keep": "yes"}
    told = client.post(f"/at/{HALL}/people-list", data=listed | {"version": version})
    assert told.status_code == 422
    assert "not a list" in told.text
    sent = {"clearance": "moderate_only", "given_by": "coach", "given_by_name": "Cy"}
    sent |= {"on": "2026-02-25", "version": ""}
    assert client.post(dilys + "/clearance", data=sent).status_code == 303
    assert word() is Clearance.NOT_CLEARED
    versions = opened.keeping.halls.opened(HALL).versions
    sent |= {"version": str(versions[RecordKey(RecordKind.CLEARANCE_RECORD, "p012")])}
    sent |= {"given_by": "clinician", "given_by_name": "Dr Vale"}
    assert client.post(dilys + "/clearance", data=sent).status_code == 303
    assert word() is Clearance.UNKNOWN  # light: without a screen nothing more is known


def test_everything_is_given_to_the_person_and_stands_in_the_trail(opened: AHouse) -> None:
    answer = opened.as_(Role.COACH).post(AT + "/everything")
    assert answer.status_code == 200
    with ZipFile(BytesIO(answer.content)) as files:
        name = next(n for n in files.namelist() if n.endswith(".json"))
        told = json.loads(files.read(name))
    assert "Joss K" in json.dumps(told)
    assert "Maren" not in json.dumps(told)
    trail = opened.keeping.trail.entries(HALL, "p002")
    assert any(line.what == "person.exported" for line in trail)


def test_an_assistant_sees_none_of_it(opened: AHouse) -> None:
    client = opened.as_(Role.ASSISTANT)
    for where in ("/agreements", "/clearance", "/screen"):
        assert client.get(AT + where).status_code == 403
    assert client.post(AT + "/everything").status_code == 403
    page = client.get(AT).text
    for words in ("Strength", "What they can do", "Clearance", "Avoid and go easy on"):
        assert words not in page


def test_a_coach_sees_what_they_can_do_and_how_sure_that_is(opened: AHouse) -> None:
    client = opened.as_(Role.COACH)
    page = client.get(AT).text
    assert "Strength: assumed, not measured" in page
    assert "What they can do" in page
    newcomer = client.get(f"/at/{HALL}/people/p004").text
    assert "In class 1 from now at most 60 % of the reps, 2 rounds at most." in newcomer
