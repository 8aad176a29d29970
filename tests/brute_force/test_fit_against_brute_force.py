"""The maker of plans and the gate, held to the brute force on drawn problems, to the point."""

from collections import Counter
from uuid import UUID

import pytest

from roundwright.goals.class_wish import ClassFormat
from roundwright.optimise.fit import fit
from roundwright.plan.gate.judge import judge
from roundwright.plan.outcome import Status
from roundwright.plan.verdict import Grade
from tests.brute_force.drawn_cases import SEEDS, Case, case_of, features_of
from tests.brute_force.test_oracle_by_hand import jumps_alone
from tests.planning_brute_force.oracle_fit import best_fit

OF_THE_WISH = {"slot.overrun", "space.floor", "time.below_floor"}
"""Stops that no choice of versions, kit or groups can mend."""

NEEDLESS = {"version.own_level_open", "contacts.cut_short"}
"""What rules 11 and 12 leave out, so that the gate has nothing to advise."""

EXPECTED_FEATURES = {
    "impossible for kit or contacts": 10,
    "impossible for what is kept": 3,
    "not today": 5,
    "timed": 15,
    "ban": 15,
    "child": 10,
    "moderate only": 30,
    "together answered together": 40,
    "pairs answered pairs": 20,
    "any answered together": 3,
    "any answered pairs": 2,
    "slot too short": 5,
    "keep": 5,
    "group of three": 8,
    "fewer rounds than the class": 10,
    "skips rope": 10,
    "do": 200,
    "substitute": 50,
    "sit_out": 5,
    "tail": 4,
    "dumbbells": 60,
    "bench, box or mat": 60,
    "jumps": 8,
    "several steps": 60,
    "one side only": 5,
    "step up": 20,
    "own level alone": 60,
    "cut short is left out": 8,
    "held back by a part": 20,
    "could lift and does not": 6,
}


def plan_id(seed: int) -> str:
    return str(UUID(int=seed, version=4))


def best_value(case: Case) -> tuple[int, int] | None:
    """Give the least (overrun, price); `any` is also answered by rotating groups."""
    values = [] if case.best is None else [(case.best.overrun_s, case.best.price)]
    if case.problem.spec.format is ClassFormat.ANY:
        for form in (ClassFormat.STAGGERED, ClassFormat.STATIONS):
            rotating = best_fit(case.problem, form)
            values += [] if rotating is None else [rotating.value]
    return min(values, default=None)


@pytest.mark.parametrize(("kind", "seed"), SEEDS)
def test_fit_and_gate_state_the_best_of_all_plans(kind: str, seed: int) -> None:
    case = case_of(kind, seed)
    result = fit(case.problem, seed=1, plan_id=plan_id(seed))
    best = best_value(case)
    if best is None:
        assert result.outcome.status is Status.IMPOSSIBLE
        assert result.core is None
        assert result.outcome.clash
        return
    assert result.outcome.status is Status.PROVEN
    assert result.core is not None
    assert (result.outcome.overrun_s, result.outcome.cost) == best
    verdict = judge(result.core, case.problem)
    assert verdict.of_grade(Grade.NEVER) == ()
    assert {f.rule for f in verdict.of_grade(Grade.STOP)} <= OF_THE_WISH
    assert not NEEDLESS & {f.rule for f in verdict.findings}
    assert (max(0, verdict.total_s - case.problem.spec.slot_s), verdict.cost) == best


@pytest.mark.parametrize(("rounds", "price"), [(2, 0), (3, 120)])
def test_fit_and_gate_replace_what_alone_breaks_the_contact_limit(rounds: int, price: int) -> None:
    problem = jumps_alone(rounds)
    result = fit(problem, seed=1, plan_id=plan_id(rounds))
    assert result.core is not None
    assert result.outcome.cost == price
    assert judge(result.core, problem).cost == price


def test_the_cases_hold_every_feature() -> None:
    assert len(SEEDS) >= 80
    seen: Counter[str] = sum((features_of(case_of(kind, seed)) for kind, seed in SEEDS), Counter())
    short = {name: seen[name] for name, least in EXPECTED_FEATURES.items() if seen[name] < least}
    assert short == {}
