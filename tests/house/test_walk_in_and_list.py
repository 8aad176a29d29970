"""A walk-in's three questions, and a list of people brought in."""

from collections.abc import Iterator

import pytest

from roundwright.accounts.account import Role
from roundwright.plan.build_problem import problem_person
from roundwright.plan.rule_table import RuleTable
from tests.house.a_house import HALL, AHouse, a_house

WALK_IN, LIST = f"/at/{HALL}/walk-in", f"/at/{HALL}/people-list"


@pytest.fixture
def opened() -> Iterator[AHouse]:
    with a_house() as made:
        yield made


def _newest(opened: AHouse):
    kept = opened.keeping.halls.opened(HALL).hall
    person = kept.people[-1]
    return person, problem_person(kept, person, opened.clock.today(), RuleTable())


def _asked(first: str, second: str, third: str) -> dict[str, str]:
    return {"shown_name": "Quill", "first": first, "second": second, "third": third}


def test_heart_or_doctor_is_not_today_and_no_plan_takes_them(opened: AHouse) -> None:
    for first in ("yes", "unsure"):
        answer = opened.as_(Role.COACH).post(WALK_IN, data=_asked(first, "no", "yes"))
        assert "Not today." in answer.text
        person, known = _newest(opened)
        assert person.shown_name == "Quill"
        assert known.clearance.value == "not_cleared"


def test_pain_or_birth_is_lighter_until_asked(opened: AHouse) -> None:
    answer = opened.as_(Role.COACH).post(WALK_IN, data=_asked("no", "unsure", "yes"))
    assert "Light, until asked further." in answer.text
    _, known = _newest(opened)
    assert known.effort_cap == 3
    assert known.is_moderate_only
    assert any("ask further" in words for words in known.actions)


def test_whoever_is_well_and_active_begins_as_in_a_first_class(opened: AHouse) -> None:
    answer = opened.as_(Role.COACH).post(WALK_IN, data=_asked("no", "no", "yes"))
    assert "as in a first class" in answer.text
    person, known = _newest(opened)
    assert (person.level, person.classes_done, known.effort_cap) == (2, 0, None)
    assert known.is_moderate_only


def test_a_question_left_out_is_asked_and_nobody_is_kept(opened: AHouse) -> None:
    before = len(opened.keeping.halls.opened(HALL).hall.people)
    answer = opened.as_(Role.COACH).post(WALK_IN, data={"shown_name": "", "second": "perhaps"})
    assert answer.status_code == 422
    for field in ("first", "second", "third", "shown_name"):
        assert f'href="#f-{field}"' in answer.text
    assert len(opened.keeping.halls.opened(HALL).hall.people) == before


def test_a_list_is_shown_then_brought_in(opened: AHouse) -> None:
    client = opened.as_(Role.COACH)
    text = "Member;Weight;Colour\nUna;61,5;red\nMaren T;70;blue\n"
    page = client.post(LIST, data={"text": text})
    assert page.status_code == 200
    before = opened.keeping.halls.opened(HALL)
    assert all(p.shown_name != "Una" for p in before.hall.people)
    assert "Una" in page.text
    sent = {"text": text, "keep": "yes", "version": str(before.version)}
    assert client.post(LIST, data=sent).status_code == 303
    now = {p.shown_name: p for p in opened.keeping.halls.opened(HALL).hall.people}
    assert now["Una"].body_mass_g == 61_500
    assert now["Maren T"].body_mass_g == 70_000
    assert client.post(LIST, data=sent).status_code in (200, 409)


def test_a_file_is_read_and_a_column_chosen(opened: AHouse) -> None:
    client = opened.as_(Role.COACH)
    file = ("members.csv", b"Who,Kilos\nUna,61\n", "text/csv")
    page = client.post(LIST, files={"file": file})
    assert page.status_code == 422
    chosen = {"text": "Who,Kilos\nUna,61\n", "header": ["Who", "Kilos"]}
    chosen |= {"column_0": "shown_name", "column_1": "body_mass_kg", "keep": "yes"}
    chosen |= {"version": str(opened.keeping.halls.opened(HALL).version)}
    assert client.post(LIST, data=chosen).status_code == 303
    una = opened.keeping.halls.opened(HALL).hall.people[-1]
    assert (una.shown_name, una.body_mass_g) == ("Una", 61_000)


def test_every_fault_of_a_list_is_told_at_once_and_nothing_is_kept(opened: AHouse) -> None:
    client = opened.as_(Role.COACH)
    text = "Name,Born,Weight\nUna,19x0,61\nUna,1980,9999\n"
    version = str(opened.keeping.halls.opened(HALL).version)
    page = client.post(LIST, data={"text": text, "keep": "yes", "version": version})
    assert page.status_code == 422
    assert "Line 2" in page.text
    assert "Line 3" in page.text
    assert "19x0" in page.text
    assert opened.keeping.halls.opened(HALL).version == int(version)


@pytest.mark.parametrize(
    "text", ["", "\x00", "a\n" * 9_000, '"', "=cmd(),name\n=1+1,=2+2\n", "name\n" + "x" * 5_000]
)
def test_no_list_brings_the_page_down(opened: AHouse, text: str) -> None:
    answer = opened.as_(Role.COACH).post(LIST, data={"text": text, "keep": "yes"})
    assert answer.status_code < 500
