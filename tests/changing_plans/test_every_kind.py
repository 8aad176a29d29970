"""Each kind of change, end to end, on the demo class and on drawn halls."""

import re
from dataclasses import replace
from typing import get_args

import pytest

from roundwright.plan.changing import change as c
from roundwright.plan.changing.disturbed import disturbance
from roundwright.plan.changing.restate import restate
from roundwright.plan.core import CellState
from roundwright.plan.gate.judge import judge
from roundwright.plan.verdict import Grade
from roundwright.services.changing.effects import effects_of
from roundwright.services.changing.said_words import with_names
from tests.changing_plans.some_plans import (
    a_drawn_plan,
    changed,
    demo_using,
    drawn_using,
    every_kind,
    somebody_who_lifts,
)
from tests.support.plans import a_fitted_plan, the_demo_hall

DRAWN = (1, 2, 3, 5, 8, 9, 13, 21)


def _holds(found, before, using):
    """Check what holds of every answer, by counting on our own."""
    core = found.document.core
    assert core.plan_id == before.core.plan_id
    assert (core.revision, core.parent_revision) == (2, 1)
    assert found.revisions.current == 2
    assert found.revisions.at(2).digest == core.digest
    verdict = judge(core, found.document.problem)
    assert not verdict.of_grade(Grade.NEVER)
    asked = restate(before.problem, before.core, found.change, using.library)
    now = {e.position: e.exercise_id for e in core.exercises}
    wanted = {e.position: e.exercise_id for e in asked.problem.spec.exercises}
    same = {new: old for new, old in asked.came_from.items() if now[new] == wanted[new]}
    asked = replace(asked, came_from=same)
    for position in now:
        assert position in same or f"lace {position} is " in found.sentence
    counted = disturbance(before.core, core, asked)
    assert {p: tuple(sorted(counted.cells[p])) for p in counted.people} == found.disturbed
    assert len(found.disturbed) == found.harm.people
    left_out = {(p, k) for p, places in found.left_out.items() for k in places}
    assert left_out == counted.left_out
    assert found.before == effects_of(before)
    assert found.after == effects_of(found.document)
    assert found.after.length_s == max(w.at_s + w.length_s for w in core.timeline)
    assert found.sentence.count(".") - found.sentence.count("0.") <= 2
    assert found.sentence.endswith(".")
    assert not re.search(r"\b(p\d{3}|walk_in_\d)\b", re.sub(r"\{[^}]*\}", "", found.sentence))


KINDS = sorted(kind.model_fields["kind"].default for kind in get_args(get_args(c.Change)[0]))


@pytest.mark.parametrize("kind", KINDS)
def test_on_the_demo_class(kind):
    before = a_fitted_plan()
    changes = [x for x in every_kind(before, the_demo_hall().catalogue) if x.kind == kind]
    assert changes
    for change in changes:
        found = changed(change)
        _holds(found, before, demo_using())
        for person in the_demo_hall().people:
            assert person.shown_name not in found.sentence


@pytest.mark.parametrize("seed", DRAWN)
def test_on_a_drawn_hall(seed):
    before = a_drawn_plan(seed)
    if before is None:
        assert a_drawn_plan(DRAWN[0]) is not None
        return
    using = drawn_using(before)
    answered = 0
    for change in every_kind(before, using.library, seed):
        found = changed(change, before, using)
        _holds(found, before, using)
        answered += 1
    assert answered >= 9


def test_somebody_left_and_nobody_is_disturbed_who_need_not_be():
    found = changed(c.PersonLeft(person="p002"))
    assert all(p.person_id != "p002" for p in found.document.core.people)
    assert found.disturbed == {}
    assert found.sentence == "{p002} is out of the class; nobody else changes."


def test_what_hurts_is_avoided_from_now_on():
    caps = {"knee": 0, "impact": 0}
    found = changed(c.PersonLimited.model_validate({"person": "p009", "caps": caps}))
    mine = [x for x in found.document.core.cells if x.person_id == "p009"]
    movements = found.document.problem.library.movements
    worked = [movements[m] for cell in mine for m in cell.signature]
    assert worked
    assert all(m.demands.get("knee", 0) == 0 for m in worked)


def test_kit_that_is_lost_is_not_used():
    before = a_fitted_plan()
    mass_g = somebody_who_lifts(before).unit_mass_g
    there = sum(d.count for d in before.problem.kit.dumbbells if d.unit_mass_g == mass_g)
    found = changed(c.KitLost(unit_mass_g=mass_g, units=there))
    assert all(cell.unit_mass_g != mass_g for cell in found.document.core.cells)
    assert found.disturbed
    assert found.after.kit_in_use <= found.before.kit_in_use


def test_a_fixed_load_is_held():
    cell = somebody_who_lifts(a_fitted_plan())
    masses = [d.unit_mass_g for d in a_fitted_plan().problem.kit.dumbbells]
    lighter = max(m for m in masses if m < cell.unit_mass_g)
    where = {"person": cell.person_id, "position": cell.position}
    found = changed(c.CellSet(**where, mass_g=lighter))
    mine = [
        x
        for x in found.document.core.cells
        if (x.person_id, x.position) == (cell.person_id, cell.position)
    ]
    assert {x.unit_mass_g for x in mine} == {lighter}
    assert all(x.kept for x in mine)


def test_an_exercise_goes_and_comes_where_it_is_asked():
    free = sorted(set(a_fitted_plan().problem.substitutes))
    taken = {e.exercise_id for e in a_fitted_plan().core.exercises}
    other = next(line for line in free if line not in taken)
    found = changed(c.ExerciseSwapped(position=4, exercise_id=other))
    stands = {e.position: e.exercise_id for e in found.document.core.exercises}
    assert stands[4] == other
    assert found.sentence.startswith("Place 4 is ")


def test_whoever_sits_out_is_said():
    found = changed(c.SatOut(person="p001", position=2))
    resting = [x for x in found.document.core.cells if x.state is CellState.SIT_OUT]
    assert ("p001", 2) in {(x.person_id, x.position) for x in resting}
    assert found.left_out == {"p001": (2,)}
    assert "nothing to do" in with_names(found.sentence, {"p001": "Maren T"})


def test_a_lock_that_limits_forbid_is_told_and_rests():
    version = next(
        x.steps[0].movement_id
        for x in a_fitted_plan().core.cells
        if (x.person_id, x.position) == ("p009", 3)
    )
    fixed = changed(c.CellSet(person="p009", position=3, version=version))
    every = dict.fromkeys(fixed.document.problem.library.movements[version].demands, 0)
    found = changed(
        c.PersonLimited(person="p009", caps=every),
        fixed.document,
        revisions=fixed.revisions,
    )
    assert found.unheld == {"p009": (3,)}


def test_a_shorter_class_is_shorter():
    before = effects_of(a_fitted_plan()).length_s
    for cut in (c.RoundDropped(), c.RepsCut(share_bp=5000), c.BurstCut()):
        assert changed(cut).after.length_s < before
    both = changed(c.SeveralCuts(cuts=(c.RoundDropped(), c.BurstCut())))
    assert both.after.length_s < changed(c.RoundDropped()).after.length_s
    assert both.document.problem.spec.burst is None
    assert both.document.core.class_.rounds == a_fitted_plan().core.class_.rounds - 1
