"""Each account sees masses in units of its own: pages, pictures, papers; forms take both."""

import re
from collections.abc import Iterator

import pytest
from starlette.testclient import TestClient

from roundwright.accounts.account import Account, Role
from roundwright.demo.tern_quay import demo_hall_folder
from roundwright.hall.hall import Hall, Units
from tests.house.a_house import HALL, PASSWORD, TOOL, TUESDAY, AHouse, a_house

AT = f"/at/{HALL}/class/tuesday_circuit/{TUESDAY}"
ROOM, SETTINGS, PERSON = (f"/at/{HALL}/{part}" for part in ("room", "settings", "people/p003"))


IN_LB = re.compile(r"(pair|one) 17\.5|17\.5 lb")
"""8 kg, as somebody reads it who weighs in pounds."""


def _unmarked(hall: Hall) -> Hall:
    """Give the hall with nothing written on its dumbbells but on those of 4 kg."""
    rack = tuple(
        d if d.unit_mass_g == 4000 else d.model_copy(update={"label": ""})
        for d in hall.kit.dumbbells
    )
    return hall.model_copy(update={"kit": hall.kit.model_copy(update={"dumbbells": rack})})


@pytest.fixture(scope="module")
def opened() -> Iterator[AHouse]:
    with a_house(with_hall=False) as house:
        hall = _unmarked(house.house.adapters.hall(demo_hall_folder()))
        house.keeping.halls.begin(HALL, hall, TOOL)
        house.as_(Role.COACH).post(AT + "/fit-as-written")
        rooms = house.house.rooms
        assert rooms is not None
        assert rooms.room(house.keeping.halls.opened(HALL), "tuesday_circuit", TUESDAY).desk.wait(
            60
        )
        yield house


def _choose(client: TestClient, units: str) -> None:
    sent = {"units": units, "language": "en-GB"}
    assert client.post(SETTINGS + "/looks", data=sent).status_code == 303


def test_one_plan_is_shown_to_two_accounts_in_kg_and_in_lb(opened: AHouse) -> None:
    coach, owner = opened.as_(Role.COACH), opened.as_(Role.OWNER)
    _choose(coach, "kg")
    _choose(owner, "lb")
    for what in ("/", "/sheet.html", "/pictures", "/cell/p003/1"):
        in_kg, in_lb, again = (c.get(AT + what).text for c in (coach, owner, coach))
        assert in_kg == again
        assert not IN_LB.search(in_kg), what
        assert IN_LB.search(in_lb), what
    assert opened.keeping.halls.opened(HALL).hall.settings.units is Units.KG


def test_what_is_written_on_a_dumbbell_stays_as_it_is_written(opened: AHouse) -> None:
    owner = opened.as_(Role.OWNER)
    _choose(owner, "lb")
    page = owner.get(ROOM).text
    assert "4 kg" in page
    assert "17.5 lb" in page
    assert "551 lb" in page
    assert "250 kg" not in page


def test_two_versions_beside_each_other_are_weighed_in_the_readers_units(opened: AHouse) -> None:
    at = f"/at/{HALL}/compare-movements?one=wall_sit&other=goblet_squat"
    owner = opened.as_(Role.OWNER)
    for units, words in (("kg", "70 kg"), ("lb", "154.5 lb")):
        _choose(owner, units)
        assert words in owner.get(at).text


def test_papers_are_in_the_units_of_who_opens_them(opened: AHouse) -> None:
    coach, owner = opened.as_(Role.COACH), opened.as_(Role.OWNER)
    _choose(coach, "kg")
    _choose(owner, "lb")
    for what in ("sheet", "cards", "personal", "room"):
        one, other = (c.get(f"{AT}/papers/{what}.pdf") for c in (coach, owner))
        assert one.status_code == other.status_code == 200
        assert one.content != other.content


