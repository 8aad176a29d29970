"""The drawn cases that brute force can search whole, each searched once."""

from collections import Counter
from functools import cache

from roundwright.goals.class_wish import ClassFormat
from roundwright.library.vocabulary import HIP
from roundwright.plan.core import CellState
from roundwright.plan.planning_problem import PlanningProblem
from roundwright.plan.problem import Problem
from tests.planning_brute_force.oracle_fit import Best, best_fit
from tests.planning_brute_force.oracle_planning import BestClass, best_class
from tests.planning_brute_force.oracle_sets import facts_of
from tests.support.random_planning import (
    ROTATING_FORMATS,
    SIMPLE_FORMATS,
    a_tiny_planning,
    a_tiny_rotation,
)

FORMATS = {
    "simple": SIMPLE_FORMATS,
    "turns": ROTATING_FORMATS,
    "all": (*SIMPLE_FORMATS, *ROTATING_FORMATS),
    "stations": (ClassFormat.STATIONS,),
}
STATIONS_BY_ORDER = (44, 64)
"""Four stations where another order with the same ends is the best."""
TOO_SLOW: dict[str, set[int]] = {
    "simple": {10, 12, 24, 25, 27, 34, 40},
    "turns": {3, 5, 7, 8, 9, 16, 17, 21, 22, 24, 28, 34, 35, 37, 40, 43},
    "all": {7, 12, 13, 15, 19, 27, 31, 38, 40, 43, 45, 47},
}
"""Left out because trying everything takes more than half a second."""
PLANNING_SEEDS = tuple(
    (kind, seed)
    for kind, number in (("simple", 45), ("turns", 44), ("all", 55))
    for seed in range(number)
    if seed not in TOO_SLOW[kind]
) + tuple(("stations", seed) for seed in STATIONS_BY_ORDER)
TOO_SLOW_TURNS = {45, 47, 55}
TURN_SEEDS = tuple(
    (form, seed)
    for form in ROTATING_FORMATS
    for seed in (*range(60), 63, 99, 113, 135, 145, 172)
    if seed not in TOO_SLOW_TURNS
)


@cache
def planning_case(kind: str, seed: int) -> tuple[PlanningProblem, BestClass | None]:
    planning = a_tiny_planning(seed, FORMATS[kind])
    return planning, best_class(planning)


@cache
def turn_case(form: ClassFormat, seed: int) -> tuple[Problem, Best | None]:
    problem = a_tiny_rotation(seed, form)
    return problem, best_fit(problem, form)


def features_of(planning: PlanningProblem, best: BestClass | None) -> Counter[str]:
    """What a case has in it, so that the set of cases can be seen to hold everything."""
    seen: Counter[str] = Counter()
    rules = planning.base.rules
    seen["impossible"] += best is None
    seen["kept"] += bool(planning.kept)
    seen["kept at a place"] += any(k.position for k in planning.kept)
    seen["a set already shown"] += bool(planning.besides)
    seen["recent classes"] += bool(planning.base.recent.exercises)
    seen["four places"] += planning.places == 4
    seen["trunk needed"] += planning.places >= rules.least_places_for_trunk
    seen["another class, two others"] += bool(planning.besides) and planning.others == 2
    library, people = planning.base.library, planning.base.people
    strong = any(people[p].level >= 3 for p in planning.base.taking_part)
    open_to = [facts_of(library, c.exercise_id) for c in planning.candidates]
    seen["a hip exercise that is not loaded is open"] += strong and any(
        f.pattern in HIP and not f.loaded for f in open_to
    )
    if best is None:
        return seen
    chosen = [facts_of(library, e) for e in best.exercise_ids]
    seen["a hip exercise that is not loaded is chosen"] += strong and any(
        f.pattern in HIP and not f.loaded for f in chosen
    )
    lines = Counter(line for e in best.exercise_ids for line in library.lines_of_exercise(e))
    seen["a line twice"] += max(lines.values()) > 1
    seen[f"{best.format}"] += 1
    seen[f"{best.format} among others"] += len(planning.formats) > 1
    seen["other rounds than asked"] += best.rounds != planning.base.spec.rounds
    seen["slot too short"] += best.value[0] > 0
    options = [o for way in best.best.ways.values() for o in way.options]
    for option in options:
        seen[option.state.value] += 1
        seen["could lift and does not"] += option.could_lift
        seen["tail"] += option.tail is not None
        seen["dumbbells"] += option.main is not None and option.main.mass_g > 0
    seen["someone sits out"] += any(o.state is CellState.SIT_OUT for o in options)
    return seen
