"""Papers, pictures and rehearsal of a kept plan: what is there, for whom, and what is not."""

import re
from collections.abc import Iterator

import pytest

from roundwright.accounts.account import Role
from roundwright.services.keeping.records import RecordEdit, RecordKey, RecordKind
from tests.house.a_house import HALL, TOOL, TUESDAY, AHouse, a_house

AT = f"/at/{HALL}/class/tuesday_circuit/{TUESDAY}"
PDFS = ("sheet", "cards", "personal", "room", "script")


@pytest.fixture(scope="module")
def opened() -> Iterator[AHouse]:
    with a_house() as house:
        client = house.as_(Role.COACH)
        client.post(AT + "/fit-as-written")
        rooms = house.house.rooms
        assert rooms is not None
        room = rooms.room(house.keeping.halls.opened(HALL), "tuesday_circuit", TUESDAY)
        assert room.desk.wait(60)
        yield house


@pytest.mark.parametrize("what", PDFS)
def test_each_paper_is_a_pdf_whose_name_tells_nobody(opened: AHouse, what: str) -> None:
    answer = opened.as_(Role.ASSISTANT).get(f"{AT}/papers/{what}.pdf?paper=letter")
    assert answer.status_code == 200
    assert answer.content.startswith(b"%PDF")
    name = re.search(r'filename="([^"]+)"', answer.headers["content-disposition"])
    assert name is not None
    people = opened.keeping.halls.opened(HALL).hall.people
    assert not any(p.shown_name.split()[0].lower() in name[1].lower() for p in people)


def test_the_calendar_names_nobody(opened: AHouse) -> None:
    answer = opened.as_(Role.COACH).get(AT + "/papers/class.ics")
    assert answer.text.startswith("BEGIN:VCALENDAR")
    assert "Maren" not in answer.text


def test_the_list_of_papers_links_to_each(opened: AHouse) -> None:
    page = opened.as_(Role.ASSISTANT).get(AT + "/papers").text
    for what in PDFS:
        assert f"{AT}/papers/{what}.pdf?paper=a4" in page


def test_pictures_come_with_their_tables(opened: AHouse) -> None:
    page = opened.as_(Role.COACH).get(AT + "/pictures").text
    assert page.count("<svg") == 4
    assert page.count("<details") >= 4


def test_the_rehearsal_says_who_stands_where_at_a_minute(opened: AHouse) -> None:
    client = opened.as_(Role.COACH)
    page = client.get(AT + "/rehearsal?minute=20").text
    assert "Ends within 45:00" in page
    rows = re.findall(r'<tr><th scope="row">([^<]+)</th><td>([^<]*)</td><td>([^<]*)</td>', page)
    there = opened.keeping.plans.plans(HALL, [TUESDAY], "tuesday_circuit")[-1]
    plan = opened.keeping.plans.opened(HALL, there.plan_id).document
    assert len([r for r in rows if r[0] in page]) >= len(plan.core.people)
    told = client.get(AT + "/rehearsal/moments.json").json()["stretches"]
    at_20 = {(s["name"], s["place"]) for s in told if s["from_s"] <= 1200 < s["to_s"]}
    assert at_20 <= {(name, place) for name, place, _ in rows}
    for nonsense in ("-1", "99999999", "x", "\u0663", "2000"):
        assert client.get(AT + "/rehearsal", params={"minute": nonsense}).status_code == 200


def test_without_a_plan_there_is_nothing_to_look_at(opened: AHouse) -> None:
    client = opened.as_(Role.COACH)
    for what in ("papers", "pictures", "rehearsal", "papers/sheet.pdf"):
        empty = f"/at/{HALL}/class/wednesday_pairs/2026-03-04/{what}"
        assert client.get(empty).status_code == 404


def test_a_plan_that_is_no_longer_right_today_is_not_printed() -> None:
    with a_house() as house:
        client = house.as_(Role.COACH)
        client.post(AT + "/fit-as-written")
        rooms = house.house.rooms
        assert rooms is not None
        kept = house.keeping.halls.opened(HALL)
        assert rooms.room(kept, "tuesday_circuit", TUESDAY).desk.wait(60)
        where = RecordKey(RecordKind.LIMITATIONS, "p002")
        rows = [
            {
                "person_id": "p002",
                "concern": "knee",
                "side": "both",
                "amount": "avoid",
                "from_on": "2026-03-01",
                "set_by": "coach",
            }
        ]
        edit = RecordEdit(where, {"limitations": rows}, kept.versions.get(where))
        house.keeping.halls.edit(HALL, [edit], TOOL)
        page = client.get(AT + "/papers").text
        assert "It may not be printed as it is." in page
        assert client.get(AT + "/papers/sheet.pdf").status_code == 422
