"""Who answers changes of plans: at once in this process, and by search in a warm one."""

from collections.abc import Iterator
from contextlib import contextmanager

from roundwright.optimise.changing.mender import WorkerMender
from roundwright.optimise.planning_by_worker import planning_worker


@contextmanager
def mending_process() -> Iterator[WorkerMender]:
    """Give who answers changes; the process ends with the block."""
    worker = planning_worker()
    try:
        yield WorkerMender(worker)
    finally:
        worker.close()
