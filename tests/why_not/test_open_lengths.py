"""Why no class, where rounds, work and rest are open: each length is tried before it is said."""

import pytest

from roundwright.goals.class_wish import Count, CountUnit, Pace, WorkRestWish
from roundwright.optimise.planning.plan_class import plan_class
from roundwright.optimise.planning.why_not import explain
from roundwright.plan.planning_problem import PlanningProblem
from roundwright.plan.rule_table import RuleTable, WorkRest
from tests.support.builders import a_line, a_movement
from tests.why_not.every_class import PLAN_ID
from tests.why_not.impossible import CASES, Impossible
from tests.why_not.small_menu import a_base, asking, people
from tests.why_not.test_smallest_clash import members

BY_COUNT = {"contacts", "low_hops", "burst", "kept"}
"""Clashes that depend on how much is done."""
WHATEVER_IS_DONE = [c for c in CASES if not {kind for kind, _ in c.clash} & BY_COUNT]


def open_lengths(planning: PlanningProblem) -> PlanningProblem:
    """Let the tool choose rounds, work and rest; every count follows the work."""
    base, seconds = planning.base, Count(value=30, unit=CountUnit.SECONDS)
    spec = base.spec.model_copy(update={"pace": Pace.TIMED})
    follows = {"count": seconds, "follows_work": True}
    return planning.model_copy(
        update={
            "base": base.model_copy(update={"spec": spec}),
            "candidates": tuple(c.model_copy(update=follows) for c in planning.candidates),
            "kept": tuple(k.model_copy(update=follows) for k in planning.kept),
            "rounds_choice": (1, 2),
            "work_rest": WorkRestWish.ANY,
        }
    )


@pytest.mark.parametrize("case", WHATEVER_IS_DONE, ids=lambda c: c.name)
def test_the_clash_is_the_same_whatever_is_open(case: Impossible) -> None:
    assert members(explain(open_lengths(case.planning))) == case.clash


def test_the_pair_at_which_everyone_has_something_to_do_is_taken() -> None:
    # A jump of 3 s: 40 s hold 13 landings, more than the 8 of a set; 20 s hold 6.
    rows = (
        WorkRest(room="trained", work_s=40, rest_s=20),
        WorkRest(room="trained", work_s=20, rest_s=40),
    )
    base = a_base(people(1), rules={"work_rests": rows})
    jump = a_movement("leap", contacts_a_rep=1, level=3)
    library = base.library.model_copy(
        update={
            "movements": base.library.movements | {"leap": jump},
            "lines": base.library.lines | {"leap_line": a_line("leap_line", "leap")},
        }
    )
    planning = asking(
        base.model_copy(update={"library": library}), 2, kept=(("leap_line", 1), ("squat", 2))
    )
    rules = RuleTable(work_rests=rows, most_landings_a_set=8)
    free = planning.model_copy(update={"base": planning.base.model_copy(update={"rules": rules})})
    asked = open_lengths(free)
    found = plan_class(asked, plan_id=PLAN_ID)
    assert found.problem is not None
    assert found.problem.spec.work_rest == rows[1]
    only = rules.model_copy(update={"work_rests": rows[:1]})
    base = asked.base.model_copy(update={"rules": only})
    none = asked.model_copy(update={"base": base})
    # Only 40 s: there is nothing for somebody at the jump, 1,000 points.
    outcome = plan_class(none, plan_id=PLAN_ID).outcome
    assert (outcome.cost or 0) >= 1000 > (found.outcome.cost or 0)
