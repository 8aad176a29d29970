"""Bounds of tiers that end early: never above the proven least, never missing.

The least itself is what the other tests of this folder hold to the brute force.
"""

from collections.abc import Iterator
from contextlib import contextmanager
from math import ceil

import pytest

from roundwright.optimise.changing.asked import Asked
from roundwright.optimise.changing.makers import Makers
from roundwright.optimise.changing.old_plan import overrun_before
from roundwright.optimise.changing.search import (
    answer_tier_one,
    answer_tier_two,
    needs_swap,
)
from roundwright.optimise.solver import Ended, Model, Solved, Work
from roundwright.plan.changing.answer import Answer
from roundwright.plan.changing.change import Harm
from roundwright.plan.outcome import Budget, Status
from tests.changing_brute_force.drawn_cases import FORMS, SEEDS, Case, cases_of
from tests.changing_brute_force.test_swaps_against_brute_force import SEEDS as SWAP_SEEDS
from tests.changing_brute_force.test_swaps_against_brute_force import swaps_of

SOLVES = (0, 1, 2, 4)
"""After so many solves the solver gives nothing but the bound of its relaxation."""


@contextmanager
def cut_short(monkeypatch: pytest.MonkeyPatch, solves: int) -> Iterator[None]:
    whole, left = Model.solve, [solves]

    def solve(self: Model, work: Work, seed: int) -> Solved:
        if left[0] > 0:
            left[0] -= 1
            return whole(self, work, seed)
        work.spend_nodes(1)
        relaxed = self.reduced_costs()
        if relaxed is None:
            return Solved(Ended.INFEASIBLE, (), 0)
        return Solved(Ended.LIMIT, (), ceil(relaxed[1] - 1e-6))

    with monkeypatch.context() as patched:
        patched.setattr(Model, "solve", solve)
        yield


def asked_of(case: Case, budget: Budget = Budget.THOROUGH) -> Asked:
    overrun_s = overrun_before(case.plan.core, case.plan.problem.spec.slot_s)
    return Asked(case.plan.core, overrun_s, case.asked, 1, budget)


def is_sound(answer: Answer, least: Harm) -> bool:
    """Say whether the bound holds, and is the harm itself where that is called proven."""
    if answer.outcome.status is Status.PROVEN:
        return answer.least == answer.harm == least
    return answer.least.order <= least.order <= answer.harm.order


def test_the_bound_of_tier_one_is_never_above_the_least(monkeypatch: pytest.MonkeyPatch) -> None:
    early = dict.fromkeys(SOLVES, 0)
    exact = 0
    cases = [case for seed in SEEDS[::11] for case in cases_of(*seed)]
    assert {case.plan.core.class_.format for case in cases} == set(FORMS)
    for case in cases:
        asked, makers = asked_of(case), Makers()
        least = answer_tier_one(asked, makers).harm
        for solves in SOLVES:
            told: list[Answer] = []
            first: list[Harm] = []
            with cut_short(monkeypatch, solves):
                answer = answer_tier_one(asked, makers, told.append, first.append)
            assert is_sound(answer, least), case.change
            assert all(is_sound(one, least) for one in told), case.change
            assert [one.order <= least.order for one in first] == [True], case.change
            is_early = answer.outcome.status is Status.FOUND
            early[solves] += is_early
            exact += is_early and answer.least == least
            assert answer.still_sought is None or is_early
    assert early[0] >= 10
    assert early[1] >= 1
    assert exact >= 1, "some bounds are as good as can be"


def test_the_bound_of_tier_two_is_never_above_the_least(monkeypatch: pytest.MonkeyPatch) -> None:
    early = 0
    for case in (case for seed in SWAP_SEEDS[::3] for case in swaps_of(seed)):
        asked, makers, library = asked_of(case), Makers(), case.plan.problem.library
        first = answer_tier_one(asked, makers)
        positions = needs_swap(asked, first)
        if not positions:
            continue
        left_out = None if case.asked.open_positions else first.harm.left_out
        whole = answer_tier_two(asked, library, positions, left_out, makers)
        assert whole.least is None, case.change
        for solves in SOLVES[:2]:
            told: list[Answer] = []
            with cut_short(monkeypatch, solves):
                cut = answer_tier_two(asked, library, positions, left_out, makers, told.append)
            if whole.answer is None:
                assert cut.answer is None
                continue
            least = whole.answer.harm
            assert all(one.least.order <= least.order for one in told), case.change
            if cut.answer is not None:
                assert cut.answer.least.order <= least.order <= cut.answer.harm.order, case.change
                early += cut.answer.outcome.status is Status.FOUND
    assert early >= 2


def test_work_that_is_spent_leaves_a_bound_too(monkeypatch: pytest.MonkeyPatch) -> None:
    """No exchanges, no groupings, no nodes: what a budget of nothing leaves."""
    nothing = dict.fromkeys(Budget, (0, 0, 0))
    for case in (case for seed in SEEDS[::9] for case in cases_of(*seed)):
        asked, makers = asked_of(case), Makers()
        least = answer_tier_one(asked, makers)
        with monkeypatch.context() as patched:
            patched.setattr("roundwright.optimise.changing.tier_one.WORK", nothing)
            answer = answer_tier_one(asked, makers)
        assert is_sound(answer, least.harm), case.change
