"""A class that is impossible says why, and one press makes it possible."""

import re

from roundwright.accounts.account import Role
from roundwright.services.keeping.records import RecordEdit, RecordKey, RecordKind
from tests.house.a_house import HALL, TOOL, TUESDAY, a_house

AT = f"/at/{HALL}/class/tuesday_circuit/{TUESDAY}"


def test_a_draft_that_is_too_long_is_mended_by_one_press() -> None:
    with a_house() as opened:
        kept = opened.keeping.halls.opened(HALL)
        where = RecordKey(RecordKind.CLASS, "tuesday_circuit")
        values = kept.hall.classes["tuesday_circuit"].model_dump(mode="json", by_alias=True)
        short = RecordEdit(where, values | {"slot": 30 * 60}, kept.versions[where])
        opened.keeping.halls.edit(HALL, [short], TOOL)
        client = opened.as_(Role.COACH)
        client.post(AT + "/fit-as-written")
        rooms = opened.house.rooms
        assert rooms is not None

        def room():
            return rooms.room(opened.keeping.halls.opened(HALL), "tuesday_circuit", TUESDAY)

        assert room().desk.wait(60)
        page = client.get(AT + "/").text
        assert "A draft" in page
        ways = re.findall(r'/way-out/(\d+)"><button>Do this<span[^>]*>: ([^<]+)<', page)
        number = next(n for n, words in ways if "more minute" in words)
        assert client.post(f"{AT}/way-out/99").status_code == 409
        assert client.post(f"{AT}/way-out/{number}").status_code == 303
        assert room().desk.wait(60)
        assert opened.keeping.halls.opened(HALL).hall.classes["tuesday_circuit"].slot_s > 1800
        later = client.get(AT + "/").text
        assert "Running order" in later
        assert opened.as_(Role.ASSISTANT).post(f"{AT}/way-out/0").status_code == 403
