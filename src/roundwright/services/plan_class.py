"""Plan a class: which exercises in which order, fitted to everyone and judged."""

from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import date, datetime, timedelta

from roundwright.foundation.canonical import digest_of_json
from roundwright.foundation.instants import instant_of
from roundwright.foundation.seeds import DEFAULT_SEED
from roundwright.hall.hall import Hall
from roundwright.plan.build_planning import PlanWishes, build_planning
from roundwright.plan.build_problem import WEEKDAYS
from roundwright.plan.build_recent import build_recent
from roundwright.plan.document import PlanDocument
from roundwright.plan.outcome import Budget, Outcome, Status, WayOut
from roundwright.plan.planning_problem import PlanningProblem
from roundwright.plan.problem import Problem
from roundwright.plan.recent import Recent
from roundwright.plan.rule_table import RuleTable
from roundwright.services.judged_plan import judged_plan
from roundwright.services.ports import Adviser, ClassPlanner, Clock, IdsFor, Rehearse

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
    `shopping` is what would help most if the hall had it.
    """

    planning: PlanningProblem
    problem: Problem
    outcome: Outcome
    document: PlanDocument | None
    shopping: tuple[WayOut, ...] = ()


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
    found = planner.plan(planning, seed=request.seed, budget=request.budget, plan_id=plan_id)
    outcome = found.outcome.model_copy(update={"wall_ms": clock.monotonic_ms() - began_ms})
    if found.core is None or found.problem is None:
        told = _explained(planning, outcome, request, adviser)
        return PlannedClass(planning, planning.base, told, None)
    document = judged_plan(found.core, found.problem, outcome, request.seed, rehearse)
    return PlannedClass(planning, found.problem, outcome, document)


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


def _explained(
    planning: PlanningProblem, outcome: Outcome, request: PlanRequest, adviser: Adviser | None
) -> Outcome:
    """Say what cannot all hold and what would help, where that is proven."""
    if outcome.status is not Status.IMPOSSIBLE or adviser is None:
        return outcome
    clash = outcome.clash or adviser.why_not(planning, request.seed, request.budget)
    ways = adviser.ways_out(planning, clash, request.seed, request.budget)
    return outcome.model_copy(update={"clash": clash, "ways_out": ways})
