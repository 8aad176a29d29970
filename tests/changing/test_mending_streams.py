"""Better answers as they are found, and what is left when a mend ends early: section C7.

The scripted process tells what the real tasks would, step by step; nothing waits for a clock.
"""

import json
from collections.abc import Callable, Iterator

import pytest

from roundwright.optimise import worker_tasks
from roundwright.optimise.changing.mender import WorkerMender
from roundwright.plan.changing import change as c
from roundwright.plan.changing.answer import NO_HARM, Answer
from roundwright.plan.outcome import Status, StoppedBy
from tests.changing.tasks_that_end import worker_with
from tests.changing.test_mender import is_sound, told
from tests.support.plans import a_fitted_plan

Told = Callable[[bytes], bool]


class InThisProcess:
    """A worker whose tasks run here; its guard may fire after so many things were told."""

    def __init__(self, ends_after: int | None = None) -> None:
        self.left = ends_after
        self.sent: list[tuple[str, int]] = []
        self.libraries: list[bool] = []

    def try_call(
        self, name: str, payload: bytes, guard_s: float | None = None, told: Told | None = None
    ) -> bytes | StoppedBy:
        self.sent.append((name, len(payload)))
        self.libraries.append(json.loads(payload).get("library") is not None)
        ended: list[StoppedBy] = []

        class Ends(Exception):
            pass

        def tell(words: bytes) -> None:
            if self.left == 0:
                ended.append(StoppedBy.GUARD)
                raise Ends
            if self.left is not None:
                self.left -= 1
            if told is not None and not told(words):
                ended.append(StoppedBy.CALLER)
                raise Ends

        try:
            answer: bytes = getattr(worker_tasks, name)(payload, tell)
        except Ends:
            return ended[0]
        return answer


@pytest.fixture(autouse=True)
def _no_library_is_known() -> Iterator[None]:
    known = dict(worker_tasks.LIBRARIES)
    worker_tasks.LIBRARIES.clear()
    yield
    worker_tasks.LIBRARIES.clear()
    worker_tasks.LIBRARIES.update(known)


def mender_of(worker: InThisProcess) -> WorkerMender:
    return WorkerMender(worker)  # type: ignore[arg-type]


def scarce() -> c.KitLost:
    """Benches, which tier 0 takes from one person too many."""
    return c.KitLost(item_id="flat_bench", units=3)


def test_answers_within_a_tier_are_told_each_better_with_bound_and_reason() -> None:
    seen: list[Answer] = []

    def better(answer: Answer) -> bool:
        seen.append(answer)
        return True

    last = told(mender_of(InThisProcess()), scarce(), on_better=better)
    of_one = [a for a in seen if a.tier <= 1]
    assert seen[0].tier == 0
    assert len(of_one) >= 3
    assert [a.harm.order for a in of_one] == sorted({a.harm.order for a in of_one}, reverse=True)
    assert all(is_sound(a) for a in seen)
    assert all(a.least.order <= a.harm.order for a in seen)
    assert all((a.still_sought is None) == (a.least == a.harm) for a in seen)
    assert seen[-1].core == last.core


def test_a_stop_in_the_middle_of_a_tier_gives_the_best_so_far() -> None:
    seen: list[Answer] = []

    def better(answer: Answer) -> bool:
        seen.append(answer)
        return answer.tier == 0

    last = told(mender_of(InThisProcess()), scarce(), on_better=better)
    assert [a.tier for a in seen] == [0, 1]
    assert last.core == seen[-1].core
    assert (last.outcome.status, last.outcome.stopped_by) == (Status.FOUND, StoppedBy.CALLER)
    assert not last.outcome.repeatable
    assert NO_HARM.order <= last.least.order <= last.harm.order
    assert is_sound(last)


@pytest.mark.parametrize("heard", [0, 1, 2])
def test_a_guard_in_the_middle_leaves_the_best_so_far_with_its_bound(heard: int) -> None:
    seen: list[Answer] = []

    def better(answer: Answer) -> bool:
        seen.append(answer)
        return True

    last = told(mender_of(InThisProcess(ends_after=heard)), scarce(), on_better=better)
    assert last.core == seen[-1].core
    assert last.tier == (1 if heard == 2 else 0)
    assert last.outcome.stopped_by is StoppedBy.GUARD
    assert (last.least == NO_HARM) == (heard == 0)
    assert last.least.order <= last.harm.order
    assert is_sound(last)


def test_the_library_goes_over_where_it_is_not_known_and_not_again() -> None:
    worker = InThisProcess()
    mender, swap = mender_of(worker), c.ExerciseSwapped(position=2)
    first = told(mender, swap)
    second = told(mender, swap)
    assert first.core.digest == second.core.digest
    calls = zip(worker.sent, worker.libraries, strict=True)
    by_swap = [has for (name, _), has in calls if name == "mend_by_swap"]
    assert by_swap == [False, True, False]
    with_it, without = max(n for _, n in worker.sent), worker.sent[-1][1]
    assert with_it - without > 500_000


def test_a_real_process_that_is_stopped_from_outside_leaves_the_best_so_far() -> None:
    worker = worker_with("mend_and_wait")
    seen: list[Answer] = []

    def better(answer: Answer) -> bool:
        seen.append(answer)
        if answer.tier == 1:
            worker.stop()
        return True

    try:
        last = told(WorkerMender(worker), scarce(), on_better=better)
        assert [a.tier for a in seen] == [0, 1]
        assert last.core == seen[-1].core
        assert last.outcome.stopped_by is StoppedBy.CALLER
        nothing_better = c.PersonLeft(person=a_fitted_plan().problem.taking_part[0])
        again = told(WorkerMender(worker), nothing_better)
        assert again.outcome.status is Status.PROVEN, "the next change has a fresh process"
    finally:
        worker.close()
