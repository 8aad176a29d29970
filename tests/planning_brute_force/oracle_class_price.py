"""The price of the class itself (P3), term by term."""

from collections import Counter
from collections.abc import Iterable

from roundwright.body.anatomy import Side
from roundwright.library.catalogue import Catalogue
from roundwright.library.movement import Movement
from roundwright.library.vocabulary import HIP, KNEE, PULL, PUSH, Demand, Pattern
from roundwright.plan.problem import Problem
from tests.planning_brute_force.oracle_lengths import minutes_price
from tests.planning_brute_force.oracle_sets import (
    facts_of,
    main_muscle,
    main_pattern,
    neighbours,
)

REFERENCE_LEVEL = 3


def reference_versions(library: Catalogue, exercise_id: str) -> list[Movement]:
    """Of each line the hardest version of level 3 or less, else the first."""
    found = []
    for line in library.lines_of_exercise(exercise_id):
        versions = library.versions(line)
        easy = [m for m in versions if m.level <= REFERENCE_LEVEL]
        found.append(easy[-1] if easy else versions[0])
    return found


def _imbalance(patterns: list[Pattern], one: Iterable[Pattern], other: Iterable[Pattern]) -> int:
    return abs(sum(p in set(one) for p in patterns) - sum(p in set(other) for p in patterns))


def _movers(movements: list[Movement]) -> set[str]:
    return {muscle.value for m in movements for muscle in m.prime_movers}


def _asks(movements: list[Movement], demand: Demand) -> bool:
    return any(m.demand(demand) >= 2 for m in movements)


def neighbour_price(problem: Problem, first: str, second: str) -> int:
    """The price of two exercises side by side."""
    costs, library = problem.costs, problem.library
    one, other = reference_versions(library, first), reference_versions(library, second)
    price = costs.shared_mover * len(_movers(one) & _movers(other))
    for demand, points in (
        (Demand.GRIP, costs.grip_run),
        (Demand.LOW_BACK, costs.back_run),
        (Demand.OVERHEAD, costs.overhead_run),
    ):
        if _asks(one, demand) and _asks(other, demand):
            price += points
    if _asks(one, Demand.FLOOR_RISE) != _asks(other, Demand.FLOOR_RISE):
        price += costs.floor_change
    return price


def repeats(library: Catalogue, exercise_id: str) -> int:
    """How many parts bring back a line on a side it was on, or the muscle of another line."""
    if exercise_id not in library.combinations:
        return 0
    had: Counter[tuple[str, str]] = Counter()
    number = 0
    for part in library.combinations[exercise_id].parts:
        sides = ["left", "right"] if part.side == Side.BOTH else [part.side.value]
        number += any(had[part.line, side] for side in sides)
        had.update((part.line, side) for side in sides)
    lines = {line for line, _ in had}
    by_muscle = Counter(main_muscle(library, line) for line in lines)
    return number + sum(n - 1 for n in by_muscle.values())


def class_price(problem: Problem) -> int:
    """All of P3 and P8 for a concrete class; of P3 nothing where the coach chose it."""
    spec, library, costs, rules = problem.spec, problem.library, problem.costs, problem.rules
    if spec.chosen_by != "tool":
        return minutes_price(problem)
    chosen = [e.exercise_id for e in spec.exercises]
    recent = [
        r
        for r in problem.recent.exercises
        if r.days_ago <= rules.balance_days and library.has_exercise(r.exercise_id)
    ]
    patterns = [main_pattern(library, e) for e in chosen]
    patterns += [main_pattern(library, r.exercise_id) for r in recent]
    price = costs.push_pull * _imbalance(patterns, PUSH, PULL)
    price += costs.knee_hip * _imbalance(patterns, KNEE, HIP)
    price += costs.recent_use * sum(
        r.days_ago <= rules.recent_days and r.exercise_id in chosen for r in recent
    )
    price += costs.worked_lately * sum(
        main_muscle(library, e) in problem.recent.worked.get(person_id, ())
        for e in chosen
        for person_id in problem.taking_part
    )
    price += costs.combination * sum(e in library.combinations for e in chosen)
    price += costs.unloaded_hip * sum(
        facts_of(library, e).pattern in HIP and not facts_of(library, e).loaded
        for e in chosen
        for person_id in problem.taking_part
        if problem.people[person_id].level >= REFERENCE_LEVEL
        and not problem.people[person_id].is_moderate_only
    )
    price += costs.repeated_part * sum(repeats(library, e) for e in chosen)
    price += minutes_price(problem)
    return price + sum(
        neighbour_price(problem, chosen[i], chosen[j])
        for i, j in neighbours(len(chosen), spec.format)
    )
