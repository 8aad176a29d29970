"""What is read back, entered again, is the same class; and any text at all is taken."""

import random
import re

from hypothesis import given, settings
from hypothesis import strategies as st

from roundwright.foundation.faults import Fault
from roundwright.goals.class_wish import ClassWish
from roundwright.goals.quick_entry.entry import quick_entry
from roundwright.goals.quick_entry.results import Outcome, QuickEntry
from roundwright.goals.quick_entry.written_words import class_in_words
from roundwright.hall.class_text import ClassSurroundings, read_class
from roundwright.hall.file_text import toml_of
from roundwright.hall.written_hall import class_text
from roundwright.library.catalogue_text import read_catalogue
from tests.goals_quick_entry.spoken_classes import PEOPLE, ROOMS, around, entered, wishes

MUDDLE = (
    "tuesday 18:30 45 minutes rounds 3 12 a side each squat split then row press , ; : - no jumps "
    "for anyone in pairs place at burst rope 60 s rest work 40 change with Ann and Bo leave 2 "
    "everyone but called goal alternating x times blocks left warm-up min as usual order any "
    "groups 9999 kg kept rests instead hinge , lunges 1.5 2026-02-30 31 april 2026 25:99 half "
    "two in a row version after the last round nothing of 100 on time \u2014 \u00bd \u0663 "
)
WORDS = [*re.split(" +", MUDDLE), "\n", "\n"]


def whole(entry: QuickEntry, text: str) -> None:
    """Check that every line has one outcome and every word stands in one piece."""
    lines = [n for n, line in enumerate(text.splitlines(), start=1) if line.strip()]
    assert [outcome.line for outcome in entry.lines] == lines
    for outcome in entry.lines:
        own = {r.outcome for r in entry.readings if r.line == outcome.line}
        assert own
        assert outcome.outcome in own
    asked = [(q.line, q.words) for q in entry.asked if q.line]
    lost = [(n.line, n.words) for n in entry.not_understood]
    by_outcome = {o: [(r.line, r.words) for r in entry.readings if r.outcome is o] for o in Outcome}
    assert by_outcome[Outcome.ASKED] == asked
    assert by_outcome[Outcome.NOT_UNDERSTOOD] == lost
    assert (entry.wish is None) == bool(entry.asked or lost)
    assert all(len(q.nearest) <= 6 for q in entry.asked)
    assert all(len(n.nearest) <= 3 for n in entry.not_understood)


@settings(max_examples=150, deadline=None)
@given(wishes())
def test_a_class_in_words_is_read_back_as_the_same_class(wish: ClassWish) -> None:
    text = "\n".join(class_in_words(wish, around()))
    entry = quick_entry(text, around())
    assert (entry.asked, entry.not_understood) == ((), ())
    assert entry.wish == wish
    assert entry.new_library_text is None
    assert faults_as_a_file(entry.wish) == ()
    again = quick_entry("\n".join(entry.read_back), around())
    assert again.wish == wish
    whole(entry, text)


def faults_as_a_file(wish: ClassWish) -> tuple[Fault, ...]:
    """Give what reading the class as a file would find."""
    toml, bad = toml_of("class.toml", class_text(wish), "class")
    assert toml is not None
    known = ClassSurroundings(
        rooms=frozenset(ROOMS),
        people=frozenset(PEOPLE),
        masses_g=None,
        catalogue=around().catalogue,
        time_zone=None,
    )
    return (*bad, *read_class(toml, known)[1])


@settings(max_examples=200, deadline=None)
@given(st.text(max_size=300))
def test_any_text_at_all_is_taken(text: str) -> None:
    whole(quick_entry(text, around()), text)


@settings(max_examples=150, deadline=None)
@given(st.integers(0, 10**6))
def test_any_muddle_of_our_own_words_is_taken(seed: int) -> None:
    draw = random.Random(seed)  # a hundred words at once, so that phrases meet
    text = " ".join(draw.choice(WORDS) for _ in range(40))
    entry = quick_entry(text, around())
    whole(entry, text)
    if entry.wish is not None:
        assert entry.new_library_text or faults_as_a_file(entry.wish) == ()
        assert quick_entry("\n".join(entry.read_back), around()).wish == entry.wish


@settings(max_examples=30, deadline=None)
@given(st.lists(st.sampled_from(sorted(around().catalogue.lines)), min_size=2, max_size=3))
def test_a_new_combination_comes_as_library_text_that_the_library_takes(lines: list[str]) -> None:
    catalogue = around().catalogue
    sided = [any(v.is_one_sided for v in catalogue.versions(line)) for line in lines]
    parts = [
        catalogue.lines[line].name + (" each side" if one_sided else "")
        for line, one_sided in zip(lines, sided, strict=True)
    ]
    entry = quick_entry(entered(f"8 times {' then '.join(parts)}"), around())
    assert not entry.not_understood
    if entry.new_library_text is not None:
        grown, faults = read_catalogue({"own.toml": entry.new_library_text}, catalogue)
        assert faults == ()
        assert entry.wish is not None
        assert grown is not None
        assert grown.has_exercise(entry.wish.exercise[0].exercise)
        assert quick_entry("\n".join(entry.read_back), around()).wish == entry.wish
