"""Makes the plan of a class: the best one there is, proven where the budget allows."""

from dataclasses import dataclass, replace
from functools import cached_property
from importlib.metadata import version

from roundwright.foundation.errors import BadInputError
from roundwright.foundation.faults import Fault
from roundwright.goals.class_wish import ClassFormat, CountUnit
from roundwright.optimise.allotment import Allotted, allot
from roundwright.optimise.choice_value import Groups, together
from roundwright.optimise.clash import rotating_clash, smallest_clash
from roundwright.optimise.class_price import class_price
from roundwright.optimise.instance import Instance, Rotating, make_instance, make_rotating
from roundwright.optimise.options import Shelf
from roundwright.optimise.pairs import allot_in_pairs
from roundwright.optimise.plan_core import core_of
from roundwright.optimise.rotation import allot_rotating, instance_of
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
OF_ANY = (
    ClassFormat.TOGETHER,
    ClassFormat.PAIRS,
    ClassFormat.STAGGERED,
    ClassFormat.STATIONS,
)
"""What format `any` stands for, in the order in which equals are taken."""
MOST_COUNTED = 600
"""The largest count that can be written down; a per-side count may double."""


@dataclass(frozen=True, slots=True)
class FitResult:
    """A plan's core, or none, and how the search ended."""

    core: Core | None
    outcome: Outcome


def fit(
    problem: Problem,
    *,
    seed: int = 1,
    budget: Budget = Budget.NORMAL,
    plan_id: str,
    shelf: Shelf | None = None,
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
    shelf : dict, optional
        Options made for other classes of the same planning; what is made here joins them.

    Returns
    -------
    FitResult
        `wall_ms` is left 0 for the caller, who has a clock.

    Raises
    ------
    BadInputError
        For counts that no version can take over.
    """
    faults = _faults(problem)
    if faults:
        raise BadInputError(faults)
    nodes, groupings, swaps = WORK[budget]
    work = Work(nodes_left=nodes, groupings_left=groupings, swaps_left=swaps)
    if not problem.taking_part:
        return FitResult(None, _impossible(problem, (Clash(kind="persons"),), seed, budget, work))
    question = Formats(problem, shelf)
    tried = _tried(question, work, seed)
    best = min((t for t in tried if t.choice is not None), key=lambda t: t.rank, default=None)
    if best is None or best.choice is None:
        return FitResult(None, _no_plan(question, tried, seed, budget, work))
    bound = min(t.bound for t in tried if t.ended is not Ended.INFEASIBLE)
    proven = all(t.is_proven or _cannot_win(t, best) for t in tried)
    outcome = Outcome(
        status=Status.PROVEN if proven else Status.FOUND,
        stopped_by=StoppedBy.PROOF if proven else StoppedBy.BUDGET,
        cost=best.price,
        bound=best.price if proven else min(bound, best.price),
        bound_covers="all" if proven or best.overrun_s == 0 else "price",
        overrun_s=best.overrun_s,
        seed=seed,
        budget=budget,
        work_used=work.used,
        versions=solver_versions(),
        not_today=_not_today(problem),
    )
    instance = question.instance_of(best.groups)
    return FitResult(core_of(instance, best.choice, best.groups, plan_id), outcome)


def solver_versions() -> dict[str, str]:
    """Give the versions of what solves, since equal answers are promised for equal ones."""
    return {name: version(name) for name in ("highspy", "scipy", "numpy")}


class Formats:
    """The tables of one class, each made when a format first asks for it."""

    def __init__(self, problem: Problem, shelf: Shelf | None = None) -> None:
        self.problem, self._shelf = problem, shelf

    @cached_property
    def instance(self) -> Instance:
        """The table where everyone works the same position at once."""
        return make_instance(self.problem, self._shelf)

    @cached_property
    def rotating(self) -> Rotating:
        """The tables where groups stand at different positions."""
        return make_rotating(self.problem, self._shelf)

    def instance_of(self, groups: Groups) -> Instance:
        """Give the table that a choice for some groups counts by."""
        return self.instance if groups.rotating is None else instance_of(self.rotating, groups)

    def allot(
        self, form: ClassFormat, work: Work, seed: int, to_beat: tuple[int, int] | None
    ) -> Allotted:
        """Find the best of one format, the price of the class itself included.

        Parameters
        ----------
        to_beat : (int, int), optional
            As for `allotment.allot`, with the price of the class.
        """
        points = class_price(self.problem, form)
        known = None if to_beat is None else (to_beat[0], to_beat[1] - points)
        if form is ClassFormat.TOGETHER:
            found = allot(self.instance, together(len(self.instance.people)), work, seed, known)
        elif form is ClassFormat.PAIRS:
            found = allot_in_pairs(self.instance, work, seed, known)
        else:
            found = allot_rotating(self.rotating, form, work, seed, known)
        return replace(found, price=found.price + points, bound=found.bound + points)


def formats_of(spec: ClassSpec) -> tuple[ClassFormat, ...]:
    """Give the formats that a class may be held in; of equals the earlier is taken."""
    return OF_ANY if spec.format is ClassFormat.ANY else (spec.format,)


def _tried(question: Formats, work: Work, seed: int) -> tuple[Allotted, ...]:
    tried: list[Allotted] = []
    known: tuple[int, int] | None = None
    for form in formats_of(question.problem.spec):
        found = question.allot(form, work, seed, known)
        tried.append(found)
        if found.choice is not None and (known is None or found.rank < known):
            known = found.rank
    return tuple(tried)


def _cannot_win(tried: Allotted, best: Allotted) -> bool:
    """Say whether an unproven format could at best equal the plan."""
    return best.rank <= (tried.least_s, tried.bound)


def _no_plan(
    question: Formats, tried: tuple[Allotted, ...], seed: int, budget: Budget, work: Work
) -> Outcome:
    if all(t.ended is Ended.INFEASIBLE for t in tried):
        clash = _clash(question, tried[-1].groups, work, seed)
        return _impossible(question.problem, clash, seed, budget, work)
    return Outcome(
        status=Status.UNDECIDED,
        stopped_by=StoppedBy.BUDGET,
        bound=min(t.bound for t in tried if t.ended is not Ended.INFEASIBLE),
        seed=seed,
        budget=budget,
        work_used=work.used,
        versions=solver_versions(),
        not_today=_not_today(question.problem),
    )


def _clash(question: Formats, groups: Groups, work: Work, seed: int) -> tuple[Clash, ...]:
    if groups.rotating is not None:
        return rotating_clash(question.rotating, groups.rotating, work=work, seed=seed)
    return smallest_clash(question.instance, in_pairs=groups.in_pairs, work=work, seed=seed)


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
