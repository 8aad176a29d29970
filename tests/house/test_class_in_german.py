"""A class from proposal to print for somebody who reads German: no English sentence is left."""

import html
import re
from collections.abc import Iterator
from functools import cache

import pytest
from starlette.testclient import TestClient

from roundwright.accounts.account import Role
from roundwright.web.texts import catalogue
from tests.house.a_house import HALL, TUESDAY, AHouse, a_house

AT = f"/at/{HALL}/class/tuesday_circuit/{TUESDAY}"
PAGES = {
    "class": f"{AT}/",
    "one person's place": f"{AT}/cell/p003/2",
    "changes": f"{AT}/changes",
    "history": f"{AT}/revisions",
    "then and now": f"{AT}/revisions/1",
    "end by": f"{AT}/finish-by?by=19:00",
    "rehearsal": f"{AT}/rehearsal",
    "pictures": f"{AT}/pictures",
    "papers": f"{AT}/papers",
    "sheet": f"{AT}/sheet.html",
    "week": f"/at/{HALL}/week",
    "people": f"/at/{HALL}/people",
    "person": f"/at/{HALL}/people/p003",
    "movement": f"/at/{HALL}/movements/goblet_squat",
    "movements": f"/at/{HALL}/movements",
    "compared": f"/at/{HALL}/compare-movements?one=wall_sit&other=goblet_squat",
    "room": f"/at/{HALL}/room",
    "floor": f"/at/{HALL}/room/main_floor",
    "staff": f"/at/{HALL}/staff",
    "class card": f"/at/{HALL}/classes/tuesday_circuit",
    "new class": f"/at/{HALL}/new-class",
    "settings": f"/at/{HALL}/settings",
    "screen": f"/at/{HALL}/people/p003/screen",
    "agreements": f"/at/{HALL}/people/p003/agreements",
    "clearance": f"/at/{HALL}/people/p003/clearance",
    "walk-in": f"/at/{HALL}/walk-in",
    "list of people": f"/at/{HALL}/people-list",
    "new movement": f"/at/{HALL}/new-movement",
    "classes": f"/at/{HALL}/classes",
    "whole hall": f"/at/{HALL}/whole-hall",
}
WORDS_OF_CODE = {"yes", "no", "unsure", "none", "not", "the", "and", "with", "person", "both"}
"""Words that stand for values or join others, none of them a word of German."""
LEAST_WORDS = 3


@cache
def longest_parts() -> tuple[tuple[str, str], ...]:
    """Give of each text of the catalogue the longest part without a place, where it has words."""
    found = []
    for english, german in catalogue("de").items():
        longest = max((part.strip() for part in re.split(r"\{\w+\}", english)), key=len)
        if len(longest.split()) >= LEAST_WORDS and longest not in german:
            found.append((" ".join(longest.split()[:LEAST_WORDS]), longest))
    return tuple(found)


def english_in(page: str) -> list[str]:
    """Give each English text of the catalogue that stands on a page word for word."""
    page = re.sub(r"<(script|style).*?</\1>", " ", page, flags=re.S)
    told = html.unescape(re.sub(r"<[^>]*>", "\n", page))
    told += "\n".join(html.unescape(each) for each in re.findall(r'"([^"<>]*)"', page))
    words = told.split()
    begun = {" ".join(words[n : n + LEAST_WORDS]) for n in range(len(words))}
    return [text for start, text in longest_parts() if start in begun and text in told]


@pytest.fixture(scope="module")
def opened() -> Iterator[tuple[AHouse, TestClient]]:
    with a_house() as house:
        client = house.as_(Role.OWNER)
        looks = {"units": "kg", "language": "de-DE"}
        assert client.post(f"/at/{HALL}/settings/looks", data=looks).status_code == 303
        client.post(AT + "/fit-as-written")
        rooms = house.house.rooms
        assert rooms is not None
        room = rooms.room(house.keeping.halls.opened(HALL), "tuesday_circuit", TUESDAY)
        assert room.desk.wait(60)
        sent = {"plan": room.plan_id, "base": "1", "change": "left", "person": "p001"}
        assert client.post(AT + "/change", data=sent).status_code == 303
        yield house, client


@pytest.mark.parametrize("name", PAGES)
def test_a_page_holds_no_english_sentence(opened, name: str) -> None:
    answer = opened[1].get(PAGES[name])
    assert answer.status_code == 200, answer.text[:400]
    assert english_in(answer.text) == []


def own_words(house: AHouse) -> set[str]:
    """Give what the hall itself has written: names, labels of kit, lines for an emergency."""
    hall = house.keeping.halls.opened(HALL).hall
    names = {a.shown_name for a in house.keeping.accounts.accounts()}
    labels = {i.label for i in hall.kit.items} | {line for r in hall.rooms for line in r.emergency}
    return names | labels | {e.about for e in house.keeping.trail.entries()}


def short_english_in(page: str) -> set[str]:
    """Give each line of a page that is a text of the catalogue, or has a word of code in it."""
    page = re.sub(r"<(script|style|textarea).*?</\1>", " ", page, flags=re.S)
    lines = {line.strip() for line in html.unescape(re.sub(r"<[^>]*>", "\n", page)).splitlines()}
    known = catalogue("de")
    told = {line for line in lines if known.get(line, line) != line and line not in known.values()}
    return told | {line for line in lines if WORDS_OF_CODE & set(line.split())}


@pytest.mark.parametrize("name", PAGES)
def test_a_page_holds_no_english_word(opened, name: str) -> None:
    house, client = opened
    assert short_english_in(client.get(PAGES[name]).text) - own_words(house) == set()


def test_an_english_sentence_would_be_found() -> None:
    assert short_english_in("<b>Room and kit</b><label><input> yes</label>") == {
        "Room and kit",
        "yes",
    }
    assert "Take it out of the week" in english_in("<p>Take it out of the week</p>")


def test_the_answer_and_the_history_are_told_in_german(opened) -> None:
    house, client = opened
    assert "ist nicht mehr in der Stunde" in client.get(AT + "/").text
    assert "ist nicht mehr in der Stunde" in client.get(AT + "/revisions").text
    other = house.as_(Role.COACH)
    assert "is out of the class" in other.get(AT + "/").text
    assert "is out of the class" in other.get(AT + "/revisions").text


def test_what_is_kept_is_told_to_nobody(opened) -> None:
    house = opened[0]
    (entry,) = house.keeping.plans.plans(HALL, [TUESDAY], "tuesday_circuit")
    kept = house.keeping.plans.opened(HALL, entry.plan_id)
    assert "is out of the class" in kept.revisions.at(2).sentence
    assert "Fits" not in kept.document.model_dump_json()
