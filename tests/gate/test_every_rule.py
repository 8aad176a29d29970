from collections.abc import Callable

import pytest

from roundwright.plan.gate.judge import judge
from roundwright.plan.gate.registry import GRADES
from tests.gate import cases_class, cases_kit_and_load, cases_people, cases_unreadable
from tests.gate.broken_plans import CASES, Case

assert all((cases_class, cases_kit_and_load, cases_people, cases_unreadable))


@pytest.mark.parametrize("build", CASES, ids=lambda build: build.__name__)
def test_the_rule_speaks_of_the_broken_plan_and_not_of_the_right_one(
    build: Callable[[], Case],
) -> None:
    case = build()
    right = judge(case.right.core, case.right.problem)
    assert right.is_clear, right.findings
    assert case.rule not in {f.rule for f in right.findings}
    broken = judge(case.broken.core, case.broken.problem)
    found = [f for f in broken.findings if f.rule == case.rule]
    assert found
    assert {f.grade for f in found} == {GRADES[case.rule]}


def test_every_rule_has_a_broken_plan() -> None:
    assert {build().rule for build in CASES} == set(GRADES)
