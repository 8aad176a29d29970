"""Who leads a class: what is asked about it on Week and on the class page, by who looks."""

from dataclasses import replace
from datetime import date

import pytest

from roundwright.accounts.account import Role
from roundwright.bootstrap.wiring import wired
from roundwright.demo.tern_quay import demo_hall_folder
from roundwright.hall.hall import Hall
from roundwright.people.staff import Teaches
from roundwright.services.fit_class import FitRequest, fit_class
from roundwright.services.keeping.class_form import fields_of
from roundwright.services.keeping.records import RecordEdit, RecordKey, RecordKind
from roundwright.services.who_leads import (
    LeadAsk,
    lead_advice,
    lead_words,
    may_lead,
    needs_of_people,
    needs_of_plan,
)
from tests.house.a_house import HALL, TOOL, TUESDAY, a_house

ALL = tuple(Teaches)


@pytest.fixture(scope="module")
def hall() -> Hall:
    return wired().hall(demo_hall_folder())


def staffed(hall: Hall, **changes: object) -> Hall:
    """Give the hall with its first member of staff changed."""
    first = hall.staff[0].model_copy(update=changes)
    return hall.model_copy(update={"staff": (first, *hall.staff[1:])})


def test_nobody_is_asked_about_where_no_staff_is_written_down(hall: Hall) -> None:
    bare = hall.model_copy(update={"staff": ()})
    assert lead_advice(bare, hall.classes["tuesday_circuit"], TUESDAY) is None


@pytest.mark.parametrize(
    ("lead", "asked"),
    [
        (None, LeadAsk.NOBODY_NAMED),
        ("gone", LeadAsk.NOT_OF_THE_STAFF),
        ("teo", LeadAsk.ASSISTANT),
        ("isolde", LeadAsk.BEYOND),
    ],
)
def test_what_is_asked_of_each_lead(hall: Hall, lead: str | None, asked: LeadAsk) -> None:
    wish = hall.classes["tuesday_circuit"].model_copy(update={"lead": lead})
    advice = lead_advice(hall, wish, TUESDAY, frozenset({Teaches.JUMPS}))
    assert advice is not None
    assert advice.what is asked


def test_whoever_may_teach_all_of_it_is_asked_nothing(hall: Hall) -> None:
    able = staffed(hall, may_teach=ALL)
    wish = able.classes["tuesday_circuit"].model_copy(update={"lead": able.staff[0].id})
    assert lead_advice(able, wish, TUESDAY, frozenset(ALL)) is None


def test_a_certificate_that_ran_out_means_ask(hall: Hall) -> None:
    (coaching, *others) = hall.staff[0].certificate
    ended = coaching.model_copy(update={"expires_on": date(2026, 3, 2)})
    late = staffed(hall, may_teach=ALL, certificate=(ended, *others))
    wish = late.classes["tuesday_circuit"].model_copy(update={"lead": late.staff[0].id})
    on_the_day = lead_advice(late, wish, date(2026, 3, 2))
    assert on_the_day is None
    after = lead_advice(late, wish, TUESDAY)
    assert after is not None
    assert after.what is LeadAsk.NO_COACHING
    assert not may_lead(late.staff[0], frozenset(), TUESDAY)


def test_people_and_exercises_ask_of_their_lead(hall: Hall) -> None:
    young = hall.people[0].model_copy(update={"birth_year": 2010, "classes_done": 3})
    old = young.model_copy(update={"birth_year": 1961})
    plain = young.model_copy(update={"birth_year": 1990})
    bare = hall.model_copy(update={"limitations": ()})
    assert needs_of_people(bare, [young], TUESDAY) == {Teaches.UNDER_16}
    assert needs_of_people(bare, [old], TUESDAY) == {Teaches.OVER_65}
    assert needs_of_people(bare, [plain], TUESDAY) == frozenset()
    fresh = plain.model_copy(update={"classes_done": None})
    assert needs_of_people(bare, [fresh], TUESDAY) == {Teaches.NEWCOMERS}
    adapters = wired()
    fitted = fit_class(
        hall, FitRequest("tuesday_circuit", TUESDAY), planner=adapters.planner,
        clock=adapters.clock, ids=adapters.ids, rehearse=adapters.rehearse,
    )  # fmt: skip
    assert fitted.document is not None
    needs = needs_of_plan(fitted.document)
    assert needs == {Teaches.OVERHEAD_LOADS, Teaches.NEW_COMBINATIONS}


def test_week_and_class_page_ask_and_never_tell_an_assistant_why() -> None:
    with a_house() as house:
        kept = house.keeping.halls.opened(HALL)
        wish = kept.hall.classes["tuesday_circuit"].model_copy(update={"lead": "marlow"})
        values = wish.model_dump(mode="json", by_alias=True)
        key = RecordKey(RecordKind.CLASS, "tuesday_circuit")
        house.keeping.halls.edit(HALL, [RecordEdit(key, values, kept.versions.get(key))], TOOL)
        needs = needs_of_people(kept.hall, kept.hall.people_of(wish), TUESDAY)
        assert Teaches.SEATED_AND_ADAPTED in needs
        coach, assistant = house.as_(Role.COACH), house.as_(Role.ASSISTANT)
        for page in (f"/at/{HALL}/week", f"/at/{HALL}/class/tuesday_circuit/{TUESDAY}/"):
            assert "seated and adapted" in coach.get(page).text
            told = assistant.get(page).text
            assert "ask about some of what it holds" in told
            assert "seated" not in told.replace("Monday seated", "").replace("monday_seated", "")


def test_who_leads_is_taken_from_the_form() -> None:
    with a_house() as house:
        client = house.as_(Role.COACH)
        page = client.get(f"/at/{HALL}/classes/tuesday_circuit").text
        assert "Who leads it" in page
        wish = house.keeping.halls.opened(HALL).hall.classes["tuesday_circuit"]
        sent = fields_of(wish) | {"lead": "isolde", "people": list(wish.people), "version": "1"}
        answer = client.post(f"/at/{HALL}/classes/tuesday_circuit", data=sent)
        assert answer.status_code == 303, answer.text
        kept = house.keeping.halls.opened(HALL).hall.classes["tuesday_circuit"]
        assert kept == wish.model_copy(update={"lead": "isolde"})
        wrong = client.post(f"/at/{HALL}/classes/tuesday_circuit", data=sent | {"lead": "nobody"})
        assert wrong.status_code == 422


def test_words_hide_what_people_ask(hall: Hall) -> None:
    wish = hall.classes["tuesday_circuit"].model_copy(update={"lead": "isolde"})
    advice = lead_advice(hall, wish, TUESDAY, frozenset({Teaches.JUMPS}))
    assert advice is not None
    hidden = replace(advice, beyond=(Teaches.JUMPS, Teaches.UNDER_16))
    assert "under 16" in lead_words(hidden, with_health=True)
    assert "under 16" not in lead_words(hidden, with_health=False)
    assert "jumps and some of what it holds" in lead_words(hidden, with_health=False)
