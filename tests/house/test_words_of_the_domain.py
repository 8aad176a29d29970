"""Whatever the domain says can be said in each language, with the same places in it."""

import ast
import re
from pathlib import Path

import pytest

import roundwright
from roundwright.body.anatomy import Muscle, MuscleRole
from roundwright.bootstrap.shipped_library import shipped_catalogue
from roundwright.documents import (
    class_moment,
    coach_script,
    floor_plan,
    group_lines,
    people_lines,
    personal_sheets,
    plan_pages_html,
    room_page,
    running_order,
    spoken,
    standing_words,
    typst_words,
)
from roundwright.documents.pictures import (
    balance,
    class_timeline,
    kit_over_time,
    landing_bars,
    region_sets,
    strength_bars,
    who_is_where,
)
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
from roundwright.library.vocabulary import Demand, KitKind, Pattern, StrengthFamily
from roundwright.people.demand_cap_table import STAGES, TABLE
from roundwright.plan.gate.phrases import PHRASES
from roundwright.plan.gate.words import WORDS
from roundwright.services import clash_numbers, clash_words, who_leads
from roundwright.services.changing.said_words import NOT_TODAY
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


def test_every_place_of_what_is_said_is_filled():
    unfilled = []
    for file in sorted(HERE.rglob("*.py")):
        for node in ast.walk(ast.parse(file.read_text("utf-8"))):
            if not isinstance(node, ast.Call) or any(k.arg is None for k in node.keywords):
                continue
            name = getattr(node.func, "id", getattr(node.func, "attr", ""))
            given = {k.arg for k in node.keywords}
            given |= {"n", "number"} if name == "one_or_more" else set()
            texts = [text for part in node.args[: SAYS.get(name, 0)] for text in _texts(part)]
            unfilled += [f"{file.name}: {text}" for text in texts if places(text) - given]
    assert unfilled == []


def _texts(node):
    if isinstance(node, ast.Constant) and isinstance(node.value, str):
        yield node.value
    elif isinstance(node, ast.IfExp):
        yield from _texts(node.body)
        yield from _texts(node.orelse)


def _actions():
    rows = [*TABLE.values(), *(row for stages in STAGES.values() for _, row in stages)]
    for action in {one.words for row in rows for one in row.actions}:
        yield action
        yield action.removesuffix(personal_sheets.ASKED_TOO)


TABLES = {
    "leads": [*who_leads.ASKED.values(), who_leads.UNSAID],
    "findings": [text for one in WORDS.values() for text in (one.sentence, one.remedy)],
    "phrases": list(PHRASES.values()),
    "clashes": [*clash_words.NEEDED.values(), *clash_words.FORMATS.values()],
    "numbers": [
        text
        for table in (clash_numbers.AT_MOST, clash_numbers.ALLOW)
        for both in table.values()
        for text in both
    ],
    "changes": [NOT_TODAY],
    "actions": list(_actions()),
    "days": [*spoken.WEEKDAYS, *spoken.MONTHS],
    "counts": list(spoken.COUNT_WORDS.values()),
    "stretches": list(running_order.STRETCH_NAMES.values()),
    "forms": list(group_lines.HOW.values()),
    "people": [people_lines.ASK_FIRST, people_lines.BRIEF, personal_sheets.SPEAK_FIRST],
    "effort": [words for _, words in personal_sheets.EFFORT],
    "signs": [
        *standing_words.STOP_SIGNS,
        personal_sheets.YOU_WANT,
        standing_words.NO_EMERGENCY_LINE,
    ],
    "cautions": [*standing_words.CAUTIONS, standing_words.STOP_SIGNS_SOURCE],
    "questions": list(standing_words.WALK_IN_QUESTIONS),
    "fixtures": list(floor_plan.FIXTURE_WORDS.values()),
    "setting up": [
        *room_page.PLURALS.values(),
        *room_page.TO_CHECK.values(),
        *room_page.MARK_PLACES,
        *room_page.MARK_STATIONS,
        *room_page.WALLS.values(),
        room_page.ESTIMATE,
        room_page.SHARED,
    ],
    "script": [coach_script.TIME_SOURCE],
    "moments": list(class_moment.SAID.values()),
    "papers": [what for _, what in plan_pages_html.PAGES.values()],
    "typst": list(typst_words.TEXTS),
    "pictures": [
        *balance.KINDS,
        *region_sets.REGIONS,
        *who_is_where.HEADS,
        *class_timeline.SAID.values(),
        *class_timeline.PARTS.values(),
        *kit_over_time.HEADS,
        *landing_bars.HEADS,
        class_timeline.QUIET,
        balance.WORDS,
        region_sets.WORDS,
        strength_bars.WORDS,
        kit_over_time.WORDS,
        landing_bars.WORDS,
    ],
}
"""Texts that are said by a key: each table of them."""


