"""What the class page shows: one frozen state, made from a plan, a draft or an outcome."""

from collections.abc import Callable
from dataclasses import dataclass, field, replace
from datetime import date
from enum import StrEnum
from functools import partial

from roundwright.documents.class_sheet_pdf import class_sheet_pdf
from roundwright.documents.plan_view import PlanView, joined_names
from roundwright.documents.sheet_content import finding_words, sheet_of
from roundwright.documents.sheet_parts import SheetContent
from roundwright.documents.spoken import day_words
from roundwright.foundation.errors import NotFoundError
from roundwright.foundation.words import say, shown_units, speech
from roundwright.goals.class_wish import Pace
from roundwright.hall.hall import Hall
from roundwright.plan.build_planning import is_complete
from roundwright.plan.core import Core
from roundwright.plan.document import PlanDocument
from roundwright.plan.gate.checked_plan import CheckedPlan, judged_once
from roundwright.plan.outcome import Outcome, Status, WayOut
from roundwright.plan.problem import Problem
from roundwright.plan.verdict import Grade
from roundwright.services.clash_words import clash_lines, way_lines
from roundwright.services.class_reasons import (
    balance_words,
    chance_words,
    length_words,
    line_up_words,
)
from roundwright.services.ports import Pictures

PdfMaker = Callable[[str], bytes]
Listener = tuple[str, str]
"""The language and units in which somebody is spoken to."""
Buying = Callable[[], str]
"""Asks what is worth buying for a class, in one line, empty for nothing; it may take long."""


class Standing(StrEnum):
    """Where the class stands: only `ready` has a sheet."""

    READY = "ready"
    DRAFT = "draft"
    IMPOSSIBLE = "impossible"
    UNDECIDED = "undecided"
    UNPLANNED = "unplanned"


@dataclass(frozen=True)
class PageState:
    """Everything that the page of one class shows, and the port it is served on.

    `stops` says what makes the plan a draft, `clash` what cannot all hold and
    `ways_out` what would help, or what would end a draft on time that overruns; `why` says
    why the exercises are these and `on_time` how often the class ends within its slot;
    `ways` are the same as values;
    `worth_buying` asks what would help most if the hall had it; `is_timed` says that the clock
    ends an exercise; `pictures` draws the movements; `sheet`, `core` and `pdf` are there as far
    as the standing allows. `base` is where the addresses of the page begin, `home` the page that it
    was reached from; `may_fit` says that a class without a plan can also be fitted as written.
    `told_to` is who the page was told to, and `tell` tells it to whoever listens then.
    """

    hall: str
    title: str
    day: str
    starts: str
    paper: str
    port: int
    standing: Standing
    stops: tuple[str, ...] = ()
    clash: tuple[str, ...] = ()
    advice: tuple[str, ...] = ()
    found: str = ""
    core: Core | None = None
    sheet: SheetContent | None = None
    pdf: PdfMaker | None = None
    why: tuple[str, ...] = ()
    on_time: str = ""
    ways_out: tuple[str, ...] = ()
    ways: tuple[WayOut, ...] = ()
    worth_buying: Buying | None = None
    is_timed: bool = False
    pictures: Pictures | None = None
    base: str = ""
    home: str = ""
    may_fit: bool = False
    told_to: Listener = field(default=("", ""), compare=False)
    tell: Callable[[], "PageState"] | None = field(default=None, compare=False, repr=False)
    _told: dict[Listener, "PageState"] = field(
        default_factory=dict, init=False, compare=False, repr=False
    )

    def told(self) -> "PageState":
        """Give the page in the language and units of whoever listens here."""
        now = _listener()
        if self.tell is None or now == self.told_to:
            return self
        if now not in self._told:
            again = self.tell()
            self._told[now] = replace(
                again, base=self.base, home=self.home, worth_buying=self.worth_buying
            )
        return self._told[now]


def state_of_plan(
    document: PlanDocument,
    hall: Hall,
    printed_at: str,
    port: int,
    pictures: Pictures | None = None,
) -> PageState:
    """Give the page of a plan: ready when the gate passes it, else a draft.

    Raises
    ------
    UnsafePlanError
        When the gate says never: such a plan is not shown at all.
    """
    return _state_of(*judged_once(document), hall, printed_at, port, pictures)


def _listener() -> Listener:
    return speech().language, speech().units