@pytest.mark.parametrize(
    ("units", "typed", "grams"),
    [
        ("kg", "62", 62_000),
        ("lb", "137", 62_142),
        ("lb", "62 kg", 62_000),
        ("kg", "137 lb", 62_142),
        ("lb", "62,5kg", 62_500),
    ],
)
def test_a_body_mass_may_be_typed_in_either(
    opened: AHouse, units: str, typed: str, grams: int
) -> None:
    coach = opened.as_(Role.COACH)
    _choose(coach, units)
    _person(coach, opened, typed)
    person = opened.keeping.halls.opened(HALL).hall.person("p003")
    assert person is not None
    assert person.body_mass_g == grams
    shown = re.search(r'name="body_mass"[^>]*value="([^"]*)"', coach.get(PERSON).text)
    assert shown is not None
    _person(coach, opened, shown[1])
    again = opened.keeping.halls.opened(HALL).hall.person("p003")
    assert again is not None
    assert again.body_mass_g == grams


def _person(client: TestClient, opened: AHouse, mass: str) -> None:
    page = client.get(PERSON).text
    version = re.search(r'name="version" value="(\d*)"', page)
    sent = {"shown_name": "Someone", "sex": "unstated", "body_mass": mass}
    sent["version"] = version[1] if version else ""
    answer = client.post(PERSON, data=sent)
    assert answer.status_code == 303, answer.text


def test_dumbbells_may_be_typed_in_either(opened: AHouse) -> None:
    coach = opened.as_(Role.COACH)
    _choose(coach, "lb")
    for typed, grams, label in (
        ("30", 13_608, "30 lb"),
        ("14 kg", 14_000, ""),
        ("35LB", 15_876, "35LB"),
    ):
        assert (
            coach.post(ROOM + "/dumbbells", data={"mass": typed, "count": "2"}).status_code == 303
        )
        rack = {
            d.unit_mass_g: d.label for d in opened.keeping.halls.opened(HALL).hall.kit.dumbbells
        }
        assert rack[grams] == label


def test_a_new_account_begins_with_the_units_of_the_hall() -> None:
    with a_house(with_hall=False) as house:
        hall = house.house.adapters.hall(demo_hall_folder())
        settings = hall.settings.model_copy(update={"units": Units.LB})
        house.keeping.halls.begin(HALL, hall.model_copy(update={"settings": settings}), TOOL)
        owner = house.as_(Role.OWNER)
        new = {"sign_in_name": "nia", "shown_name": "Nia", "role": "coach"}
        made = owner.post(SETTINGS + "/accounts", data=new | {"new_password": PASSWORD})
        assert made.status_code == 303
        assert _units(house, "nia") == "lb"
        for name, asked, got in (("ole", None, "lb"), ("pia", "kg", "kg")):
            sent = {"sign_in_name": name, "shown_name": name.title(), "role": "coach"}
            body = sent | {"password": PASSWORD, "units": asked}
            assert owner.post("/api/v1/accounts", json=body).status_code == 201
            assert _units(house, name) == got


def test_who_begins_the_first_hall_sees_its_units() -> None:
    with a_house(with_hall=False) as house:
        owner = house.as_(Role.OWNER)
        hall = {"name": "Pier Hall", "time_zone": "Europe/London", "units": "lb", "paper": "a4"}
        hall |= {"room": "Main room", "length": "12", "width": "9"}
        assert owner.post("/first/hall", data=hall).status_code == 303
        assert _units(house, "owner") == "lb"
        second = hall | {"name": "Quay Hall", "units": "kg"}
        assert owner.post("/first/hall", data=second).status_code == 303
        assert _units(house, "owner") == "lb"


def _units(house: AHouse, name: str) -> str:
    account = house.keeping.accounts.by_sign_in_name(name)
    assert isinstance(account, Account)
    return account.units


def test_what_a_change_did_is_told_in_the_readers_units(opened: AHouse) -> None:
    coach, owner = opened.as_(Role.COACH), opened.as_(Role.OWNER)
    _choose(coach, "kg")
    _choose(owner, "lb")
    entry = opened.keeping.plans.plans(HALL, [TUESDAY], "tuesday_circuit")[-1]
    sent = {"plan": entry.plan_id, "base": str(entry.revision)}
    sent |= {"change": "kit-lost", "kit": "m8000", "units": "1"}
    assert coach.post(AT + "/change", data=sent).status_code == 303
    in_kg, in_lb = (client.get(AT + "/revisions").text for client in (coach, owner))
    assert "8 kg" in in_kg
    assert "17.5 lb" in in_lb
    assert "8 kg" not in in_lb
