"""The class on the page as it is chosen: what is kept, what comes instead, and the one before.

A choice runs in a thread of its own and hands over a plan that the gate has judged; until
then, and whenever there is none, the class that is shown stays.
"""

from collections.abc import Callable
from contextvars import copy_context
from dataclasses import dataclass, replace
from functools import cached_property, partial
from threading import Event, Lock, Thread
from typing import Protocol

from roundwright.foundation.errors import ChangedMeanwhileError, NotFoundError, RoundwrightError
from roundwright.foundation.words import say
from roundwright.plan.build_planning import KeptWish, PlanWishes
from roundwright.plan.core import Core
from roundwright.plan.outcome import Status
from roundwright.web.best_so_far import BestSoFar, SoFar
from roundwright.web.length_choices import (
    AS_THE_CLASS_SAYS,
    Entry,
    Lengths,
    rounds_list,
    work_rest_list,
)
from roundwright.web.page_state import Buying, PageState, Standing
from roundwright.web.texts import say_again

SHORT_WAIT_S = 0.8
"""Seconds that an answer waits for a quick choice before it says 'Planning…'; our choice."""


class Chosen(Protocol):
    """What a choice gives back: the page of its plan, or of why there is none."""

    @property
    def state(self) -> PageState:
        """The page of the class, or of the clash."""

    @property
    def status(self) -> Status:
        """How the search ended."""


Choose = Callable[[PlanWishes], Chosen]


@dataclass(frozen=True)
class Notice:
    """What came of the last choice when it gave no other class."""

    title: str
    lines: tuple[str, ...] = ()
    ways: tuple[str, ...] = ()


@dataclass(frozen=True)
class _Shown:
    """One class as it was shown, with what was kept, left out and taken of lengths then."""

    state: PageState
    kept: frozenset[int] = frozenset()
    left_out: frozenset[str] = frozenset()
    lengths: Lengths = AS_THE_CLASS_SAYS

    @cached_property
    def token(self) -> str:
        """A short mark of the class: an action names the class that it was meant for."""
        return self.state.core.digest[:16] if self.state.core else "none"

    @property
    def exercises(self) -> dict[int, str]:
        """The exercises by place."""
        return _exercises(self.state.core)


@dataclass(frozen=True)
class DeskView:
    """What the page shows beside the class: kept places, and what can be pressed.

    `rounds` and `work_rest` are the lists that another class is asked with. `is_planning` says
    that an answer is awaited, `is_shopping` that it is what is worth buying; `so_far` is the best
    class that was found until now, `news` counts those that were told of.
    """

    token: str
    kept: frozenset[int]
    may_go_back: bool
    is_planning: bool
    notice: Notice | None
    may_shop: bool = False
    is_shopping: bool = False
    rounds: tuple[Entry, ...] = ()
    work_rest: tuple[Entry, ...] = ()
    base: str = ""
    so_far: SoFar | None = None
    news: int = 0


