"""Staff with certificates, and one room: what is at its walls, and what must be known of it."""

from collections.abc import Iterator

import pytest

from roundwright.accounts.account import Role
from roundwright.services.keeping.records import RecordKey, RecordKind
from tests.house.a_house import HALL, AHouse, a_house

STAFF, ROOM = f"/at/{HALL}/staff", f"/at/{HALL}/room/main_floor"


@pytest.fixture
def opened() -> Iterator[AHouse]:
    with a_house() as made:
        yield made


def _hall(opened: AHouse):
    return opened.keeping.halls.opened(HALL).hall


def _version(opened: AHouse, kind: RecordKind, key: str) -> str:
    return str(opened.keeping.halls.opened(HALL).versions[RecordKey(kind, key)])


def test_somebody_comes_gets_a_certificate_and_goes(opened: AHouse) -> None:
    client = opened.as_(Role.OWNER)
    sent = {"name": "Ro Vane", "role": "coach", "may_teach": ["jumps", "under_16", "magic"]}
    assert client.post(STAFF, data=sent).status_code == 303
    made = _hall(opened).staff[-1]
    assert [t.value for t in made.may_teach] == ["jumps", "under_16"]
    assert "no coaching certificate is written down" in client.get(STAFF).text
    paper = {"kind": "coaching", "expires_on": "2026-12-31", "given_by": "college"}
    paper |= {"version": _version(opened, RecordKind.STAFF, made.id)}
    at = f"{STAFF}/{made.id}"
    assert client.post(at + "/certificates", data=paper).status_code == 303
    assert client.post(at + "/certificates", data=paper).status_code == 409
    assert len(_hall(opened).staff[-1].certificate) == 1
    version = {"version": _version(opened, RecordKind.STAFF, made.id)}
    assert client.post(at + "/remove", data=version).status_code == 303
    assert made.id not in {m.id for m in _hall(opened).staff}


def test_week_and_page_say_what_is_to_be_asked(opened: AHouse) -> None:
    client = opened.as_(Role.ASSISTANT)
    assert "2 certificates to ask about" in client.get(f"/at/{HALL}/week").text
    page = client.get(STAFF).text
    assert "Isolde Brack, first aid: has run out" in page
    assert "<form" not in page.split("<main")[1]


def test_wrong_dates_and_names_are_told(opened: AHouse) -> None:
    client = opened.as_(Role.OWNER)
    at = f"{STAFF}/marlow/certificates"
    assert client.post(at, data={"kind": "coaching", "expires_on": "soon"}).status_code == 422
    assert client.post(at, data={"kind": "wizard"}).status_code == 422
    assert client.post(STAFF, data={"name": "x" * 300}).status_code == 422
    assert client.post(f"{STAFF}/nobody/remove", data={}).status_code == 404


def test_what_is_at_the_walls_is_put_moved_and_taken_away(opened: AHouse) -> None:
    client = opened.as_(Role.COACH)

    def send(where: str, **fields: str) -> int:
        version = {"version": _version(opened, RecordKind.ROOM, "main_floor")}
        return int(client.post(ROOM + where, data=version | fields).status_code)

    before = _hall(opened).room("main_floor").fixture
    new = {"kind": "defibrillator", "wall": "right", "at": "2,5", "width": "0.5", "number": ""}
    assert send("/fixtures", **new) == 303
    fixtures = _hall(opened).room("main_floor").fixture
    assert (fixtures[-1].at, fixtures[-1].width, fixtures[:-1]) == (2500, 500, before)
    last = str(len(fixtures) - 1)
    assert send("/fixtures", **new | {"number": last, "wall": "back", "at": "4"}) == 303
    moved = _hall(opened).room("main_floor").fixture[-1]
    assert (moved.wall.value, moved.at) == ("back", 4000)
    assert send("/fixtures", **new | {"number": last, "at": "199"}) == 422
    for wrong in ({"at": "left"}, {"at": "-1"}, {"width": "0"}, {"kind": "moat"}, {"at": "1e99"}):
        assert send("/fixtures", **new | wrong) == 422, wrong
    assert send("/fixtures", **new | {"number": "99"}) == 404
    assert send(f"/fixtures/{last}/remove") == 303
    assert _hall(opened).room("main_floor").fixture == before
    assert send("/fixtures/99/remove") == 404


def test_what_must_be_known_of_a_room_is_asked_until_it_is_written_down(opened: AHouse) -> None:
    client = opened.as_(Role.COACH)
    room = next(r.id for r in _hall(opened).rooms if _hall(opened).care_of(r.id) is None)
    at = f"/at/{HALL}/room/{room}"
    assert "Write down the ways out" in client.get(at).text
    sent = {"exits": "door\nwindow", "first_aid": "box", "defibrillator": "none"}
    sent |= {"address": "4 Quay Road", "phone": "desk", "way_in": "gate", "version": ""}
    sent |= {"last_drill_on": "2026-02-01", "drill_every_days": "90"}
    assert client.post(at + "/care", data=sent).status_code == 303
    page = client.get(at).text
    assert "Write down" not in page
    assert "A drill is due" not in page
    opened.clock.forward(days=100)
    assert "A drill is due" in opened.as_(Role.COACH).get(at).text
    for wrong in ({"drill_every_days": "x"}, {"last_drill_on": "x"}, {"phone": "9" * 200}):
        assert opened.as_(Role.COACH).post(at + "/care", data=sent | wrong).status_code == 422
