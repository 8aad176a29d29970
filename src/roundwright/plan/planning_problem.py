"""The question 'which class?': what is kept, what may be chosen, and in which forms."""

from typing import TypeVar

from pydantic import Field

from roundwright.foundation.identifiers import Slug
from roundwright.foundation.model import Stored
from roundwright.goals.class_wish import ClassFormat, Count, WorkRestWish
from roundwright.plan.piece_table import PIECE_LINES
from roundwright.plan.problem import PlannedExercise, Problem
from roundwright.plan.rule_table import WorkRest
from roundwright.plan.work_rest import count_of, fitting_pairs, with_pair


class Candidate(Stored):
    """An exercise that may be chosen, with its count at full dose.

    `follows_work`: nobody wrote the count, so a chosen pair of work and rest gives it.
    """

    exercise_id: Slug
    count: Count
    follows_work: bool = False


class KeptExercise(Stored):
    """An exercise that the coach keeps; with a position it stays there."""

    exercise_id: Slug
    count: Count
    follows_work: bool = False
    position: int | None = None


Timed = TypeVar("Timed", Candidate, KeptExercise)


def _timed(exercise: Timed, pair: WorkRest) -> Timed:
    """Give an exercise whose count follows the work of a pair, if nobody wrote it."""
    if not exercise.follows_work:
        return exercise
    return exercise.model_copy(update={"count": count_of(pair, exercise.count.unit)})


class PlanningProblem(Stored):
    """Choose and order `places` exercises, a format, rounds, and work and rest.

    `base` is the class without exercises: people, kit, room, rules, costs and the
    whole library that may be used. Kept exercises are among the places.
    """

    base: Problem
    places: int = Field(ge=1, le=12)
    kept: tuple[KeptExercise, ...] = ()
    candidates: tuple[Candidate, ...] = ()
    formats: tuple[ClassFormat, ...] = (ClassFormat.TOGETHER,)
    rounds_choice: tuple[int, ...] = ()
    work_rest: WorkRestWish = WorkRestWish.OWN
    besides: tuple[tuple[Slug, ...], ...] = Field(
        default=(), description="sets of exercises already shown: give another"
    )
    others: int = Field(
        default=1,
        ge=1,
        description="in so many exercises another class differs from each shown, where one can",
    )

    @property
    def rounds_to_try(self) -> tuple[int, ...]:
        """The asked number of rounds, then those that may be planned instead."""
        return tuple(dict.fromkeys((self.base.spec.rounds, *self.rounds_choice)))

    @property
    def pairs(self) -> tuple[WorkRest | None, ...]:
        """The pairs of work and rest to try, in order; None stands for the class's own."""
        return fitting_pairs(self.base, self.work_rest) or (None,)

    @property
    def leaves_length_open(self) -> bool:
        """Whether rounds or work and rest are the tool's to choose."""
        own = self.work_rest is WorkRestWish.OWN
        more = len(self.rounds_to_try) > 1
        return more or not own or self.base.spec.length_by == "tool"

    @property
    def is_all_kept(self) -> bool:
        """Whether every exercise is kept at its place: then the class is the coach's own."""
        return {k.position for k in self.kept} == set(range(1, self.places + 1))

    def with_pair(self, pair: WorkRest | None, class_format: ClassFormat) -> "PlanningProblem":
        """Give the question for one pair of work and rest and one format; None: as it is."""
        if pair is None:
            return self
        people = len(self.base.taking_part)
        spec = with_pair(self.base.spec, pair, class_format, people)
        return self.model_copy(
            update={
                "base": self.base.model_copy(update={"spec": spec}),
                "work_rest": WorkRestWish.OWN,
                "kept": tuple(_timed(k, pair) for k in self.kept),
                "candidates": tuple(_timed(c, pair) for c in self.candidates),
            }
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
                "length_by": "tool" if self.leaves_length_open else "coach",
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
