"""The task that mends, ended after its first better answer: for real processes in tests."""

import json
import os
import signal
from collections.abc import Callable

from roundwright.optimise import worker_tasks
from roundwright.optimise.worker import Tell, Worker

HERE = "tests.changing.tasks_that_end"


def worker_with(task: str) -> Worker:
    """Give a process that mends by a task of this file."""
    return Worker(worker_tasks.TASKS | {"mend": f"{HERE}:{task}"}, preload=(worker_tasks.HERE,))


def _after_the_first(tell: Tell, ends: Callable[[], object]) -> Tell:
    def told(words: bytes) -> None:
        tell(words)
        if json.loads(words)["answer"] is not None:
            ends()

    return told


def mend_and_die(payload: bytes, tell: Tell) -> bytes:
    """End like a process that the system kills."""
    return worker_tasks.mend(
        payload, _after_the_first(tell, lambda: os.kill(os.getpid(), signal.SIGKILL))
    )


def mend_and_wait(payload: bytes, tell: Tell) -> bytes:
    """Go on for ever."""
    return worker_tasks.mend(payload, _after_the_first(tell, signal.pause))
