"""What the class comes to for someone who does all of it, with the easiest or hardest versions.

A measure of the class as it is written, before it is fitted to anyone: no limits,
no kit, no loads. Nobody need exist who does it.
"""

from collections.abc import Sequence
from typing import Literal

from roundwright.body.anatomy import Side
from roundwright.dose.contacts import burst_landings, landings
from roundwright.dose.counting import StepReps, by_movement, reps_of_steps
from roundwright.goals.class_wish import AfterLastRound
from roundwright.library.movement import Movement
from roundwright.plan.class_count import FullDoseCount, MovementCount
from roundwright.plan.counts_of_version import converted, steps_of_movement, steps_of_parts
from roundwright.plan.problem import PlannedExercise, Problem

Versions = Literal["easiest", "hardest"]
CHOICES: tuple[Versions, ...] = ("easiest", "hardest")


def full_dose_counts(problem: Problem) -> tuple[FullDoseCount, ...]:
    """Give the totals of the whole class at full dose, with the easiest and hardest versions.

    Parameters
    ----------
    problem : Problem
        Its class and library; people, kit and limits are not looked at.

    Returns
    -------
    tuple of FullDoseCount
        The easiest first.
    """
    return tuple(_full_dose(problem, versions) for versions in CHOICES)


def _full_dose(problem: Problem, versions: Versions) -> FullDoseCount:
    spec, movements = problem.spec, problem.library.movements
    one_round = [r for e in spec.exercises for r in _reps_of_exercise(problem, e, versions)]
    everything = one_round * spec.rounds
    feet = landings(everything, movements)
    if spec.burst is not None:
        bursts = spec.rounds - (spec.after_last_round is AfterLastRound.NOTHING)
        movement = _chosen(problem.library.versions(spec.burst.line), versions)
        feet += burst_landings(spec.burst, movement) * bursts
    return FullDoseCount(
        versions=versions,
        movements=tuple(MovementCount.of(m) for m in by_movement(everything)),
        contacts=feet.contacts,
        low_hops=feet.low_hops,
    )


def _reps_of_exercise(
    problem: Problem, exercise: PlannedExercise, versions: Versions
) -> tuple[StepReps, ...]:
    library = problem.library
    combination = library.combinations.get(exercise.exercise_id)
    if combination is None:
        movement = _chosen(library.versions(exercise.exercise_id), versions)
        count = converted(exercise.count, movement.laterality)
        return reps_of_steps(count, steps_of_movement(movement, Side.LEFT), library.movements)
    chosen = [
        _chosen(
            [m for m in library.versions(p.line) if p.side is not Side.BOTH or not m.is_one_sided],
            versions,
        )
        for p in combination.parts
    ]
    listing = steps_of_parts(combination, chosen, exercise.count, Side.LEFT)
    return reps_of_steps(exercise.count, listing, library.movements, combination.link_s)


def _chosen(easy_to_hard: Sequence[Movement], versions: Versions) -> Movement:
    return easy_to_hard[0] if versions == "easiest" else easy_to_hard[-1]
