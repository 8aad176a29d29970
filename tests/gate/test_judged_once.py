"""The very same plan is judged once in a process; whatever is another object is judged."""

import copy
import gc
import pickle

import pytest

from roundwright.foundation.errors import UnsafePlanError
from roundwright.plan.core import Core
from roundwright.plan.gate import judged_here
from roundwright.plan.gate.checked_plan import check, judged
from roundwright.plan.gate.judge import judge
from roundwright.plan.gate.judged_here import judge_once
from roundwright.plan.problem import Problem
from roundwright.plan.verdict import Verdict
from tests.gate.small_class import Made, a_plan, with_cell, with_person
from tests.gate.test_checked_plan import a_document


@pytest.fixture
def judgements(monkeypatch):
    """Count what is judged, from an empty memory on."""
    counted: list[Core] = []

    def counting(core: Core, problem: Problem) -> Verdict:
        counted.append(core)
        return judge(core, problem)

    monkeypatch.setattr(judged_here, "judge", counting)
    monkeypatch.setattr(judged_here, "_MEMORY", judged_here._Memory())
    return counted


def test_the_same_plan_is_judged_once_and_gets_the_same_verdict(judgements) -> None:
    made = a_plan()
    first = judged(a_document(made))
    assert check(first).document.verdict == first.verdict == judge(made.core, made.problem)
    assert check(a_document(made)).document.verdict == first.verdict
    assert len(judgements) == 1


@pytest.mark.parametrize(
    "again",
    [
        copy.copy,
        copy.deepcopy,
        lambda core: pickle.loads(pickle.dumps(core)),
        lambda core: core.model_copy(),
        lambda core: Core.model_validate_json(core.model_dump_json(by_alias=True)),
    ],
    ids=("copied", "copied whole", "unpickled", "copied as a model", "read back"),
)
def test_an_equal_plan_that_is_another_object_is_judged(judgements, again) -> None:
    document = a_document(a_plan())
    check(document)
    other = document.model_copy(update={"core": again(document.core)})
    assert other.core == document.core
    assert check(other).digest == document.core.digest
    assert len(judgements) == 2


class Claiming(Core):
    """A core that says the digest of another."""

    @property
    def digest(self) -> str:
        return a_plan().core.digest


def a_claiming_core() -> Core:
    broken = with_cell(a_plan(), "p001", 3, unit_mass_g=9000).core
    return Claiming.model_construct(**dict(broken))


def test_another_core_that_claims_the_same_digest_is_judged(judgements) -> None:
    document = a_document(a_plan())
    check(document)
    claiming = document.model_copy(update={"core": a_claiming_core()})
    assert claiming.core.digest == document.core.digest
    for _ in range(2):
        with pytest.raises(UnsafePlanError, match=r"kit\.unknown"):
            check(claiming)
    assert len(judgements) == 3


def test_what_was_changed_in_place_is_judged_again(judgements) -> None:
    made, broken = a_plan(), with_cell(a_plan(), "p001", 3, unit_mass_g=9000)
    document = a_document(made)
    check(document)
    object.__setattr__(document.core, "cells", broken.core.cells)
    with pytest.raises(UnsafePlanError, match=r"kit\.unknown"):
        check(document)
    assert len(judgements) == 2


def _a_child(made: Made) -> Problem:
    return with_person(made, "p001", youngest_age=14, oldest_age=15).problem


def test_another_person_in_the_same_problem_is_judged_again(judgements) -> None:
    made = a_plan()
    document = a_document(made)
    check(document)
    child = _a_child(made).people["p001"]
    was = made.problem.people["p001"]
    made.problem.people["p001"] = child
    with pytest.raises(UnsafePlanError, match=r"child\.lifting"):
        check(document)
    made.problem.people["p001"] = was
    object.__setattr__(made.problem, "people", {**made.problem.people, "p001": child})
    with pytest.raises(UnsafePlanError, match=r"child\.lifting"):
        check(document)


def test_a_plan_judged_for_its_own_problem_is_judged_for_todays(judgements) -> None:
    document = a_document(a_plan())
    check(document)
    with pytest.raises(UnsafePlanError, match=r"child\.lifting"):
        check(document, _a_child(a_plan()))
    assert len(judgements) == 2


def test_what_is_not_there_any_more_is_forgotten_and_the_oldest_when_there_are_many(
    judgements, monkeypatch
) -> None:
    made = a_plan()
    judge_once(made.core, made.problem)
    assert len(judged_here._MEMORY._known) == 1
    del made
    judgements.clear()
    gc.collect()
    assert not judged_here._MEMORY._known
    monkeypatch.setattr(judged_here, "MOST_REMEMBERED", 2)
    several = [a_plan() for _ in range(3)]
    for one in (*several, several[0], several[2]):
        judge_once(one.core, one.problem)
    assert len(judgements) == 4
