"""What holds of every plan that is fitted, on drawn halls of 5 to 20 people."""

from datetime import timedelta

from hypothesis import HealthCheck, given, settings

from roundwright.body.anatomy import Side
from roundwright.goals.class_wish import ClassFormat, CountUnit
from roundwright.optimise.fit import fit
from roundwright.plan.core import Cell, CellState, Core
from roundwright.plan.document import PlanDocument
from roundwright.plan.facts import facts_of
from roundwright.plan.gate.judge import judge
from roundwright.plan.outcome import Status
from roundwright.plan.problem import Problem
from roundwright.plan.verdict import Grade
from tests.brute_force.oracle_people import PER_SIDE, own_counts
from tests.support.random_halls import a_middling_hall
from tests.support.strategies import DrawnHall, middling_halls, tiny_halls

PLAN_ID = "00000000-0000-4000-8000-000000000001"
OF_THE_WISH = {"slot.overrun", "space.floor", "time.below_floor"}


def a_few(examples: int) -> settings:
    return settings(
        derandomize=True,
        max_examples=examples,
        deadline=timedelta(seconds=30),
        database=None,
        suppress_health_check=[HealthCheck.too_slow],
    )


def core_of(problem: Problem) -> Core | None:
    return fit(problem, seed=1, plan_id=PLAN_ID).core


def test_most_drawn_halls_have_a_plan() -> None:
    found = [core_of(a_middling_hall(seed, most_people=6)) for seed in range(12)]
    assert sum(core is not None for core in found) >= 4


@a_few(25)
@given(drawn=middling_halls())
def test_a_fitted_plan_passes_the_gate_at_the_same_cost(drawn: DrawnHall) -> None:
    problem = drawn.problem
    result = fit(problem, seed=1, plan_id=PLAN_ID)
    if result.core is None:
        assert result.outcome.status is Status.IMPOSSIBLE
        assert result.outcome.clash
        return
    verdict = judge(result.core, problem)
    assert verdict.of_grade(Grade.NEVER) == ()
    assert {f.rule for f in verdict.of_grade(Grade.STOP)} <= OF_THE_WISH
    assert verdict.cost == result.outcome.cost
    assert result.outcome.bound is not None
    assert result.outcome.bound <= verdict.cost


@a_few(25)
@given(drawn=middling_halls(most_people=6))
def test_equal_input_gives_an_equal_digest(drawn: DrawnHall) -> None:
    problem = drawn.problem
    first, second = core_of(problem), core_of(problem.model_copy(deep=True))
    assert (first is None) == (second is None)
    if first is not None and second is not None:
        assert first.digest == second.digest


def _total(cell: Cell) -> int:
    assert cell.count is not None
    return cell.count.value * (2 if cell.count.unit in PER_SIDE else 1)


@a_few(25)
@given(drawn=middling_halls(most_people=12, form=ClassFormat.TOGETHER))
def test_a_stand_in_keeps_the_total_of_the_count(drawn: DrawnHall) -> None:
    problem = drawn.problem
    core = core_of(problem)
    for cell in core.cells if core is not None else ():
        if cell.state is CellState.SIT_OUT:
            continue
        wish = own_counts(problem, cell.person_id)[cell.position - 1]
        total = wish.value * (2 if wish.unit in PER_SIDE else 1)
        assert cell.count is not None
        assert cell.count.is_timed == wish.is_timed
        if len(cell.steps) == 1 and cell.steps[0].side is not Side.BOTH:
            # One side only: what would be a side's part is all there is.
            assert _total(cell) <= max(1, total // 2)
        elif any(problem.library.movements[s.movement_id].contacts_a_rep for s in cell.steps):
            # A set with landings may be cut.
            assert _total(cell) <= total
        elif cell.count.unit in (CountUnit.REPS, CountUnit.SECONDS) or wish.unit in PER_SIDE:
            assert _total(cell) == total
        else:
            # An odd total cannot be shared by two sides: it loses one, but never comes to none.
            assert _total(cell) == max(2, total - total % 2)


@a_few(25)
@given(drawn=tiny_halls())
def test_a_plan_document_comes_back_equal_from_json(drawn: DrawnHall) -> None:
    problem = drawn.problem
    result = fit(problem, seed=1, plan_id=PLAN_ID)
    if result.core is None:
        return
    document = PlanDocument(
        core=result.core,
        problem=problem,
        outcome=result.outcome,
        verdict=judge(result.core, problem),
        facts=facts_of(result.core, problem),
    )
    text = document.model_dump_json(by_alias=True)
    read = PlanDocument.model_validate_json(text)
    assert read == document
    assert read.model_dump_json(by_alias=True) == text
    assert read.core.digest == result.core.digest
    assert judge(read.core, read.problem) == document.verdict
