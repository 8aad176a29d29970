"""Changing a plan by the public functions: open, change, keep, undo, redo, finish by a time."""

import pytest

import roundwright
from roundwright.foundation.errors import ChangedMeanwhileError, NotFoundError
from roundwright.plan.changing.change import PersonLeft
from tests.support.plans import a_fitted_plan, the_demo_hall


def test_a_plan_is_changed_undone_and_done_again(tmp_path):
    path = roundwright.keep_plan(a_fitted_plan(), tmp_path)
    old = path.read_bytes()
    opened = roundwright.open_plan(path)
    with pytest.raises(NotFoundError):
        roundwright.undo(opened)
    changed = roundwright.change_plan(opened, PersonLeft(person="p002"), the_demo_hall())
    assert changed.after.chance_on_time_bp is not None
    kept = roundwright.keep_change(changed, opened)
    with pytest.raises(ChangedMeanwhileError, match="is out of the class"):
        roundwright.keep_change(changed, opened)
    now = roundwright.open_plan(kept)
    assert now.document == changed.document
    back = roundwright.undo(now)
    assert (back.path, back.path.read_bytes()) == (path, old)
    assert roundwright.redo(back).document == changed.document
    found = roundwright.finish_by(back, a_fitted_plan().facts.total_s, the_demo_hall())
    assert found.choices == ()
