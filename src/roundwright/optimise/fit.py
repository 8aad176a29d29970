"""Makes the plan of a class: the best one there is, proven where the budget allows."""

from dataclasses import dataclass
from importlib.metadata import version

from roundwright.foundation.errors import BadInputError
from roundwright.foundation.faults import Fault
from roundwright.goals.class_wish import ClassFormat, CountUnit
from roundwright.optimise.allotment import Allotted, allot
from roundwright.optimise.choice_value import together
from roundwright.optimise.clash import smallest_clash
from roundwright.optimise.instance import Instance, make_instance
from roundwright.optimise.pairs import allot_in_pairs
from roundwright.optimise.plan_core import core_of
from roundwright.optimise.solver import Ended, Work
from roundwright.people.person import Clearance
from roundwright.plan.core import Core
from roundwright.plan.outcome import Budget, Clash, NotToday, Outcome, Status, StoppedBy
from roundwright.plan.problem import ClassSpec, Problem

WORK = {
    Budget.QUICK: (2_000, 60, 8),
    Budget.NORMAL: (50_000, 400, 24),
    Budget.THOROUGH: (1_000_000, 400, 400),
}
"""Solver nodes, groupings and swaps that a budget allows; our choice."""
MOST_COUNTED = 600
"""The largest count that can be written down; a per-side count may double."""


@dataclass(frozen=True, slots=True)
class FitResult:
    """A plan's core, or none, and how the search ended."""

    core: Core | None
    outcome: Outcome


def fit(
    problem: Problem, *, seed: int = 1, budget: Budget = Budget.NORMAL, plan_id: str
) -> FitResult:
    """Fit people, kit and slot: least overrun first, then least price.

    Parameters
    ----------
    problem : Problem
        The frozen question.
    seed : int
        For ties and swaps; equal problem, seed and budget give an equal core.
    budget : Budget
        Counted work.
    plan_id : str
        The identifier that the plan gets.

    Returns
    -------
    FitResult
        `wall_ms` is left 0 for the caller, who has a clock.

    Raises
    ------
    BadInputError
        For formats that come later, and counts that no version can take over.
    """
    faults = _faults(problem)
    if faults:
        raise BadInputError(faults)
    nodes, groupings, swaps = WORK[budget]
    work = Work(nodes_left=nodes, groupings_left=groupings, swaps_left=swaps)
    if not problem.taking_part:
        return FitResult(None, _impossible(problem, (Clash(kind="persons"),), seed, budget, work))
    instance = make_instance(problem)
    tried = _tried(instance, problem.spec.format, work, seed)
    best = min((t for t in tried if t.choice is not None), key=lambda t: t.rank, default=None)
    if best is None or best.choice is None:
        return FitResult(None, _no_plan(instance, tried, seed, budget, work))
    bound = min(t.bound for t in tried if not (t.choice is None and t.is_proven))
    proven = all(t.is_proven or _cannot_win(t, best) for t in tried)
    outcome = Outcome(
        status=Status.PROVEN if proven else Status.FOUND,
        stopped_by=StoppedBy.PROOF if proven else StoppedBy.BUDGET,
        cost=best.price,
        bound=best.price if proven else min(bound, best.price),
        overrun_s=best.overrun_s,
        seed=seed,
        budget=budget,
        work_used=work.used,
        versions=solver_versions(),
        not_today=_not_today(problem),
    )
    return FitResult(core_of(instance, best.choice, best.groups, plan_id), outcome)


def solver_versions() -> dict[str, str]:
    """Give the versions of what solves, since equal answers are promised for equal ones."""
    return {name: version(name) for name in ("highspy", "scipy", "numpy")}


def _tried(
    instance: Instance, class_format: ClassFormat, work: Work, seed: int
) -> tuple[Allotted, ...]:
    tried = []
    if class_format in (ClassFormat.TOGETHER, ClassFormat.ANY):
        tried.append(allot(instance, together(len(instance.people)), work, seed))
    if class_format in (ClassFormat.PAIRS, ClassFormat.ANY):
        tried.append(allot_in_pairs(instance, work, seed))
    return tuple(tried)


def _cannot_win(tried: Allotted, best: Allotted) -> bool:
    """Say whether an unproven format could at best equal a plan without overrun."""
    return best.overrun_s == 0 and best.price <= tried.bound


def _no_plan(
    instance: Instance, tried: tuple[Allotted, ...], seed: int, budget: Budget, work: Work
) -> Outcome:
    if all(t.ended is Ended.INFEASIBLE for t in tried):
        in_pairs = tried[-1].groups.in_pairs
        clash = smallest_clash(instance, in_pairs=in_pairs, work=work, seed=seed)
        return _impossible(instance.problem, clash, seed, budget, work)
    return Outcome(
        status=Status.UNDECIDED,
        stopped_by=StoppedBy.BUDGET,
        bound=min(t.bound for t in tried if t.ended is not Ended.INFEASIBLE),
        seed=seed,
        budget=budget,
        work_used=work.used,
        versions=solver_versions(),
        not_today=_not_today(instance.problem),
    )


def _impossible(
    problem: Problem, clash: tuple[Clash, ...], seed: int, budget: Budget, work: Work
) -> Outcome:
    return Outcome(
        status=Status.IMPOSSIBLE,
        stopped_by=StoppedBy.PROOF,
        seed=seed,
        budget=budget,
        work_used=work.used,
        versions=solver_versions(),
        clash=clash,
        not_today=_not_today(problem),
    )


def _not_today(problem: Problem) -> tuple[NotToday, ...]:
    return tuple(
        NotToday(person_id=p, words="clearance_first")
        for p in sorted(problem.people)
        if problem.people[p].clearance is Clearance.NOT_CLEARED
    )


def _faults(problem: Problem) -> list[Fault]:
    spec = problem.spec
    faults = []
    if spec.format in (ClassFormat.STATIONS, ClassFormat.STAGGERED):
        faults.append(
            _fault(
                spec,
                "format",
                spec.format.value,
                "together, pairs or any; stations and staggered groups come later",
            )
        )
    for planned in spec.exercises:
        count, where = planned.count, f"exercise {planned.position}"
        combined = planned.exercise_id in problem.library.combinations
        if combined and count.unit is CountUnit.REPS_ALTERNATING:
            faults.append(_fault(spec, where, count.unit.value, "reps, or reps a side"))
        doubled = count.unit in (CountUnit.REPS_PER_SIDE, CountUnit.SECONDS_PER_SIDE)
        if doubled and count.value * 2 > MOST_COUNTED:
            faults.append(
                _fault(spec, where, str(count.value), f"at most {MOST_COUNTED // 2} a side")
            )
    return faults


def _fault(spec: ClassSpec, field: str, value: str, expected: str) -> Fault:
    return Fault(
        code="field.value",
        file=f"classes/{spec.class_id}.toml",
        field=field,
        value=value,
        expected=expected,
    )
