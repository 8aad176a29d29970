"""One sentence says who changes what: at most three named, then a number, and never why."""

from typing import get_args

import pytest

from roundwright.people.limitation import Concern
from roundwright.plan.changing import change as c
from roundwright.services.changing.effects import Effects
from roundwright.services.changing.said import PersonSaid, Said
from roundwright.services.changing.said_words import (
    _ASKED,
    effect_lines,
    people_changed_words,
    sentence_of,
    with_names,
)
from tests.support.plans import a_fitted_plan

PROBLEM = a_fitted_plan().problem
PUSH_UP = PROBLEM.library.lines["push_ups"].versions[-1]
PUSH_UP_NAME = PROBLEM.library.movements[PUSH_UP].name


def _said(people=(), **more):
    return Said(key="round_dropped", figures={"rounds": 2}, people=tuple(people), **more)


def _loads(number):
    return [
        PersonSaid(person=f"p{n:03d}", positions=(2,), doing="load", unit_mass_g=6000, units=2)
        for n in range(1, number + 1)
    ]


def test_every_kind_has_words():
    union = get_args(get_args(c.Change)[0])
    assert set(_ASKED) == {kind.model_fields["kind"].default for kind in union}


@pytest.mark.parametrize(
    ("number", "end"),
    [
        (0, "; it stays the same for everybody."),
        (1, "; {p001} takes a pair of 6 kg at one-arm row (place 2)."),
        (3, "{p003} takes a pair of 6 kg at one-arm row (place 2)."),
        (4, "; one more person does something else."),
        (6, "; three more people do something else."),
    ],
)
def test_three_are_named_then_a_number(number, end):
    sentence = sentence_of(_said(_loads(number)), PROBLEM, "kg")
    assert sentence.startswith("One round less: two rounds; ")
    assert sentence.endswith(end)
    assert sentence.count("{p") == min(number, 3)


@pytest.mark.parametrize(
    ("doing", "words"),
    [
        ("rest", "{p001} rests at"),
        ("count", "{p001} has another count at"),
        ("kit", "{p001} uses other kit at"),
        ("version", f"{{p001}} does {PUSH_UP_NAME[0].lower()}{PUSH_UP_NAME[1:]} at"),
        ("works", f"{{p001}} does {PUSH_UP_NAME[0].lower()}{PUSH_UP_NAME[1:]} at"),
        (None, "{p001} does something else at"),
    ],
)
def test_what_somebody_does(doing, words):
    movements = (PUSH_UP,) if doing in ("version", "works") else ()
    one = PersonSaid(person="p001", positions=(4,), doing=doing, movements=movements)
    assert words in sentence_of(_said([one]), PROBLEM, "kg")


def test_the_burst_and_many_places():
    burst = PersonSaid(person="p001", positions=(0,), doing="burst", movements=("march",))
    many = PersonSaid(person="p002", positions=(1, 2, 3))
    sentence = sentence_of(_said([burst, many]), PROBLEM, "kg")
    assert "for the burst" in sentence
    assert "{p002} does something else at three places" in sentence


def test_pounds_are_said_where_they_are_used():
    assert "a pair of 13 lb" in sentence_of(_said(_loads(1)), PROBLEM, "lb")


def test_names_are_joined_and_who_is_gone_stays_nameless():
    text = with_names("{p001} joins; {p002} rests.", {"p001": "Maren T"})
    assert text == "Maren T joins; someone (p002) rests."


def test_a_limit_gives_no_reason():
    said = Said(key="person_limited", person="p001")
    sentence = sentence_of(said, PROBLEM, "kg").lower()
    words = {concern.value.replace("_", " ") for concern in Concern}
    words |= {"limit", "pain", "hurt", "sore", "injur", "doctor", "clear", "avoid", "because"}
    assert not [word for word in words if word in sentence]


def test_effects_tell_before_where_it_was_another():
    before = Effects(
        length_s=2400,
        kit_in_use=20,
        push=1,
        pull=1,
        knee=2,
        hip=1,
        contacts=0,
        versions=9,
        chance_on_time_bp=8000,
    )
    after = before.model_copy(update={"length_s": 2100, "chance_on_time_bp": 9900})
    lines = effect_lines(before, after)
    assert lines[0] == "Length: 35:00 (was 40:00)"
    assert "Kit in use at once: 20" in lines
    assert lines[-1] == "On time: nearly always (was 8 times in 10)"
    assert len(effect_lines(before, after.model_copy(update={"chance_on_time_bp": None}))) == 6


def test_people_are_counted_in_words():
    assert people_changed_words(0) == "it stays the same for everybody"
    assert people_changed_words(1) == "one person does something else"
    assert people_changed_words(12) == "twelve people do something else"
    assert people_changed_words(13) == "13 people do something else"
