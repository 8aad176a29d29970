"""What a class that the tool chose costs as a whole: the gate's own sum of P3 and P8."""

from collections import Counter

from roundwright.library.movement import Movement
from roundwright.library.vocabulary import HIP, Demand
from roundwright.plan.gate.class_facts import (
    REFERENCE_LEVEL,
    exercises_of,
    is_loaded,
    main_muscle,
    main_pattern,
    neighbour_places,
    number_of_each,
    recent_within,
    reference_versions,
    repeated_parts,
)
from roundwright.plan.gate.minutes import price_minutes
from roundwright.plan.gate.reading import Reading

CLEAR = 2
"""The degree of a demand from which neighbours are said to share it (P3)."""
RUNS = (
    ("grip_run", Demand.GRIP),
    ("back_run", Demand.LOW_BACK),
    ("overhead_run", Demand.OVERHEAD),
)


def class_points(reading: Reading) -> Counter[str]:
    """Give the terms of the class itself; none for a class that a coach chose, lengths and all."""
    points: Counter[str] = Counter()
    if reading.problem.spec.chosen_by == "tool":
        _price_balance(reading, points)
        _price_lately(reading, points)
        _price_neighbours(reading, points)
    price_minutes(reading, points)
    return points


def _price_balance(reading: Reading, points: Counter[str]) -> None:
    problem, library = reading.problem, reading.library
    recent = recent_within(reading, problem.rules.balance_days)
    number = number_of_each(
        library, (*exercises_of(reading), *(entry.exercise_id for entry in recent))
    )
    points["push_pull"] += problem.costs.push_pull * abs(number["push"] - number["pull"])
    points["knee_hip"] += problem.costs.knee_hip * abs(number["knee"] - number["hip"])


def _price_lately(reading: Reading, points: Counter[str]) -> None:
    problem, library = reading.problem, reading.library
    exercises, costs, rules = exercises_of(reading), problem.costs, problem.rules
    used = recent_within(reading, min(rules.recent_days, rules.balance_days))
    points["recent_use"] += costs.recent_use * sum(r.exercise_id in exercises for r in used)
    for exercise in exercises:
        muscle = main_muscle(library, exercise)
        tired = sum(muscle in problem.recent.worked.get(p, ()) for p in problem.taking_part)
        points["worked_lately"] += costs.worked_lately * tired
        points["combination"] += costs.combination * (exercise in library.combinations)
        if main_pattern(library, exercise) in HIP and not is_loaded(library, exercise):
            points["unloaded_hip"] += costs.unloaded_hip * _strong(reading)
        points["repeated_part"] += costs.repeated_part * repeated_parts(library, exercise)


def _strong(reading: Reading) -> int:
    """Count who takes part at the level of most of a room or above it, without a doctor's limit."""
    people = [reading.problem.people[p] for p in reading.problem.taking_part]
    return len([p for p in people if not p.is_moderate_only and p.level >= REFERENCE_LEVEL])


def _price_neighbours(reading: Reading, points: Counter[str]) -> None:
    costs, exercises = reading.problem.costs, exercises_of(reading)
    shown = [reference_versions(reading.library, e) for e in exercises]
    for one, other in neighbour_places(reading):
        here, there = shown[one - 1], shown[other - 1]
        both = {m for v in here for m in v.prime_movers}
        both &= {m for v in there for m in v.prime_movers}
        points["shared_mover"] += costs.shared_mover * len(both)
        for term, demand in RUNS:
            if _asks(here, demand) and _asks(there, demand):
                points[term] += getattr(costs, term)
        if _asks(here, Demand.FLOOR_RISE) is not _asks(there, Demand.FLOOR_RISE):
            points["floor_change"] += costs.floor_change


def _asks(versions: tuple[Movement, ...], demand: Demand) -> bool:
    return any(m.demand(demand) >= CLEAR for m in versions)
