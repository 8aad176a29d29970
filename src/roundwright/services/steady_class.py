"""A plan that holds whoever comes, chosen by drawn rosters: C9 of *How a plan is changed*.

The pool: the plan as usual, plans that keep kit and room for walk-ins, and the next best sets of
exercises. What is told of the chosen one comes from other rosters than those that chose it.
"""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace

from roundwright.foundation import shown
from roundwright.foundation.errors import NoPlanError
from roundwright.hall.hall import Hall
from roundwright.library.catalogue import Catalogue
from roundwright.people.person import Clearance, Person
from roundwright.plan.attendance.attendance_table import AttendanceTable
from roundwright.plan.attendance.holding import (
    MOST_TIER,
    Ending,
    Holding,
    Rated,
    best_of,
    ending_of,
    head_counts,
)
from roundwright.plan.attendance.rosters import (
    Roster,
    restated_for,
    sampled_roster,
    walk_ins_of,
)
from roundwright.plan.build_problem import problem_person
from roundwright.plan.changing.answer import Mender
from roundwright.plan.changing.change import PersonLeft
from roundwright.plan.changing.restate import Restated, restate
from roundwright.plan.document import HoldsFor, PlanDocument
from roundwright.plan.gate.checked_plan import judged
from roundwright.plan.gate.judge import judge
from roundwright.plan.outcome import Budget, Outcome, Status, StoppedBy
from roundwright.plan.planning_problem import PlanningProblem
from roundwright.plan.problem import Problem, ProblemPerson
from roundwright.services.judged_plan import judged_plan
from roundwright.services.plan_class import PlannedClass, PlanRequest
from roundwright.services.ports import ClassPlanner, Rehearse


@dataclass(frozen=True, slots=True)
class PoolPlan:
    """One plan of the pool: what it keeps kit for, how many better sets it passed over."""

    document: PlanDocument
    reserved: int = 0
    passed_over: int = 0


@dataclass(frozen=True, slots=True)
class SteadyPlan:
    """The chosen plan, what came of it, and of every plan of the pool when it was chosen.

    `usual` is the plan that is made without thinking of who comes.
    """

    chosen: PoolPlan
    holding: Holding
    usual: PoolPlan
    usual_holding: Holding
    pool: tuple[tuple[PoolPlan, Holding], ...]
    head_counts: tuple[int, int] | None = None


Told = Callable[[str], object]
"""Hears in words how far it is."""


@dataclass(frozen=True)
class Attendance:
    """Who may come to one class, and how a plan is tried with them.

    Parameters
    ----------
    chances : mapping
        Usual chance of coming by person, 1/10,000, None where nothing is said.
    stranger : ProblemPerson
        What planning may know of a walk-in.
    library : Catalogue
        Everything that may be put into the class.
    mender : Mender
        Who answers changes.
    """

    chances: Mapping[str, int | None]
    stranger: ProblemPerson
    library: Catalogue
    mender: Mender
    seed: int
    table: AttendanceTable = field(default_factory=AttendanceTable)

    def rosters(self, purpose: str, number: int) -> Iterator[Roster]:
        """Draw rosters; a class that nobody comes to is not held and left out."""
        for index in range(number):
            roster = sampled_roster(
                self.chances, self.table, seed=self.seed, purpose=purpose, index=index
            )
            if roster.heads:
                yield roster

    def holding(self, document: PlanDocument, rosters: Sequence[Roster]) -> Holding:
        """Try a plan with rosters; equal ones are tried once."""
        endings = {r: self.ending(document, r) for r in dict.fromkeys(rosters)}
        return Holding(tuple((r.heads, endings[r]) for r in rosters))

    def ending(self, document: PlanDocument, roster: Roster) -> Ending:
        """Answer one roster by tier 0, and where that does not hold by tier 1."""
        asked = restated_for(document.problem, document.core, roster, self.stranger, self.library)
        if not asked.persons:
            return Ending.HELD
        try:
            answer = self.mender.at_once(document, asked, self.library)
            ending = ending_of(answer.harm, answer.tier, self.table)
            if ending is Ending.HELD and not judge(answer.core, answer.problem).is_refused:
                return ending
            answer = self.mender.mend(
                document,
                asked,
                self.library,
                seed=self.seed,
                budget=Budget.QUICK,
                most_tier=MOST_TIER,
            )
        except NoPlanError:
            return Ending.NO_ANSWER
        if judge(answer.core, answer.problem).is_refused:
            return Ending.NO_ANSWER
        return ending_of(answer.harm, answer.tier, self.table)


