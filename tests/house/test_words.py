"""Every text of the pages is looked up, and each catalogue has all of them with their places."""

import re
from collections import Counter
from io import BytesIO
from pathlib import Path

import pytest
from babel.messages.pofile import read_po

import roundwright.web
from roundwright.accounts.account import Role
from roundwright.people.due import WORDS as DUE
from roundwright.people.limitation import Concern
from roundwright.people.screen_questions import QUESTIONS
from roundwright.people.walk_in import REPLY_WORDS, Reply
from roundwright.web.texts import CATALOGUES, catalogue, words_of
from tests.house.a_house import HALL, a_house

WEB = Path(roundwright.web.__file__).parent
TEXT = r"""["]((?:[^"\\]|\\.)+)["]"""
LOOKED_UP = re.compile(rf"(?:\b_|\bsay)\(\s*{TEXT}|one_or_more\([^\"]*{TEXT},\s*{TEXT}")
NAMES = {"Roundwright", "UTC", "ol", "li", "OpenAPI", "kg", "lb", "cm"}
CLASS_PAGES = ("base", "class_page", "choices", "no_sheet", "planning", "pieces")
PARTS = ("house.html", "class_fields.html", "class_links.html", "picture_list.html")
PARTS += tuple(f"{name}.html" for name in CLASS_PAGES)
HOUSE_TEMPLATES = [
    file
    for file in sorted((WEB / "templates").glob("*.html"))
    if '{% extends "house.html" %}' in file.read_text("utf-8") or file.name in PARTS
]


def _looked_up():
    for file in (*HOUSE_TEMPLATES, *(WEB / "house").rglob("*.py")):
        for match in LOOKED_UP.finditer(file.read_text("utf-8")):
            yield from (text for text in match.groups() if text)


def _places(text):
    return set(re.findall(r"\{(\w+)\}", text))


@pytest.mark.parametrize("language", CATALOGUES)
def test_a_catalogue_has_every_text_with_its_places(language):
    texts = catalogue(language)
    wanted = set(_looked_up())
    assert len(wanted) > 70
    assert wanted - set(texts) == set()
    assert {k: v for k, v in texts.items() if _places(v) - _places(k)} == {}


@pytest.mark.parametrize("language", CATALOGUES)
def test_no_text_stands_in_two_catalogues_of_a_language(language):
    """The later file would win, and say 'kein' where a page means 'nein'."""
    files = sorted((WEB / "words" / language).glob("*.po"))
    counted = Counter(
        str(entry.id) for file in files for entry in read_po(BytesIO(file.read_bytes())) if entry.id
    )
    assert len(counted) > 4000
    assert {text: times for text, times in counted.items() if times > 1} == {}


def test_an_answer_and_a_number_are_different_words():
    say = words_of("de")
    assert (say("No"), say("no")) == ("Nein", "kein")


@pytest.mark.parametrize("language", CATALOGUES)
def test_every_reply_that_is_asked_for_has_its_word(language):
    wanted = {"Yes", "No", "Not sure"}
    assert set(REPLY_WORDS) == set(Reply)
    assert set(REPLY_WORDS.values()) == wanted
    assert wanted - set(catalogue(language)) == set()


@pytest.mark.parametrize("file", HOUSE_TEMPLATES, ids=lambda file: file.name)
def test_no_text_of_a_page_stands_outside_a_catalogue(file):
    text = re.sub(r"\{#.*?#\}|\{%.*?%\}|\{\{.*?\}\}", " ", file.read_text("utf-8"), flags=re.S)
    text = re.sub(r"<[^>]*>", " ", text, flags=re.S)
    words = set(re.findall(r"[A-Za-z]{2,}", text)) - {
        "Roundwright",
        "UTC",
        "OpenAPI",
        "kg",
        "lb",
        "cm",
    }
    assert words == set()


def test_an_account_sees_its_own_language():
    with a_house() as opened:
        client = opened.as_(Role.COACH)
        at = f"/at/{HALL}/settings"
        assert "The next seven days" in client.get(f"/at/{HALL}/week").text
        sent = {"units": "lb", "language": "de-DE"}
        assert client.post(at + "/looks", data=sent).status_code == 303
        assert "Die nächsten sieben Tage" in client.get(f"/at/{HALL}/week").text
        unplanned = client.get(f"/at/{HALL}/class/tuesday_circuit/2026-03-03/").text
        assert "Es gibt noch keinen Plan dieser Stunde." in unplanned
        assert '<html lang="de">' in unplanned
        kept = opened.keeping.accounts.by_sign_in_name("coach")
        assert (kept.units, kept.language) == ("lb", "de-DE")
        wrong = client.post(at + "/looks", data={"units": "stone", "language": "de-DE"})
        assert wrong.status_code == 422


def test_an_unknown_language_speaks_english():
    assert words_of("xx-XX")("Week") == "Week"
    assert words_of("de-AT")("Week") == "Woche"


@pytest.mark.parametrize("language", CATALOGUES)
def test_the_words_of_the_health_screen_are_there_too(language):
    asked = {one.words for one in QUESTIONS.values()} | set(DUE.values())
    asked |= {concern.value.replace("_", " ") for concern in Concern}
    assert asked - set(catalogue(language)) == set()
