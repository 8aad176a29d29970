"""The drawn cases that brute force can search whole, each searched once."""

from collections import Counter
from dataclasses import dataclass
from functools import cache

from roundwright.body.anatomy import Side
from roundwright.goals.class_wish import ClassFormat
from roundwright.plan.core import CellState
from roundwright.plan.problem import Problem
from tests.brute_force.oracle_people import dosage
from tests.brute_force.oracle_search import Best, best_plan, groupings, space_of
from tests.support.random_halls import a_hasty_hall, a_tiny_hall

LARGEST_SPACE = 60_000
TOO_LARGE = {
    "tiny": {15, 16, 17, 20, 22, 26, 40, 66, 95, 108, 148},
    "hasty": {21},
}
SEEDS = tuple(
    (kind, seed)
    for kind, number in (("tiny", 160), ("hasty", 80))
    for seed in range(number)
    if seed not in TOO_LARGE[kind]
)


@dataclass(frozen=True)
class Case:
    """A problem, how many combinations it has, and the best of them."""

    problem: Problem
    size: int
    best: Best | None


@cache
def case_of(kind: str, seed: int) -> Case:
    problem = a_tiny_hall(seed) if kind == "tiny" else a_hasty_hall(seed)
    space = space_of(problem)
    ways = 1
    if problem.spec.format is not ClassFormat.TOGETHER:
        ways = len(list(groupings(tuple(space.own))))
    size = space.size * ways
    if size > LARGEST_SPACE:
        raise ValueError(f"the space of {kind} {seed} has {size} plans; leave it out")
    return Case(problem, size, best_plan(space))


def features_of(case: Case) -> Counter[str]:
    """What a case has in it, so that the set of cases can be seen to hold everything."""
    problem, best = case.problem, case.best
    spec, people = problem.spec, problem.people
    seen: Counter[str] = Counter()
    seen["impossible for kit or contacts"] += best is None and case.size > 0
    seen["impossible for what is kept"] += best is None and case.size == 0
    seen["not today"] += len(people) - len(problem.taking_part)
    seen["timed"] += spec.exercises[0].count.is_timed
    seen["ban"] += bool(spec.ban)
    seen["child"] += sum(p.youngest_age == 15 for p in people.values())
    seen["moderate only"] += sum(p.is_moderate_only for p in people.values())
    if best is None:
        return seen
    seen[f"{spec.format} answered {best.format}"] += 1
    seen["slot too short"] += best.overrun_s > 0
    seen["keep"] += bool(spec.keep)
    seen["group of three"] += any(len(group) == 3 for group in best.groups)
    for person_id, plan in best.plans.items():
        seen["fewer rounds than the class"] += dosage(problem, person_id).rounds < spec.rounds
        seen["skips rope"] += plan.burst.low_hops > 0
        for option in plan.options:
            seen[option.state.value] += 1
            seen["tail"] += option.tail is not None
            main = option.main
            if main is None:
                continue
            seen["dumbbells"] += main.mass_g > 0
            seen["bench, box or mat"] += bool(main.items)
            seen["jumps"] += main.version.contacts > 0
            seen["several steps"] += len(main.version.steps) > 1 and option.state is CellState.DO
            first = main.version.steps[0].side
            seen["one side only"] += len(main.version.steps) == 1 and first is not Side.BOTH
    return seen
