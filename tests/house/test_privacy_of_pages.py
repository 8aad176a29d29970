"""Marked health words in a hall: where each role meets them on pages, papers, addresses and logs.

An assistant meets them nowhere; a coach only on the pages of that person's health. They never
stand in an address, a title, a log line, the trail or a file's name.
"""

import logging
import re
from collections.abc import Iterator
from dataclasses import dataclass
from io import BytesIO

import pytest
from fastapi.routing import APIRoute
from pypdf import PdfReader

from roundwright.accounts.account import Role
from roundwright.services.keeping.records import RecordEdit, RecordKey, RecordKind
from roundwright.web.house.house import ROUTERS
from roundwright.web.interface.application import AT as API
from roundwright.web.interface.application import ROUTERS as OPERATIONS
from tests.house.a_house import HALL, TOOL, TUESDAY, AHouse, a_house

CANARIES = ("zzmarkedword", "osteoporosis", "epilepsy")
CLASS = f"/at/{HALL}/class/tuesday_circuit/{TUESDAY}"
HEALTH_PAGES = {
    "/at/{hall_id}/people/{person_id}",
    "/at/{hall_id}/people/{person_id}/clearance",
}
SCREEN = "/at/{hall_id}/people/{person_id}/screen"
"""Its questions name conditions to everybody."""


@pytest.fixture(scope="module")
def opened() -> Iterator[AHouse]:
    with a_house() as house:
        _mark(house)
        client = house.as_(Role.COACH)
        client.post(CLASS + "/fit-as-written")
        rooms = house.house.rooms
        assert rooms is not None
        room = rooms.room(house.keeping.halls.opened(HALL), "tuesday_circuit", TUESDAY)
        assert room.desk.wait(60)
        assert room.plan_id is not None
        yield house


def _mark(house: AHouse) -> None:
    kept = house.keeping.halls.opened(HALL)
    row = {"person_id": "p001", "side": "none", "from_on": "2025-11-04", "set_by": "clinician"}
    rows = [
        row | {"concern": "osteoporosis", "amount": "avoid"},
        row | {"concern": "epilepsy", "amount": "ease"},
    ]
    record = {
        "person": "p001",
        "clearance": "moderate_only",
        "given_by": "clinician",
        "given_by_name": "Dr Zzmarkedword",
        "on": "2026-02-01",
        "words": ["water at hand"],
    }
    edits = [
        _edit(kept, RecordKind.LIMITATIONS, {"limitations": rows}),
        _edit(kept, RecordKind.CLEARANCE_RECORD, record),
    ]
    house.keeping.halls.edit(HALL, edits, TOOL)


def _edit(kept, kind: RecordKind, values: dict[str, object]) -> RecordEdit:
    where = RecordKey(kind, "p001")
    return RecordEdit(where, values, kept.versions.get(where))


def _words(answer) -> str:
    kind = answer.headers.get("content-type", "")
    if "pdf" in kind:
        pages = PdfReader(BytesIO(answer.content)).pages
        return " ".join(page.extract_text() for page in pages).lower()
    return str(answer.text).lower()


def _found(text: str) -> set[str]:
    return {word for word in CANARIES if word in text}


def _given(opened: AHouse) -> dict[str, str]:
    entry = opened.keeping.plans.plans(HALL, [TUESDAY], "tuesday_circuit")[-1]
    return {
        "hall_id": HALL,
        "person_id": "p001",
        "class_id": "tuesday_circuit",
        "on": TUESDAY.isoformat(),
        "plan_id": entry.plan_id,
        "place": "1",
        "number": "1",
        "what": "personal",
        "room_id": "main_floor",
        "movement_id": "goblet_squat",
        "slug": "goblet_squat",
        "kind": "limitations",
        "key": "p001",
    }


def _addresses(opened: AHouse) -> Iterator[tuple[str, str]]:
    """Give every address that can be read: its pattern, and one that exists."""
    given = _given(opened)
    for prefix, routers in (("", ROUTERS), (API, OPERATIONS)):
        for router in routers:
            for route in router.routes:
                if isinstance(route, APIRoute) and "GET" in route.methods:
                    path = re.sub(r"\{(\w+)\}", lambda m: given.get(m[1], "x"), route.path)
                    more = "?by=19:00" if path.endswith(("ends-by", "finish-by")) else ""
                    yield prefix + route.path, prefix + path + more
    for part in ("/", "/sheet.pdf", "/sheet.html", "/core.json"):
        yield CLASS + part, CLASS + part
    for paper in ("cards", "room", "script", "sheet"):
        yield "papers", f"{CLASS}/papers/{paper}.pdf"


@dataclass(frozen=True)
class Seen:
    """One address as somebody saw it."""

    pattern: str
    address: str
    status: int
    words: str
    source: str
    headers: str


def _crawled(opened: AHouse, role: Role) -> list[Seen]:
    """Visit everything; papers are made once, for the one who may see least."""
    client, seen = opened.as_(role), []
    for pattern, address in _addresses(opened):
        if role is Role.COACH and "/papers/" in address:
            continue
        answer = client.get(address)
        assert answer.status_code < 500, address
        is_page = "html" in answer.headers.get("content-type", "")
        seen.append(
            Seen(
                pattern,
                address,
                answer.status_code,
                _words(answer),
                answer.text if is_page else "",
                str(answer.headers),
            )
        )
    return seen


@pytest.fixture(scope="module")
def by_coach(opened: AHouse) -> list[Seen]:
    return _crawled(opened, Role.COACH)


def test_an_assistant_meets_no_health_anywhere(opened: AHouse) -> None:
    seen = _crawled(opened, Role.ASSISTANT)
    assert sum(one.status == 200 for one in seen) > 25
    assert {one.address: _found(one.words) for one in seen if _found(one.words)} == {}


def test_a_coach_meets_it_on_the_pages_of_that_persons_health_alone(by_coach: list[Seen]) -> None:
    where = {one.pattern for one in by_coach if _found(one.words)}
    operations = {
        f"{API}/halls/{{hall_id}}/records/{{kind}}/{{key}}",
        f"{API}/halls/{{hall_id}}/people/{{person_id}}/everything",
    }
    assert HEALTH_PAGES <= where <= HEALTH_PAGES | operations | {SCREEN}


def test_no_address_no_title_and_no_name_of_a_file_speaks_of_it(by_coach: list[Seen]) -> None:
    for one in by_coach:
        told = re.findall(r'(?:href|action|src)="([^"]*)"|<title>(.*?)</title>', one.source)
        assert _found(str(told).lower()) == set(), one.address
        assert _found(one.headers.lower()) == set(), one.address


def test_neither_logs_nor_the_trail_speak_of_it(
    opened: AHouse, by_coach: list[Seen], caplog: pytest.LogCaptureFixture
) -> None:
    assert by_coach
    caplog.set_level(logging.DEBUG)
    client = opened.as_(Role.COACH)
    wrong = {"concern": "zzmarkedword", "amount": "avoid", "side": "none", "set_by": "person"}
    assert client.post(f"/at/{HALL}/people/p001/limits", data=wrong).status_code == 422
    assert client.get(f"/at/{HALL}/people/p001").status_code == 200
    address = f"{API}/halls/{HALL}/records/limitations/p001"
    bad = {"values": {"limitations": [{"concern": "zzmarkedword"}]}, "base_version": 1}
    told = client.put(address, json=bad)
    assert told.status_code in (403, 409, 422)
    assert "zzmarkedword" not in told.text
    assert _found(caplog.text.lower()) == set()
    assert _found(str(opened.keeping.trail.entries(most=2_000)).lower()) == set()
