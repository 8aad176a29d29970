"""The best class of all: every set, order, format, number of rounds and arrangement (P1).

Each concrete class is weighed by what it can cost at least; those that cannot be the
best are not searched. What is left is searched whole.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import combinations, permutations, product

from roundwright.goals.class_wish import ClassFormat, Count
from roundwright.plan.planning_problem import Candidate, PlanningProblem
from roundwright.plan.problem import Problem
from roundwright.plan.rule_table import WorkRest
from tests.planning_brute_force.oracle_arrangements import Arrangement, arrangements
from tests.planning_brute_force.oracle_fit import Best, FitSearch, OptionBook, Value, Way
from tests.planning_brute_force.oracle_lengths import count_in, paired, pairs_to_try
from tests.planning_brute_force.oracle_sets import (
    may_be_chosen,
    order_is_allowed,
    set_is_allowed,
)

TieKey = tuple[int, int, int, tuple[str, ...], int]
"""Changes of rounds, format and pair by place in their list, exercises, rounds."""


@dataclass(frozen=True)
class BestClass:
    """The sought class: its value, and what is chosen by the rules for ties."""

    value: Value
    exercise_ids: tuple[str, ...]
    format: ClassFormat
    rounds: int
    pair: WorkRest | None
    problem: Problem
    best: Best


def rounds_to_try(planning: PlanningProblem) -> list[int]:
    """The asked rounds and those that may be planned instead."""
    return sorted({planning.base.spec.rounds, *planning.rounds_choice})


def sets_to_try(planning: PlanningProblem) -> Iterator[tuple[str, ...]]:
    """Every allowed set, kept exercises first."""
    kept = [k.exercise_id for k in planning.kept]
    library, ban = planning.base.library, planning.base.spec.ban
    free = sorted(
        {
            c.exercise_id
            for c in planning.candidates
            if c.exercise_id not in kept and may_be_chosen(library, c.exercise_id, ban)
        }
    )
    if planning.places < len(kept):
        return
    for chosen in combinations(free, planning.places - len(kept)):
        whole = (*kept, *chosen)
        if set_is_allowed(planning, whole):
            yield whole


def orders_of(planning: PlanningProblem, chosen: tuple[str, ...]) -> Iterator[tuple[str, ...]]:
    """Every order with the placed ones at their places."""
    placed = {k.exercise_id: k.position for k in planning.kept if k.position is not None}
    for order in permutations(chosen):
        if all(order[place - 1] == exercise for exercise, place in placed.items()):
            yield order


def concrete(
    planning: PlanningProblem,
    order: tuple[str, ...],
    form: ClassFormat,
    rounds: int,
    pair: WorkRest | None = None,
) -> Problem:
    """The concrete class; a kept exercise has the coach's count."""
    counts: dict[str, Count] = {c.exercise_id: count_in(c, pair) for c in planning.candidates}
    counts |= {k.exercise_id: count_in(k, pair) for k in planning.kept}
    chosen = tuple(Candidate(exercise_id=e, count=counts[e]) for e in order)
    return paired(planning.concrete(chosen, form, rounds), pair)


@dataclass(frozen=True)
class _Try:
    least: Value
    tie: TieKey
    search: FitSearch
    arrangement: Arrangement


def _tries(planning: PlanningProblem) -> Iterator[_Try]:
    book: OptionBook = {}
    asked = planning.base.spec.rounds
    for chosen in sets_to_try(planning):
        for order in orders_of(planning, chosen):
            lengths = product(rounds_to_try(planning), enumerate(pairs_to_try(planning)))
            for rounds, (number, pair) in lengths:
                listed: dict[tuple[str, int], list[Way]] = {}
                for index, form in enumerate(planning.formats):
                    problem = concrete(planning, order, form, rounds, pair)
                    search = FitSearch(problem, book, listed)
                    tie = (abs(rounds - asked), index, number, order, rounds)
                    for arrangement in arrangements(problem, form):
                        if not order_is_allowed(planning, order, form, arrangement.offsets):
                            continue
                        least = search.least_possible(arrangement)
                        if least is not None:
                            yield _Try(least, tie, search, arrangement)


def best_class(planning: PlanningProblem) -> BestClass | None:
    """The class sought by P1, or None where none can be had.

    As many others as are asked, unless none can be or one other alone overruns less.
    """
    far = _best_class(planning)
    if planning.others == 1 or not planning.besides or (far is not None and far.value[0] == 0):
        return far
    near = _best_class(planning.model_copy(update={"others": 1}))
    if far is None or near is None:
        return near
    return near if near.value[0] < far.value[0] else far


def _best_class(planning: PlanningProblem) -> BestClass | None:
    tries = sorted(_tries(planning), key=lambda t: (t.least, t.tie))
    best: BestClass | None = None
    best_key: tuple[Value, TieKey] | None = None
    for tried in tries:
        if best is not None and tried.least > best.value:
            break
        below = None
        if best is not None and best_key is not None:
            if (tried.least, tried.tie) >= best_key:
                continue
            overrun, price = best.value
            below = (overrun, price + 1) if tried.tie < best_key[1] else best.value
        found = tried.search.best_of(tried.arrangement, below)
        if found is None:
            continue
        problem = tried.search.problem
        best = BestClass(
            value=found.value,
            exercise_ids=tuple(e.exercise_id for e in problem.spec.exercises),
            format=problem.spec.format,
            rounds=problem.spec.rounds,
            pair=problem.spec.work_rest,
            problem=problem,
            best=found,
        )
        best_key = (found.value, tried.tie)
    return best
