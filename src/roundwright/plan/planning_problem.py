"""The question 'which class?': what is kept, what may be chosen, and in which forms."""

from pydantic import Field

from roundwright.foundation.identifiers import Slug
from roundwright.foundation.model import Stored
from roundwright.goals.class_wish import ClassFormat, Count
from roundwright.plan.piece_table import PIECE_LINES
from roundwright.plan.problem import PlannedExercise, Problem


class Candidate(Stored):
    """An exercise that may be chosen, with its count at full dose."""

    exercise_id: Slug
    count: Count


class KeptExercise(Stored):
    """An exercise that the coach keeps; with a position it stays there."""

    exercise_id: Slug
    count: Count
    position: int | None = None


class PlanningProblem(Stored):
    """Choose and order `places` exercises, a format and a number of rounds.

    `base` is the class without exercises: people, kit, room, rules, costs and the
    whole library that may be used. Kept exercises are among the places.
    """

    base: Problem
    places: int = Field(ge=1, le=12)
    kept: tuple[KeptExercise, ...] = ()
    candidates: tuple[Candidate, ...] = ()
    formats: tuple[ClassFormat, ...] = (ClassFormat.TOGETHER,)
    rounds_choice: tuple[int, ...] = ()
    besides: tuple[tuple[Slug, ...], ...] = Field(
        default=(), description="sets of exercises already shown: give another"
    )

    def concrete(
        self, chosen: tuple[Candidate, ...], class_format: ClassFormat, rounds: int
    ) -> Problem:
        """Give the class with these exercises in this order: what the fit and the gate answer.

        `chosen_by` is the tool unless every exercise was kept at its place.
        """
        exercises = tuple(
            PlannedExercise(position=k, exercise_id=c.exercise_id, count=c.count)
            for k, c in enumerate(chosen, start=1)
        )
        all_kept = {(k.exercise_id, k.position) for k in self.kept} == {
            (e.exercise_id, e.position) for e in exercises
        }
        spec = self.base.spec.model_copy(
            update={
                "exercises": exercises,
                "format": class_format,
                "rounds": rounds,
                "chosen_by": "coach" if all_kept else "tool",
            }
        )
        library = self.base.library
        used = {e.exercise_id for e in exercises} | set(self.base.substitutes)
        used |= {
            r.exercise_id for r in self.base.recent.exercises if library.has_exercise(r.exercise_id)
        }
        used |= library.lines.keys() & set(PIECE_LINES)
        if spec.burst is not None:
            used.add(spec.burst.line)
        return self.base.model_copy(update={"spec": spec, "library": library.only(frozenset(used))})
