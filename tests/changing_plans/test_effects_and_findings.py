"""Effects are counted from the plan itself; findings are compared where they stand now."""

from roundwright.plan.changing.change import ExercisesReordered
from roundwright.plan.core import Cell, KitUnits
from roundwright.plan.verdict import Finding, Grade
from roundwright.services.changing.effects import effects_of, kit_in_use
from roundwright.services.changing.findings_compared import compared
from tests.changing_plans.some_plans import changed
from tests.support.plans import a_fitted_plan


def _finding(rule="load.below_aim", positions=(), **more):
    return Finding(rule=rule, grade=Grade.ADVISE, persons=("p001",), positions=positions, **more)


def test_the_demo_class_has_these_effects():
    effects = effects_of(a_fitted_plan())
    assert (effects.push, effects.pull, effects.knee, effects.hip) == (1, 1, 2, 1)
    assert effects.contacts == sum(p.contacts for p in a_fitted_plan().facts.people)
    assert effects.chance_on_time_bp is None
    by_place = [
        {c.signature for c in a_fitted_plan().core.cells if c.position == k and c.steps}
        for k in range(1, 6)
    ]
    assert effects.versions == sum(len(versions) for versions in by_place)


def test_kit_in_use_is_the_most_of_any_window():
    core = a_fitted_plan().core
    whole = [
        sum(
            c.units + sum(k.units for k in c.kit)
            for c in core.cells
            if c.position == k and c.round in (0, r) and r in _rounds(core, c)
        )
        for k in range(1, 6)
        for r in range(1, core.class_.rounds + 1)
    ]
    assert kit_in_use(core) == max(whole)
    more = Cell(person_id="p001", position=1, units=0, kit=(KitUnits(item_id="mat", units=90),))
    grown = core.model_copy(update={"cells": (*core.cells, more)})
    assert kit_in_use(grown) >= 90
    assert kit_in_use(core.model_copy(update={"timeline": ()})) == 0


def _rounds(core, cell):
    return next(p.rounds for p in core.people if p.person_id == cell.person_id)


def test_a_finding_moves_with_its_exercise_and_figures_do_not_matter():
    was = (_finding(positions=(1,), figures={"chance_bp": 5000}), _finding("gone.rule"))
    now = (_finding(positions=(2,), figures={"chance_bp": 5100}), _finding(positions=(3,)))
    new, gone = compared(was, now, {2: 1, 1: 2, 3: 3})
    assert new == (now[1],)
    assert gone == (was[1],)


def test_a_finding_of_a_place_that_is_swapped_is_gone():
    was = (_finding(positions=(1,)),)
    assert compared(was, was, {2: 2}) == (was, was)


def test_reordering_back_and_forth_brings_nothing_new():
    once = changed(ExercisesReordered(order=(2, 1, 3, 4, 5)))
    back = changed(
        ExercisesReordered(order=(2, 1, 3, 4, 5)), once.document, revisions=once.revisions
    )
    rules = {f.rule for f in back.document.verdict.findings}
    assert rules == {f.rule for f in a_fitted_plan().verdict.findings}
    assert [e.exercise_id for e in back.document.core.exercises] == [
        e.exercise_id for e in a_fitted_plan().core.exercises
    ]
