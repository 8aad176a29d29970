"""What a task tells before its answer is with the caller, whatever becomes of the process."""

import os
import signal
import threading

import pytest

from roundwright.foundation.errors import RoundwrightError
from roundwright.optimise.worker import Worker
from roundwright.plan.outcome import StoppedBy

TASKS = {
    name: f"tests.worker.slow_work:{name}"
    for name in ("echo", "tells_and_answers", "tells_and_hangs", "tells_for_ever")
}


@pytest.fixture(scope="module")
def worker():
    made = Worker(TASKS, guard_s=60)
    yield made
    made.close()


@pytest.fixture
def begun(tmp_path):
    path = tmp_path / "begun"
    os.mkfifo(path)
    return path


def _when_begun(path, then) -> threading.Thread:
    def wait_and_do() -> None:
        assert path.read_bytes() == b"begun"
        then()

    thread = threading.Thread(target=wait_and_do)
    thread.start()
    return thread


def _and_on(heard):
    def told(words: bytes) -> bool:
        heard.append(words)
        return True

    return told


def test_it_is_heard_in_order_and_the_answer_comes_last(worker):
    heard = []
    answer = worker.try_call("tells_and_answers", b"a,b,c", told=_and_on(heard))
    assert (heard, answer) == ([b"a", b"b", b"c"], b"the last of a,b,c")


def test_who_does_not_listen_gets_the_answer_alone(worker):
    assert worker.call("tells_and_answers", b"a,b") == b"the last of a,b"
    assert worker.call("echo", b"next") == b"next"


def test_killed_in_the_middle_20_times_what_was_told_is_kept_and_the_next_call_works(worker, begun):
    for turn in range(20):
        worker.start()
        number, heard = worker.pid, []
        thread = _when_begun(begun, lambda n=number: os.kill(n, signal.SIGKILL))
        with pytest.raises(RoundwrightError, match="in the middle") as caught:
            worker.try_call("tells_and_hangs", str(begun).encode(), told=_and_on(heard))
        thread.join()
        assert heard == [b"first", b"second"]
        assert "started afresh" in caught.value.next_step
        assert worker.call("echo", str(turn).encode()) == str(turn).encode()


def test_the_listener_may_end_it_and_hears_no_more(worker):
    heard = []

    def enough(words: bytes) -> bool:
        heard.append(words)
        return len(heard) < 3

    assert worker.try_call("tells_for_ever", b"x", told=enough) is StoppedBy.CALLER
    assert heard == [b"x"] * 3
    assert worker.call("echo", b"next") == b"next"


def test_a_guard_and_a_stop_leave_what_was_told(worker, begun):
    heard = []
    thread = _when_begun(begun, lambda: None)
    payload = str(begun).encode()
    ended = worker.try_call("tells_and_hangs", payload, guard_s=3.0, told=_and_on(heard))
    assert (ended, heard) == (StoppedBy.GUARD, [b"first", b"second"])
    thread.join()
    heard.clear()
    thread = _when_begun(begun, worker.stop)
    ended = worker.try_call("tells_and_hangs", payload, told=_and_on(heard))
    thread.join()
    assert (ended, heard) == (StoppedBy.CALLER, [b"first", b"second"])


@pytest.mark.parametrize("error", [ValueError, OSError, KeyboardInterrupt])
def test_what_the_listener_raises_is_raised_and_nothing_is_left_for_the_next_call(worker, error):
    def breaks(_: bytes) -> bool:
        raise error

    with pytest.raises(error):
        worker.try_call("tells_for_ever", b"x", told=breaks)
    assert worker.call("echo", b"next") == b"next"


def test_the_guard_of_a_call_that_is_over_does_not_end_the_next_one(worker):
    assert worker.try_call("echo", b"first", guard_s=30.0) == b"first"
    number = worker.pid
    assert not worker._end_call(StoppedBy.GUARD, worker._calls)
    assert worker.call("echo", b"second") == b"second"
    assert worker.pid == number
