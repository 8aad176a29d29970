"""The drawn changes that brute force can go through whole, in all four formats."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache

from roundwright.foundation.errors import BadInputError
from roundwright.goals.class_wish import ClassFormat
from roundwright.plan.changing.change import Change
from roundwright.plan.changing.restate import Restated, restate
from roundwright.plan.document import PlanDocument
from roundwright.plan.gate.judge import judge
from roundwright.plan.problem import Problem
from roundwright.plan.verdict import Grade
from tests.support.random_changes import a_plan_of, drawn_changes
from tests.support.random_halls import Dice, a_drawn_person, a_tiny_hall

FORMS = (
    ClassFormat.TOGETHER,
    ClassFormat.PAIRS,
    ClassFormat.STAGGERED,
    ClassFormat.STATIONS,
)
SEEDS = tuple(
    (kind, seed) for kind, number in (("tiny", 56), ("lean", 72)) for seed in range(number)
)
EVERY = {"tiny": 5, "lean": 2}
"""Of each plan's changes every so many are tried, beginning elsewhere for each plan."""
MOST_PEOPLE_AND_PLACES = {ClassFormat.TOGETHER: 12, ClassFormat.PAIRS: 9}
MOST_ROTATING = 6


@dataclass(frozen=True)
class Case:
    """A plan, a change of it, and today's problem."""

    plan: PlanDocument
    change: Change
    asked: Restated


def _problem(kind: str, seed: int) -> Problem:
    problem = a_tiny_hall(seed if kind == "tiny" else 1_000 + seed)
    form = FORMS[seed % len(FORMS)]
    return problem.model_copy(update={"spec": problem.spec.model_copy(update={"format": form})})


def _trimmed(plan: PlanDocument) -> PlanDocument:
    """Leave no more kit than the plan needs, so that every change meets somebody else's."""
    problem = plan.problem
    for name in ("dumbbells", "items"):
        for k in range(len(getattr(problem.kit, name))):
            problem = _with_least(plan, problem, name, k)
    return plan.model_copy(update={"problem": problem, "verdict": judge(plan.core, problem)})


def _with_least(plan: PlanDocument, problem: Problem, name: str, k: int) -> Problem:
    entries = list(getattr(problem.kit, name))
    for count in range(entries[k].count):
        fewer = [
            e.model_copy(update={"count": count}) if j == k else e for j, e in enumerate(entries)
        ]
        kit = problem.kit.model_copy(update={name: tuple(fewer)})
        tried = problem.model_copy(update={"kit": kit})
        verdict = judge(plan.core, tried)
        if not verdict.is_refused and not any(
            f.rule.startswith("kit.") for f in verdict.of_grade(Grade.STOP)
        ):
            return tried
    return problem


@cache
def cases_of(kind: str, seed: int) -> tuple[Case, ...]:
    """Give the cases of one drawn plan; none where the class is impossible or too large."""
    problem = _problem(kind, seed)
    size = len(problem.people) * problem.spec.positions
    if size > MOST_PEOPLE_AND_PLACES.get(problem.spec.format, MOST_ROTATING):
        return ()
    plan = a_plan_of(problem, seed)
    if plan is None:
        return ()
    if kind == "lean":
        plan = _trimmed(plan)
    stranger = a_drawn_person(Dice(seed, "stranger"), "p999")
    changes = drawn_changes(plan, seed, stranger)
    begin = seed // len(FORMS) % EVERY[kind]
    return tuple(_asked(plan, changes[begin :: EVERY[kind]]))


def _asked(plan: PlanDocument, changes: list[Change]) -> Iterator[Case]:
    for change in changes:
        try:
            asked = restate(plan.problem, plan.core, change, plan.problem.library)
        except BadInputError:
            continue
        if asked.problem.taking_part:
            yield Case(plan, change, asked)