def attendance_of(
    hall: Hall,
    planning: PlanningProblem,
    mender: Mender,
    seed: int,
    table: AttendanceTable | None = None,
) -> Attendance:
    """Give who may come to the class of a planning problem."""
    base = planning.base
    booked = set(base.taking_part)
    chances = {
        p.person_id: None if p.usual_chance_pct is None else p.usual_chance_pct * 100
        for p in hall.people
        if p.person_id in booked
    }
    unknown = Person(person_id="walk_in", shown_name="Walk-in", clearance=Clearance.UNKNOWN)
    stranger = problem_person(hall, unknown, base.spec.starts_on, base.rules)
    return Attendance(chances, stranger, base.library, mender, seed, table or AttendanceTable())


def steady_plan(
    planned: PlannedClass,
    attendance: Attendance,
    request: PlanRequest,
    *,
    planner: ClassPlanner,
    rehearse: Rehearse | None = None,
    told: Told | None = None,
) -> SteadyPlan:
    """Choose the plan that holds for most drawn rosters, then costs least.

    Parameters
    ----------
    planned : PlannedClass
        The class as it is usually planned; it must hold a plan.
    attendance : Attendance
        Who may come, and how a plan is tried.
    request : PlanRequest
        Seed and budget of the plans of the pool.
    planner : ClassPlanner
        Who makes them.
    rehearse : Rehearse, optional
        Who plays the chosen plan through.
    told : callable, optional
        Hears of each plan of the pool as it is tried.

    Raises
    ------
    NoPlanError
        There is no plan to begin with.
    """
    if planned.document is None:
        raise NoPlanError("There is no plan that could be tried with other people.")
    say = told or (lambda words: None)
    table = attendance.table
    choosing = tuple(attendance.rosters("choosing", table.choosing))
    pool: list[tuple[PoolPlan, Holding]] = []
    for plan in _pool(planned, planned.document, attendance, request, planner):
        holding = attendance.holding(plan.document, choosing)
        pool.append((plan, holding))
        say(f"{_name(plan)}: holds {holding.held} times of {len(choosing)}.")
    rated = [Rated(n, h.held, plan.document.outcome.cost or 0) for n, (plan, h) in enumerate(pool)]
    chosen = pool[best_of(rated).number][0]
    usual = pool[0][0]
    telling = tuple(attendance.rosters("telling", table.telling))
    usual_holding = attendance.holding(usual.document, telling)
    holding = usual_holding if chosen is usual else attendance.holding(chosen.document, telling)
    counts = head_counts(holding, table)
    facts = HoldsFor(
        fewest=counts[0] if counts else None,
        most=counts[1] if counts else None,
        least_bp=table.held_bp,
        held_bp=holding.held_bp,
        rosters=len(telling),
        seed=attendance.seed,
    )
    document = _with_facts(chosen.document, facts, attendance.seed, rehearse)
    return SteadyPlan(
        replace(chosen, document=document), holding, usual, usual_holding, tuple(pool), counts
    )


def _with_facts(
    document: PlanDocument, holds_for: HoldsFor, seed: int, rehearse: Rehearse | None
) -> PlanDocument:
    """Write down what came of it, beside the chance on time where it is played through."""
    update: dict[str, object] = {"holds_for": holds_for}
    if rehearse is not None:
        update["chance_on_time"] = rehearse(document.core, document.problem, seed)
    now = document.model_copy(update={"facts": document.facts.model_copy(update=update)})
    return judged(now)


