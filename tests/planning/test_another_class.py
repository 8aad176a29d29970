"""Another class than those shown: two other exercises where one can, and no line too often."""

from itertools import combinations
from uuid import UUID

import numpy as np
import pytest

from roundwright.body.anatomy import Muscle
from roundwright.optimise.planning.exercise_facts import Neighbours
from roundwright.optimise.planning.plan_class import PlanResult, plan_class
from roundwright.optimise.planning.set_master import SetMaster
from roundwright.optimise.planning.set_parts import EndPrices
from roundwright.optimise.planning.set_table import SetRules, SetTable
from roundwright.optimise.solver import Ended
from roundwright.plan.best_so_far import StillOpen
from roundwright.plan.gate.judge import judge
from roundwright.plan.outcome import Status
from roundwright.plan.planning_problem import Candidate, KeptExercise, PlanningProblem
from roundwright.plan.rule_table import RuleTable
from tests.planning.drawn_tables import a_drawn_table
from tests.support.builders import a_person, a_problem, a_spec, reps
from tests.support.random_library import a_library

PLAN_ID = str(UUID(int=1, version=4))
LINES = ("squat_line", "hinge_line", "push_line", "row_line", "press_line", "hold_line")


def _planning(*names: str, **changes: object) -> PlanningProblem:
    base = a_problem(
        a_spec(),
        a_library(),
        {"p001": a_person(), "p002": a_person("p002", level=2)},
        rules=RuleTable(least_places_for_four=9, least_places_for_trunk=9),
    )
    values: dict[str, object] = {
        "base": base,
        "places": 3,
        "candidates": tuple(Candidate(exercise_id=e, count=reps(8)) for e in names or LINES),
    }
    return PlanningProblem(**(values | changes))  # type: ignore[arg-type]


def _set(result: PlanResult) -> frozenset[str]:
    assert result.problem is not None
    return frozenset(e.exercise_id for e in result.problem.spec.exercises)


def test_each_further_class_differs_in_two_exercises_from_all_before() -> None:
    shown: list[frozenset[str]] = []
    for _ in range(3):
        planning = _planning(besides=tuple(tuple(sorted(s)) for s in shown), others=2)
        result = plan_class(planning, plan_id=PLAN_ID)
        assert result.outcome.status is Status.PROVEN
        shown.append(_set(result))
    assert all(len(one - other) >= 2 for one, other in combinations(shown, 2))


def test_with_one_exchangeable_exercise_it_differs_in_that() -> None:
    kept = tuple(KeptExercise(exercise_id=e, count=reps(8)) for e in ("squat_line", "row_line"))
    first = plan_class(_planning(kept=kept), plan_id=PLAN_ID)
    second = plan_class(
        _planning(kept=kept, besides=(tuple(sorted(_set(first))),), others=2), plan_id=PLAN_ID
    )
    assert len(_set(second) - _set(first)) == 1
    assert second.outcome.status is Status.PROVEN
    assert second.outcome.work_used > first.outcome.work_used


def test_without_any_other_class_it_is_impossible() -> None:
    few = ("squat_line", "push_line", "row_line")
    asked = _planning(*few, besides=(few,), others=2)
    assert plan_class(asked, plan_id=PLAN_ID).outcome.status is Status.IMPOSSIBLE


def test_what_is_told_on_the_way_ends_with_the_answer() -> None:
    told: list[PlanResult] = []

    def hears(result: PlanResult, _: StillOpen) -> bool:
        told.append(result)
        return True

    few = ("squat_line", "push_line", "row_line", "hinge_line")
    asked = _planning(*few, besides=(few[:3],), others=2)
    result = plan_class(asked, plan_id=PLAN_ID, on_better=hears)
    assert len(_set(result) - set(few[:3])) == 1
    assert told[-1].core == result.core


def _of_lines(parts: tuple[frozenset[int], ...], **rules: object) -> SetTable:
    """Give a table whose exercises hold lines; only how often one comes is asked."""
    drawn = a_drawn_table(3)
    values = {f: getattr(drawn, f) for f in drawn.__dataclass_fields__}
    free = {"most_of_a_pattern": 9, "most_jumping": 9, "most_combinations": 9}
    asked = SetRules(**({"places": 3} | free | rules))  # type: ignore[arg-type]
    return SetTable(**(values | {"parts": parts, "rules": asked}))


def _strangers(number: int) -> Neighbours:
    """Give exercises that may all stand side by side for nothing."""
    price = np.zeros((number, number), dtype=np.int64)
    return Neighbours(price, price > 0, price[0] > 0)


@pytest.mark.parametrize("ordered", [False, True], ids=["rows", "path"])
def test_the_master_takes_a_line_no_more_often_than_may_be(ordered: bool) -> None:
    # 0 to 4 hold line 9, and are free; the rest cost a fortune
    parts = tuple(frozenset({e, 9}) if e < 5 else frozenset({e}) for e in range(8))
    table = _of_lines(parts)
    assert table.of_a_line == {9: frozenset(range(5))}
    prices = tuple(0 if e < 5 else 500 for e in range(8))
    master = SetMaster(table, neighbours=_strangers(8) if ordered else None)
    answer = master.solve(EndPrices(prices, prices, prices))
    assert answer.ended is Ended.OPTIMAL
    assert len(answer.chosen & set(range(5))) == 2
    assert table.holds(answer.chosen)
    assert not table.holds(frozenset({0, 1, 2}))


def test_kept_exercises_alone_may_hold_a_line_too_often() -> None:
    parts = tuple(frozenset({e, 9}) if e < 5 else frozenset({e}) for e in range(8))
    table = _of_lines(parts, kept=frozenset({0, 1, 2}))
    assert table.holds(frozenset({0, 1, 2}))
    assert not _of_lines(parts, kept=frozenset({0, 1}), places=3).holds(frozenset({0, 1, 2}))


def test_a_coach_s_own_class_pays_nothing_for_repeats_or_hips() -> None:
    # steps and squats are both for the quads: a repeat that the tool would pay for
    names = ("steps_and_squat", "hinge_line", "row_line")
    kept = tuple(
        KeptExercise(exercise_id=e, count=reps(8), position=k) for k, e in enumerate(names, start=1)
    )
    result = plan_class(_planning(kept=kept), plan_id=PLAN_ID)
    assert result.core is not None
    assert result.problem is not None
    assert result.problem.library.combinations["steps_and_squat"]
    assert Muscle.QUADS in result.problem.library.versions("step_line")[0].muscles
    assert judge(result.core, result.problem).cost == result.outcome.cost
