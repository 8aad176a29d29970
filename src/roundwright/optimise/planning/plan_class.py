"""Plans a class: which exercises, in which order, in which form, for these people and this kit."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from importlib.metadata import version

from roundwright.optimise.fit import solver_versions
from roundwright.optimise.planning.search import Incumbent, Search
from roundwright.optimise.planning.shelves import Shelves
from roundwright.optimise.usual_length import minutes_price
from roundwright.people.person import Clearance
from roundwright.plan.best_so_far import StillOpen, still_open
from roundwright.plan.core import Core
from roundwright.plan.outcome import Budget, NotToday, Outcome, Status, StoppedBy
from roundwright.plan.planning_problem import PlanningProblem
from roundwright.plan.problem import Problem

ChanceOf = Callable[[Problem, Core], int]
"""The chance, in 1/10,000, that a class ends within its slot."""

SHORTER_BP = (200, 400, 700, 1100, 2000, 4000)
"""By how much the slot is shortened, one after the other, to keep the chance; our choice.

A slot that nothing fits any more gives the shortest class there is: the last that is tried.
"""


@dataclass(frozen=True, slots=True)
class PlanResult:
    """A class as a concrete problem with the core of its plan, or none, and how the search ended.

    Where there is none, `outcome.clash` is left empty: `why_not.explain` fills it.
    """

    problem: Problem | None
    core: Core | None
    outcome: Outcome


OnBetter = Callable[[PlanResult, StillOpen], bool]
"""Hears of each better plan and of what is still sought; gives whether the search is to go on."""


def plan_class(
    planning: PlanningProblem,
    *,
    seed: int = 1,
    budget: Budget = Budget.NORMAL,
    plan_id: str,
    chance: ChanceOf | None = None,
    on_better: OnBetter | None = None,
    shelves: Shelves | None = None,
) -> PlanResult:
    """Choose exercises, order, format and rounds: least overrun first, then least price.

    Of classes that overrun alike, one that differs in as many exercises as are asked
    (`planning.others`) from every set already shown comes before any that does not.

    Parameters
    ----------
    planning : PlanningProblem
        What is kept, what may be chosen, and for whom.
    seed : int
        For ties; equal problem, seed and budget give an equal core.
    budget : Budget
        Counted work.
    plan_id : str
        The identifier that the plan gets.
    chance : callable, optional
        Says how likely a class ends on time. The class is planned against a shorter slot
        until the wished chance is kept, if any plan can.
    on_better : callable, optional
        Hears of each better plan as it is found, the last of them being the answer. Once it
        gives False, the search ends with the best so far: `found`, stopped by the caller.
    shelves : Shelves, optional
        What is remembered of people from earlier plannings; the plan is the same without.

    Returns
    -------
    PlanResult
        `wall_ms` is left 0 for the caller, who has a clock.

    Raises
    ------
    BadInputError
        For counts that no version can take over.
    """
    planning, result, search = _planned_with_others(
        planning, seed, budget, plan_id, on_better, shelves
    )
    wished = planning.base.spec.chance_on_time_bp
    if chance is None or result.problem is None or result.core is None:
        return result
    if result.outcome.stopped_by is StoppedBy.CALLER:
        return result
    reached = chance(result.problem, result.core)
    if reached >= wished or result.outcome.overrun_s:
        return result
    best, work = (reached, result), result.outcome.work_used
    by = StoppedBy.BUDGET
    for less_bp in SHORTER_BP:
        tried, is_shortest = _in_shorter_slot(planning, less_bp, seed, budget, plan_id, search)
        work += tried.outcome.work_used
        if tried.problem is None or tried.core is None or tried.outcome.overrun_s:
            break
        now = chance(tried.problem, tried.core)
        if now > best[0]:
            best = (now, tried)
            so_far = _as_found(tried, result.outcome.bound, work)
            if on_better and not on_better(so_far, still_open(so_far.outcome, now, wished)):
                by = StoppedBy.CALLER
        if now >= wished or is_shortest or by is StoppedBy.CALLER:
            break
    return _as_found(best[1], result.outcome.bound, work, by)


def _as_found(
    result: PlanResult, bound: int | None, work: int, by: StoppedBy = StoppedBy.CALLER
) -> PlanResult:
    """Give a plan with the outcome of a search that ends here and now without proof."""
    update = {
        "status": Status.FOUND,
        "stopped_by": by,
        "bound": bound,
        "work_used": work,
        "repeatable": by is not StoppedBy.CALLER,
    }
    return replace(result, outcome=result.outcome.model_copy(update=update))


def _in_shorter_slot(
    planning: PlanningProblem,
    less_bp: int,
    seed: int,
    budget: Budget,
    plan_id: str,
    before: Search | None,
) -> tuple[PlanResult, bool]:
    """Plan as if the slot were shorter, and give the class with its own slot.

    Returns
    -------
    (result, is_shortest)
        Whether nothing fitted the shorter slot, so that the class is the shortest found.
    """
    spec = planning.base.spec
    less_s = spec.slot_s * less_bp // 10_000
    base = planning.base.model_copy(
        update={"spec": spec.model_copy(update={"slot_s": spec.slot_s - less_s})}
    )
    shorter = planning.model_copy(update={"base": base})
    made, _ = _planned(shorter, seed, budget, plan_id, before)
    if made.problem is None or made.core is None:
        return made, False
    own = made.problem.spec.model_copy(update={"slot_s": spec.slot_s})
    problem = made.problem.model_copy(update={"spec": own})
    class_ = made.core.class_.model_copy(update={"slot_s": spec.slot_s})
    over_s = made.outcome.overrun_s
    changes: dict[str, int] = {"overrun_s": max(0, over_s - less_s)}
    if made.outcome.cost is not None:
        form = class_.format
        more = minutes_price(problem, form) - minutes_price(made.problem, form)
        changes["cost"] = made.outcome.cost + more
    core = made.core.model_copy(update={"class_": class_})
    outcome = made.outcome.model_copy(update=changes)
    return replace(made, problem=problem, core=core, outcome=outcome), over_s > 0


def _planned_with_others(
    planning: PlanningProblem,
    seed: int,
    budget: Budget,
    plan_id: str,
    on_better: OnBetter | None,
    shelves: Shelves | None,
) -> tuple[PlanningProblem, PlanResult, Search | None]:
    """Plan with as many others as are asked, or with one where none can be or it overruns less.

    Returns
    -------
    (planning, result, search)
        The question as it was answered in the end.
    """
    far, search = _planned(planning, seed, budget, plan_id, on_better=on_better, shelves=shelves)
    stopped = far.outcome.stopped_by is StoppedBy.CALLER
    if planning.others == 1 or not planning.besides or stopped:
        return planning, far, search
    if far.core is not None and not far.outcome.overrun_s:
        return planning, far, search
    least_s = None if far.core is None else far.outcome.overrun_s

    def tell(result: PlanResult, still: StillOpen) -> bool:
        shorter = least_s is None or result.outcome.overrun_s < least_s
        return on_better is None or not shorter or on_better(result, still)

    one_other = planning.model_copy(update={"others": 1})
    told = tell if on_better else None
    near, near_search = _planned(one_other, seed, budget, plan_id, search, told)
    work = far.outcome.work_used + near.outcome.work_used
    if least_s is not None and (near.core is None or near.outcome.overrun_s >= least_s):
        better_may_be = near.outcome.status is not Status.PROVEN
        return planning, _with_work(far, work, unproven=better_may_be), search
    undecided = far.outcome.status in (Status.UNDECIDED, Status.FOUND)
    return one_other, _with_work(near, work, unproven=undecided), near_search


def _with_work(result: PlanResult, work: int, *, unproven: bool) -> PlanResult:
    """Give a result with all counted work, and no proof where another class may be better."""
    outcome = result.outcome.model_copy(update={"work_used": work})
    if unproven and outcome.status is Status.PROVEN:
        update = {"status": Status.FOUND, "stopped_by": StoppedBy.BUDGET}
        outcome = outcome.model_copy(update=update)
    return replace(result, outcome=outcome)


def _planned(
    planning: PlanningProblem,
    seed: int,
    budget: Budget,
    plan_id: str,
    before: Search | None = None,
    on_better: OnBetter | None = None,
    shelves: Shelves | None = None,
) -> tuple[PlanResult, Search | None]:
    if not planning.base.taking_part:
        return PlanResult(None, None, _outcome(planning, seed, budget, Status.IMPOSSIBLE)), None

    def result_of(best: Incumbent, bound: int | None, status: Status) -> PlanResult:
        update = {
            "cost": best.rank[1],
            "bound": bound,
            "overrun_s": best.rank[0],
            "work_used": search.work_used,
        }
        outcome = _outcome(planning, seed, budget, status).model_copy(update=update)
        return PlanResult(best.problem, best.fitted.core, outcome)

    def tell(best: Incumbent, bound: int | None) -> bool:
        found = result_of(best, bound, Status.FOUND)
        so_far = _as_found(found, bound, search.work_used)
        return on_better is None or on_better(so_far, still_open(so_far.outcome))

    told = tell if on_better else None
    search = Search(planning, seed, budget, plan_id, before, shelves, on_better=told)
    proven, bound = search.run()
    best = search.best
    if best is None:
        status = Status.IMPOSSIBLE if proven else Status.UNDECIDED
        outcome = _outcome(planning, seed, budget, status)
        changes = {"bound": None if proven else bound, "work_used": search.work_used}
        return PlanResult(None, None, outcome.model_copy(update=changes)), search
    if proven:
        return result_of(best, best.rank[1], Status.PROVEN), search
    result = result_of(best, bound, Status.FOUND)
    if search.is_stopped:
        result = _as_found(result, bound, search.work_used)
    return result, search


def _outcome(planning: PlanningProblem, seed: int, budget: Budget, status: Status) -> Outcome:
    proof = status in (Status.PROVEN, Status.IMPOSSIBLE)
    people = planning.base.people
    return Outcome(
        status=status,
        stopped_by=StoppedBy.PROOF if proof else StoppedBy.BUDGET,
        seed=seed,
        budget=budget,
        versions=solver_versions() | {"ortools": _ortools()},
        not_today=tuple(
            NotToday(person_id=p, words="clearance_first")
            for p in sorted(people)
            if people[p].clearance is Clearance.NOT_CLEARED
        ),
    )


def _ortools() -> str:
    return version("ortools")
