"""A desk whose choices a test decides: what comes, when, and what was asked."""

from dataclasses import dataclass, field, replace
from threading import Event

from roundwright.foundation.errors import RoundwrightError
from roundwright.plan.outcome import Status
from roundwright.web.page_state import PageState, Standing
from roundwright.web.planning_desk import PlanningDesk
from tests.web.page_states import PORT, a_ready_state


@dataclass(frozen=True)
class Chosen:
    state: PageState
    status: Status = Status.PROVEN


@dataclass
class Chooser:
    """Gives what it was told to, one after the other; with `held` it waits to be let go."""

    answers: list[Chosen | Exception]
    held: bool = False
    asked: list[object] = field(default_factory=list)
    let_go: Event = field(default_factory=Event)
    stops: int = 0

    def __call__(self, wishes: object) -> Chosen:
        self.asked.append(wishes)
        if self.held:
            assert self.let_go.wait(20)
        answer = self.answers.pop(0)
        if isinstance(answer, Exception):
            raise answer
        return answer

    def stop(self) -> None:
        self.stops += 1
        self.answers.insert(0, RoundwrightError("The search was stopped."))
        self.let_go.set()


def a_desk(
    *answers: Chosen | Exception,
    held: bool = False,
    port: int = PORT,
    first: PageState | None = None,
) -> tuple[PlanningDesk, Chooser]:
    """Give a desk that shows the hand-written class, and its chooser."""
    chooser = Chooser(list(answers), held)
    return PlanningDesk(first or a_ready_state(port=port), chooser, chooser.stop), chooser


def another_class(name: str = "another") -> Chosen:
    """Give the hand-written class as if it were another one: its plan has another id."""
    state = a_ready_state()
    assert state.core is not None
    return Chosen(replace(state, core=state.core.model_copy(update={"plan_id": name})))


def no_class(status: Status = Status.IMPOSSIBLE) -> Chosen:
    """Give the page of a choice that found nothing."""
    standing = Standing.IMPOSSIBLE if status is Status.IMPOSSIBLE else Standing.UNDECIDED
    state = replace(
        a_ready_state(),
        core=None,
        sheet=None,
        pdf=None,
        standing=standing,
        clash=("Another class than those already shown.",),
        ways_out=("Do not insist on Step-up.",),
    )
    return Chosen(state, status)
