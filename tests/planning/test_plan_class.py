from uuid import UUID

import pytest

from roundwright.goals.class_wish import ClassFormat, KeptCell
from roundwright.optimise.class_price import class_price
from roundwright.optimise.planning.plan_class import PlanResult, plan_class
from roundwright.plan.core import Core
from roundwright.plan.gate.judge import judge
from roundwright.plan.outcome import Budget, Status
from roundwright.plan.planning_problem import Candidate, KeptExercise, PlanningProblem
from roundwright.plan.problem import Problem
from roundwright.plan.rule_table import RuleTable
from tests.support.builders import a_person, a_problem, a_spec, reps
from tests.support.random_library import a_library
from tests.support.random_planning import a_tiny_planning

PLAN_ID = str(UUID(int=1, version=4))
LINES = ("squat_line", "hinge_line", "push_line", "row_line", "press_line", "hold_line")


def _planning(**changes: object) -> PlanningProblem:
    base = a_problem(
        a_spec(),
        a_library(),
        {"p001": a_person(), "p002": a_person("p002", level=2)},
        rules=RuleTable(least_places_for_four=9, least_places_for_trunk=9),
        substitutes=LINES,
    )
    values: dict[str, object] = {
        "base": base,
        "places": 3,
        "candidates": tuple(Candidate(exercise_id=e, count=reps(8)) for e in LINES),
    }
    return PlanningProblem(**(values | changes))  # type: ignore[arg-type]


def _names(result: PlanResult) -> tuple[str, ...]:
    assert result.problem is not None
    return tuple(e.exercise_id for e in result.problem.spec.exercises)


@pytest.mark.parametrize("seed", range(200, 230))
def test_price_and_bound_hold_when_the_gate_counts_again(seed: int) -> None:
    result = plan_class(a_tiny_planning(seed), plan_id=PLAN_ID)
    outcome = result.outcome
    if result.problem is None or result.core is None:
        assert outcome.status in (Status.IMPOSSIBLE, Status.UNDECIDED)
        return
    verdict = judge(result.core, result.problem)
    assert verdict.cost == outcome.cost
    assert outcome.bound is not None
    assert outcome.bound <= (outcome.cost or 0)
    assert (outcome.status is Status.PROVEN) <= (outcome.bound == outcome.cost)


def test_equal_questions_get_equal_plans() -> None:
    for seed in (3, 7, 11):
        one, other = (plan_class(a_tiny_planning(seed), plan_id=PLAN_ID) for _ in range(2))
        assert one == other
        if one.core is not None and other.core is not None:
            assert one.core.digest == other.core.digest


def test_a_kept_exercise_stays_at_its_place() -> None:
    kept = KeptExercise(exercise_id="hold_line", count=reps(6), position=2)
    result = plan_class(_planning(kept=(kept,)), plan_id=PLAN_ID)
    assert _names(result)[1] == "hold_line"
    assert result.problem is not None
    assert result.problem.spec.exercises[1].count == reps(6)


def test_everything_kept_at_its_place_is_the_coach_s_own_class() -> None:
    kept = tuple(
        KeptExercise(exercise_id=e, count=reps(8), position=k)
        for k, e in enumerate(("push_line", "squat_line", "row_line"), start=1)
    )
    result = plan_class(_planning(kept=kept), plan_id=PLAN_ID)
    assert result.problem is not None
    assert result.core is not None
    assert result.problem.spec.chosen_by == "coach"
    assert class_price(result.problem) == 0
    assert judge(result.core, result.problem).cost == result.outcome.cost


def test_besides_gives_another_set_that_is_not_cheaper() -> None:
    first = plan_class(_planning(), plan_id=PLAN_ID)
    second = plan_class(_planning(besides=(_names(first),)), plan_id=PLAN_ID)
    assert set(_names(second)) != set(_names(first))
    assert (second.outcome.cost or 0) >= (first.outcome.cost or 0)


def test_a_kept_cell_is_held_wherever_it_leads() -> None:
    planning = _planning()
    keep = KeptCell(person="p002", position=1, version="wall_push")
    spec = planning.base.spec.model_copy(update={"keep": (keep,)})
    base = planning.base.model_copy(update={"spec": spec})
    result = plan_class(planning.model_copy(update={"base": base}), plan_id=PLAN_ID)
    assert _names(result)[0] == "push_line"
    assert result.core is not None
    (cell,) = [c for c in result.core.cells if (c.person_id, c.position) == ("p002", 1)]
    assert cell.kept
    assert cell.steps[0].movement_id == "wall_push"


