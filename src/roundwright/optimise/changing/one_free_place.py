"""Which exercises the tool may choose for one place while all others stay (P2)."""

from collections.abc import Iterator, Sequence
from math import ceil

from roundwright.goals.class_wish import ClassFormat
from roundwright.library.catalogue import Catalogue
from roundwright.library.vocabulary import HIP, KNEE, PULL, PUSH, Pattern
from roundwright.optimise.planning.exercise_facts import (
    TRUNK,
    ExerciseFacts,
    burst_muscle_of,
    facts_of_exercise,
)
from roundwright.plan.menu_table import MenuTable, default_count, may_be_proposed
from roundwright.plan.problem import PlannedExercise, Problem

ROTATING = (ClassFormat.STATIONS, ClassFormat.STAGGERED)


def candidates_for(
    problem: Problem, library: Catalogue, position: int, offsets: Sequence[int]
) -> Iterator[PlannedExercise]:
    """Give the exercises that may stand at a position, with their usual counts.

    Parameters
    ----------
    problem : Problem
        The class; what stands at the position now is not proposed again.
    library : Catalogue
        Everything that may be put into the class.
    offsets : sequence of int
        How many positions each group is ahead of the first.
    """
    spec = problem.spec
    kept = {
        e.position: facts_of_exercise(e.exercise_id, problem.library)
        for e in spec.exercises
        if e.position != position
    }
    old = spec.exercises[position - 1]
    work_s = old.count.value if old.count.is_timed else None
    taken = {e.exercise_id for e in spec.exercises}
    menu = MenuTable()
    for exercise_id in sorted((*library.lines, *library.combinations)):
        if exercise_id in taken or _is_banned(exercise_id, library, spec.ban):
            continue
        if not may_be_proposed(library, exercise_id):
            continue
        facts = facts_of_exercise(exercise_id, library)
        if _set_allows(facts, kept, problem) and _order_allows(
            facts, kept, problem, position, offsets
        ):
            count = default_count(library, exercise_id, work_s, menu)
            yield PlannedExercise(position=position, exercise_id=exercise_id, count=count)


def _is_banned(exercise_id: str, library: Catalogue, ban: Sequence[str]) -> bool:
    lines = library.lines_of_exercise(exercise_id)
    return bool({exercise_id, *lines}.intersection(ban)) or any(
        set(ban).issuperset(library.lines[line].versions) for line in lines
    )


def _set_allows(one: ExerciseFacts, kept: dict[int, ExerciseFacts], problem: Problem) -> bool:
    rules, others = problem.rules, list(kept.values())
    places = len(others) + 1
    if any(f.line == one.line or f.versions & one.versions for f in others):
        return False
    if sum(f.pattern is one.pattern for f in others) >= rules.most_of_a_pattern:
        return False
    if one.jumping and sum(f.jumping for f in others) >= rules.most_jumping:
        return False
    if one.accessory and sum(f.accessory for f in others) >= rules.most_accessories:
        return False
    if one.combination and sum(f.combination for f in others) >= rules.most_new_combinations:
        return False
    if not one.loaded and sum(f.loaded for f in others) < ceil(places / 2):
        return False
    needs = [KNEE, HIP, PUSH, PULL] if places >= rules.least_places_for_four else []
    needs += [TRUNK] if places >= rules.least_places_for_trunk else []
    missing = [need for need in needs if not any(_meets(f, need) for f in others)]
    return not missing or any(_meets(one, need) for need in missing)


def _meets(facts: ExerciseFacts, need: frozenset[Pattern]) -> bool:
    """Say whether an exercise meets a need of the set; an accessory does not."""
    return facts.pattern in need and not facts.main_accessory


def _order_allows(
    one: ExerciseFacts,
    kept: dict[int, ExerciseFacts],
    problem: Problem,
    position: int,
    offsets: Sequence[int],
) -> bool:
    spec, places = problem.spec, len(kept) + 1
    beside = {position - 1, position + 1}
    ends = {1, places}
    if spec.format in ROTATING:
        beside = {(k - 1) % places + 1 for k in beside}
        ends = {o % places + 1 for o in offsets} | {(o - 1) % places + 1 for o in offsets}
    if any(kept[k].muscle is one.muscle for k in beside if k in kept):
        return False
    if spec.burst is None or position not in ends:
        return True
    return one.muscle is not burst_muscle_of(spec.burst.line, problem.library)
