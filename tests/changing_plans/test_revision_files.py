"""Revisions in a folder: the pointer decides, two writers are told apart, a killed one is safe."""

import json
import os
import signal
from pathlib import Path

import pytest

from roundwright.foundation.errors import (
    BadInputError,
    ChangedMeanwhileError,
    NotFoundError,
    StoreError,
)
from roundwright.plan.changing.change import SlotChanged
from roundwright.store import json_files
from roundwright.store.plan_files import plan_path, read_plan, read_plans, write_plan
from roundwright.store.revision_files import (
    keep_change,
    move_pointer,
    open_plan,
    read_revision,
)
from roundwright.store.revision_pointer import pointer_path
from tests.store.test_plan_files import PLAN_ID, a_document

ASKED = SlotChanged(slot_s=2400)


def _revised(revision, parent, slot_s=2400):
    document = a_document()
    booked = document.core.class_.model_copy(update={"slot_s": slot_s + revision})
    core = document.core.model_copy(
        update={"revision": revision, "parent_revision": parent, "class_": booked}
    )
    return document.model_copy(update={"core": core})


def _change(opened, slot_s=2400):
    revisions = opened.revisions
    document = _revised(revisions.next_number, revisions.current, slot_s)
    grown = revisions.with_change(revisions.current, document.core.digest, ASKED, "Shorter.")
    keep_change(document, grown, revisions, opened.folder)
    return open_plan(pointer_path(opened.folder, PLAN_ID))


@pytest.fixture
def first(tmp_path):
    return open_plan(write_plan(a_document(), tmp_path))


def test_a_plan_that_was_never_changed_is_its_own_first_revision(first):
    assert (first.revisions.current, first.revisions.can_undo) == (1, False)
    assert not pointer_path(first.folder, PLAN_ID).exists()


def test_a_change_is_kept_and_pointed_to(first):
    second = _change(first)
    assert (second.document.core.revision, second.revisions.current) == (2, 2)
    again = open_plan(plan_path(first.folder, PLAN_ID, 1))
    assert again.document.core.revision == 1
    assert again.revisions.current == 2


def test_recent_work_counts_the_current_revision_only(first):
    second = _change(first)
    assert [p.core.revision for p in read_plans(first.folder).plans] == [2]
    move_pointer(second.revisions.undone(), second.revisions, first.folder)
    assert [p.core.revision for p in read_plans(first.folder).plans] == [1]


def test_a_plan_that_was_undone_last_counts_as_kept_last(first):
    _change(first)
    other = "00000000-0000-4000-8000-000000000001"
    document = a_document("other")
    core = document.core.model_copy(update={"plan_id": other})
    path = write_plan(document.model_copy(update={"core": core}), first.folder)
    pointer = pointer_path(first.folder, PLAN_ID)
    os.utime(path, ns=(2000, 2000))
    os.utime(pointer, ns=(1000, 1000))
    assert [p.core.plan_id for p in read_plans(first.folder).plans] == [PLAN_ID, other]
    os.utime(pointer, ns=(3000, 3000))
    assert [p.core.plan_id for p in read_plans(first.folder).plans] == [other, PLAN_ID]


def test_a_pointer_that_cannot_be_read_is_named_and_its_plan_not_guessed(first):
    _change(first)
    pointer = pointer_path(first.folder, PLAN_ID)
    pointer.write_text("{", encoding="utf-8")
    found = read_plans(first.folder)
    assert found.plans == ()
    assert [f.file for f in found.faults] == [pointer.name]
    with pytest.raises(BadInputError):
        open_plan(plan_path(first.folder, PLAN_ID, 1))


@pytest.mark.parametrize(
    "change",
    [{"schema": "roundwright.revisions/2"}, {"schema": 3}, {"current": 9}, {"revisions": []}],
)
def test_what_is_no_tree_or_newer_is_refused(first, change):
    _change(first)
    pointer = pointer_path(first.folder, PLAN_ID)
    values = json.loads(pointer.read_text(encoding="utf-8"))
    pointer.write_text(json.dumps(values | change), encoding="utf-8")
    with pytest.raises(BadInputError):
        open_plan(pointer)


def test_of_two_that_change_at_once_the_second_is_told(first):
    _change(first)
    with pytest.raises(ChangedMeanwhileError, match="Shorter"):
        _change(first, 1200)
    assert open_plan(pointer_path(first.folder, PLAN_ID)).document.core.class_.slot_s == 2402