class PlanningDesk:
    """Holds the class that is shown, and has another one chosen when it is asked.

    Parameters
    ----------
    first : PageState
        The class to begin with.
    choose : callable
        Gives another class for some wishes; it may take long and runs beside the page.
    stop : callable
        Ends the choice that is being made.
    kept : frozenset of str
        Exercises that are kept from the start.
    again : callable, optional
        Has a class that was shown before stand once more, and gives its page.
    """

    def __init__(
        self,
        first: PageState,
        choose: Choose,
        stop: Callable[[], object],
        kept: frozenset[str] = frozenset(),
        again: Callable[[PageState], PageState] | None = None,
    ) -> None:
        self._choose, self._stop, self._again = choose, stop, again
        self._lock = Lock()
        places = frozenset(k for k, e in _exercises(first.core).items() if e in kept)
        self._shown = _Shown(first, places)
        self._before: list[_Shown] = []
        self._sets: list[tuple[str, ...]] = []
        self._notice: Notice | None = None
        self._done = Event()
        self._done.set()
        self._is_stopped = False
        self._is_shopping = False
        self.best_so_far = BestSoFar()
        self._remember(self._shown)

    @property
    def state(self) -> PageState:
        """The class that is shown."""
        return self._shown.state

    def view(self) -> DeskView:
        """Give what the page shows beside the class."""
        with self._lock:
            shown = self._shown
            return DeskView(
                token=shown.token,
                kept=shown.kept,
                may_go_back=bool(self._before),
                is_planning=not self._done.is_set(),
                notice=self._notice,
                may_shop=shown.state.worth_buying is not None,
                is_shopping=self._is_shopping and not self._done.is_set(),
                rounds=rounds_list(shown.lengths),
                work_rest=work_rest_list(shown.lengths) if shown.state.is_timed else (),
                base=shown.state.base,
                so_far=self.best_so_far.best,
                news=self.best_so_far.news,
            )

    def wait(self, seconds: float = SHORT_WAIT_S) -> bool:
        """Wait a moment for the choice that is being made, and say whether it has ended."""
        return self._done.wait(seconds)

    def keep(self, token: str, position: int) -> None:
        """Keep the exercise at a place, or let it go again."""
        with self._lock:
            self._exercise(token, position)
            self._shown = replace(self._shown, kept=self._shown.kept ^ {position})

    def another(self, token: str, lengths: Lengths | None = None) -> None:
        """Have another set of exercises chosen; what is kept stays at its place.

        With other `lengths` and everything kept, the same exercises come again at those.
        """
        with self._lock:
            self._same_class(token)
            shown = self._shown
            later = shown if lengths is None else replace(shown, lengths=lengths)
            keep = tuple(KeptWish(e, k) for k, e in shown.exercises.items() if k in shown.kept)
            again = later != shown and len(keep) == len(shown.exercises)
            wishes = PlanWishes(
                keep=keep,
                leave_out=shown.left_out,
                besides=() if again else tuple(self._sets),
                places=len(shown.exercises) or None,
                rounds=later.lengths.rounds_wished,
                work_rest=later.lengths.work_rest_wished,
                anew=True,
            )
            self._begin(wishes, later)

    def fill(self, make: Callable[[], Chosen]) -> None:
        """Have the first class made where there is none yet; why there is none is told too."""
        with self._lock:
            if self._shown.state.core is None:
                self._start(partial(self._first, make, self._shown))

    def anew(self, make: Callable[[], Chosen]) -> None:
        """Have the class made anew after it is asked for otherwise; until then this one stays."""
        with self._lock:
            self._start(partial(self._first, make, self._shown))

    def instead(self, token: str, position: int) -> None:
        """Have something else chosen for one place; the other exercises stay where they are."""
        with self._lock:
            unwanted = self._exercise(token, position)
            shown = self._shown
            wishes = PlanWishes(
                keep=tuple(KeptWish(e, k) for k, e in shown.exercises.items() if k != position),
                leave_out=shown.left_out | {unwanted},
                places=len(shown.exercises),
                rounds=shown.lengths.rounds_wished,
                work_rest=shown.lengths.work_rest_wished,
                anew=True,
            )
            later = replace(
                shown, kept=shown.kept - {position}, left_out=shown.left_out | {unwanted}
            )
            self._begin(wishes, later)

    def back(self, token: str) -> None:
        """Show the class before this one again, with what was kept then."""
        with self._lock:
            self._same_class(token)
            if self._before and self._done.is_set():
                before = self._before.pop()
                state = before.state if self._again is None else self._again(before.state)
                self._shown = replace(before, state=state)
                self._notice = None

    def shop(self, token: str) -> None:
        """Have it found out what would help this class most if the hall had it."""
        with self._lock:
            self._same_class(token)
            ask = self._shown.state.worth_buying
            if ask is None:
                raise NotFoundError("There is no class here that anything could be bought for.")
            self._start(partial(_notice_of_buying, ask), is_shopping=True)

    def take(self, state: PageState) -> None:
        """Show the same class after a change; exercises that still stand stay kept."""
        with self._lock:
            was, shown = self._shown, replace(self._shown, state=state)
            kept = {k for k in was.kept if was.exercises.get(k) == shown.exercises.get(k)}
            self._shown = replace(shown, kept=frozenset(kept))
            self._notice = None
            self._remember(self._shown)

    def stop(self) -> None:
        """End what is being looked for; the class stays as it is."""
        with self._lock:
            if self._done.is_set():
                return
            self._is_stopped = True
        self._stop()

    def take_so_far(self, token: str) -> None:
        """End the search with a class that it has told of; where it has ended, its answer stands.

        Raises
        ------
        ChangedMeanwhileError
            The search that goes on has told of no such class.
        """
        with self._lock:
            if self._done.is_set():
                return
            if not self.best_so_far.take(token):
                raise ChangedMeanwhileError(
                    "Another class has come onto the page meanwhile.",
                    "Look at it, then choose again.",
                )
        self._stop()

    def _begin(self, wishes: PlanWishes, later: _Shown) -> None:
        self._start(partial(self._choice, wishes, later))

    def _start(self, find: Callable[[], _Shown | Notice], *, is_shopping: bool = False) -> None:
        if not self._done.is_set():
            return
        self._done.clear()
        self._notice = None
        self.best_so_far.begin()
        self._is_stopped, self._is_shopping = False, is_shopping
        run = copy_context().run  # it is said in the language of whoever asked
        Thread(target=run, args=(self._run, find), daemon=True).start()

    def _first(self, make: Callable[[], Chosen], blank: _Shown) -> _Shown | Notice:
        chosen = make()
        if chosen.state.core is None and chosen.status is not Status.IMPOSSIBLE:
            return Notice(say("No class was found with the work allowed. Try again."))
        return replace(blank, state=chosen.state)

    def _choice(self, wishes: PlanWishes, later: _Shown) -> _Shown | Notice:
        chosen = self._choose(wishes)
        return _notice_of(chosen) or replace(later, state=chosen.state)

    def _run(self, find: Callable[[], _Shown | Notice]) -> None:
        found: _Shown | Notice
        try:
            found = find()
        except RoundwrightError as error:
            found = Notice(say_again(error.detail), (say_again(error.next_step),))
        except Exception as error:
            found = Notice(
                say(
                    "Something went wrong inside ({name}). The class is as it was.",
                    name=type(error).__name__,
                )
            )
        with self._lock:
            if isinstance(found, _Shown):
                if self._shown.state.standing is not Standing.UNPLANNED:
                    self._before.append(self._shown)
                self._shown = found
                self._remember(found)
            elif self._is_stopped:
                self._notice = Notice(say("Stopped. The class is as it was."))
            else:
                self._notice = found
            self._done.set()
        self.best_so_far.end()

    def _remember(self, shown: _Shown) -> None:
        if shown.exercises:
            self._sets.append(tuple(sorted(shown.exercises.values())))

    def _exercise(self, token: str, position: int) -> str:
        self._same_class(token)
        exercise = self._shown.exercises.get(position)
        if exercise is None:
            raise NotFoundError(f"There is no exercise at place {position}.")
        return exercise

    def _same_class(self, token: str) -> None:
        if token != self._shown.token:
            raise ChangedMeanwhileError(
                "Another class has come onto the page meanwhile.", "Look at it, then choose again."
            )


def _exercises(core: Core | None) -> dict[int, str]:
    if core is None:
        return {}
    return {e.position: e.exercise_id for e in sorted(core.exercises, key=lambda e: e.position)}


def _notice_of(chosen: Chosen) -> Notice | None:
    """Say why there is no other class; None when there is one."""
    if chosen.state.core is not None:
        return None
    if chosen.status is Status.IMPOSSIBLE:
        title = say("No other class is possible that way. These cannot all hold:")
        return Notice(title, chosen.state.clash, chosen.state.ways_out)
    return Notice(say("No other class was found with the work allowed. The class is as it was."))


def _notice_of_buying(ask: Buying) -> Notice:
    """Say what is worth buying for the class that is shown, or that nothing is."""
    line = ask()
    if not line:
        return Notice(say("Nothing that could be bought would make this class better."))
    return Notice(say("Worth buying for this class:"), (line,))
