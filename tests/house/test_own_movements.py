"""Movements of the hall's own: written like another, seen, kept, changed, taken away; compared."""

from collections.abc import Iterator

import pytest

from roundwright.accounts.account import Role
from roundwright.services.keeping.records import RecordKey, RecordKind
from tests.house.a_house import HALL, AHouse, a_house

AT = f"/at/{HALL}"
LIKE = {"name": "Quay squat", "like": "Goblet squat", "line_name": "Quay squats"}
LIKE |= {"up": "Seen twice.", "down": "Two faulty reps after a cue."}


@pytest.fixture
def opened() -> Iterator[AHouse]:
    with a_house() as made:
        yield made


def _movements(opened: AHouse):
    return opened.keeping.halls.opened(HALL).hall.catalogue.movements


def _version(opened: AHouse, key: str) -> str:
    versions = opened.keeping.halls.opened(HALL).versions
    return str(versions[RecordKey(RecordKind.LIBRARY_TEXT, key)])


def test_a_movement_is_written_like_another_looked_at_and_kept(opened: AHouse) -> None:
    client = opened.as_(Role.COACH)
    seen = client.post(AT + "/new-movement", data=LIKE)
    assert seen.status_code == 200
    assert "It is sound." in seen.text
    assert "quay_squat" not in _movements(opened)
    kept = client.post(AT + "/new-movement", data=LIKE | {"keep": "yes", "seconds_a_rep": "4,5"})
    assert kept.headers["location"] == f"{AT}/movements/quay_squat"
    made, model = _movements(opened)["quay_squat"], _movements(opened)["goblet_squat"]
    assert float(made.seconds_a_rep) == 4.5
    assert made.muscles == model.muscles
    assert "Change it" in client.get(f"{AT}/movements/quay_squat").text


def test_what_it_asks_may_be_more_and_less_is_said(opened: AHouse) -> None:
    client = opened.as_(Role.COACH)
    less = client.post(AT + "/new-movement", data=LIKE | {"demand_ankle": "0"})
    assert "It asks less than Goblet squat: ankle 0" in less.text


def test_every_fault_is_told_at_once_and_nothing_typed_is_lost(opened: AHouse) -> None:
    client = opened.as_(Role.COACH)
    wrong = LIKE | {"like": "Gobbet squat", "seconds_a_rep": "soon", "level": "9", "keep": "yes"}
    answer = client.post(AT + "/new-movement", data=wrong)
    assert answer.status_code == 422
    assert 'href="#f-like"' in answer.text
    assert 'href="#f-seconds_a_rep"' in answer.text
    assert 'value="Gobbet squat"' in answer.text
    assert "quay_squat" not in _movements(opened)
    assert client.post(AT + "/new-movement", data={"keep": "yes"}).status_code == 422
    garbage = {"name": "\u202e" * 50, "posture": "[[[", "steps": "x" * 30_000, "like": "\x00"}
    assert client.post(AT + "/new-movement", data=garbage).status_code == 422


def test_its_text_is_changed_and_it_goes_unless_a_class_uses_it(opened: AHouse) -> None:
    client = opened.as_(Role.COACH)
    client.post(AT + "/new-movement", data=LIKE | {"keep": "yes"})
    own = f"{AT}/own-movements/quay_squat"
    text = opened.keeping.halls.opened(HALL).hall.library_texts["library/quay_squat.toml"]
    version = {"version": _version(opened, "quay_squat")}
    broken = client.post(own, data=version | {"text": text.replace("Quay squat", "")})
    assert broken.status_code == 422
    renamed = {"text": text.replace('"Quay squat"', '"Quay squat, slow"')}
    assert client.post(own, data=version | renamed).status_code == 303
    assert _movements(opened)["quay_squat"].name == "Quay squat, slow"
    assert client.post(own, data=version | renamed).status_code == 409
    hall = opened.keeping.halls.opened(HALL)
    where = RecordKey(RecordKind.CLASS, "friday_heavy")
    values = hall.hall.classes["friday_heavy"].model_dump(mode="json", by_alias=True)
    values["exercise"][0]["exercise"] = "quay_squat_line"
    put = {"values": values, "base_version": hall.versions[where]}
    address = f"/api/v1/halls/{HALL}/records/class/friday_heavy"
    assert client.put(address, json=put).status_code == 200
    version = {"version": _version(opened, "quay_squat")}
    used = client.post(own + "/remove", data=version)
    assert used.status_code == 422
    assert "friday_heavy" in used.text
    assert "quay_squat" in _movements(opened)


def test_two_versions_are_compared_and_one_moves(opened: AHouse) -> None:
    client = opened.as_(Role.ASSISTANT)
    page = client.get(AT + "/compare-movements?one=wall_sit&other=goblet_squat").text
    assert "Goblet squat" in page
    assert "When held" in page
    assert "Landings a rep" in page
    assert client.get(AT + "/compare-movements?one=x&other=y").status_code == 200
    told = client.get(AT + "/movements/goblet_squat/moving.json").json()
    assert told["frames"]
    assert client.get(AT + "/movements/nothing/moving.json").status_code == 404


def test_the_library_is_filtered_by_muscle_and_line(opened: AHouse) -> None:
    client = opened.as_(Role.ASSISTANT)
    page = client.get(AT + "/movements?line=push_ups").text
    line = opened.keeping.halls.opened(HALL).hall.catalogue.lines["push_ups"]
    found = [page.index(f"/movements/{slug}/1.svg") for slug in line.versions]
    assert found == sorted(found)
    calves = client.get(AT + "/movements?muscle=calves").text
    assert "wall_heel_raise/1.svg" in calves
    assert "goblet_squat/1.svg" not in calves
