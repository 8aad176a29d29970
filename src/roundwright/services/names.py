"""Names for ids, joined at display only: a plan itself holds none."""

import re
from collections.abc import Mapping
from dataclasses import dataclass

from roundwright.foundation.words import say
from roundwright.hall.hall import Hall
from roundwright.library.catalogue import Catalogue
from roundwright.library.spoken_library import spoken
from roundwright.plan.changing.revisions import Revisions
from roundwright.plan.document import PlanDocument
from roundwright.plan.problem import Problem

_WALK_IN = re.compile(r"^walk_in_(\d+)$")


@dataclass(frozen=True, slots=True)
class Names:
    """How people, places and movements are called where a coach reads them."""

    people: Mapping[str, str]
    exercises: Mapping[int, str]
    library: Catalogue

    def person(self, person_id: str) -> str:
        """Give a person's shown name, or the id where none is known."""
        return self.people.get(person_id, shown_id(person_id))

    def movement(self, movement_id: str) -> str:
        """Give a movement's name, or the slug where the library has none."""
        movement = self.library.movements.get(movement_id)
        return movement.name if movement else movement_id

    def part(self, exercise_id: str | None, movement_id: str) -> str:
        """Give the name of the part of a combination that a movement is a version of."""
        if exercise_id in self.library.combinations:
            for line in self.library.lines_of_exercise(exercise_id):
                if movement_id in self.library.lines[line].versions:
                    return self.library.lines[line].name
        return self.movement(movement_id)

    def exercise(self, position: int) -> str:
        """Give the name of the exercise at a place."""
        return self.exercises.get(position) or say("place {n}", n=position)


def shown_id(person_id: str) -> str:
    """Give what somebody without a shown name is called: 'walk-in 1', else the id."""
    found = _WALK_IN.match(person_id)
    return say("walk-in {n}", n=found[1]) if found else person_id


def names_of(problem: Problem, hall: Hall | None = None) -> Names:
    """Give the names for a problem's ids; without a hall people keep their ids.

    Parameters
    ----------
    problem : Problem
        Its class gives the places, its library the names.
    hall : Hall, optional
        Gives people's shown names.
    """
    shown_names = {p.person_id: p.shown_name for p in hall.people} if hall else {}
    people = {p: shown_names.get(p, shown_id(p)) for p in problem.people}
    library = spoken(problem.library)
    exercises = {
        e.position: library.exercise_name(e.exercise_id)
        for e in problem.spec.exercises
        if library.has_exercise(e.exercise_id)
    }
    return Names(people, exercises, library)


def everyone_of(document: PlanDocument, revisions: Revisions, hall: Hall) -> dict[str, str]:
    """Give everybody's name who may be in any revision of a plan, by id."""
    known = {p.person_id: p.shown_name for p in hall.people}
    walked = {str(getattr(one.change, "person", "")) for one in revisions.revisions if one.change}
    return {p: shown_id(p) for p in (*document.problem.people, *walked) if p} | known
