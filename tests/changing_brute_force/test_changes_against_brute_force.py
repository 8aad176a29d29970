"""Tiers 0 and 1 held to the brute force on drawn changes, to the point, in all four formats."""

from collections import Counter

import pytest

from roundwright.optimise.changing.asked import Asked
from roundwright.optimise.changing.at_once import answer_at_once
from roundwright.optimise.changing.makers import Makers
from roundwright.optimise.changing.old_plan import overrun_before
from roundwright.optimise.changing.search import answer_tier_one
from roundwright.plan.changing.answer import Answer
from roundwright.plan.changing.disturbed import disturbance
from roundwright.plan.gate.judge import judge
from roundwright.plan.outcome import Budget, Status
from roundwright.plan.verdict import Grade
from tests.changing_brute_force.drawn_cases import FORMS, SEEDS, Case, cases_of
from tests.changing_brute_force.oracle_harm import (
    ChangeSearch,
    Harm,
    arrangement_of,
    turned_pairs,
)
from tests.planning_brute_force.plan_ids import OF_THE_WISH


def counted(case: Case, answer: Answer) -> Harm:
    """The harm of an answer as the gate and the comparison of whole plans count it."""
    verdict = judge(answer.core, answer.problem)
    assert verdict.of_grade(Grade.NEVER) == ()
    assert {f.rule for f in verdict.of_grade(Grade.STOP)} <= OF_THE_WISH
    seen = disturbance(case.plan.core, answer.core, case.asked)
    before = sum(w.length_s for w in case.plan.core.timeline) - case.plan.problem.spec.slot_s
    over = max(0, verdict.total_s - answer.problem.spec.slot_s) - max(0, before)
    return (len(seen.left_out), max(0, over), len(seen.people), seen.cell_count, verdict.cost)


@pytest.mark.parametrize(("kind", "seed"), SEEDS)
def test_both_tiers_give_the_least_harm(kind: str, seed: int) -> None:
    """Some drawn halls have no class or too large a one: the last test holds how many there are."""
    for case in cases_of(kind, seed):
        makers = Makers()
        safe = answer_at_once(case.plan, case.asked, makers)
        assert counted(case, safe) == safe.harm.order, case.change
        overrun_s = overrun_before(case.plan.core, case.plan.problem.spec.slot_s)
        asked = Asked(case.plan.core, overrun_s, case.asked, 1, Budget.THOROUGH)
        found = answer_tier_one(asked, makers)
        assert counted(case, found) == found.harm.order, case.change
        assert found.harm.order <= safe.harm.order
        search = ChangeSearch(case.plan.core, case.plan.problem.spec.slot_s, case.asked)
        if safe.outcome.status is Status.PROVEN:
            assert safe.harm.order == _least_with_others_fixed(search, safe), case.change
        assert found.outcome.status is Status.PROVEN, case.change
        assert found.harm.order == _least(search, safe), case.change


def _least_with_others_fixed(search: ChangeSearch, safe: Answer) -> Harm | None:
    """The least harm when those not concerned keep every cell, in the groups of the answer."""
    arrangement = arrangement_of(safe.core)
    only = {}
    for person, offset in arrangement.offset_of.items():
        if search.before.is_counted(person):
            ways = search.ways(person, offset)
            fewest = min(w.cells for w in ways)
            only[person] = [w for w in ways if w.cells == fewest]
    return search.least_of(arrangement, only=only)


def _least(search: ChangeSearch, safe: Answer) -> Harm | None:
    """The least harm; its price in the groups of tier 0 where they give as little of the rest."""
    best = search.least(safe.core.class_.format)
    assert best is not None
    mine = [search.least_of(way) for way in turned_pairs(arrangement_of(safe.core))]
    same = [harm for harm in mine if harm is not None and harm[:4] == best[:4]]
    return min(same, default=best)


def test_the_cases_hold_every_kind_and_format() -> None:
    cases = [case for drawn in SEEDS for case in cases_of(*drawn)]
    assert len(cases) >= 150
    kinds = Counter(case.change.kind for case in cases)
    assert len(kinds) == 17
    assert min(kinds.values()) >= 3, kinds
    forms = Counter(case.plan.core.class_.format for case in cases)
    assert min(forms[form] for form in FORMS) >= 20, forms
