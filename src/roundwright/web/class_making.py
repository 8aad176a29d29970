"""The classes of a served page: the first one, and each that is chosen on it. Nothing is kept."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date
from functools import partial
from typing import Protocol

from roundwright.bootstrap.wiring import Adapters
from roundwright.foundation.words import shown_units
from roundwright.hall.hall import Hall
from roundwright.plan.build_planning import PlanWishes, is_complete
from roundwright.plan.document import PlanDocument
from roundwright.plan.outcome import Budget, Status, StoppedBy
from roundwright.services.clash_words import shopping_line
from roundwright.services.fit_class import FitRequest, fit_class
from roundwright.services.judged_plan import judged_plan
from roundwright.services.late_class import with_ways_on_time
from roundwright.services.plan_class import OnBetter, PlannedClass, PlanRequest, plan_class
from roundwright.services.ports import Adviser, ClassPlanner
from roundwright.web.best_so_far import SoFar
from roundwright.web.page_state import PageState, Standing, state_of_plan, state_without_plan


class PagePlanner(ClassPlanner, Adviser, Protocol):
    """Who chooses a class for the page and explains why there is none."""


@dataclass(frozen=True, slots=True)
class ChosenClass:
    """The page of a choice, and how its search ended."""

    state: PageState
    status: Status
    document: PlanDocument | None = None


@dataclass(frozen=True, slots=True)
class ClassMaking:
    """Makes the page of one class of a hall on one day, fitted or planned."""

    adapters: Adapters
    hall: Hall
    class_id: str
    day: date
    kept: Sequence[PlanDocument]
    planner: PagePlanner
    port: int

    def fitted(self) -> PageState:
        """Give the page of the class as its file has it."""
        return self.fitted_class().state

    def fitted_class(self) -> ChosenClass:
        """Fit the class as its file has it."""
        fitted = fit_class(
            self.hall,
            FitRequest(self.class_id, self.day),
            planner=self.adapters.planner,
            clock=self.adapters.clock,
            ids=self.adapters.ids,
            rehearse=self.adapters.rehearse,
        )
        if fitted.document is None:
            state = state_without_plan(fitted.problem, fitted.outcome, self.hall, self.port)
            return ChosenClass(state, fitted.outcome.status)
        return ChosenClass(self.page_of(fitted.document), fitted.outcome.status, fitted.document)

    def planned_first(self) -> PageState:
        """Give the page of a planned class: completed where its file leaves places, else anew."""
        return self.first_class().state

    def first_class(
        self, budget: Budget = Budget.NORMAL, on_better: OnBetter | None = None
    ) -> ChosenClass:
        """Plan the class: completed where its file leaves places, else anew.

        Parameters
        ----------
        on_better : callable, optional
            Told of each better class as it is found; gives whether to go on.
        """
        planned = self._planned(PlanWishes(anew=self._is_complete()), budget, on_better)
        return ChosenClass(self._page(planned), planned.outcome.status, planned.document)

    def kept_from_start(self) -> frozenset[str]:
        """Give the exercises that a planned class keeps from its file."""
        if self._is_complete():
            return frozenset()
        wish = self.hall.classes.get(self.class_id)
        return frozenset(e.exercise for e in wish.exercise) if wish else frozenset()

    def choose(self, wishes: PlanWishes, on_better: OnBetter | None = None) -> ChosenClass:
        """Give another class for some wishes, quickly."""
        planned = self._planned(wishes, Budget.QUICK, on_better)
        return ChosenClass(self._page(planned), planned.outcome.status, planned.document)

    def _is_complete(self) -> bool:
        wish = self.hall.classes.get(self.class_id)
        return wish is not None and is_complete(wish)

    def _planned(
        self, wishes: PlanWishes, budget: Budget, on_better: OnBetter | None
    ) -> PlannedClass:
        return plan_class(
            self.hall,
            PlanRequest(self.class_id, self.day, wishes, budget=budget),
            planner=self.planner,
            clock=self.adapters.clock,
            ids=self.adapters.ids,
            kept=self.kept,
            rehearse=self.adapters.rehearse,
            adviser=self.planner,
            on_better=on_better,
        )

    def _page(self, planned: PlannedClass) -> PageState:
        if planned.document is None:
            return state_without_plan(planned.problem, planned.outcome, self.hall, self.port)
        return self.page_of(planned.document)

    def page_of(self, document: PlanDocument) -> PageState:
        """Give the page of a plan; what ends a late class on time is asked of the warm process."""
        document = with_ways_on_time(document, document.outcome.seed, self.planner)
        state = state_of_plan(
            document,
            self.hall,
            self.adapters.clock.stamp(),
            self.port,
            self.adapters.pictures_of(self.hall),
        )
        if state.standing is not Standing.READY:
            return state
        return replace(state, worth_buying=partial(self._worth_buying, document))

    def so_far(self, document: PlanDocument) -> SoFar:
        """Give a class that a search has told of with its page, without pictures."""
        stamp = self.adapters.clock.stamp()
        return SoFar(document, state_of_plan(document, self.hall, stamp, self.port))

    def taken(self, chosen: ChosenClass, taken: PlanDocument | None) -> ChosenClass:
        """Give what a search came to, or the class that somebody took before it ended.

        What is taken passes the gate and is played through like any other plan.

        Raises
        ------
        UnsafePlanError
            The gate says never.
        """
        found = chosen.document
        if taken is None or (found is not None and found.core.digest == taken.core.digest):
            return chosen
        update = {"status": Status.FOUND, "stopped_by": StoppedBy.CALLER, "repeatable": False}
        outcome = taken.outcome.model_copy(update=update)
        rehearse = self.adapters.rehearse
        document = judged_plan(taken.core, taken.problem, outcome, outcome.seed, rehearse)
        return ChosenClass(self.page_of(document), outcome.status, document)

    def _worth_buying(self, document: PlanDocument) -> str:
        """Say what would help a class most if the hall had it, asking the warm process."""
        problem, seed = document.problem, document.outcome.seed
        wishes = self.planner.shopping(problem, document.core, seed)
        return shopping_line(wishes, problem, shown_units(self.hall.settings.units.value))
