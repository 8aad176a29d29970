"""The how-to page on plain words: its examples are understood, or asked where it says so."""

import re
from pathlib import Path

from roundwright.goals.quick_entry.entry import quick_entry
from roundwright.goals.quick_entry.names import Around
from roundwright.goals.quick_entry.results import Outcome
from tests.goals_quick_entry.spoken_classes import around

PAGE = (
    Path(__file__).parents[2] / "docs" / "how-to" / "write-a-class-in-plain-words.md"
).read_text(encoding="utf-8")
HALL = Around(
    around().catalogue,
    {"main_floor": "Main floor", "quay_room": "Quay room"},
    {"p1": "Ann", "p2": "Bo", "p3": "Cid"},
)


def section(title: str) -> str:
    """Give the text under a heading."""
    return PAGE.split(f"\n## {title}\n")[1].split("\n## ")[0]


def rows_of(title: str) -> list[list[str]]:
    """Give the cells of a table under a heading, without its head."""
    rows = [line for line in section(title).splitlines() if line.startswith("| ")]
    return [row.strip("| ").split(" | ") for row in rows][2:]


def test_the_whole_class_is_understood():
    text = re.search(r"```text\n(.*?)```", section("A whole class"), re.S)
    assert text is not None
    entry = quick_entry(text[1], HALL)
    assert (entry.asked, entry.not_understood) == ((), ())
    assert entry.wish is not None
    assert len(entry.wish.exercise) == 5


def test_every_phrase_of_the_page_is_understood():
    said = [
        phrase
        for _, cell in rows_of("What you can say")
        for phrase in re.findall(r"`([^`]+)`", cell)
        if not phrase.startswith("…")
    ]
    assert len(said) > 50
    for phrase in said:
        entry = quick_entry(phrase, HALL)
        assert not entry.not_understood, phrase
        asked = [q.missing for q in entry.asked if q.line]
        later = ("how often", "how many exercises", "a place where", "the seconds of work")
        assert all(missing.startswith(later) for missing in asked), (phrase, asked)


def test_what_the_page_says_is_asked_is_asked():
    said = [
        re.findall(r"`([^`]+)`", row[0])[0] for row in rows_of("What is asked") if "`" in row[0]
    ]
    assert len(said) == 7
    for phrase in said:
        readings = quick_entry(phrase, HALL).readings
        assert [r.outcome for r in readings] == [Outcome.ASKED], phrase
