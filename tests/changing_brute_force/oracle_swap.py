"""The least harm when one exercise is swapped: every exercise that P2 lets the tool choose."""

from collections.abc import Iterator

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
    asked: Restated, library: Catalogue, position: int, offsets: tuple[int, ...]
) -> Iterator[Restated]:
    """Every class with another exercise at a position, as P2 allows it."""
    problem = asked.problem
    spec = problem.spec
    old = spec.exercises[position - 1]
    work_s = old.count.value if old.count.is_timed else None
    others = [e for e in spec.exercises if e.position != position]
    for exercise_id in (*library.lines, *library.combinations):
        if not _may_stand(problem, library, exercise_id):
            continue
        count = default_count(library, exercise_id, work_s, MenuTable())
        planning = PlanningProblem(
            base=problem.model_copy(update={"library": library}),
            places=spec.positions,
            kept=tuple(
                KeptExercise(exercise_id=e.exercise_id, count=e.count, position=e.position)
                for e in others
            ),
            candidates=(Candidate(exercise_id=exercise_id, count=count),),
        )
        names = [e.exercise_id if e.position != position else exercise_id for e in spec.exercises]
        in_turn = [*(e.exercise_id for e in others), exercise_id]
        if not set_is_allowed(planning, in_turn):
            continue
        if not order_is_allowed(planning, names, spec.format, offsets):
            continue
        placed = PlannedExercise(position=position, exercise_id=exercise_id, count=count)
        exercises = tuple(placed if e is old else e for e in spec.exercises)
        keep = tuple(k for k in spec.keep if k.position != position)
        now = spec.model_copy(update={"exercises": exercises, "keep": keep})
        yield Restated(
            problem=problem.model_copy(update={"spec": now, "library": library}),
            came_from={n: o for n, o in asked.came_from.items() if n != position},
            persons=asked.persons,
            positions=asked.positions | {position},
            rounds_dropped=asked.rounds_dropped,
            counts_cut=asked.counts_cut,
        )


def least_in(search: ChangeSearch, groups: Arrangement) -> Harm | None:
    """The least harm; its price in given groups where they give as little of the rest."""
    best = search.least(groups.format)
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
) -> Harm | None:
    """The least harm over every swap at some positions."""
    old = arrangement_of(core)
    found = [
        least_in(ChangeSearch(core, slot_s, swapped), groups)
        for position in positions
        for swapped in swaps(asked, library, position, old.offsets)
    ]
    return min((harm for harm in found if harm is not None), default=None)
