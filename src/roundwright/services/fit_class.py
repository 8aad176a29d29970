"""Fit a class: everyone's version, load, count and kit, judged before anyone sees it."""

from dataclasses import dataclass
from datetime import date

from roundwright.foundation.canonical import digest_of_json
from roundwright.foundation.errors import BadInputError
from roundwright.foundation.faults import Fault
from roundwright.foundation.seeds import DEFAULT_SEED
from roundwright.goals.class_wish import ClassWish
from roundwright.hall.hall import Hall
from roundwright.plan.build_problem import build_problem
from roundwright.plan.document import PlanDocument
from roundwright.plan.outcome import Budget, Outcome, Status
from roundwright.plan.problem import Problem
from roundwright.services.judged_plan import judged_plan
from roundwright.services.ports import Clock, FitAdviser, IdsFor, Planner, Rehearse


@dataclass(frozen=True, slots=True)
class FitRequest:
    """Which class, on which day, from which seed, with how much work."""

    class_id: str
    on: date | None = None
    seed: int = DEFAULT_SEED
    budget: Budget = Budget.NORMAL


@dataclass(frozen=True, slots=True)
class FittedClass:
    """How the search ended, with the judged plan when there is one.

    Impossible and undecided are values: `document` is None then, and `outcome`
    says why. A document may still be a draft: its verdict may say stop.
    """

    problem: Problem
    outcome: Outcome
    document: PlanDocument | None


def fit_class(
    hall: Hall,
    request: FitRequest,
    *,
    planner: Planner,
    clock: Clock,
    ids: IdsFor,
    rehearse: Rehearse | None = None,
    adviser: FitAdviser | None = None,
) -> FittedClass:
    """Fit one class of a hall.

    Parameters
    ----------
    hall : Hall
        People, limits, kit, rooms, classes and library, as they are.
    request : FitRequest
        Which class and when; equal requests on an equal hall give an equal plan id.
    planner, clock, ids
        The adapters: who searches, who times it, who gives the plan its id.
    rehearse : Rehearse, optional
        Who plays the plan through; without it no chance on time is given.
    adviser : FitAdviser, optional
        Who says what would help where the class is impossible.

    Returns
    -------
    FittedClass
        The outcome, and the plan with verdict and facts when one was found.

    Raises
    ------
    NotFoundError
        When the hall has no such class.
    BadInputError
        When the class cannot be planned as it is written.
    UnsafePlanError
        When the planner's plan is refused by the gate: a fault of ours, never shown as a plan.
    """
    problem = build_problem(hall, request.class_id, request.on or clock.today())
    _refuse_open_places(hall.classes[request.class_id], request.class_id)
    digest = digest_of_json(problem.model_dump(mode="json", by_alias=True))
    plan_id = ids(request.seed, f"plan:{request.budget.value}:{digest}").new_id()
    began_ms = clock.monotonic_ms()
    found = planner.fit(problem, seed=request.seed, budget=request.budget, plan_id=plan_id)
    outcome = found.outcome.model_copy(update={"wall_ms": clock.monotonic_ms() - began_ms})
    if found.core is None:
        if adviser is not None and outcome.status is Status.IMPOSSIBLE and problem.taking_part:
            ways = adviser.fit_ways_out(problem, outcome.clash, request.seed, request.budget)
            outcome = outcome.model_copy(update={"ways_out": ways})
        return FittedClass(problem, outcome, None)
    document = judged_plan(found.core, problem, outcome, request.seed, rehearse)
    return FittedClass(problem, outcome, document)


def _refuse_open_places(wish: ClassWish, class_id: str) -> None:
    """Refuse a class that is to be completed: a fit takes the exercises as they are."""
    is_open = not wish.exercise or (wish.places or 0) > len(wish.exercise)
    if not is_open and not any(e.position for e in wish.exercise):
        return
    fault = Fault(
        code="field.value",
        file=f"classes/{class_id}.toml",
        field="places",
        value=str(wish.places or ""),
        expected="as many exercises as places, in their order",
        remedy="This class is to be completed: plan it, do not fit it.",
    )
    raise BadInputError([fault])
