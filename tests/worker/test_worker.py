"""The process that searches run in: killed, stuck or stopped, it comes back."""

import os
import signal
import threading
from pathlib import Path

import pytest

from roundwright.foundation.errors import (
    BadInputError,
    NotFoundError,
    RoundwrightError,
    UndecidedError,
)
from roundwright.optimise.worker import Worker
from roundwright.plan.outcome import StoppedBy

TASKS = {
    name: f"tests.worker.slow_work:{name}"
    for name in ("echo", "own_number", "never_ends", "finds_faults", "finds_nothing", "breaks")
}


@pytest.fixture(scope="module")
def worker():
    made = Worker(TASKS, guard_s=60)
    yield made
    made.close()


@pytest.fixture
def begun(tmp_path) -> Path:
    """Give a named pipe by which a task says that it has begun."""
    path = tmp_path / "begun"
    os.mkfifo(path)
    return path


def _when_begun(path: Path, then) -> threading.Thread:
    def wait_and_do() -> None:
        assert path.read_bytes() == b"begun"
        then()

    thread = threading.Thread(target=wait_and_do)
    thread.start()
    return thread


def test_it_is_one_warm_process_and_not_this_one(worker):
    first, again = (int(worker.call("own_number", b"")) for _ in range(2))
    assert first == again == worker.pid
    assert first != os.getpid()


def test_bytes_of_any_size_and_kind_come_back_as_they_were(worker):
    payload = bytes(range(256)) * 20_000
    assert worker.call("echo", payload) == payload


def test_killed_in_the_middle_20_times_each_caller_is_told_and_the_next_call_works(worker, begun):
    seen = set()
    for turn in range(20):
        worker.start()
        number = worker.pid
        seen.add(number)
        thread = _when_begun(begun, lambda n=number: os.kill(n, signal.SIGKILL))
        with pytest.raises(RoundwrightError, match="in the middle") as caught:
            worker.call("never_ends", str(begun).encode())
        thread.join()
        assert "started afresh" in caught.value.next_step
        assert worker.call("echo", str(turn).encode()) == str(turn).encode()
    assert len(seen) == 20


def test_killed_while_idle_the_next_call_does_not_notice(worker):
    number = int(worker.call("own_number", b""))
    os.kill(number, signal.SIGKILL)
    os.waitid(os.P_PID, number, os.WEXITED | os.WNOWAIT)
    assert int(worker.call("own_number", b"")) != number


def test_the_guard_ends_what_hangs(worker, begun):
    worker.start()
    thread = _when_begun(begun, lambda: None)
    payload = str(begun).encode()
    assert worker.try_call("never_ends", payload, guard_s=3.0) is StoppedBy.GUARD
    thread.join()
    thread = _when_begun(begun, lambda: None)
    with pytest.raises(UndecidedError, match="longer than it may"):
        worker.call("never_ends", payload, guard_s=3.0)
    thread.join()
    assert worker.call("echo", b"next") == b"next"


def test_a_caller_may_stop_it(worker, begun):
    stopped = []
    thread = _when_begun(begun, lambda: stopped.append(worker.stop()))
    with pytest.raises(UndecidedError, match="was stopped"):
        worker.call("never_ends", str(begun).encode())
    thread.join()
    assert stopped == [True]
    assert worker.call("echo", b"next") == b"next"


def test_there_is_nothing_to_stop_while_it_is_idle(worker):
    number = int(worker.call("own_number", b""))
    assert not worker.stop()
    assert int(worker.call("own_number", b"")) == number


def test_faults_come_back_as_the_same_error(worker):
    with pytest.raises(BadInputError) as caught:
        worker.call("finds_faults", b"")
    assert [f.field for f in caught.value.faults] == ["keep"]
    with pytest.raises(NotFoundError) as missing:
        worker.call("finds_nothing", b"")
    assert missing.value.next_step == "Look elsewhere."


def test_what_breaks_inside_tells_only_its_kind(worker):
    with pytest.raises(RoundwrightError) as caught:
        worker.call("breaks", b"")
    assert "ValueError" in caught.value.detail
    assert "canary" not in caught.value.detail
    assert worker.call("echo", b"still there") == b"still there"


def test_an_unknown_task_is_told_without_a_process():
    with pytest.raises(RoundwrightError, match="no task"):
        Worker(TASKS).call("dance", b"")


def test_closing_ends_the_process():
    closed = Worker(TASKS)
    number = int(closed.call("own_number", b""))
    closed.close()
    assert closed.pid is None
    with pytest.raises(ProcessLookupError):
        os.kill(number, 0)
