"""The least harm when one exercise is swapped: every exercise that P2 lets the tool choose."""

from collections.abc import Iterator
from itertools import combinations, permutations

from roundwright.goals.class_wish import Count
from roundwright.library.catalogue import Catalogue
from roundwright.plan.changing.restate import Restated
from roundwright.plan.core import Core
from roundwright.plan.menu_table import MenuTable, default_count, may_be_proposed
from roundwright.plan.planning_problem import Candidate, KeptExercise, PlanningProblem
from roundwright.plan.problem import PlannedExercise, Problem
from tests.changing_brute_force.oracle_harm import (
    ChangeSearch,
    Harm,
    arrangement_of,
    turned_pairs,
)
from tests.planning_brute_force.oracle_arrangements import Arrangement
from tests.planning_brute_force.oracle_sets import (
    may_be_chosen,
    order_is_allowed,
    set_is_allowed,
)


def _may_stand(problem: Problem, library: Catalogue, exercise_id: str) -> bool:
    ban = set(problem.spec.ban)
    if exercise_id in {e.exercise_id for e in problem.spec.exercises}:
        return False
    if not may_be_proposed(library, exercise_id):
        return False
    if any(
        all(m.slug in ban for m in library.versions(line))
        for line in library.lines_of_exercise(exercise_id)
    ):
        return False
    return may_be_chosen(library, exercise_id, problem.spec.ban)


def swaps(
    asked: Restated, library: Catalogue, positions: tuple[int, ...], offsets: tuple[int, ...]
) -> Iterator[Restated]:
    """Every class with other exercises at all of some positions, as P2 allows it."""
    problem = asked.problem
    spec = problem.spec
    others = [e for e in spec.exercises if e.position not in positions]
    names = [e for e in (*library.lines, *library.combinations) if _may_stand(problem, library, e)]
    for chosen in permutations(names, len(positions)):
        placed = {
            position: PlannedExercise(
                position=position,
                exercise_id=exercise_id,
                count=_usual_count(problem, library, position, exercise_id),
            )
            for position, exercise_id in zip(positions, chosen, strict=True)
        }
        planning = PlanningProblem(
            base=problem.model_copy(update={"library": library}),
            places=spec.positions,
            kept=tuple(
                KeptExercise(exercise_id=e.exercise_id, count=e.count, position=e.position)
                for e in others
            ),
            candidates=tuple(
                Candidate(exercise_id=e.exercise_id, count=e.count) for e in placed.values()
            ),
        )
        exercises = tuple(placed.get(e.position, e) for e in spec.exercises)
        if not set_is_allowed(planning, [*(e.exercise_id for e in others), *chosen]):
            continue
        in_order = [e.exercise_id for e in exercises]
        if not order_is_allowed(planning, in_order, spec.format, offsets):
            continue
        keep = tuple(k for k in spec.keep if k.position not in positions)
        now = spec.model_copy(update={"exercises": exercises, "keep": keep})
        yield Restated(
            problem=problem.model_copy(update={"spec": now, "library": library}),
            came_from={n: o for n, o in asked.came_from.items() if n not in positions},
            persons=asked.persons,
            positions=asked.positions | set(positions),
            rounds_dropped=asked.rounds_dropped,
            counts_cut=asked.counts_cut,
        )


def _usual_count(problem: Problem, library: Catalogue, position: int, exercise_id: str) -> Count:
    old = problem.spec.exercises[position - 1].count
    return default_count(library, exercise_id, old.value if old.is_timed else None, MenuTable())


def least_in(search: ChangeSearch, groups: Arrangement, below: Harm | None = None) -> Harm | None:
    """The least harm; its price in given groups where they give as little of the rest."""
    best = search.least(groups.format, below)
    if best is None:
        return None
    mine = [search.least_of(way) for way in turned_pairs(groups)]
    same = [harm for harm in mine if harm is not None and harm[:4] == best[:4]]
    return min(same, default=best)


def least_swap(
    core: Core,
    slot_s: int,
    asked: Restated,
    library: Catalogue,
    positions: tuple[int, ...],
    groups: Arrangement,
    left_out: int | None,
) -> tuple[int, Harm] | None:
    """The fewest left out, then the fewest places swapped, then the least of the rest.

    Gives how many places are swapped, and the harm; None where no swap leaves fewer out.
    """
    old = arrangement_of(core)
    best: tuple[int, Harm] | None = None
    sizes = range(1, len(positions) + 1)
    for size in reversed(sizes) if left_out is None else sizes:
        if left_out is None and best is not None:
            break  # open places are all filled, or as many as can be
        for places in combinations(positions, size):
            for swapped in swaps(asked, library, places, old.offsets):
                below = _fewer(best, size, left_out)
                harm = least_in(ChangeSearch(core, slot_s, swapped), groups, below)
                if harm is None:
                    continue
                fewer = left_out is None or harm[0] < left_out
                if best is None or size == best[0]:
                    fewer = fewer and (best is None or harm < best[1])
                else:
                    fewer = harm[0] < best[1][0]
                best = (size, harm) if fewer else best
    return best


def _fewer(best: tuple[int, Harm] | None, size: int, left_out: int | None) -> Harm | None:
    """What a harm must be below to be of use."""
    if best is None:
        return None if left_out is None else (left_out, -1, 0, 0, 0)
    if best[0] < size:
        return (best[1][0], -1, 0, 0, 0)
    left, over, people, cells, _ = best[1]
    return (left, over, people, cells + 1, 0)
