"""The best classes that a search has told of until now, each judged, and which one was taken."""

from collections.abc import Sequence
from dataclasses import dataclass
from threading import Condition

from roundwright.library.spoken_library import spoken
from roundwright.plan.document import PlanDocument
from roundwright.web.page_state import PageState


@dataclass(frozen=True, slots=True)
class SoFar:
    """A class that a search has told of: the plan that the gate judged, and its page."""

    document: PlanDocument
    state: PageState

    @property
    def token(self) -> str:
        """A short mark of the class: whoever takes it names what they have seen."""
        return self.document.core.digest[:16]

    @property
    def exercises(self) -> tuple[str, ...]:
        """The names of its exercises, in order, for whoever listens."""
        library = spoken(self.document.problem.library)
        ordered = sorted(self.document.core.exercises, key=lambda e: e.position)
        return tuple(library.exercise_name(e.exercise_id) for e in ordered)


class BestSoFar:
    """Hears of better classes in the thread that searches, and is asked by the pages.

    `news` counts what was told of, over all searches; whoever waits is woken by the next.
    """

    def __init__(self) -> None:
        self._heard = Condition()
        self._told: list[SoFar] = []
        self._taken: SoFar | None = None
        self._is_over = True
        self._news = 0

    def begin(self) -> None:
        """Forget what the last search told: another one begins."""
        with self._heard:
            self._told, self._taken, self._is_over = [], None, False

    def end(self) -> None:
        """Wake whoever waits: the search is over."""
        with self._heard:
            self._is_over = True
            self._heard.notify_all()

    def tell(self, so_far: SoFar) -> bool:
        """Hear of a better class, and give whether the search is to go on."""
        with self._heard:
            self._told.append(so_far)
            self._news += 1
            self._heard.notify_all()
            return self._taken is None

    def take(self, token: str) -> bool:
        """Take a class that was told of, and say whether there is one of that mark."""
        with self._heard:
            known = [one for one in self._told if one.token == token]
            self._taken = known[-1] if known else self._taken
            return bool(known)

    @property
    def taken(self) -> PlanDocument | None:
        """The plan that somebody took instead of waiting for a better one."""
        return None if self._taken is None else self._taken.document

    @property
    def best(self) -> SoFar | None:
        """The last class that was told of."""
        told: Sequence[SoFar] = self._told
        return told[-1] if told else None

    @property
    def news(self) -> int:
        """How many classes were told of."""
        return self._news

    def wait(self, seen: int, seconds: float) -> None:
        """Wait until there is more news than was seen, or the search is over."""
        with self._heard:
            self._heard.wait_for(lambda: self._is_over or self._news > seen, seconds)
