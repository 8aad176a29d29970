"""A plan that is held is read once, and anew as soon as anybody keeps another state of it."""

from collections import Counter
from datetime import date

import pytest

from roundwright.foundation.errors import NotFoundError
from roundwright.plan.changing.change import RoundDropped
from roundwright.services.keeping.shelves import KeptPlan
from roundwright.web.house.plan_in_hand import PlanInHand
from tests.store.test_plan_files import PLAN_ID
from tests.store_database.a_kept_hall import HALL_ID, begun, by
from tests.store_database.test_kept_plans import OTHER, a_plan, changed

ON = date(2026, 3, 3)


@pytest.fixture(autouse=True)
def gate_that_allows(monkeypatch):
    """Let these bare plans through; what the gate refuses has tests of its own."""
    monkeypatch.setattr("roundwright.store.database.kept_plans.judged", lambda document: document)


class Counting:
    """A shelf that counts how often a plan is read."""

    def __init__(self, plans):
        self._plans, self.read = plans, Counter()

    def opened(self, *which):
        self.read["opened"] += 1
        return self._plans.opened(*which)

    def __getattr__(self, name):
        return getattr(self._plans, name)


@pytest.fixture
def two(shared_url, opening):
    """Two programs on one database; the first one holds the plan."""
    one, other = opening(shared_url), opening(shared_url)
    begun(one)
    shelf = Counting(one.plans)
    return one, other, shelf, PlanInHand(shelf, HALL_ID, "tuesday", ON)


def test_it_is_read_once_while_nobody_keeps_anything(two):
    one, _, shelf, hand = two
    hand.hold(one.plans.keep(HALL_ID, a_plan(), by()))
    first = hand.opened(PLAN_ID)
    assert hand.opened(PLAN_ID) is first
    assert shelf.read["opened"] == 0
    hand.let_go()
    assert hand.opened(PLAN_ID) == first
    assert hand.opened(PLAN_ID) is hand.opened(PLAN_ID)
    assert shelf.read["opened"] == 1


def test_what_another_program_changes_undoes_and_redoes_is_noticed(two):
    one, other, _, hand = two
    hand.hold(one.plans.keep(HALL_ID, a_plan(), by()))
    numbers = [hand.opened(PLAN_ID).kept_no]

    def is_noticed(kept: KeptPlan) -> None:
        assert hand.opened(PLAN_ID) == kept == one.plans.opened(HALL_ID, PLAN_ID)
        numbers.append(kept.kept_no)

    second = changed(other)
    is_noticed(second)
    back = other.plans.move(HALL_ID, second.revisions.undone(), second.revisions, by())
    is_noticed(back)
    is_noticed(other.plans.move(HALL_ID, back.revisions.redone(), back.revisions, by()))
    assert numbers == sorted(set(numbers))
    assert [e.kept_no for e in one.plans.plans(HALL_ID)] == numbers[-1:]


def test_moves_that_end_at_the_same_revision_are_noticed(two):
    """There and back again: the tree of revisions has grown, though the revision is the same."""
    one, other, _, hand = two
    hand.hold(one.plans.keep(HALL_ID, a_plan(), by()))
    second = changed(other)
    back = other.plans.move(HALL_ID, second.revisions.undone(), second.revisions, by())
    assert back.revisions.current == 1
    assert hand.opened(PLAN_ID).revisions == back.revisions
    assert hand.opened(PLAN_ID).revisions.can_redo


def test_an_older_state_never_takes_the_place_of_a_newer_one(two):
    one, _, shelf, hand = two
    first = hand.hold(one.plans.keep(HALL_ID, a_plan(), by()))
    second = changed(one)
    hand.hold(second)
    hand.hold(first)
    assert hand.opened(PLAN_ID) is second
    assert shelf.read["opened"] == 0


def test_another_plan_is_read_and_one_that_is_not_there_is_not_found(two):
    one, _, _, hand = two
    hand.hold(one.plans.keep(HALL_ID, a_plan(), by()))
    elsewhere = one.plans.keep(HALL_ID, a_plan(1, OTHER.format(1), "friday"), by())
    assert hand.opened(OTHER.format(1)) == elsewhere
    grown = elsewhere.revisions.with_change(
        1, a_plan(2, OTHER.format(1), "friday").core.digest, RoundDropped(), "One round less."
    )
    now = one.plans.keep_change(
        HALL_ID, a_plan(2, OTHER.format(1), "friday"), grown, elsewhere.revisions, by()
    )
    assert hand.opened(OTHER.format(1)) == now
    with pytest.raises(NotFoundError):
        hand.opened(OTHER.format(7))
