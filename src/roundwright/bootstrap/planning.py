"""Which planner chooses classes: in this process for a command, in a warm one for a page."""

from collections.abc import Iterator
from contextlib import contextmanager

from roundwright.optimise.class_search import ClassSearch
from roundwright.optimise.planning_by_worker import WorkerPlanner, planning_worker
from roundwright.optimise.worker import Worker


def class_search() -> ClassSearch:
    """Give the planner that searches in this process."""
    return ClassSearch()


@contextmanager
def planner_process() -> Iterator[tuple[Worker, WorkerPlanner]]:
    """Give a warm process that plans, and the planner that asks it; it ends with the block."""
    worker = planning_worker()
    try:
        yield worker, WorkerPlanner(worker)
    finally:
        worker.close()
