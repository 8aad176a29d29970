"""The page of a class remembers the plan that it shows, and sees what others did to it."""

from collections.abc import Iterator
from dataclasses import replace

import pytest
from starlette.testclient import TestClient

from roundwright.accounts.account import Role
from roundwright.plan.gate import judged_here
from roundwright.plan.gate.judge import judge
from roundwright.web.house.class_rooms import ClassRooms
from roundwright.web.house.house import make_house
from tests.house.a_house import HALL, PORT, TOOL, TUESDAY, AHouse, a_house, a_mender
from tests.house.a_house import class_search_as_planner as a_planner

AT = f"/at/{HALL}/class/tuesday_circuit/{TUESDAY}"


@pytest.fixture
def house() -> Iterator[AHouse]:
    with a_house() as opened:
        opened.as_(Role.COACH).post(AT + "/fit-as-written")
        assert _room(opened).desk.wait(60)
        yield opened


def _room(house: AHouse, rooms: ClassRooms | None = None):
    rooms = rooms or house.house.rooms
    assert rooms is not None
    return rooms.room(house.keeping.halls.opened(HALL), "tuesday_circuit", TUESDAY)


def _other_program(house: AHouse) -> AHouse:
    """Give a second program that serves the same records."""
    rooms = ClassRooms(
        house.house.adapters, a_planner(), lambda: None, house.keeping.plans, PORT,
        mender=a_mender(),
    )  # fmt: skip
    other = replace(house.house, rooms=rooms)
    return AHouse(other, make_house(other), house.clock)


def _change(client: TestClient, house: AHouse, **fields: str) -> int:
    room = _room(house)
    plan = house.keeping.plans.opened(HALL, room.plan_id)
    sent = {"plan": room.plan_id, "base": str(plan.document.core.revision), **fields}
    return client.post(AT + "/change", data=sent).status_code


def test_a_change_is_judged_once_from_the_press_to_the_page(house, monkeypatch) -> None:
    client = house.as_(Role.COACH)
    client.get(AT + "/")
    counted = []
    monkeypatch.setattr(
        judged_here, "judge", lambda core, problem: counted.append(core) or judge(core, problem)
    )
    assert _change(client, house, change="rest", person="p003", place="2") == 303
    page = client.get(AT + "/").text
    assert "Oona V has nothing to do" in page
    assert len(counted) == 1


def test_a_change_is_not_read_from_the_shelf_for_the_page(house, monkeypatch) -> None:
    client = house.as_(Role.COACH)
    client.get(AT + "/")
    assert _change(client, house, change="rest", person="p003", place="2") == 303
    opened, shelf = [], type(house.keeping.plans)
    usual = shelf.opened
    monkeypatch.setattr(shelf, "opened", lambda *of: opened.append(of) or usual(*of))
    assert "Oona V has nothing to do" in client.get(AT + "/").text
    assert opened == []


def test_what_another_program_changed_is_on_the_page_and_can_be_changed_on(house) -> None:
    other = _other_program(house)
    here, there = house.as_(Role.COACH), other.as_(Role.COACH)

    def who_works() -> str:
        page: str = here.get(AT + "/").text
        return page.split('id="order"')[1].split("</section>")[0]

    assert "Joss K" in who_works()
    there.get(AT + "/")
    assert _change(there, other, change="left", person="p002") == 303
    assert "p002" not in {d.person_id for d in _room(house).desk.state.core.people}
    assert "Joss K" not in who_works()
    assert _change(here, house, change="rest", person="p003", place="2") == 303
    assert "Oona V" in there.get(AT + "/revisions").text


def test_a_person_who_leaves_for_good_is_let_go_of_at_once(house) -> None:
    client = house.as_(Role.COACH)
    client.get(AT + "/")
    room = _room(house)
    held = room.in_hand.opened(room.plan_id).document.problem.people["p006"]
    assert held.caps
    owner = house.as_(Role.OWNER)
    room.desk._done.clear()  # a choice is being made, so that the room stays
    house.keeping.halls.forget_person(HALL, "p006", TOOL)
    assert owner.get(AT + "/").status_code == 200
    assert _room(house) is room
    assert not room.in_hand.opened(room.plan_id).document.problem.people["p006"].caps
    room.desk._done.set()
