from collections.abc import Callable

import pytest

from roundwright.plan.gate.registry import GRADES
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
from tests.gate.broken_plans import CASES, Case
from tests.gate.small_class import verdict_of

assert all((cases_choice, cases_class, cases_kit_and_load, cases_people, cases_unreadable))
assert all((cases_pieces_and_handovers, cases_rotating, cases_work_and_rest))


@pytest.mark.parametrize("build", CASES, ids=lambda build: build.__name__)
def test_the_rule_speaks_of_the_broken_plan_and_not_of_the_right_one(
    build: Callable[[], Case],
) -> None:
    case = build()
    right = verdict_of(case.right)
    assert right.is_clear, right.findings
    assert case.rule not in {f.rule for f in right.findings}
    broken = verdict_of(case.broken)
    found = [f for f in broken.findings if f.rule == case.rule]
    assert found
    assert {f.grade for f in found} == {GRADES[case.rule]}


def test_every_rule_has_a_broken_plan() -> None:
    assert {build().rule for build in CASES} == set(GRADES)
