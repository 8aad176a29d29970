"""The way through the pages on a file and on PostgreSQL: hall, class, plan, change, whole hall."""

import pytest

from roundwright.accounts.account import Role
from roundwright.bootstrap.hall_archive import archive_of
from roundwright.bootstrap.keeping import keeping_at
from tests.house.a_house import HALL, TOOL, TUESDAY, a_house

AT = f"/at/{HALL}/class/tuesday_circuit/{TUESDAY}"


@pytest.fixture(params=["file", "postgresql"])
def shelves(request, tmp_path):
    if request.param == "file":
        return keeping_at(f"sqlite:///{tmp_path / 'house.db'}")
    running = request.getfixturevalue("cluster")
    return keeping_at(running.url(running.emptied("prepared")))


def test_the_way_through_the_pages(shelves, tmp_path) -> None:
    with a_house(shelves=shelves) as house:
        owner, coach = house.as_(Role.OWNER), house.as_(Role.COACH)
        for page in ("week", "people", "people/p003", "room", "staff", "movements", "settings"):
            assert owner.get(f"/at/{HALL}/{page}").status_code == 200
        sent = {"shown_name": "Linnet R", "birth_year": "1988", "mass": "64", "version": ""}
        added = coach.post(f"/at/{HALL}/people", data=sent)
        assert added.status_code == 303, added.text
        assert "Linnet R" in coach.get(f"/at/{HALL}/people").text
        coach.post(AT + "/fit-as-written")
        rooms = house.house.rooms
        assert rooms is not None
        room = rooms.room(house.keeping.halls.opened(HALL), "tuesday_circuit", TUESDAY)
        assert room.desk.wait(60)
        gone = {"plan": room.plan_id or "", "base": "1", "change": "left", "person": "p001"}
        assert coach.post(AT + "/change", data=gone).status_code == 303
        stale = coach.post(AT + "/change", data=gone | {"person": "p002"})
        assert stale.status_code == 409
        undo = {"plan": room.plan_id or "", "base": "2"}
        assert coach.post(AT + "/undo", data=undo).status_code == 303
        assert coach.get(AT + "/").status_code == 200
        packed = owner.post(f"/at/{HALL}/whole-hall/save").content
        looked = owner.post(f"/at/{HALL}/whole-hall/look", files={"archive": ("hall.zip", packed)})
        assert looked.status_code == 200, looked.text
        assert "1 plan." in looked.text
        taken = owner.post(f"/at/{HALL}/whole-hall/take-in", data={"place": "this"})
        assert taken.status_code == 303, taken.text
        assert archive_of(house.keeping, HALL, TOOL) == packed
        copies = [file.name for file in tmp_path.iterdir() if "-before-" in file.name]
        assert len(copies) == (1 if house.keeping.database.file is not None else 0)
