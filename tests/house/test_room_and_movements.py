"""Room and kit, and Movements: what can be changed, what is told, what is found."""

from roundwright.accounts.account import Role
from tests.house.a_house import HALL, kit_of

ROOM, MOVEMENTS = f"/at/{HALL}/room", f"/at/{HALL}/movements"


def test_the_rack_grows_and_shrinks_by_a_mass(opened):
    coach = opened.as_(Role.COACH)
    assert coach.post(ROOM + "/dumbbells", data={"mass": "7,5", "count": "4"}).status_code == 303
    assert {d.unit_mass_g: d.count for d in kit_of(opened).dumbbells}[7500] == 4
    coach.post(ROOM + "/dumbbells", data={"mass": "7.5", "count": "0"})
    assert 7500 not in {d.unit_mass_g for d in kit_of(opened).dumbbells}
    for mass, count in (("x", "4"), ("-2", "4"), ("8", "-1"), ("8", "401"), ("nan", "4")):
        wrong = coach.post(ROOM + "/dumbbells", data={"mass": mass, "count": count})
        assert wrong.status_code == 422
        assert 'id="w-mass"' in wrong.text


AWAY = "{} of {} out of use since {}, until signed back."


def test_a_quarantined_item_stays_out_until_it_is_signed_back(opened):
    coach = opened.as_(Role.COACH)
    item = next(i for i in kit_of(opened).items if i.in_use)
    away = AWAY.format(item.count, item.count, "2026-03-01")
    sent = {"entry": f"i{item.id}", "state": "quarantined", "note": "wobbles"}
    back = {"entry": f"i{item.id}", "state": "ok"}
    assert coach.post(ROOM + "/inspections", data=sent).status_code == 303
    assert away in coach.get(ROOM).text
    coach.post(ROOM + "/inspections", data=back)
    assert away in coach.get(ROOM).text
    opened.clock.forward(days=1)
    coach = opened.as_(Role.COACH)
    coach.post(ROOM + "/inspections", data=back)
    assert "out of use since" not in coach.get(ROOM).text
    unknown = coach.post(ROOM + "/inspections", data={"entry": "inothing", "state": "ok"})
    assert unknown.status_code == 422
    assert "w-entry" in unknown.text


def test_single_pieces_and_dumbbells_are_taken_out_and_given_back(opened):
    coach = opened.as_(Role.COACH)
    rack = kit_of(opened).dumbbells[0]
    entry, at = f"m{rack.unit_mass_g}", ROOM + "/inspections"
    out = {"entry": entry, "state": "quarantined", "units": "3", "note": "loose head"}
    assert coach.post(at, data=out).status_code == 303
    assert AWAY.format(3, rack.count, "2026-03-01") in coach.get(ROOM).text
    assert "(3 pieces): quarantined, Coach: loose head" in opened.as_(Role.ASSISTANT).get(ROOM).text
    opened.clock.forward(days=2)
    coach = opened.as_(Role.COACH)
    assert coach.post(at, data={"entry": entry, "state": "ok", "units": "1"}).status_code == 303
    assert AWAY.format(2, rack.count, "2026-03-01") in coach.get(ROOM).text
    for units in ("0", "x", "-1", str(rack.count + 1)):
        wrong = coach.post(at, data=out | {"units": units})
        assert wrong.status_code == 422
        assert f"1 to {rack.count}, or nothing for all of them." in wrong.text


def test_the_interface_writes_inspections_of_pieces_too(opened):
    coach = opened.as_(Role.COACH)
    at = f"/api/v1/halls/{HALL}/records/care/-"
    read = coach.get(at).json()
    row = {"mass": 8000, "units": 2, "on": "2026-03-01", "by": "Coach", "state": "quarantined"}
    rows = [*read["values"]["inspections"], row]
    sent = {"values": {"inspections": rows}, "base_version": read["version"]}
    assert coach.put(at, json=sent).status_code == 200
    kept = opened.keeping.halls.opened(HALL).hall.inspections[-1]
    assert (kept.entry, kept.units) == (8000, 2)
    assert coach.get(at).json()["values"]["inspections"][-1]["units"] == 2


def test_what_leaves_the_rack_takes_its_inspections_along(opened):
    coach = opened.as_(Role.COACH)
    rack, item = kit_of(opened).dumbbells[0], kit_of(opened).items[0]
    for entry in (f"m{rack.unit_mass_g}", f"i{item.id}"):
        sent = {"entry": entry, "state": "quarantined"}
        assert coach.post(ROOM + "/inspections", data=sent).status_code == 303
    sent = {"mass": f"{rack.unit_mass_g / 1000:g}", "count": "0"}
    assert coach.post(ROOM + "/dumbbells", data=sent).status_code == 303
    left = opened.keeping.halls.opened(HALL).hall.inspections
    assert {row.entry for row in left} >= {item.id}
    assert rack.unit_mass_g not in {row.entry for row in left}


def test_a_room_keeps_its_id_and_classes_when_it_changes(opened):
    coach = opened.as_(Role.COACH)
    room = opened.keeping.halls.opened(HALL).hall.rooms[0]
    sent = {"room_id": room.id, "name": "Big floor", "length": "20", "width": "13"}
    sent["emergency"] = "Harbour Road 1\nDefibrillator by the door"
    assert coach.post(ROOM + "/rooms", data=sent).status_code == 303
    now = opened.keeping.halls.opened(HALL).hall.rooms[0]
    assert (now.id, now.name, now.length) == (room.id, "Big floor", 20_000)
    assert now.emergency == ("Harbour Road 1", "Defibrillator by the door")
    assert now.fixture == room.fixture
    assert coach.post(ROOM + "/rooms", data=sent | {"width": "0"}).status_code == 422


def test_an_item_of_the_list_can_be_added(opened):
    coach = opened.as_(Role.COACH)
    sent = {"kind": "bench", "count": "2", "label": "short bench", "height": "40"}
    assert coach.post(ROOM + "/items", data=sent | {"strength": "200"}).status_code == 303
    made = next(i for i in kit_of(opened).items if i.label == "short bench")
    assert (made.id, made.height, made.strength, made.stable) == (
        "short_bench",
        400,
        200_000,
        False,
    )
    assert coach.post(ROOM + "/items", data={"kind": "anvil", "count": "1"}).status_code == 422


def test_movements_are_found_by_what_they_are_and_ask(opened):
    someone = opened.as_(Role.ASSISTANT)
    every = someone.get(MOVEMENTS).text
    assert "243 / 243" in every
    squats = someone.get(MOVEMENTS + "?pattern=squat&kit=dumbbell").text
    assert "Goblet squat" in squats
    assert "Rope skipping" not in squats
    assert "Rope skipping" not in someone.get(MOVEMENTS + "?asks_little=impact").text
    assert "No movement is like that." in someone.get(MOVEMENTS + "?find=zzz").text


def test_a_movement_is_shown_whole_with_its_drawings(opened):
    someone = opened.as_(Role.ASSISTANT)
    page = someone.get(MOVEMENTS + "/goblet_squat").text
    assert "Breathing" in page
    assert "Easier and harder" in page
    picture = someone.get(MOVEMENTS + "/goblet_squat/1.svg")
    assert picture.headers["content-type"] == "image/svg+xml"
    for missing in ("/goblet_squat/99.svg", "/nothing", "/nothing/1.svg"):
        assert someone.get(MOVEMENTS + missing).status_code == 404