def test_changed_and_undone_meanwhile_is_told_too(first):
    second = _change(first)
    move_pointer(second.revisions.undone(), second.revisions, first.folder)
    with pytest.raises(ChangedMeanwhileError, match="changed back"):
        _change(first, 1200)
    with pytest.raises(ChangedMeanwhileError):
        move_pointer(second.revisions.undone(), second.revisions, first.folder)


def test_a_pointer_that_vanished_is_told(first):
    second = _change(first)
    pointer_path(first.folder, PLAN_ID).unlink()
    with pytest.raises(ChangedMeanwhileError, match="gone"):
        _change(second)


def test_undo_hands_out_the_old_bytes(first):
    old = first.path.read_bytes()
    second = _change(first)
    document = move_pointer(second.revisions.undone(), second.revisions, first.folder)
    assert document.core.revision == 1
    assert first.path.read_bytes() == old


def test_a_kept_revision_that_was_altered_by_hand_is_refused(first):
    second = _change(first)
    path = plan_path(first.folder, PLAN_ID, 1)
    path.write_bytes(path.read_bytes().replace(b'"class_id": "tuesday"', b'"class_id": "monday"'))
    with pytest.raises(ChangedMeanwhileError, match="not what was kept"):
        move_pointer(second.revisions.undone(), second.revisions, first.folder)
    with pytest.raises(ChangedMeanwhileError, match="not what was kept"):
        open_plan(path)
    assert open_plan(pointer_path(first.folder, PLAN_ID)).document.core.revision == 2


def test_what_is_not_there_is_not_found(first, tmp_path):
    with pytest.raises(NotFoundError):
        open_plan(pointer_path(tmp_path, PLAN_ID))
    with pytest.raises(NotFoundError):
        open_plan(tmp_path / "other.json")
    with pytest.raises(NotFoundError):
        read_revision(first.revisions, 7, tmp_path)


@pytest.mark.parametrize("pointer_too", [False, True])
def test_a_write_that_fails_leaves_the_old_plan(first, monkeypatch, pointer_too):
    second = _change(first)
    real = Path.replace

    def fails(self, target):
        if pointer_too == Path(target).name.endswith(".revisions.json"):
            raise OSError("no space left")
        return real(self, target)

    monkeypatch.setattr(Path, "replace", fails)
    with pytest.raises(StoreError):
        _change(second)
    monkeypatch.undo()
    now = open_plan(pointer_path(first.folder, PLAN_ID))
    assert (now.revisions, now.document) == (second.revisions, second.document)
    third = _change(now, 1800)
    assert third.document.core.class_.slot_s == 1803
    assert not [p for p in first.folder.iterdir() if p.name.startswith(".")]


def test_a_writer_that_is_killed_leaves_old_or_new(first):
    folder, kills = first.folder, 0
    for number in range(20):
        child = os.fork()
        if child == 0:
            try:
                signal.signal(signal.SIGALRM, signal.SIG_DFL)
                signal.setitimer(signal.ITIMER_REAL, 0.03 + 0.007 * number)
                while True:
                    opened = _open_any(folder)
                    if opened.revisions.current > 1 and opened.revisions.next_number % 3 == 0:
                        back = opened.revisions.undone()
                        move_pointer(back, opened.revisions, folder)
                        opened = _open_any(folder)
                    _change(opened)
            finally:
                os._exit(1)
        _, status = os.waitpid(child, 0)
        assert os.WIFSIGNALED(status), "the writer ended on its own"
        kills += 1
        now = _open_any(folder)
        for one in now.revisions.revisions:
            kept = read_plan(plan_path(folder, PLAN_ID, one.revision))
            assert kept.core.digest == one.digest
    assert kills == 20
    last = _open_any(folder).revisions.next_number
    assert last > 3, "hardly anything was written between the kills"
    assert _change(_open_any(folder)).document.core.revision == last


def _open_any(folder):
    pointer = pointer_path(folder, PLAN_ID)
    return open_plan(pointer if pointer.exists() else plan_path(folder, PLAN_ID, 1))


def test_a_folder_that_is_not_there_is_told(first, tmp_path):
    grown = first.revisions.with_change(1, "0" * 64, ASKED, "Shorter.")
    with pytest.raises(StoreError):
        keep_change(_revised(2, 1), grown, first.revisions, tmp_path / "nowhere")


def test_schemas_are_compared_by_kind_and_number():
    json_files.check_schema(
        "a.json", {"schema": "roundwright.revisions/1"}, "roundwright.revisions/2"
    )
    for schema in ("roundwright.plan/1", "roundwright.revisions/0", "revisions", None):
        with pytest.raises(BadInputError):
            json_files.check_schema("a.json", {"schema": schema}, "roundwright.revisions/1")
