"""What somebody of a hall can probably do, and what their next classes may hold: all assumed."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import date

from roundwright.foundation.quantities import BP
from roundwright.foundation.words import say
from roundwright.hall.hall import Hall
from roundwright.library.vocabulary import Pattern
from roundwright.people.capacity import Capacity
from roundwright.people.person import Person
from roundwright.plan.allowed import may_do
from roundwright.plan.build_problem import build_problem, problem_person
from roundwright.plan.problem import Problem, ProblemPerson

MOST_NAMED = 4
"""Versions named of a pattern: the hardest ones; our choice."""


@dataclass(frozen=True, slots=True)
class EasedClass:
    """What one of the next classes may hold: which from now, share of the reps, rounds at most."""

    number: int
    share_pct: int
    rounds: int | None


@dataclass(frozen=True, slots=True)
class Abilities:
    """What is known of a person's doing.

    `by_pattern` names the hardest versions at their own level that they may do, easy to hard.
    `capacities` are assumed until something was measured.
    """

    by_pattern: Mapping[Pattern, tuple[str, ...]]
    capacities: tuple[Capacity, ...]
    eased: tuple[EasedClass, ...]


def abilities_of(hall: Hall, person: Person, on: date) -> Abilities | None:
    """Give what a person can probably do on a date; None where the hall has no class yet.

    Notes
    -----
    Limits, levels and landings are those of planning; a class of the hall lends its rules.
    """
    class_id = next(iter(hall.classes), None)
    if class_id is None:
        return None
    problem = build_problem(hall, class_id, on)
    known = problem_person(hall, person, on, problem.rules)
    people = {**problem.people, person.person_id: known}
    problem = problem.model_copy(
        update={
            "people": people,
            "library": hall.catalogue,
            "spec": problem.spec.model_copy(update={"ban": ()}),
        }
    )
    return Abilities(
        by_pattern=_by_pattern(problem, person.person_id, known),
        capacities=known.capacities,
        eased=_eased(problem, known),
    )


def _by_pattern(
    problem: Problem, person_id: str, known: ProblemPerson
) -> dict[Pattern, tuple[str, ...]]:
    library = problem.library
    found: dict[Pattern, dict[str, int]] = {}
    for line_id in library.lines:
        for movement in library.versions(line_id):
            own = movement.level <= known.level_for(movement.strength_family)
            if own and may_do(problem, person_id, line_id, movement):
                found.setdefault(movement.pattern, {})[say(movement.name)] = movement.level
    return {
        pattern: tuple(sorted(found[pattern], key=_by_level(found[pattern]))[-MOST_NAMED:])
        for pattern in Pattern
        if pattern in found
    }


def _by_level(levels: Mapping[str, int]) -> Callable[[str], tuple[int, str]]:
    return lambda name: (levels[name], name)


def _eased(problem: Problem, known: ProblemPerson) -> tuple[EasedClass, ...]:
    return tuple(
        EasedClass(
            number=row.classes_done - known.classes + 1,
            share_pct=row.share_bp * 100 // BP,
            rounds=row.rounds if row.rounds <= problem.spec.rounds else None,
        )
        for row in problem.rules.eased_in
        if row.classes_done >= known.classes
    )
