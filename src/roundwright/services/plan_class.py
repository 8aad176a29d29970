"""Plan a class: which exercises in which order, fitted to everyone and judged."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from datetime import date, datetime, timedelta

from roundwright.foundation.canonical import digest_of_json
from roundwright.foundation.errors import RoundwrightError, UnsafePlanError
from roundwright.foundation.instants import instant_of
from roundwright.foundation.seeds import DEFAULT_SEED
from roundwright.hall.hall import Hall
from roundwright.plan.best_so_far import StillOpen
from roundwright.plan.build_planning import PlanWishes, build_planning
from roundwright.plan.build_problem import WEEKDAYS
from roundwright.plan.build_recent import build_recent
from roundwright.plan.core import Core
from roundwright.plan.document import PlanDocument
from roundwright.plan.outcome import Budget, Outcome, Status, StoppedBy, WayOut
from roundwright.plan.planning_problem import PlanningProblem
from roundwright.plan.problem import Problem
from roundwright.plan.recent import Recent
from roundwright.plan.rule_table import RuleTable
from roundwright.services.judged_plan import judged_plan
from roundwright.services.ports import (
    Adviser,
    ClassPlanner,
    Clock,
    IdsFor,
    OnBetterPlan,
    Planned,
    Rehearse,
)

WEEK_DAYS = 7


@dataclass(frozen=True, slots=True)
class PlanRequest:
    """Which class, on which day, with which wishes, from which seed, with how much work."""

    class_id: str
    on: date | None = None
    wishes: PlanWishes = field(default_factory=PlanWishes)
    seed: int = DEFAULT_SEED
    budget: Budget = Budget.NORMAL


@dataclass(frozen=True, slots=True)
class PlannedClass:
    """How the search ended, with the judged plan when there is one.

    `problem` is the class that was chosen, or the class without exercises when none was.
    `shopping` is what would help most if the hall had it. `ended` says in words what ended
    the search before its time, where something broke: the plan is then the best so far.
    """

    planning: PlanningProblem
    problem: Problem
    outcome: Outcome
    document: PlanDocument | None
    shopping: tuple[WayOut, ...] = ()
    ended: str = ""


OnBetter = Callable[[PlanDocument, StillOpen], bool]
"""Hears of each better plan, judged, and of what is still sought; gives whether to go on."""


def plan_class(
    hall: Hall,
    request: PlanRequest,
    *,
    planner: ClassPlanner,
    clock: Clock,
    ids: IdsFor,
    kept: Sequence[PlanDocument] = (),
    rehearse: Rehearse | None = None,
    adviser: Adviser | None = None,
    on_better: OnBetter | None = None,
) -> PlannedClass:
    """Plan one class of a hall.

    Parameters
    ----------
    hall : Hall
        People, limits, kit, rooms, classes and library, as they are.
    request : PlanRequest
        Which class; equal requests on an equal hall with equal kept plans give an equal plan.
    planner, clock, ids
        The adapters: who searches, who times it, who gives the plan its id.
    kept : sequence of PlanDocument
        The hall's plans in the order in which they were kept: its recent work.
    rehearse : Rehearse, optional
        Who plays the plan through; without it no chance on time is given.
    adviser : Adviser, optional
        Who explains what is impossible and what is worth buying.
    on_better : callable, optional
        Hears of each better plan before the answer; each was judged here, none was played
        through. With False, or with an interrupt of this process, the search ends with the
        best so far; so it does, with `ended` saying so, when the planner breaks.

    Returns
    -------
    PlannedClass
        The outcome, and the plan with verdict and facts when one was found.

    Raises
    ------
    NotFoundError
        When the hall has no such class.
    BadInputError
        When the class cannot be planned as it is wished.
    UnsafePlanError
        When the planner's plan is refused by the gate: a fault of ours, never shown as a plan.
    """
    day = request.on or clock.today()
    planning = _planning(hall, request, day, kept)
    digest = digest_of_json(planning.model_dump(mode="json", by_alias=True))
    plan_id = ids(request.seed, f"choice:{request.budget.value}:{digest}").new_id()
    began_ms = clock.monotonic_ms()
    found, ended = _searched(planner, planning, request, plan_id, on_better)
    outcome = found.outcome.model_copy(update={"wall_ms": clock.monotonic_ms() - began_ms})
    if found.core is None or found.problem is None:
        told = _explained(planning, outcome, request, adviser)
        return PlannedClass(planning, planning.base, told, None)
    document = judged_plan(found.core, found.problem, outcome, request.seed, rehearse)
    return PlannedClass(planning, found.problem, outcome, document, ended=ended)


def with_shopping(planned: PlannedClass, seed: int, adviser: Adviser) -> PlannedClass:
    """Add what would help most if the hall had it, to a class that was planned."""
    if planned.document is None:
        return planned
    wishes = adviser.shopping(planned.problem, planned.document.core, seed)
    return PlannedClass(
        planned.planning, planned.problem, planned.outcome, planned.document, wishes
    )


def week_of(hall: Hall, first_day: date) -> tuple[tuple[str, date], ...]:
    """Give the classes of the seven days from a day on, in the order in which they begin."""
    found = []
    for class_id, wish in hall.classes.items():
        ahead = wish.on is None and wish.weekday is not None
        days = (
            (WEEKDAYS.index(wish.weekday) - first_day.weekday()) % WEEK_DAYS
            if ahead and wish.weekday is not None
            else ((wish.on or first_day) - first_day).days
        )
        if 0 <= days < WEEK_DAYS:
            day = first_day + timedelta(days=days)
            found.append((day, wish.start, class_id))
    return tuple((class_id, day) for day, _, class_id in sorted(found))


def days_looked_back(day: date, rules: RuleTable | None = None) -> tuple[date, ...]:
    """Give the days whose classes matter as recent work for a class on or after a day."""
    back = (rules or RuleTable()).balance_days
    return tuple(day + timedelta(days=n) for n in range(-back, WEEK_DAYS))


def _planning(
    hall: Hall, request: PlanRequest, day: date, kept: Sequence[PlanDocument]
) -> PlanningProblem:
    bare = build_planning(hall, request.class_id, day, Recent(), request.wishes)
    if not kept:
        return bare
    spec = bare.base.spec
    starts_at: datetime = instant_of(spec.starts_on, spec.starts_at_local, spec.time_zone)
    recent = build_recent(kept, request.class_id, spec.starts_on, starts_at, bare.base.rules)
    return build_planning(hall, request.class_id, day, recent, request.wishes)


@dataclass(frozen=True, slots=True)
class _BestSoFar:
    """The last better class that was told of, as the search would have ended with it."""

    problem: Problem | None
    core: Core | None
    outcome: Outcome


def _searched(
    planner: ClassPlanner,
    planning: PlanningProblem,
    request: PlanRequest,
    plan_id: str,
    on_better: OnBetter | None,
) -> tuple[Planned, str]:
    """Search, judging each better class as it comes; give also what ended it, if it broke."""
    seed, budget = request.seed, request.budget
    if on_better is None:
        return planner.plan(planning, seed=seed, budget=budget, plan_id=plan_id), ""
    best: list[Planned] = []

    def better(found: Planned, still: StillOpen) -> bool:
        if found.core is None or found.problem is None:
            return True
        document = judged_plan(found.core, found.problem, found.outcome, seed, None)
        best.append(found)
        return on_better(document, still)

    asked: OnBetterPlan = better
    try:
        found = planner.plan(planning, seed=seed, budget=budget, plan_id=plan_id, on_better=asked)
    except UnsafePlanError:
        raise
    except (RoundwrightError, KeyboardInterrupt) as error:
        if not best:
            raise
        told = error.detail if isinstance(error, RoundwrightError) else ""
        by = StoppedBy.GUARD if told else StoppedBy.CALLER
        outcome = best[-1].outcome.model_copy(update={"stopped_by": by, "repeatable": False})
        return _BestSoFar(best[-1].problem, best[-1].core, outcome), told
    return found, ""


def _explained(
    planning: PlanningProblem, outcome: Outcome, request: PlanRequest, adviser: Adviser | None
) -> Outcome:
    """Say what cannot all hold and what would help, where that is proven."""
    if outcome.status is not Status.IMPOSSIBLE or adviser is None:
        return outcome
    clash = outcome.clash or adviser.why_not(planning, request.seed, request.budget)
    ways = adviser.ways_out(planning, clash, request.seed, request.budget)
    return outcome.model_copy(update={"clash": clash, "ways_out": ways})