def _state_of(
    draft: PlanDocument,
    checked: CheckedPlan | None,
    hall: Hall,
    printed_at: str,
    port: int,
    pictures: Pictures | None,
) -> PageState:
    names = joined_names({p.person_id: p.shown_name for p in hall.people})
    units = shown_units(hall.settings.units.value)
    view = PlanView(document=draft, names=names, units=units)
    stops = tuple(finding_words(f, view) for f in draft.verdict.of_grade(Grade.STOP))
    advice = tuple(finding_words(f, view) for f in draft.verdict.of_grade(Grade.ADVISE))
    chance = draft.facts.chance_on_time
    sheet = None if checked is None else sheet_of(checked, hall, printed_at, pictures)
    return PageState(
        hall=hall.settings.name,
        title=draft.problem.spec.name,
        day=day_words(draft.core.class_.starts_on),
        starts=f"{draft.core.class_.starts_at_local:%H:%M}",
        paper=hall.settings.paper.value,
        port=port,
        standing=Standing.DRAFT if stops else Standing.READY,
        stops=stops,
        advice=advice,
        found=found_words(draft.outcome),
        core=draft.core,
        sheet=sheet,
        pdf=partial(_pdf, sheet) if sheet else None,
        why=tuple(
            w for w in (line_up_words(draft), balance_words(draft), length_words(draft)) if w
        ),
        is_timed=draft.problem.spec.pace is Pace.TIMED,
        pictures=pictures,
        on_time=chance_words(chance) if chance is not None else "",
        ways_out=way_lines(draft.outcome.ways_out, draft.problem, names, units),
        ways=draft.outcome.ways_out,
        told_to=_listener(),
        tell=partial(_state_of, draft, checked, hall, printed_at, port, pictures),
    )


def state_without_plan(problem: Problem, outcome: Outcome, hall: Hall, port: int) -> PageState:
    """Give the page of a class for which there is no plan, with the clash in words."""
    names = joined_names({p.person_id: p.shown_name for p in hall.people})
    units = shown_units(hall.settings.units.value)
    impossible = outcome.status is Status.IMPOSSIBLE
    return PageState(
        hall=hall.settings.name,
        title=problem.spec.name,
        day=day_words(problem.spec.starts_on),
        starts=f"{problem.spec.starts_at_local:%H:%M}",
        paper=hall.settings.paper.value,
        port=port,
        standing=Standing.IMPOSSIBLE if impossible else Standing.UNDECIDED,
        clash=clash_lines(outcome.clash, problem, names, units),
        ways_out=way_lines(outcome.ways_out, problem, names, units),
        ways=outcome.ways_out,
        found=found_words(outcome),
        is_timed=problem.spec.pace is Pace.TIMED,
        told_to=_listener(),
        tell=partial(state_without_plan, problem, outcome, hall, port),
    )


def found_words(outcome: Outcome) -> str:
    """Say how sure it is that no better plan exists."""
    if outcome.status is Status.PROVEN:
        return say("Proven: no plan of this class fits better as a whole.")
    if outcome.status is Status.IMPOSSIBLE:
        return say("Proven: no plan of this class can hold.")
    if outcome.status is Status.FOUND and outcome.cost is not None and outcome.bound is not None:
        return say(
            "Found within the work it was given: penalty {cost}, and none can be below {bound}.",
            cost=outcome.cost,
            bound=outcome.bound,
        )
    return say("The budget was spent before a plan was found or ruled out.")


def _pdf(sheet: SheetContent, paper: str) -> bytes:
    return class_sheet_pdf(sheet, "letter" if paper == "letter" else "a4")


def state_before_planning(hall: Hall, class_id: str, on: date, port: int) -> PageState:
    """Give the page of a class that nobody has planned yet.

    Raises
    ------
    NotFoundError
        The hall has no such class.
    """
    wish = hall.classes.get(class_id)
    if wish is None:
        raise NotFoundError(f"The hall has no class '{class_id}'.")
    return PageState(
        hall=hall.settings.name,
        title=wish.name,
        day=day_words(on),
        starts=f"{wish.start:%H:%M}",
        paper=hall.settings.paper.value,
        port=port,
        standing=Standing.UNPLANNED,
        is_timed=wish.pace is Pace.TIMED,
        may_fit=is_complete(wish),
        told_to=_listener(),
        tell=partial(state_before_planning, hall, class_id, on, port),
    )