def test_too_few_exercises_are_impossible_and_proven_so() -> None:
    few = tuple(Candidate(exercise_id=e, count=reps(8)) for e in LINES[:2])
    outcome = plan_class(_planning(candidates=few), plan_id=PLAN_ID).outcome
    assert outcome.status is Status.IMPOSSIBLE


def test_where_every_class_is_too_long_the_shortest_is_sought() -> None:
    planning = _planning()
    spec = planning.base.spec.model_copy(update={"slot_s": 900})
    base = planning.base.model_copy(update={"spec": spec})
    late = plan_class(planning.model_copy(update={"base": base}), plan_id=PLAN_ID)
    roomy = plan_class(planning, plan_id=PLAN_ID)
    assert late.outcome.status is Status.PROVEN
    assert late.outcome.overrun_s > 0
    assert roomy.outcome.overrun_s == 0


def test_the_better_of_two_formats_is_no_worse_than_either() -> None:
    ranks = []
    for formats in (("together",), ("pairs",), ("together", "pairs")):
        wished = tuple(ClassFormat(f) for f in formats)
        outcome = plan_class(_planning(formats=wished), plan_id=PLAN_ID).outcome
        ranks.append((outcome.overrun_s, outcome.cost or 0))
    assert ranks[2] == min(ranks)


def test_the_slot_is_shortened_until_the_chance_is_kept() -> None:
    asked: list[int] = []

    def chance(problem: Problem, core: Core) -> int:
        asked.append(core.timeline[-1].at_s + core.timeline[-1].length_s)
        return 9500 if len(asked) >= 3 else 5000

    result = plan_class(_planning(), plan_id=PLAN_ID, chance=chance)
    assert len(asked) == 3
    assert result.problem is not None
    assert result.core is not None
    assert result.problem.spec.slot_s == result.core.class_.slot_s == 2700
    assert result.outcome.status is Status.FOUND


def test_the_shortest_class_is_taken_where_it_alone_keeps_the_chance() -> None:
    def length_s(core: Core) -> int:
        return core.timeline[-1].at_s + core.timeline[-1].length_s

    def hurried(slot_s: int) -> PlanningProblem:
        planning = _planning()
        spec = planning.base.spec.model_copy(update={"slot_s": slot_s})
        return planning.model_copy(update={"base": planning.base.model_copy(update={"spec": spec})})

    shortest = plan_class(hurried(60), plan_id=PLAN_ID)
    assert shortest.core is not None
    least_s = length_s(shortest.core)
    slot_s = least_s * 101 // 100

    def chance(problem: Problem, core: Core) -> int:
        return 9500 if length_s(core) <= least_s else 5000

    free = plan_class(hurried(slot_s), plan_id=PLAN_ID)
    assert free.core is not None
    assert length_s(free.core) > least_s
    kept = plan_class(hurried(slot_s), plan_id=PLAN_ID, chance=chance)
    assert kept.core is not None
    assert length_s(kept.core) == least_s
    assert kept.outcome.overrun_s == 0
    assert kept.core.class_.slot_s == slot_s


def test_more_work_never_gives_a_worse_class() -> None:
    planning = a_tiny_planning(24)
    costs = [plan_class(planning, budget=b, plan_id=PLAN_ID).outcome for b in Budget]
    ranks = [(o.overrun_s, o.cost) for o in costs]
    assert ranks[0] >= ranks[1] >= ranks[2]


def test_a_class_planned_against_a_shorter_slot_is_priced_by_its_own() -> None:
    asked: list[str] = []

    def chance(problem: Problem, core: Core) -> int:
        asked.append(core.digest)
        return 9500 if len(asked) == 3 else 5000

    planning = _planning(rounds_choice=(2,))
    spec = planning.base.spec.model_copy(update={"slot_s": 3600})
    base = planning.base.model_copy(update={"spec": spec})
    result = plan_class(planning.model_copy(update={"base": base}), plan_id=PLAN_ID, chance=chance)
    assert result.problem is not None
    assert result.core is not None
    assert len(asked) == 3
    verdict = judge(result.core, result.problem)
    assert "unused_minutes" in {line.term for line in verdict.cost_lines}
    # 4 % of an hour is more than two minutes
    assert verdict.cost == result.outcome.cost
