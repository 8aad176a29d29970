"""A new user's whole way without script: owner, hall, people, kit, class, plan, sheet."""

import re

from roundwright.accounts.account import Role
from tests.house.a_house import PASSWORD, TUESDAY, a_house

PEOPLE = ("Ada", "Ben", "Cleo", "Dov", "Ewa", "Fin")


def _from_nothing(client, opened):
    owner = {"shown_name": "Olwen", "sign_in_name": "olwen", "password": PASSWORD}
    assert client.post("/first", data=owner).status_code == 303
    hall = {"name": "Pier Hall", "time_zone": "Europe/London", "units": "kg", "paper": "a4"}
    hall |= {"room": "Main room", "length": "12", "width": "9"}
    assert client.post("/first/hall", data=hall).headers["location"] == "/at/pier_hall/people"
    for number, name in enumerate(PEOPLE):
        sent = {
            "shown_name": name,
            "level": str(1 + number % 3),
            "body_mass": "70",
            "height": "170",
        }
        assert client.post("/at/pier_hall/people", data=sent).status_code == 303
    for mass, count in ((4, 8), (6, 8), (8, 6), (12, 4)):
        sent = {"mass": str(mass), "count": str(count), "flat_sided": "yes"}
        assert client.post("/at/pier_hall/room/dumbbells", data=sent).status_code == 303
    for kind, count, more in (("chair", 6, {"height": "45", "strength": "150", "stable": "yes"}),):
        sent = {"kind": kind, "count": str(count)} | more
        assert client.post("/at/pier_hall/room/items", data=sent).status_code == 303
    sent = {"name": "Evening circuit", "weekday": "tuesday", "start": "18:00", "minutes": "45"}
    sent |= {"rounds": "2", "places": "4", "format": "together", "everybody": "yes"}
    assert client.post("/at/pier_hall/new-class", data=sent).status_code == 303


def test_from_an_empty_house_to_a_printed_sheet():
    with a_house(with_hall=False, with_accounts=False) as opened:
        client = opened.visitor()
        _from_nothing(client, opened)
        hall = opened.keeping.halls.opened("pier_hall").hall
        assert [p.shown_name for p in hall.people] == list(PEOPLE)
        assert {d.unit_mass_g: d.count for d in hall.kit.dumbbells}[8000] == 6
        week = client.get("/at/pier_hall/week").text
        assert "Not planned yet" in week
        at = re.search(r'href="(/at/pier_hall/class/evening_circuit/[\d-]+/)"', week)[1]
        assert "There is no plan of this class yet." in client.get(at).text
        client.post(at + "propose")
        kept = opened.keeping.halls.opened("pier_hall")
        room = opened.house.rooms.room(kept, "evening_circuit", TUESDAY)
        assert room.desk.wait(120)
        page = client.get(at).text
        assert "Fits: everyone has a version" in page
        for name in PEOPLE:
            assert name in page
        assert client.get(at + "sheet.pdf").content.startswith(b"%PDF")
        (entry,) = opened.keeping.plans.plans("pier_hall")
        assert entry.class_id == "evening_circuit"
        assert "Not planned yet" not in client.get("/at/pier_hall/week").text
        token = re.search(rf'action="{at}class/(\w+)/another"', page)[1]
        client.post(f"{at}class/{token}/another")
        assert room.desk.wait(120)
        assert len(opened.keeping.plans.plans("pier_hall")) == 2
        sent = {"shown_name": "Gus"}
        client.post("/at/pier_hall/people", data=sent)
        assert "Planned without 1 who are in it now" in client.get("/at/pier_hall/week").text


def test_a_class_in_plain_words_is_read_back_then_kept():
    with a_house() as opened:
        client, at = opened.as_(Role.COACH), "/at/tern_quay/new-class"
        words = "Tuesday 19:30, 45 minutes, Main floor\n3 rounds, rest 60\n12 a side split squat\n"
        words += "8 goblet squats\n40 s wobble jumps"
        asked = client.post(at + "/in-words", data={"words": words})
        assert asked.status_code == 200
        assert "wobble jumps" in asked.text
        assert 'value="yes">Put it into the week' not in asked.text.split('id="read"')[1]
        plain = words.replace("\n40 s wobble jumps", "")
        read = client.post(at + "/in-words", data={"words": plain})
        assert "Understood as" in read.text
        kept = client.post(at + "/in-words", data={"words": plain, "keep": "yes"})
        assert kept.status_code == 303
        halls = opened.keeping.halls.opened("tern_quay").hall
        (new,) = [c for c in halls.classes.values() if f"{c.start:%H:%M}" == "19:30"]
        assert (new.rounds, len(new.exercise)) == (3, 2)