def places(text):
    return set(re.findall(r"\{(\w+)\}", text))


@pytest.mark.parametrize("language", CATALOGUES)
def test_whatever_is_said_is_in_the_catalogue(language):
    texts, wanted = catalogue(language), {text for text in said_texts() if text}
    assert len(wanted) > 3
    assert wanted - set(texts) == set()
    assert {t: texts[t] for t in wanted if places(texts[t]) - places(t)} == {}


@pytest.mark.parametrize("language", CATALOGUES)
@pytest.mark.parametrize("table", TABLES)
def test_whatever_is_said_by_a_key_is_in_the_catalogue(table, language):
    texts, wanted = catalogue(language), set(TABLES[table])
    assert wanted
    assert wanted - set(texts) == set()
    assert {t: texts[t] for t in wanted if places(texts[t]) != places(t)} == {}


@pytest.mark.parametrize("language", CATALOGUES)
def test_no_text_of_a_paper_stands_outside_a_catalogue(language):
    texts = catalogue(language)
    for file in sorted((HERE / "documents" / "templates").glob("*.html")):
        page = file.read_text("utf-8")
        assert set(re.findall(r'\b_\("([^"]+)"', page)) - set(texts) == set(), file.name
        bare = re.sub(r"<style>.*?</style>|\{#.*?#\}|\{%.*?%\}|\{\{.*?\}\}", " ", page, flags=re.S)
        bare = re.sub(r"<[^>]*>", " ", bare)
        assert re.findall(r"[A-Za-z]{2,}", bare) == [], file.name


def test_typst_looks_up_every_text_that_it_sets():
    named = set()
    for file in sorted((HERE / "documents" / "typst").glob("*.typ")):
        page = re.sub(r"(?<!:)//.*", "", file.read_text("utf-8"))
        named |= set(re.findall(r'\bsay\("([^"]+)"', page))
        bare = [each for each in re.findall(r"\[([^\[\]#\"=]*)[\]#]", page) if "(" not in each]
        assert [each for each in bare if re.search(r"\b[A-Za-z]{2,}", each)] == [], file.name
    assert named == set(typst_words.TEXTS)


@pytest.mark.parametrize("language", CATALOGUES)
def test_every_shipped_name_is_said_and_none_is_said_as_another(language):
    library, texts = shipped_catalogue(), catalogue(language)
    kinds = (library.movements, library.lines, library.combinations)
    names = {entry.name for kind in kinds for entry in kind.values()}
    assert names - set(texts) == set()
    said = [texts[name] for name in names]
    assert len(set(said)) == len(said)
    assert max(map(len, said)) <= 50


@pytest.mark.parametrize("language", CATALOGUES)
def test_the_vocabulary_of_the_library_is_said(language):
    kinds = (Muscle, Pattern, Demand, KitKind, StrengthFamily, MuscleRole)
    words = {one.value.replace("_", " ") for kind in kinds for one in kind}
    assert words - set(catalogue(language)) == set()


@pytest.mark.parametrize("language", CATALOGUES)
def test_what_a_coach_says_of_each_shipped_movement_is_said(language):
    library, texts = shipped_catalogue(), catalogue(language)
    wanted = {text for line in library.lines.values() for text in (*line.up, *line.down)}
    for movement in library.movements.values():
        told = movement.teaching
        wanted |= {told.set_up, told.start, told.end, told.feel, told.breathing, told.watch}
        wanted |= {*told.steps, *told.cues}
        wanted |= {text for fault in told.faults for text in (fault.fault, fault.fix)}
    assert wanted - set(texts) == set()
    figures = re.compile(r"\d+")
    wrong = [text for text in wanted if figures.findall(text) != figures.findall(texts[text])]
    assert wrong == []


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
