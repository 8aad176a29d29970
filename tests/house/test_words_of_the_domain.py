"""Whatever the domain says can be said in each language, with the same places in it."""

import ast
import re
from pathlib import Path

import pytest

import roundwright
from roundwright.foundation import shown
from roundwright.foundation.words import (
    ENGLISH,
    listed,
    number_word,
    say,
    shown_units,
    speech,
    spoken_to,
)
from roundwright.web.texts import CATALOGUES, catalogue, speech_of

HERE = Path(roundwright.__file__).parent
SPEAKING = ("foundation", "plan", "rehearsal", "services", "documents", "people", "kit")
SPEAKING += ("goals", "library", "web")
SAYS = {"say": 1, "one_or_more": 3}
"""Functions that say a text, and up to which argument their texts stand."""


def said_texts():
    """Give each text that stands in a call of `say` or `one_or_more`."""
    for part in SPEAKING:
        for file in sorted((HERE / part).rglob("*.py")):
            for node in ast.walk(ast.parse(file.read_text("utf-8"))):
                if isinstance(node, ast.Call) and isinstance(node.func, ast.Name):
                    for argument in node.args[: SAYS.get(node.func.id, 0)]:
                        yield from _texts(argument)


def _texts(node):
    if isinstance(node, ast.Constant) and isinstance(node.value, str):
        yield node.value
    elif isinstance(node, ast.IfExp):
        yield from _texts(node.body)
        yield from _texts(node.orelse)


def places(text):
    return set(re.findall(r"\{(\w+)\}", text))


@pytest.mark.parametrize("language", CATALOGUES)
def test_whatever_is_said_is_in_the_catalogue(language):
    texts, wanted = catalogue(language), {text for text in said_texts() if text}
    assert len(wanted) > 3
    assert wanted - set(texts) == set()
    assert {t: texts[t] for t in wanted if places(texts[t]) - places(t)} == {}


def test_a_listener_is_spoken_to_for_a_while():
    assert (shown.times_in_ten(8996), shown.mass(7500)) == ("8 times in 10", "7.5 kg")
    with spoken_to(speech_of("de-DE", "lb")):
        assert shown.times_in_ten(8996) == "8-mal von 10"
        assert shown.mass(7500) == "7,5 kg"
        assert shown_units("kg") == "lb"
        assert listed(["Ada", "Ben", "Cleo"]) == "Ada, Ben und Cleo"
        assert number_word(3) == "drei"
    assert speech() == ENGLISH
    assert shown_units("kg") == "kg"
    assert say("a text that no catalogue has") == "a text that no catalogue has"
