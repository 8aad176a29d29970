"""Plans on every database: revisions never change, a pointer moves along them, the gate stands."""

from datetime import date

import pytest

from roundwright.foundation.errors import ChangedMeanwhileError, NotFoundError, UnsafePlanError
from roundwright.plan.changing.change import RoundDropped
from tests.store.test_plan_files import PLAN_ID, a_document
from tests.store_database.a_kept_hall import HALL_ID, begun, by

OTHER = "8b6d3f6e-0c2f-4e57-9f0a-3c8f5f1f2a1{}"


@pytest.fixture(autouse=True)
def gate_that_allows(monkeypatch):
    """Let these bare plans through; what the gate refuses has tests of its own."""
    monkeypatch.setattr("roundwright.store.database.kept_plans.judged", lambda document: document)


def a_plan(revision=1, plan_id=PLAN_ID, class_id="tuesday", on=date(2026, 3, 3)):
    document = a_document(class_id)
    booked = document.core.class_.model_copy(update={"starts_on": on})
    core = document.core.model_copy(
        update={"plan_id": plan_id, "revision": revision, "class_": booked}
    )
    return document.model_copy(update={"core": core})


def changed(kept, plan=None, before=None):
    """Keep a change on top of the current revision."""
    before = before or kept.plans.opened(HALL_ID, PLAN_ID).revisions
    plan = plan or a_plan(before.next_number)
    grown = before.with_change(before.current, plan.core.digest, RoundDropped(), "One round less.")
    return kept.plans.keep_change(HALL_ID, plan, grown, before, by())


def test_a_plan_comes_back_as_it_was_kept(kept):
    begun(kept)
    first = kept.plans.keep(HALL_ID, a_plan(), by())
    again = kept.plans.opened(HALL_ID, PLAN_ID)
    assert again == first
    assert again.document == a_plan()
    assert again.document.core.digest == a_plan().core.digest
    assert again.revisions.current == 1


def test_a_plan_is_kept_once(kept):
    begun(kept)
    kept.plans.keep(HALL_ID, a_plan(), by())
    with pytest.raises(ChangedMeanwhileError):
        kept.plans.keep(HALL_ID, a_plan(), by())


@pytest.mark.parametrize(
    "ask",
    [
        lambda plans: plans.opened(HALL_ID, OTHER.format(5)),
        lambda plans: plans.opened(HALL_ID, PLAN_ID, 9),
        lambda plans: plans.plans("nowhere"),
        lambda plans: plans.keep("nowhere", a_plan(), by()),
    ],
    ids=("plan", "revision", "list", "hall"),
)
def test_what_is_not_there_is_not_found(kept, ask):
    begun(kept)
    kept.plans.keep(HALL_ID, a_plan(), by())
    with pytest.raises(NotFoundError):
        ask(kept.plans)


def test_plans_are_listed_in_the_order_kept_by_day_and_class(kept):
    begun(kept)
    for number, (class_id, day) in enumerate(
        [("tuesday", 3), ("friday", 6), ("tuesday", 10), ("friday", 3)]
    ):
        plan = a_plan(1, OTHER.format(number), class_id, date(2026, 3, day))
        kept.plans.keep(HALL_ID, plan, by(minutes=number))

    def listed(**which):
        return [(one.class_id, one.on.day) for one in kept.plans.plans(HALL_ID, **which)]

    assert listed() == [("tuesday", 3), ("friday", 6), ("tuesday", 10), ("friday", 3)]
    assert listed(days={date(2026, 3, 3)}) == [("tuesday", 3), ("friday", 3)]
    assert listed(class_id="tuesday") == [("tuesday", 3), ("tuesday", 10)]
    assert listed(days=[]) == []
    recent = kept.plans.recent(HALL_ID, {date(2026, 3, 3), date(2026, 3, 6)})
    assert [one.core.class_.class_id for one in recent] == ["tuesday", "friday", "friday"]
    (first, *_) = kept.plans.plans(HALL_ID)
    assert (first.plan_id, first.revision, first.made_at) == (OTHER.format(0), 1, by().at)


