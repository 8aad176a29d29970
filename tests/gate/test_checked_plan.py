import copy
import pickle

import pytest

from roundwright.foundation.errors import ChangedMeanwhileError, UnsafePlanError
from roundwright.plan.document import Facts, PlanDocument
from roundwright.plan.gate.checked_plan import CheckedPlan, check, judged
from roundwright.plan.outcome import Outcome, Status, StoppedBy
from roundwright.plan.verdict import Finding, Grade, Verdict
from tests.gate.small_class import Made, a_plan, steps_of, with_cell, with_person, with_spec


def a_document(made: Made, verdict: Verdict | None = None) -> PlanDocument:
    return PlanDocument(
        core=made.core,
        problem=made.problem,
        outcome=Outcome(status=Status.FOUND, stopped_by=StoppedBy.BUDGET),
        verdict=verdict or Verdict(),
        facts=Facts(),
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
