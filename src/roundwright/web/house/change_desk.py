"""Changes of the plan of one class: the first safe answer is kept at once, a better one is offered.

The search goes on beside the page. What it finds waits here until somebody takes it; another
change, or going back, ends it.
"""

from dataclasses import dataclass
from threading import Event, Lock, Thread

from roundwright.foundation.errors import RoundwrightError
from roundwright.plan.changing.change import Banned, Change, ExerciseSwapped
from roundwright.services.changing.better_answer import taken_instead
from roundwright.services.changing.change_plan import ChangedPlan, Changing, change_plan
from roundwright.services.changing.moves import Way, moved
from roundwright.services.keeping.shelves import Actor, KeptPlan, PlanShelf
from roundwright.web.house.plan_in_hand import PlanInHand

FIRST_WAIT_S = 20.0
"""Seconds within which a first answer is there; it takes some hundredths. Our choice."""
CHOOSING_WAIT_S = 4.0
"""Seconds that an answer waits for a better one before it is kept, where the tool is to choose an
exercise: the first answer leaves the old one there. All other answers are kept at once. Our choice.
"""
HEAD_START_S = 0.4
"""Seconds after an answer was kept before a better one is looked for: the page is made and painted
first, which the search would slow down. Our choice.
"""


@dataclass(frozen=True, slots=True)
class DeskView:
    """What the page shows of the last change: its answer, and what is still looked for."""

    answer: ChangedPlan | None
    better: ChangedPlan | None
    is_looking: bool


@dataclass
class _Search:
    """One search for answers to a change, in a thread of its own."""

    first: ChangedPlan | None = None
    latest: ChangedPlan | None = None
    fault: Exception | None = None
    head_start_s: float = 0.0

    def __post_init__(self) -> None:
        self.has_first, self.done, self.may_go_on = Event(), Event(), Event()
        self.left = Event()

    def hear(self, changed: ChangedPlan) -> bool:
        """Take an answer; gives whether to go on, once the first one is kept."""
        is_first, self.first = self.first is None, self.first or changed
        self.latest = changed
        self.has_first.set()
        self.may_go_on.wait(FIRST_WAIT_S)
        if is_first:
            self.left.wait(self.head_start_s)
        return not self.left.is_set()


class ChangeDesk:
    """Answers changes of the plans of one class.

    Parameters
    ----------
    plans : PlanShelf
        Where plans are kept.
    hall_id : str
        Whose plans they are.
    in_hand : PlanInHand
        The plan that is shown, so that it is not read at each press.
    """

    def __init__(self, plans: PlanShelf, hall_id: str, in_hand: PlanInHand) -> None:
        self._plans, self._hall_id, self._in_hand = plans, hall_id, in_hand
        self._lock = Lock()
        self._search: _Search | None = None
        self._answer: ChangedPlan | None = None

    def view(self) -> DeskView:
        """Give what the page shows of the last change."""
        search, answer = self._search, self._answer
        if search is None or answer is None:
            return DeskView(answer, None, is_looking=False)
        latest = search.latest
        better = latest if latest and latest.harm.order < answer.harm.order else None
        return DeskView(answer, better, is_looking=not search.done.is_set())

    def ask(
        self, plan_id: str, change: Change, base_revision: int, using: Changing, by: Actor
    ) -> KeptPlan:
        """Answer a change at once and keep the answer; the search for a better one goes on.

        Raises
        ------
        RoundwrightError
            As `change_plan`; nothing was changed then.
        """
        with self._lock:
            self._leave()
            kept = self._in_hand.opened(plan_id)
            search = _Search(head_start_s=0.0 if _chooses(change) else HEAD_START_S)

            def look() -> None:
                try:
                    search.hear(
                        change_plan(
                            kept.document,
                            kept.revisions,
                            change,
                            base_revision,
                            using=using,
                            on_better=search.hear,
                        )
                    )
                except Exception as error:
                    search.fault = error
                search.done.set()
                search.has_first.set()

            Thread(target=look, daemon=True).start()
            search.has_first.wait(FIRST_WAIT_S)
            if _chooses(change):
                search.may_go_on.set()
                search.done.wait(CHOOSING_WAIT_S)
            try:
                answer = search.latest
                if answer is None:
                    search.left.set()
                    raise search.fault or RoundwrightError("No answer came in time. Ask again.")
                grown = self._plans.keep_change(
                    self._hall_id, answer.document, answer.revisions, kept.revisions, by
                )
            finally:
                search.may_go_on.set()
            self._search, self._answer = search, answer
            return self._in_hand.hold(grown)

    def take_better(self, plan_id: str, base_revision: int, using: Changing, by: Actor) -> KeptPlan:
        """Keep the better answer in the place of the first one.

        Raises
        ------
        ChangedMeanwhileError
            The plan was changed since.
        """
        with self._lock:
            better = self.view().better
            kept = self._in_hand.opened(plan_id)
            kept.revisions.require_current(base_revision)
            if better is None:
                return kept
            taken = taken_instead(better, kept.revisions, using.seed, using.rehearse)
            grown = self._plans.keep_change(
                self._hall_id, taken.document, taken.revisions, kept.revisions, by
            )
            self._answer = better
            return self._in_hand.hold(grown)

    def move(self, plan_id: str, way: Way, base_revision: int, by: Actor) -> KeptPlan:
        """Undo or redo.

        Raises
        ------
        ChangedMeanwhileError
            The plan is at another revision now.
        NotFoundError
            There is nothing to undo or redo.
        """
        with self._lock:
            self._leave()
            kept = self._in_hand.opened(plan_id)
            after = moved(kept.revisions, way, base_revision)
            return self._in_hand.hold(self._plans.move(self._hall_id, after, kept.revisions, by))

    def _leave(self) -> None:
        if self._search is not None:
            self._search.left.set()
        self._search = self._answer = None


def _chooses(change: Change) -> bool:
    """Say whether the tool is to choose an exercise."""
    if isinstance(change, ExerciseSwapped):
        return change.exercise_id is None
    return isinstance(change, Banned)