def test_a_change_is_a_revision_and_undo_and_redo_move_along(kept):
    begun(kept)
    first = kept.plans.keep(HALL_ID, a_plan(), by())
    second = changed(kept)
    assert second.revisions.current == 2
    assert kept.plans.opened(HALL_ID, PLAN_ID) == second
    assert kept.plans.opened(HALL_ID, PLAN_ID, 1).document == first.document
    before = second.revisions
    back = kept.plans.move(HALL_ID, before.undone(), before, by())
    assert (back.document, back.revisions.current) == (first.document, 1)
    assert kept.plans.recent(HALL_ID, {date(2026, 3, 3)}) == (first.document,)
    on = kept.plans.move(HALL_ID, back.revisions.redone(), back.revisions, by())
    assert on.document == second.document
    assert kept.plans.opened(HALL_ID, PLAN_ID) == on


def test_a_plan_that_was_changed_last_is_last_in_the_order(kept):
    begun(kept)
    kept.plans.keep(HALL_ID, a_plan(), by())
    kept.plans.keep(HALL_ID, a_plan(plan_id=OTHER.format(1)), by())
    changed(kept)
    assert [one.plan_id for one in kept.plans.plans(HALL_ID)] == [OTHER.format(1), PLAN_ID]


def test_who_changes_a_plan_that_was_changed_is_told_what_was_done(kept):
    begun(kept)
    before = kept.plans.keep(HALL_ID, a_plan(), by()).revisions
    changed(kept)
    with pytest.raises(ChangedMeanwhileError, match="One round less"):
        changed(kept, before=before)
    with pytest.raises(ChangedMeanwhileError):
        kept.plans.move(HALL_ID, before, before, by())
    assert kept.plans.opened(HALL_ID, PLAN_ID).revisions.current == 2


def test_undo_that_meets_a_change_undone_already_is_told(kept):
    begun(kept)
    kept.plans.keep(HALL_ID, a_plan(), by())
    before = changed(kept).revisions
    kept.plans.move(HALL_ID, before.undone(), before, by())
    with pytest.raises(ChangedMeanwhileError):
        changed(kept, before=before)


def test_a_document_that_is_not_the_revision_is_refused(kept):
    begun(kept)
    before = kept.plans.keep(HALL_ID, a_plan(), by()).revisions
    other = a_plan(2, class_id="friday")
    grown = before.with_change(1, a_plan(2).core.digest, RoundDropped(), "")
    with pytest.raises(ChangedMeanwhileError):
        kept.plans.keep_change(HALL_ID, other, grown, before, by())


def test_what_the_gate_refuses_is_not_kept(kept, monkeypatch):
    begun(kept)
    kept.plans.keep(HALL_ID, a_plan(), by())

    def refuses(_):
        raise UnsafePlanError("[jumps] never")

    monkeypatch.setattr("roundwright.store.database.kept_plans.judged", refuses)
    with pytest.raises(UnsafePlanError):
        kept.plans.keep(HALL_ID, a_plan(plan_id=OTHER.format(1)), by())
    with pytest.raises(UnsafePlanError):
        changed(kept)
    assert [one.revision for one in kept.plans.plans(HALL_ID)] == [1]


def test_plans_stay_when_a_hall_is_imported_and_go_with_it(kept):
    begun(kept)
    kept.plans.keep(HALL_ID, a_plan(), by())
    opened = kept.halls.opened(HALL_ID)
    kept.halls.replace(HALL_ID, opened.hall, 1, by())
    assert len(kept.plans.plans(HALL_ID)) == 1
    kept.halls.remove(HALL_ID, by())
    begun(kept)
    assert kept.plans.plans(HALL_ID) == ()
    with pytest.raises(NotFoundError):
        kept.plans.opened(HALL_ID, PLAN_ID)
