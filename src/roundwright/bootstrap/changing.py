"""Who answers changes of plans: at once in this process, then in a warm one."""

from collections.abc import Iterator
from contextlib import contextmanager

from roundwright.bootstrap.wiring import Adapters
from roundwright.foundation.seeds import DEFAULT_SEED
from roundwright.hall.hall import Hall
from roundwright.optimise.changing.mender import WorkerMender
from roundwright.optimise.planning_by_worker import planning_worker
from roundwright.plan.outcome import Budget
from roundwright.services.changing.change_plan import Changing


@contextmanager
def mender_process() -> Iterator[WorkerMender]:
    """Give who answers changes: at once here, better in a process that ends with the block."""
    worker = planning_worker()
    try:
        yield WorkerMender(worker)
    finally:
        worker.close()


@contextmanager
def changing(
    adapters: Adapters,
    hall: Hall,
    *,
    seed: int = DEFAULT_SEED,
    budget: Budget = Budget.NORMAL,
) -> Iterator[Changing]:
    """Give what changes of a hall's plans are answered with; its process ends with the block."""
    with mender_process() as mender:
        yield Changing(
            library=hall.catalogue,
            mender=mender,
            rehearse=adapters.rehearse,
            seed=seed,
            budget=budget,
            units=hall.settings.units.value,
        )
