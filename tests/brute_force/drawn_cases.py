"""The drawn cases that brute force can search whole, each searched once."""

from collections import Counter
from dataclasses import dataclass
from functools import cache

from roundwright.body.anatomy import Side
from roundwright.goals.class_wish import ClassFormat
from roundwright.plan.core import CellState
from roundwright.plan.problem import Problem
from tests.brute_force.oracle_loads import held_back_price
from tests.brute_force.oracle_options import levels_above, options_of_exercise
from tests.brute_force.oracle_people import dosage, own_counts
from tests.brute_force.oracle_search import Best, best_plan, groupings, space_of
from tests.support.random_halls import a_hasty_hall, a_tiny_hall, with_drawn_cuts
from tests.support.uneven_halls import an_uneven_hall

LARGEST_SPACE = 60_000
TOO_LARGE = {
    "tiny": {15, 16, 17, 20, 22, 26, 40, 66, 95, 108, 148},
    "hasty": {21},
    "uneven": {27, 35, 46},
}
HALLS = {"tiny": a_tiny_hall, "hasty": a_hasty_hall, "uneven": an_uneven_hall}
SEEDS = tuple(
    (kind, seed)
    for kind, number in (("tiny", 160), ("hasty", 80), ("uneven", 60))
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
    problem = with_drawn_cuts(HALLS[kind](seed), seed)
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
    spec, people, library = problem.spec, problem.people, problem.library
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
    seen["cut short is left out"] += sum(_leaves_out_cut_short(problem, p) for p in best.plans)
    seen["own level alone"] += sum(_leaves_out_harder(problem, p) for p in best.plans)
    for person_id, plan in best.plans.items():
        seen["fewer rounds than the class"] += dosage(problem, person_id).rounds < spec.rounds
        seen["skips rope"] += plan.burst.low_hops > 0
        for exercise, option in zip(spec.exercises, plan.options, strict=True):
            seen[option.state.value] += 1
            seen["could lift and does not"] += option.could_lift
            seen["tail"] += option.tail is not None
            main = option.main
            if main is None:
                continue
            seen["dumbbells"] += main.mass_g > 0
            seen["step up"] += levels_above(problem, person_id, main.version) > 0
            if option.state is CellState.DO and exercise.exercise_id in library.combinations:
                price = held_back_price(problem, person_id, main.version, main.mass_g)
                seen["held back by a part"] += price > 0
            seen["bench, box or mat"] += bool(main.items)
            seen["jumps"] += main.version.contacts > 0
            seen["several steps"] += len(main.version.steps) > 1 and option.state is CellState.DO
            first = main.version.steps[0].side
            seen["one side only"] += len(main.version.steps) == 1 and first is not Side.BOTH
    return seen


def _leaves_out_harder(problem: Problem, person_id: str) -> int:
    """At how many places rule 11 leaves out a version above the person's level."""
    places = 0
    for exercise, wish in zip(problem.spec.exercises, own_counts(problem, person_id), strict=True):
        options = options_of_exercise(
            problem, person_id, exercise.position, exercise.exercise_id, wish
        )
        above = {levels_above(problem, person_id, o.main.version) > 0 for o in options if o.main}
        places += above == {False, True}
    return places


def _leaves_out_cut_short(problem: Problem, person_id: str) -> int:
    """At how many places rule 12 leaves out a version that lands too often to be kept whole."""
    places = 0
    for exercise, wish in zip(problem.spec.exercises, own_counts(problem, person_id), strict=True):
        options = options_of_exercise(
            problem, person_id, exercise.position, exercise.exercise_id, wish
        )
        level = [o.main.version for o in options if o.main]
        own = [v for v in level if levels_above(problem, person_id, v) <= 0]
        places += {v.cut_short for v in own or level} == {False, True}
    return places
