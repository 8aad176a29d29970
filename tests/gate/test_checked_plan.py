import copy
import pickle

import pytest

from roundwright.foundation.errors import ChangedMeanwhileError, UnsafePlanError
from roundwright.plan.document import PlanDocument
from roundwright.plan.gate.checked_plan import CheckedPlan, check, judged
from roundwright.plan.outcome import Outcome, Status, StoppedBy
from roundwright.plan.verdict import Finding, Grade, Verdict
from tests.gate.cases_pieces_and_handovers import with_chance
from tests.gate.small_class import (
    Made,
    a_plan,
    steps_of,
    with_cell,
    with_class,
    with_person,
    with_spec,
)


def a_document(made: Made, verdict: Verdict | None = None) -> PlanDocument:
    return PlanDocument(
        core=made.core,
        problem=made.problem,
        outcome=Outcome(status=Status.FOUND, stopped_by=StoppedBy.BUDGET),
        verdict=verdict or Verdict(),
        facts=made.facts,
    )


LYING = Verdict(findings=(Finding(rule="kit.short", grade=Grade.STOP),), cost=1)


def test_a_plan_that_passes_is_sealed_with_its_digest_and_a_fresh_verdict() -> None:
    made = a_plan()
    checked = check(a_document(made, LYING))
    assert checked.digest == made.core.digest
    assert checked.document.verdict.findings == ()
    assert checked.document.verdict.total_s == 1482
    assert checked.core is made.core


def test_nobody_but_the_gate_makes_one() -> None:
    with pytest.raises(UnsafePlanError):
        CheckedPlan(a_document(a_plan()))
    with pytest.raises(UnsafePlanError):
        object.__new__(CheckedPlan).use()


def test_it_is_neither_copied_nor_pickled_nor_read_back() -> None:
    checked = check(a_document(a_plan()))
    for copying in (pickle.dumps, copy.copy, copy.deepcopy):
        with pytest.raises(UnsafePlanError):
            copying(checked)
    with pytest.raises(UnsafePlanError):
        checked.__setstate__({})


def test_using_it_after_its_core_changed_is_refused() -> None:
    checked = check(a_document(a_plan()))
    object.__setattr__(checked.use(), "core", with_cell(a_plan(), "p001", 1, unit_mass_g=9000).core)
    with pytest.raises(ChangedMeanwhileError):
        checked.use()
    with pytest.raises(ChangedMeanwhileError):
        _ = checked.core


def test_a_finding_that_stops_is_refused_when_checked_and_stands_in_a_draft() -> None:
    late = with_spec(a_plan(), warm_up_s=200)
    with pytest.raises(UnsafePlanError, match=r"time\.below_floor"):
        check(a_document(late))
    draft = judged(a_document(late))
    assert {f.rule for f in draft.verdict.of_grade(Grade.STOP)} == {
        "time.below_floor",
        "timeline.wrong",
    }


def test_a_finding_that_says_never_is_refused_even_as_a_draft_and_says_who_and_where() -> None:
    broken = with_cell(a_plan(), "p001", 3, unit_mass_g=9000)
    with pytest.raises(UnsafePlanError) as error:
        judged(a_document(broken))
    assert "kit.unknown" in error.value.detail
    assert "p001" in error.value.detail
    assert "exercise 3 (Row line)" in error.value.detail
    assert error.value.next_step


def test_a_plan_is_judged_against_today_when_today_is_given() -> None:
    document = a_document(a_plan())
    today = with_person(a_plan(), "p001", youngest_age=14, oldest_age=15).problem
    assert check(document)
    with pytest.raises(UnsafePlanError, match=r"child\.lifting"):
        check(document, today)


def test_a_stored_verdict_is_not_believed() -> None:
    broken = with_cell(a_plan(), "p001", 1, steps=steps_of("cartwheel"))
    with pytest.raises(UnsafePlanError):
        check(a_document(broken, Verdict()))


def test_a_class_that_ends_late_too_often_is_said_so_and_passes() -> None:
    document = a_document(with_chance(a_plan(), 8400))
    asked = {"chance_bp": 8400, "asked_bp": 9000}
    for made in (check(document).document, judged(document)):
        found = [f for f in made.verdict.findings if f.rule == "slot.chance"]
        assert [f.figures for f in found] == [asked]
        assert made.verdict.is_clear


def test_the_chance_is_compared_with_what_is_asked_for_today() -> None:
    document = a_document(with_chance(a_plan(), 8400))
    today = with_spec(a_plan(), chance_on_time_bp=8400).problem
    assert check(document, today).document.verdict.findings == ()


def test_a_finding_of_lateness_stands_in_the_order_of_the_others() -> None:
    made = with_chance(with_spec(a_plan(), slot_s=1700), 8400)
    made = with_class(made, slot_s=1700)
    rules = [f.rule for f in check(a_document(made)).document.verdict.findings]
    assert rules == ["slot.chance", "slot.no_margin"]
