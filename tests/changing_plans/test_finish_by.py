"""Late and short: each choice ends in time, keeps the floors, and the kindest comes first."""

from dataclasses import replace
from functools import cache

import pytest

from roundwright.foundation.errors import ChangedMeanwhileError
from roundwright.plan.changing.change import RepsCut, RestsCut, RoundDropped, SeveralCuts
from roundwright.plan.core import WindowKind
from roundwright.plan.gate.judge import judge
from roundwright.plan.verdict import Grade
from roundwright.rehearsal.finishing_time import chance_on_time
from roundwright.services.changing.finish_by import finish_by
from tests.changing_plans.some_plans import a_drawn_plan, begun, demo_using, drawn_using
from tests.support.plans import a_fitted_plan

KEPT = (WindowKind.WARM_UP, WindowKind.DEMONSTRATION, WindowKind.COOL_DOWN)


@cache
def _found(minutes_less, rehearsed=False):
    plan = a_fitted_plan()
    using = demo_using()
    if rehearsed:
        using = replace(using, rehearse=lambda core, problem, seed: _few(core, problem, seed))
    by_s = plan.facts.total_s - minutes_less * 60
    return finish_by(plan, begun(plan), by_s, 1, using=using)


def _few(core, problem, seed):
    return chance_on_time(core, problem, seed, 200)


def _lengths(core, kinds):
    return [(w.kind, w.length_s) for w in core.timeline if w.kind in kinds]


def _work_s(core):
    return sum(w.length_s for w in core.timeline if w.kind in (WindowKind.WORK, WindowKind.BURST))


@pytest.mark.parametrize("minutes", [1, 4, 8])
def test_each_choice_ends_in_time_and_cuts_nothing_that_must_not_be(minutes):
    plan, found = a_fitted_plan(), _found(minutes)
    assert found.choices
    rules = plan.problem.rules
    for choice in found.choices:
        core = choice.changed.document.core
        assert choice.ends_s == max(w.at_s + w.length_s for w in core.timeline) <= found.by_s
        assert _lengths(core, KEPT) == _lengths(plan.core, KEPT)
        assert all(s >= rules.rest_floor_s for _, s in _lengths(core, (WindowKind.REST,)))
        changes = [s for _, s in _lengths(core, (WindowKind.CHANGE,))]
        assert all(s >= rules.change_floor_s for s in changes)
        verdict = judge(core, choice.changed.document.problem)
        assert not verdict.of_grade(Grade.NEVER)
        assert choice.work_lost_s == _work_s(plan.core) - _work_s(core)
    order = [(c.work_lost_s, len(c.changed.disturbed)) for c in found.choices]
    assert order == sorted(order)


def test_a_pair_is_offered_only_where_neither_is_enough():
    for minutes in (1, 4, 8):
        found = _found(minutes)
        single = [c.changed.change for c in found.choices]
        pairs = [c for c in single if isinstance(c, SeveralCuts)]
        assert not [p for p in pairs if any(part in single for part in p.cuts)]
    assert any(isinstance(c.changed.change, SeveralCuts) for c in _found(8).choices)


def test_shorter_rests_are_kindest_where_they_are_enough():
    best = _found(1).choices[0]
    assert isinstance(best.changed.change, RestsCut)
    assert best.work_lost_s == 0


def test_a_class_that_ends_in_time_needs_nothing():
    found = _found(-1)
    assert found.choices == ()
    assert found.nearest is None


def test_where_nothing_is_enough_the_nearest_is_given():
    found = _found(30)
    assert found.choices == ()
    assert found.nearest is not None
    assert found.by_s < found.nearest.ends_s < found.ends_now_s


def test_each_is_played_through():
    for choice in _found(4, rehearsed=True).choices:
        document = choice.changed.document
        seed = demo_using().seed
        assert choice.late_s == _few(document.core, document.problem, seed).late_s
        assert document.facts.chance_on_time is not None


def test_the_choices_are_changes_that_can_be_kept():
    choice = _found(8).choices[0]
    assert choice.changed.revisions.current == 2
    assert choice.changed.document.core.revision == 2
    assert choice.changed.sentence.endswith(".")


def test_another_revision_is_told():
    plan = a_fitted_plan()
    revisions = begun(plan).with_change(1, "0" * 64, RoundDropped(), "One round less.")
    with pytest.raises(ChangedMeanwhileError, match="One round less"):
        finish_by(plan, revisions, 60, 1, using=demo_using())


@pytest.mark.parametrize("seed", [2, 5, 9])
def test_on_drawn_halls(seed):
    plan = next(p for s in range(seed, 60) if (p := a_drawn_plan(s)) is not None)
    using = drawn_using(plan)
    found = finish_by(plan, begun(plan), plan.facts.total_s - 60, 1, using=using)
    assert found.choices or found.nearest
    for choice in found.choices:
        assert choice.ends_s <= found.by_s
        stops = [f for f in choice.changed.new if f.grade is not Grade.ADVISE]
        assert not [f for f in stops if f.rule != "slot.overrun"]
        parts = getattr(choice.changed.change, "cuts", (choice.changed.change,))
        assert all(not isinstance(c, RepsCut) or c.share_bp >= 5000 for c in parts)
