"""The plan of one class as it is kept, read once and again when the shelf has a newer one."""

from datetime import date
from threading import Lock

from roundwright.services.keeping.shelves import KeptPlan, PlanEntry, PlanShelf


class PlanInHand:
    """Holds the plan that a room shows, so that not every request reads and judges it.

    Whether the shelf has another state of it is asked each time: another process may have
    changed it. That costs a look at the list of the class's plans.

    Parameters
    ----------
    plans : PlanShelf
        Where plans are kept.
    hall_id, class_id, on
        Whose plans they are, of which class and day.
    """

    def __init__(self, plans: PlanShelf, hall_id: str, class_id: str, on: date) -> None:
        self._plans, self._hall_id, self._class_id, self._on = plans, hall_id, class_id, on
        self._turn = Lock()
        self._held: KeptPlan | None = None

    def entries(self) -> tuple[PlanEntry, ...]:
        """List the plans of the class on the day in the order in which they were kept."""
        return self._plans.plans(self._hall_id, [self._on], self._class_id)

    def entry(self, plan_id: str) -> PlanEntry | None:
        """Give a plan's line in the list."""
        return next((one for one in self.entries() if one.plan_id == plan_id), None)

    def opened(self, plan_id: str) -> KeptPlan:
        """Give a plan at its current revision.

        Raises
        ------
        NotFoundError
            No such plan.
        """
        now, held = self.entry(plan_id), self._held
        if (
            now is not None
            and held is not None
            and (held.document.core.plan_id, held.kept_no) == (plan_id, now.kept_no)
        ):
            return held
        return self.hold(self._plans.opened(self._hall_id, plan_id))

    def hold(self, plan: KeptPlan) -> KeptPlan:
        """Hold what was kept just now; of one plan never an older state than what is held."""
        with self._turn:
            held = self._held
            is_older = (
                held is not None
                and held.document.core.plan_id == plan.document.core.plan_id
                and held.kept_no > plan.kept_no
            )
            self._held = held if is_older else plan
        return plan

    def let_go(self) -> None:
        """Hold nothing: what is kept may have been emptied of somebody."""
        with self._turn:
            self._held = None
