"""Two programs that write at once: both wait their turn, and of two that meet one is told."""

from concurrent.futures import ThreadPoolExecutor
from threading import Barrier

import pytest

from roundwright.foundation.errors import ChangedMeanwhileError
from roundwright.plan.changing.change import RoundDropped
from roundwright.services.keeping.shelves import TrailEntry
from tests.store.test_plan_files import PLAN_ID, a_document
from tests.store_database.a_kept_hall import BEGUN, HALL_ID, begun, by, person_edit

TIMES = 12


def both(one, other):
    """Run two things that wait for each other before each begins."""
    barrier = Barrier(2)

    def after_the_other(ask):
        barrier.wait(10)
        try:
            return ask()
        except ChangedMeanwhileError as error:
            return error

    with ThreadPoolExecutor(2) as pool:
        return [each.result(60) for each in [pool.submit(after_the_other, f) for f in (one, other)]]


def test_of_two_who_change_one_record_one_is_told(shared_url, opening):
    one, other = opening(shared_url), opening(shared_url)
    version = begun(one).version
    for turn in range(1, TIMES + 1):
        told = both(
            lambda turn=turn: one.halls.edit(
                HALL_ID, [person_edit(turn, shown_name=f"One {turn}")], by()
            ),
            lambda turn=turn: other.halls.edit(
                HALL_ID, [person_edit(turn, shown_name=f"Other {turn}")], by()
            ),
        )
        errors = [each for each in told if isinstance(each, ChangedMeanwhileError)]
        assert len(errors) == 1
        version += 1
        (kept,) = [each for each in told if not isinstance(each, ChangedMeanwhileError)]
        assert kept.version == version
        now = one.halls.opened(HALL_ID)
        assert now.version == other.halls.opened(HALL_ID).version == version
        assert now.hall.person("p002") == kept.hall.person("p002")


def test_two_who_change_different_records_both_succeed(shared_url, opening):
    one, other = opening(shared_url), opening(shared_url)
    begun(one)
    for turn in range(1, TIMES + 1):
        told = both(
            lambda turn=turn: one.halls.edit(
                HALL_ID, [person_edit(turn, shown_name=f"Sunny {turn}")], by()
            ),
            lambda turn=turn: other.halls.edit(
                HALL_ID, [person_edit(turn, "p003", shown_name=f"Ivo {turn}")], by()
            ),
        )
        assert sorted(each.version for each in told) == [2 * turn, 2 * turn + 1]
    hall = one.halls.opened(HALL_ID).hall
    assert [p.shown_name for p in hall.people] == ["Maren T", f"Sunny {TIMES}", f"Ivo {TIMES}"]


def test_of_two_who_change_one_plan_one_is_told(shared_url, opening, monkeypatch):
    monkeypatch.setattr("roundwright.store.database.kept_plans.judged", lambda document: document)
    one, other = opening(shared_url), opening(shared_url)
    begun(one)
    before = one.plans.keep(HALL_ID, a_document(), by()).revisions

    def change(kept, class_id):
        document = a_document(class_id)
        core = document.core.model_copy(update={"revision": 2})
        document = document.model_copy(update={"core": core})
        grown = before.with_change(1, core.digest, RoundDropped(), f"Done for {class_id}.")
        return lambda: kept.plans.keep_change(HALL_ID, document, grown, before, by())

    told = both(change(one, "tuesday"), change(other, "friday"))
    errors = [each for each in told if isinstance(each, ChangedMeanwhileError)]
    assert len(errors) == 1
    assert "Done for" in errors[0].detail
    now = one.plans.opened(HALL_ID, PLAN_ID)
    (kept,) = [each for each in told if not isinstance(each, ChangedMeanwhileError)]
    assert now == kept


def test_of_two_who_begin_one_hall_one_is_told(shared_url, opening):
    one, other = opening(shared_url), opening(shared_url)
    told = both(lambda: begun(one), lambda: begun(other))
    assert sum(isinstance(each, ChangedMeanwhileError) for each in told) == 1
    assert one.halls.version(HALL_ID) == 1


@pytest.mark.parametrize("which", ["memory", "file"])
def test_many_threads_of_one_program_take_turns(which, tmp_path, opening):
    kept = opening("sqlite://" if which == "memory" else f"sqlite:///{tmp_path / 'house.db'}")
    begun(kept)

    def work(number):
        kept.trail.add([TrailEntry(BEGUN, None, "coach", f"thing.{number}", HALL_ID)])
        return kept.halls.opened(HALL_ID).version

    with ThreadPoolExecutor(8) as pool:
        assert set(pool.map(work, range(40))) == {1}
    assert len(kept.trail.entries(HALL_ID)) == 41
