"""How long a class usually is, whoever comes, and what the minutes left of its slot cost (P8)."""

from collections.abc import Sequence
from fractions import Fraction

from roundwright.goals.class_wish import AfterLastRound, ClassFormat, CountUnit
from roundwright.library.catalogue import Catalogue
from roundwright.library.vocabulary import DoneAs
from roundwright.optimise.planning.exercise_facts import reference_version
from roundwright.plan.counts_of_version import is_per_side, milliseconds
from roundwright.plan.problem import ClassSpec, PlannedExercise, Problem
from roundwright.plan.timeline import has_burst_after

MINUTE_S = 60


def usual_seconds(exercise: PlannedExercise, library: Catalogue, side_change_s: int) -> int:
    """Give the seconds of one set at full dose in the reference versions, by its count."""
    count = exercise.count
    sides = 2 if is_per_side(count) else 1
    if count.is_timed:
        return sides * count.value
    pass_ms, once_ms = _pass_ms(exercise.exercise_id, library)
    seconds = round(Fraction(sides * (count.value * pass_ms + once_ms), 1000))
    return seconds + (side_change_s if count.unit is CountUnit.REPS_PER_SIDE else 0)


def _pass_ms(exercise_id: str, library: Catalogue) -> tuple[int, int]:
    """Give what one pass takes, and what is added to a side of a set once, ms."""
    combination = library.combinations.get(exercise_id)
    if combination is None:
        return milliseconds(reference_version(library.versions(exercise_id)).seconds_a_rep), 0
    work = sum(
        part.times * milliseconds(reference_version(library.versions(part.line)).seconds_a_rep)
        for part in combination.parts
    )
    links = (len(combination.parts) - 1) * milliseconds(combination.link_s)
    return (work, links) if combination.done_as is DoneAs.COMPLEX else (work + links, 0)


def seconds_around(spec: ClassSpec) -> int:
    """Give what the class takes besides exercises: warm-up, bursts, rests and so on, s."""
    bursts = sum(has_burst_after(spec, n, spec.rounds) for n in range(1, spec.rounds + 1))
    rests = spec.rounds - (spec.after_last_round is not AfterLastRound.BURST_AND_REST)
    length_s = spec.burst.length_s if spec.burst is not None else 0
    return (
        spec.warm_up_s
        + spec.demonstration_s
        + spec.cool_down_s
        + bursts * length_s
        + rests * spec.rest_s
    )


def usual_places(
    problem: Problem, form: ClassFormat, exercises: Sequence[PlannedExercise]
) -> tuple[int, ...]:
    """Give what each exercise usually takes of the class over all rounds, with its changes, s."""
    spec, in_pairs = problem.spec, form is ClassFormat.PAIRS
    halves = 2 if in_pairs and len(problem.taking_part) > 1 else 1
    between_s = spec.change_s + (spec.partner_swap_s if in_pairs else 0)
    return tuple(
        spec.rounds * (halves * usual_seconds(e, problem.library, spec.side_change_s) + between_s)
        for e in exercises
    )


def minutes_price(problem: Problem, form: ClassFormat) -> int:
    """Give the points of the minutes that a class leaves of its slot, or takes from clearing up.

    Returns
    -------
    int
        0 where the coach said how many rounds there are and how long work and rest last.
    """
    if problem.spec.length_by != "tool":
        return 0
    places = usual_places(problem, form, problem.spec.exercises)
    left_s = seconds_free(problem) - sum(places)
    return problem.costs.unused_minutes * (
        max(0, left_s - problem.rules.spare_s) // MINUTE_S
    ) + problem.costs.hurried_minutes * -(min(0, left_s) // MINUTE_S)


def seconds_free(problem: Problem) -> int:
    """Give what the slot leaves for exercises and changes, registering and clearing up apart, s."""
    spec = problem.spec
    return spec.slot_s - seconds_around(spec) - problem.rules.register_and_clear_s