def _pool(
    planned: PlannedClass,
    usual: PlanDocument,
    attendance: Attendance,
    request: PlanRequest,
    planner: ClassPlanner,
) -> Iterator[PoolPlan]:
    yield PoolPlan(usual)
    plan_id, table = usual.core.plan_id, attendance.table
    for reserved in sorted({n for n in table.reserved if n > 0}):
        guests = dict.fromkeys(walk_ins_of(reserved), attendance.stranger)
        people = dict(sorted((planned.planning.base.people | guests).items()))
        base = planned.planning.base.model_copy(update={"people": people})
        asked = planned.planning.model_copy(update={"base": base})
        document = _planned(asked, plan_id, attendance, request, planner, tuple(guests))
        if document is not None:
            yield PoolPlan(document, reserved=reserved)
    passed = [_set_of(usual)]
    for number in range(1, table.other_sets + 1):
        besides = (*planned.planning.besides, *passed)
        asked = planned.planning.model_copy(update={"besides": besides})
        document = _planned(asked, plan_id, attendance, request, planner, ())
        if document is None:
            return
        passed.append(_set_of(document))
        yield PoolPlan(document, passed_over=number)


def _set_of(document: PlanDocument) -> tuple[str, ...]:
    return tuple(sorted(e.exercise_id for e in document.core.exercises))


def _planned(
    planning: PlanningProblem,
    plan_id: str,
    attendance: Attendance,
    request: PlanRequest,
    planner: ClassPlanner,
    guests: tuple[str, ...],
) -> PlanDocument | None:
    """Plan with guests and take them out again; None where there is no plan, or it is late."""
    found = planner.plan(planning, seed=request.seed, budget=request.budget, plan_id=plan_id)
    if found.core is None or found.problem is None or found.outcome.overrun_s:
        return None
    document = judged_plan(found.core, found.problem, found.outcome, request.seed, None)
    if not guests:
        return document
    asked = _without(document, guests, attendance.library)
    answer = attendance.mender.at_once(document, asked, attendance.library)
    core = answer.core.model_copy(update={"revision": 1, "parent_revision": None})
    outcome = _as_usual(found.outcome, answer.harm.price)
    return judged_plan(core, answer.problem, outcome, request.seed, None)


def _without(document: PlanDocument, guests: tuple[str, ...], library: Catalogue) -> Restated:
    problem: Problem = document.problem
    for guest in guests:
        problem = restate(problem, document.core, PersonLeft(person=guest), library).problem
    same = {k: k for k in range(1, problem.spec.positions + 1)}
    return Restated(problem, same, frozenset(guests))


def _as_usual(outcome: Outcome, price: int) -> Outcome:
    """Give how a plan was found whose guests are gone: its price holds, a bound does not."""
    return outcome.model_copy(
        update={
            "status": Status.FOUND,
            "stopped_by": StoppedBy.BUDGET,
            "cost": price,
            "bound": None,
        }
    )


def _name(plan: PoolPlan) -> str:
    if plan.reserved:
        walk_ins = "a walk-in" if plan.reserved == 1 else f"{plan.reserved} walk-ins"
        return f"With kit kept for {walk_ins}"
    return "Another set of exercises" if plan.passed_over else "As usual"


def holds_words(document: PlanDocument) -> str:
    """Say for how many people a plan holds; empty where it was not tried.

    Parameters
    ----------
    document : PlanDocument
        Its facts hold what came of it.
    """
    told = document.facts.holds_for
    if told is None:
        return ""
    if told.fewest is None or told.most is None:
        return "It does not hold well for other numbers of people: look again at the door."
    often = f"{shown.times_in_ten(told.least_bp)} or more"
    if told.fewest == told.most:
        return f"Holds for {told.fewest} people, {often}."
    return f"Holds for {told.fewest} to {told.most} people, {often}."
