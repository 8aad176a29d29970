"""A hall's folder comes in and goes out with equal bytes, plans and revisions too."""

import json
import os
import tempfile
from pathlib import Path

import pytest
from hypothesis import given, settings

from roundwright.bootstrap.keeping import keeping_at
from roundwright.foundation.errors import (
    BadInputError,
    ChangedMeanwhileError,
    NotFoundError,
    StoreError,
    UnsafePlanError,
)
from roundwright.plan.changing.change import RoundDropped
from roundwright.plan.changing.revisions import Revisions
from roundwright.store.hall_folder import write_hall
from roundwright.store.plan_files import read_plans, write_plan
from roundwright.store.plan_tree_files import write_trees
from tests.store.test_hall_folder import everything_in
from tests.store.test_plan_files import a_document
from tests.store_database.a_kept_hall import HALL_ID, LIBRARY, a_hall, begun, by, person_edit
from tests.store_database.drawn_halls import SEEDS, a_drawn_hall
from tests.support.random_halls import Dice

IDS = tuple(f"8b6d3f6e-0c2f-4e57-9f0a-3c8f5f1f2a{n:02d}" for n in range(20))


@pytest.fixture(autouse=True)
def gate_that_allows(monkeypatch):
    monkeypatch.setattr("roundwright.store.database.hall_folders.judged", lambda document: document)


def a_tree(dice, plan_id):
    """Draw a plan with revisions, some of them branches, and a pointer to any of them."""

    def document(revision):
        one = a_document(dice.one_of(("tuesday", "friday")), wall_ms=dice.between(1, 9))
        core = one.core.model_copy(update={"plan_id": plan_id, "revision": revision})
        return one.model_copy(update={"core": core})

    documents = [document(1)]
    revisions = Revisions.begun(plan_id, documents[0].core.digest)
    for _ in range(dice.between(0, 4)):
        for _ in range(dice.between(0, 2)):
            revisions = revisions.undone()
        documents.append(document(revisions.next_number))
        revisions = revisions.with_change(
            revisions.current, documents[-1].core.digest, RoundDropped(), "{p001} does less."
        )
    return (revisions.undone() if dice.between(0, 1) else revisions), tuple(documents)


def a_folder(folder, seed):
    """Write a drawn hall with drawn plans."""
    dice = Dice(seed, "plans of a folder")
    write_hall(a_drawn_hall(seed), folder)
    trees = [a_tree(dice, plan_id) for plan_id in dice.some_of(IDS, dice.between(0, 3))]
    write_trees(trees, folder / "plans")
    return trees


def in_order(folder):
    return [plan.core.plan_id for plan in read_plans(folder / "plans").plans]


@settings(max_examples=25, deadline=None, derandomize=True)
@given(SEEDS)
def test_a_drawn_folder_comes_out_with_equal_bytes(seed):
    kept = keeping_at("sqlite://", lambda: LIBRARY)
    with tempfile.TemporaryDirectory() as place:
        folder, out = Path(place) / "in", Path(place) / "out"
        trees = a_folder(folder, seed)
        brought = kept.folders.bring_in(folder, HALL_ID, by())
        assert (brought.plans, brought.refused) == (len(trees), ())
        assert kept.folders.take_out(HALL_ID, out, by()) == len(trees)
        assert everything_in(out) == everything_in(folder)
        assert in_order(out) == in_order(folder)
        listed = [one.plan_id for one in kept.plans.plans(HALL_ID)]
        assert listed == in_order(folder)
    kept.close()


def test_a_folder_goes_through_every_database(kept, tmp_path):
    trees = a_folder(tmp_path / "in", 3)
    assert len(trees) >= 1
    kept.folders.bring_in(tmp_path / "in", HALL_ID, by())
    kept.folders.take_out(HALL_ID, tmp_path / "out", by())
    assert everything_in(tmp_path / "out") == everything_in(tmp_path / "in")
    for revisions, documents in trees:
        opened = kept.plans.opened(HALL_ID, revisions.plan_id)
        assert opened.revisions == revisions
        assert opened.document in documents
    what = [one.what for one in kept.trail.entries(HALL_ID)]
    assert what == ["hall.taken_out", "hall.brought_in", "hall.begun"]


def test_a_folder_takes_the_place_of_a_hall_and_its_plans_stay(kept, tmp_path):
    write_hall(a_hall(), tmp_path / "in")
    write_plan(a_document(), tmp_path / "in" / "plans")
    kept.folders.bring_in(tmp_path / "in", HALL_ID, by())
    kept.halls.edit(HALL_ID, [person_edit(1)], by())
    with pytest.raises(ChangedMeanwhileError):
        kept.folders.bring_in(tmp_path / "in", HALL_ID, by())
    with pytest.raises(ChangedMeanwhileError, match="person p002"):
        kept.folders.bring_in(tmp_path / "in", HALL_ID, by(), base_version=1)
    brought = kept.folders.bring_in(tmp_path / "in", HALL_ID, by(), base_version=2)
    assert (brought.hall.hall, brought.hall.version, brought.plans) == (a_hall(), 3, 0)
    assert len(kept.plans.plans(HALL_ID)) == 1


