"""Random histories of edits, undo and redo with real documents in a folder: nothing is lost."""

import random

import pytest

from roundwright.foundation.errors import NoPlanError
from roundwright.services.changing.change_plan import change_plan
from roundwright.services.changing.moves import history, moved
from roundwright.store.plan_files import plan_path, read_plan, write_plan
from roundwright.store.revision_files import keep_change, move_pointer, open_plan
from roundwright.store.revision_pointer import pointer_path
from tests.changing_plans.some_plans import a_drawn_plan, drawn_using, every_kind

HISTORIES = 36


def _plan_of(number):
    """Give a drawn plan, the next one where a hall has none."""
    return next(p for p in (a_drawn_plan(s) for s in range(number % 12 + 1, 60)) if p is not None)


@pytest.mark.parametrize("number", range(HISTORIES))
def test_undo_and_redo_give_back_equal_bytes(number, tmp_path):
    dice = random.Random(number)
    first = _plan_of(number)
    path = write_plan(first, tmp_path)
    bytes_of = {1: path.read_bytes()}
    parents, children, at = {1: 0}, dict[int, int](), 1
    opened = open_plan(path)
    edits = 0
    for step in range(9):
        act = dice.choice(["edit", "edit", "undo", "redo"])
        before = opened.revisions
        if act == "edit":
            using = drawn_using(first)
            change = dice.choice(every_kind(opened.document, using.library, step * 100 + number))
            if change.kind == "person_came" and "walk_in_1" in opened.document.problem.people:
                continue
            try:
                found = change_plan(opened.document, before, change, at, using=using)
            except NoPlanError:
                continue
            kept = keep_change(found.document, found.revisions, before, tmp_path)
            new = len(bytes_of) + 1
            assert kept == plan_path(tmp_path, first.core.plan_id, new)
            bytes_of[new], parents[new], children[at] = kept.read_bytes(), at, new
            at, edits = new, edits + 1
        elif act == "undo" and parents[at]:
            children[parents[at]] = at
            at = parents[at]
            assert move_pointer(moved(before, "undo", before.current), before, tmp_path)
        elif act == "redo" and at in children:
            at = children[at]
            assert move_pointer(moved(before, "redo", before.current), before, tmp_path)
        pointer = pointer_path(tmp_path, first.core.plan_id)
        opened = open_plan(pointer if pointer.exists() else path)
        assert opened.document.core.revision == at
        assert opened.document.core.digest == opened.revisions.at(at).digest
        assert opened.path.read_bytes() == bytes_of[at]
    for revision, content in bytes_of.items():
        kept = plan_path(tmp_path, first.core.plan_id, revision)
        assert kept.read_bytes() == content
        assert read_plan(kept).core.digest == opened.revisions.at(revision).digest
    assert edits
    lines = history(opened.revisions)
    assert [line.revision for line in lines if line.is_current] == [at]
    assert len(lines) == edits + 1
