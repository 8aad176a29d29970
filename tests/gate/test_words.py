import re
from pathlib import Path

import pytest

from roundwright.library.vocabulary import Demand
from roundwright.plan.gate import words
from roundwright.plan.gate.judge import judge
from roundwright.plan.gate.phrases import PHRASES
from roundwright.plan.gate.registry import GRADES
from roundwright.plan.gate.words import WORDS, words_of
from roundwright.plan.verdict import Finding, Grade
from tests.gate import (
    cases_choice,
    cases_class,
    cases_kit_and_load,
    cases_people,
    cases_pieces_and_handovers,
    cases_rotating,
    cases_unreadable,
    cases_work_and_rest,
)
from tests.gate.broken_plans import CASES
from tests.gate.small_class import a_plan, verdict_of, with_person

PAGE = Path(__file__).parents[2] / "docs" / "reference" / "gate-rules.md"
NAMES = {"p001": "Mo", "p002": "Kai"}
EXERCISES = dict(enumerate(("Squat", "Press", "Row", "Hinge", "Split squat"), start=1))
TOLD = {
    *("what", "movement", "left", "right", "thing", "kind", "item", "mass_g", "target_g"),
    *("needed", "there", "chance_bp", "total_s", "slot_s", "over_s", "left_s", "people", "is_s"),
    *("landings", "hops", "most", "number", "classes", "floor_s", "better_s", "stretch"),
    *("muscle", "one", "other", "least", "most_s", "asked_bp", "part", "most_g"),
    *("work_s", "rest_s", "least_s"),
}
assert all((cases_choice, cases_class, cases_kit_and_load, cases_people, cases_unreadable))
assert all((cases_pieces_and_handovers, cases_rotating, cases_work_and_rest))


def findings() -> list[Finding]:
    found = []
    for build in CASES:
        case = build()
        found += [f for f in verdict_of(case.broken).findings if f.rule == case.rule]
    return found


FOUND = findings()


def test_every_rule_has_words_and_no_words_are_left_over() -> None:
    assert set(WORDS) == set(GRADES)


@pytest.mark.parametrize("rule", sorted(GRADES))
def test_each_finding_of_a_rule_is_said_in_full(rule: str) -> None:
    for finding in (f for f in FOUND if f.rule == rule):
        text = words_of(finding, NAMES, EXERCISES)
        assert "{" not in text
        assert "unknown number" not in text
        assert "  " not in text
        assert text.endswith((".", "?"))
        if "what" in finding.figures:
            assert finding.figures["what"] in PHRASES


def test_names_exercises_and_rounds_stand_in_the_words() -> None:
    finding = Finding(
        rule="load.may_fail", grade=Grade.NEVER, persons=("p001",), positions=(2,), round=3
    )
    text = words_of(finding, NAMES, EXERCISES)
    assert text.startswith("Mo may fail under the load at exercise 2 (Press) in round 3.")


def test_figures_are_shown_with_their_units() -> None:
    finding = Finding(
        rule="slot.overrun",
        grade=Grade.STOP,
        figures={"total_s": 2760, "slot_s": 2700, "over_s": 60},
    )
    assert words_of(finding, {}, {}).startswith("The class takes 46:00; the slot has 45:00.")


def test_an_unknown_rule_of_a_newer_version_is_named() -> None:
    assert "new.rule" in words_of(Finding(rule="new.rule", grade=Grade.STOP), {}, {})


def test_no_finding_tells_a_reason_or_a_body_figure() -> None:
    caps = {Demand.OVERHEAD: 0, Demand.KNEE: 0}
    secret = with_person(a_plan(), "p001", body_mass_g=123_456, caps=caps)
    told = [*judge(secret.core, secret.problem).findings, *FOUND]
    assert any(f.rule == "demand.above_cap" for f in told[:5])
    demands = {d.value for d in Demand}
    for finding in told:
        assert finding.figures.keys() <= TOLD
        assert not demands & set(finding.figures.values())
        assert 123_456 not in finding.figures.values()


def test_the_reference_page_lists_every_rule_with_grade_and_words() -> None:
    rows = re.findall(
        r"^\| `([a-z_.]+)` \| (\w+) \| (.+) \| (.+) \|$", PAGE.read_text("utf-8"), re.M
    )
    page = {rule: (grade, sentence, remedy) for rule, grade, sentence, remedy in rows}
    assert page == {
        rule: (GRADES[rule].value, WORDS[rule].sentence, WORDS[rule].remedy) for rule in GRADES
    }


def test_every_code_word_in_the_gate_has_a_phrase_and_no_phrase_is_left_over() -> None:
    gate = Path(words.__file__).parent
    text = "".join(p.read_text("utf-8") for p in gate.rglob("*.py") if p.name != "phrases.py")
    used = set(
        re.findall(
            r'(?:Note\(|note\(|append\(\(|what=|"what": |yield |^        \()"([a-z_]+)"', text, re.M
        )
    )
    used |= {"push_pull", "knee_hip", "knee", "hip", "push", "pull", "trunk"}
    used |= {"newcomers", "mixed", "trained"}
    assert used == set(PHRASES)
