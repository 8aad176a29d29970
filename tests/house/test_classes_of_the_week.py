"""Classes of the week changed, taken out, and looked at in other weeks."""

from collections.abc import Iterator
from html.parser import HTMLParser

import pytest

from roundwright.accounts.account import Role
from roundwright.goals.class_wish import ClassWish
from tests.house.a_house import HALL, AHouse, a_house

AT = f"/at/{HALL}/classes/tuesday_circuit"


@pytest.fixture(scope="module")
def opened() -> Iterator[AHouse]:
    with a_house() as made:
        yield made


def _wish(opened: AHouse, class_id: str = "tuesday_circuit") -> ClassWish:
    return opened.keeping.halls.opened(HALL).hall.classes[class_id]


class Fields(HTMLParser):
    """What a form would send if nothing in it were touched."""

    def __init__(self) -> None:
        super().__init__()
        self.sent: dict[str, list[str]] = {}
        self._choice = ""

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        given = dict(attrs)
        if tag == "select":
            self._choice = given.get("name") or ""
        elif tag == "option" and "selected" in given:
            self.sent[self._choice] = [given["value"] or ""]
        elif tag == "input" and (given.get("type") != "checkbox" or "checked" in given):
            self.sent.setdefault(given.get("name") or "", []).append(given.get("value") or "")


def _form(page: str) -> dict[str, list[str]]:
    reader = Fields()
    reader.feed(page.split("</form>")[1])
    return reader.sent


def test_a_form_sent_back_as_it_came_changes_nothing(opened: AHouse) -> None:
    client = opened.as_(Role.COACH)
    for class_id in opened.keeping.halls.opened(HALL).hall.classes:
        was = _wish(opened, class_id)
        at = f"/at/{HALL}/classes/{class_id}"
        sent = _form(client.get(at).text)
        answer = client.post(at, data=sent)
        assert answer.status_code == 303, answer.text
        assert _wish(opened, class_id) == was


def test_when_and_who_are_changed_and_a_stale_form_is_told(opened: AHouse) -> None:
    client = opened.as_(Role.COACH)
    sent = _form(client.get(AT).text)
    mine = sent | {"start": ["19:15"], "people": ["p001", "p003"], "rest": ["75"]}
    assert client.post(AT, data=mine).status_code == 303
    now = _wish(opened)
    assert (f"{now.start:%H:%M}", now.people, now.rest_s) == ("19:15", ("p001", "p003"), 75)
    stale = client.post(AT, data=sent | {"name": ["Tuesday, other"]})
    assert stale.status_code == 409
    assert 'value="Tuesday, other"' in stale.text
    assert _wish(opened).name == now.name


def test_reps_left_are_asked_of_a_class_and_taken_back(opened: AHouse) -> None:
    client = opened.as_(Role.COACH)
    for typed, kept in (("2", 2), ("0", 0), ("", None)):
        sent = _form(client.get(AT).text)
        assert client.post(AT, data=sent | {"reps_left": [typed]}).status_code == 303
        assert _wish(opened).reps_left == kept


def test_groups_are_counted_where_they_take_turns(opened: AHouse) -> None:
    client = opened.as_(Role.COACH)
    at = f"/at/{HALL}/classes/saturday_staggered"
    sent = _form(client.get(at).text)
    assert client.post(at, data=sent | {"groups": ["3"]}).status_code == 303
    wish = opened.keeping.halls.opened(HALL).hall.classes["saturday_staggered"]
    assert wish.groups == 3
    sent = _form(client.get(at).text)
    assert sent["groups"] == ["3"]
    for wrong in ({"groups": ["5"]}, {"format": ["together"]}):
        told = client.post(at, data=sent | wrong)
        assert told.status_code == 422
        assert 'href="#f-groups"' in told.text


def test_every_fault_of_the_form_is_told_at_once_and_nothing_typed_is_lost(
    opened: AHouse,
) -> None:
    client = opened.as_(Role.COACH)
    was = _wish(opened)
    sent = _form(client.get(AT).text)
    wrong = {"start": "25:00", "rounds": "x", "rest": "-1", "room": "cellar", "burst": "squats"}
    wrong |= {"name": "", "places": "99", "on": "soon", "minutes": "9" * 400, "reps_left": "7"}
    answer = client.post(AT, data=sent | wrong)
    assert answer.status_code == 422
    for field in wrong:
        assert f'href="#f-{field}"' in answer.text, field
    assert 'value="25:00"' in answer.text
    assert _wish(opened) == was


def test_a_class_is_taken_out_of_the_week(opened: AHouse) -> None:
    client = opened.as_(Role.COACH)
    at = f"/at/{HALL}/classes/friday_heavy"
    version = _form(client.get(at).text)["version"]
    assert client.post(at + "/remove", data={"version": "x"}).status_code == 409
    assert client.post(at + "/remove", data={"version": version}).status_code == 303
    assert "friday_heavy" not in client.get(f"/at/{HALL}/classes").text
    assert client.get(at).status_code == 404


def test_other_weeks_are_a_press_away(opened: AHouse) -> None:
    client = opened.as_(Role.ASSISTANT)
    later = client.get(f"/at/{HALL}/week?begins=2026-03-08").text
    assert "/class/tuesday_circuit/2026-03-10/" in later
    for nonsense in ("soon", "9999-12-31", "0001-01-01", "\x00"):
        now = client.get(f"/at/{HALL}/week", params={"begins": nonsense}).text
        assert "/class/tuesday_circuit/2026-03-03/" in now