def test_a_plan_that_the_gate_refuses_stays_out_and_is_named(kept, tmp_path, monkeypatch):
    write_hall(a_hall(), tmp_path / "in")
    trees = [a_tree(Dice(1, "t"), IDS[0]), a_tree(Dice(2, "t"), IDS[1])]
    write_trees(trees, tmp_path / "in" / "plans")

    def refuses(document):
        if document.core.plan_id == IDS[0]:
            raise UnsafePlanError("never")
        return document

    monkeypatch.setattr("roundwright.store.database.hall_folders.judged", refuses)
    brought = kept.folders.bring_in(tmp_path / "in", HALL_ID, by())
    assert (brought.plans, brought.refused) == (1, (IDS[0],))
    assert [one.plan_id for one in kept.plans.plans(HALL_ID)] == [IDS[1]]


@pytest.mark.parametrize("spoilt", ["no json", "another plan", "missing", "pointer"])
def test_every_fault_of_the_plans_is_told_and_nothing_is_kept(kept, tmp_path, spoilt):
    write_hall(a_hall(), tmp_path / "in")
    plans = tmp_path / "in" / "plans"
    first, second = (a_tree(Dice(n, "five"), IDS[n]) for n in (0, 4))
    assert len(first[1]) > 1
    write_trees([first, second], plans)
    file = plans / f"{IDS[0]}.r1.json"
    if spoilt == "no json":
        file.write_text("{")
    elif spoilt == "another plan":
        values = json.loads(file.read_text())
        values["core"]["class"]["rounds"] = 7
        file.write_text(json.dumps(values))
    elif spoilt == "missing":
        file.unlink()
    else:
        (plans / f"{IDS[0]}.revisions.json").write_text('{"schema": "roundwright.revisions/9"}')
    (plans / f"{IDS[4]}.r1.json").write_text("[]")
    with pytest.raises(BadInputError) as caught:
        kept.folders.bring_in(tmp_path / "in", HALL_ID, by())
    assert {f.file[:36] for f in caught.value.faults} == {IDS[0], IDS[4]}
    assert kept.halls.halls() == ()


def test_files_that_no_pointer_knows_are_left_behind(kept, tmp_path):
    write_hall(a_hall(), tmp_path / "in")
    tree = next(t for t in (a_tree(Dice(n, "p"), IDS[0]) for n in range(9)) if len(t[1]) > 1)
    write_trees([tree], tmp_path / "in" / "plans")
    core = a_document().core.model_copy(update={"plan_id": IDS[0], "revision": 99})
    write_plan(a_document().model_copy(update={"core": core}), tmp_path / "in" / "plans")
    kept.folders.bring_in(tmp_path / "in", HALL_ID, by())
    with pytest.raises(NotFoundError):
        kept.plans.opened(HALL_ID, IDS[0], 99)


def test_revisions_without_a_pointer_come_in_as_one_row(kept, tmp_path):
    write_hall(a_hall(), tmp_path / "in")
    for number in (1, 2):
        core = a_document().core.model_copy(update={"plan_id": IDS[0], "revision": number})
        write_plan(a_document().model_copy(update={"core": core}), tmp_path / "in" / "plans")
    kept.folders.bring_in(tmp_path / "in", HALL_ID, by())
    opened = kept.plans.opened(HALL_ID, IDS[0])
    assert (opened.revisions.current, opened.revisions.at(2).parent) == (2, 1)


def test_a_kept_plan_with_other_revisions_is_not_written_over(kept, tmp_path):
    write_hall(a_hall(), tmp_path / "in")
    write_trees([a_tree(Dice(1, "t"), IDS[0])], tmp_path / "in" / "plans")
    kept.folders.bring_in(tmp_path / "in", HALL_ID, by())
    other = next(t for t in (a_tree(Dice(n, "p"), IDS[0]) for n in range(9)) if len(t[1]) > 2)
    write_hall(a_hall(), tmp_path / "other")
    write_trees([other], tmp_path / "other" / "plans")
    with pytest.raises(ChangedMeanwhileError, match=IDS[0]):
        kept.folders.bring_in(tmp_path / "other", HALL_ID, by(), base_version=1)


def test_what_stands_in_a_folder_is_never_written_over(kept, tmp_path):
    begun(kept)
    (tmp_path / "out").mkdir()
    kept.folders.take_out(HALL_ID, tmp_path / "out", by())
    before = everything_in(tmp_path / "out")
    with pytest.raises(StoreError, match="something in 'out' already"):
        kept.folders.take_out(HALL_ID, tmp_path / "out", by())
    assert everything_in(tmp_path / "out") == before
    with pytest.raises(NotFoundError):
        kept.folders.take_out("nowhere", tmp_path / "new", by())
    assert [path.name for path in tmp_path.iterdir() if path.name.startswith(".")] == []


def test_a_folder_that_cannot_be_written_is_told(kept, tmp_path, monkeypatch):
    begun(kept)

    def full(*_):
        raise OSError("no space left")

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(StoreError, match="cannot be written"):
        kept.folders.take_out(HALL_ID, tmp_path / "new", by())
    assert not (tmp_path / "new").exists()
