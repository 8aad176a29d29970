"""Undo and redo move a pointer along immutable revisions."""

import random
from typing import Literal

import pytest

from roundwright.foundation.errors import ChangedMeanwhileError, NotFoundError
from roundwright.plan.changing.change import SlotChanged
from roundwright.plan.changing.revisions import Revision, Revisions

PLAN = "6d0c5a52-57b6-4f0e-9d5a-0f6f0d6f2c11"
A_CHANGE = SlotChanged(slot_s=2700)


def _begun() -> Revisions:
    return Revisions.begun(PLAN, "digest 1")


def test_undo_and_redo_come_back_to_equal_digests() -> None:
    two = _begun().with_change(1, "digest 2", A_CHANGE, "The class is shorter.")
    assert two.current == 2
    assert two.undone().at(two.undone().current).digest == "digest 1"
    assert two.undone().redone() == two.model_copy(update={"ways_forward": {1: 2}})


def test_a_change_after_undo_makes_a_branch_and_the_old_one_stays() -> None:
    tree = _begun().with_change(1, "digest 2", A_CHANGE, "One.").undone()
    tree = tree.with_change(1, "digest 3", A_CHANGE, "Other.")
    assert (tree.current, tree.at(2).digest) == (3, "digest 2")
    assert tree.undone().redone().current == 3


def test_nothing_moves_where_there_is_nowhere_to_go() -> None:
    tree = _begun()
    assert not tree.can_undo
    assert not tree.can_redo
    assert tree.undone() == tree == tree.redone()


def test_a_stale_edit_is_told_what_changed() -> None:
    tree = _begun().with_change(1, "digest 2", A_CHANGE, "The class ends at 18:45.")
    with pytest.raises(ChangedMeanwhileError, match=r"The class ends at 18:45\."):
        tree.with_change(1, "digest 3", A_CHANGE, "Mine.")
    with pytest.raises(ChangedMeanwhileError, match="revision 1 now"):
        tree.undone().require_current(2)


def test_a_revision_that_is_not_there() -> None:
    with pytest.raises(NotFoundError):
        _begun().at(9)


@pytest.mark.parametrize(
    ("revisions", "current"),
    [
        ((Revision(revision=2, parent=1, digest="d"),), 2),
        ((Revision(revision=1, digest="d"), Revision(revision=1, digest="e")), 1),
        ((Revision(revision=1, digest="d"),), 7),
    ],
)
def test_what_is_no_tree_is_not_read(revisions: tuple[Revision, ...], current: int) -> None:
    with pytest.raises(ValueError, match="revision"):
        Revisions(plan_id=PLAN, revisions=revisions, current=current)


@pytest.mark.parametrize("seed", range(500))
def test_random_histories_against_a_plain_model(seed: int) -> None:
    """Keep parents and last children in plain dictionaries and compare after every step."""
    dice = random.Random(seed)
    tree = _begun()
    digests, parents, children, at = {1: "digest 1"}, {1: 0}, dict[int, int](), 1
    for step in range(dice.randint(5, 40)):
        act: Literal["edit", "undo", "redo"] = dice.choice(["edit", "undo", "redo"])
        if act == "edit":
            new = len(digests) + 1
            digests[new], parents[new] = f"digest {new}", at
            tree = tree.with_change(at, digests[new], A_CHANGE, f"Step {step}.")
            children[at] = new
            at = new
        elif act == "undo" and parents[at]:
            children[parents[at]] = at
            at = parents[at]
            tree = tree.undone()
        elif act == "redo" and at in children:
            at = children[at]
            tree = tree.redone()
        assert tree.current == at
        assert tree.at(tree.current).digest == digests[at]
        assert tree.can_undo == bool(parents[at])
        assert tree.can_redo == (at in children)
    assert Revisions.model_validate_json(tree.model_dump_json()) == tree
