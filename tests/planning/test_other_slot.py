"""A class searched again in a shorter slot: its tables are those that would be made anew."""

from dataclasses import fields

import pytest

from roundwright.optimise.planning.form_table import Form, in_other_slot, make_form_table
from roundwright.optimise.planning.search import Search
from roundwright.plan.outcome import Budget
from roundwright.plan.planning_problem import PlanningProblem
from tests.planning_brute_force.drawn_cases import planning_case
from tests.planning_brute_force.plan_ids import plan_id
from tests.support.random_planning import ROTATING_FORMATS, SIMPLE_FORMATS, a_tiny_planning


def in_slot(planning: PlanningProblem, slot_s: int) -> PlanningProblem:
    spec = planning.base.spec.model_copy(update={"slot_s": slot_s})
    return planning.model_copy(update={"base": planning.base.model_copy(update={"spec": spec})})


@pytest.mark.parametrize("seed", range(12))
def test_tables_taken_over_are_those_made_anew(seed: int) -> None:
    planning = a_tiny_planning(seed, (*SIMPLE_FORMATS, *ROTATING_FORMATS))
    shorter = in_slot(planning, planning.base.spec.slot_s * 9 // 10)
    for class_format in planning.formats:
        form = Form(class_format, planning.base.spec.rounds)
        taken = in_other_slot(make_form_table(planning, form), shorter)
        anew = make_form_table(shorter, form)
        assert taken.seconds_left == anew.seconds_left
        for one in fields(anew):
            if one.name != "neighbours":
                assert getattr(taken, one.name) == getattr(anew, one.name), one.name


@pytest.mark.parametrize("seed", [0, 1, 2, 4, 6])
def test_a_search_that_knows_another_slot_finds_what_one_without_finds(seed: int) -> None:
    planning, best = planning_case("simple", seed)
    longer = in_slot(planning, planning.base.spec.slot_s + 600)
    before = Search(longer, 1, Budget.THOROUGH, plan_id(seed))
    before.run()
    again = Search(planning, 1, Budget.THOROUGH, plan_id(seed), before)
    assert again.run()[0]
    value = None if again.best is None else again.best.rank[:2]
    assert value == (None if best is None else best.value)
