"""Drawn planning problems whose rounds, or work and rest, are the tool's to choose.

Those of `random_planning`, with a slot near the usual length of the class, a room of
newcomers, of trained people or as it comes, and sometimes all exercises kept.
"""

from roundwright.goals.class_wish import ClassFormat, Count, CountUnit, Pace, WorkRestWish
from roundwright.people.person import Clearance
from roundwright.plan.planning_problem import Candidate, KeptExercise, PlanningProblem
from roundwright.plan.problem import ProblemPerson
from tests.support.random_halls import Dice
from tests.support.random_library import ONE_SIDED
from tests.support.random_planning import a_tiny_planning

AROUND_S = 840 + 300
"""Warm-up, demonstration, cool-down, and time to register and clear up."""
RATES = {
    "timed": 0.65,
    "written count": 0.15,
    "other rounds": 0.6,
    "all kept": 0.25,
    "a slot near the usual length": 0.8,
    "newcomers only": 0.3,
    "trained only": 0.35,
}


def _happens(dice: Dice, feature: str) -> bool:
    return bool(dice.rng.random() < RATES[feature])


def _timed(dice: Dice, exercise_id: str) -> Candidate:
    sided = exercise_id in ONE_SIDED
    unit = CountUnit.SECONDS_PER_SIDE if sided else CountUnit.SECONDS
    value = dice.one_of((20, 30, 50))
    follows = not _happens(dice, "written count")
    return Candidate(
        exercise_id=exercise_id, count=Count(value=value, unit=unit), follows_work=follows
    )


def _people(dice: Dice, people: dict[str, ProblemPerson]) -> dict[str, ProblemPerson]:
    """Make the room one of newcomers or of trained people, or leave it."""
    if _happens(dice, "newcomers only"):
        changes: dict[str, object] = {"classes_done": dice.between(0, 3)}
    elif _happens(dice, "trained only"):
        changes = {"classes_done": 30, "clearance": Clearance.CLEARED}
    else:
        return people
    return {p: person.model_copy(update=changes) for p, person in people.items()}


def a_tiny_length(seed: int, formats: tuple[ClassFormat, ...]) -> PlanningProblem:
    """Draw a planning problem of at most 3 places with open rounds, or work and rest, or both."""
    dice = Dice(seed, "tiny length")
    drawn = next(
        found
        for found in (a_tiny_planning(1000 * seed + n, formats) for n in range(1000))
        if found.places <= 3
    )
    spec, places = drawn.base.spec, drawn.places
    candidates, kept = drawn.candidates, drawn.kept
    wish = WorkRestWish.OWN
    if _happens(dice, "timed"):
        candidates = tuple(_timed(dice, c.exercise_id) for c in candidates)
        counts = {c.exercise_id: c for c in candidates}
        kept = tuple(
            k.model_copy(
                update={
                    "count": counts[k.exercise_id].count,
                    "follows_work": counts[k.exercise_id].follows_work,
                }
            )
            for k in kept
        )
        wish = dice.one_of((*(WorkRestWish.ANY,) * 4, WorkRestWish.HEAVIER, WorkRestWish.OWN))
    if _happens(dice, "all kept"):
        kept = tuple(
            KeptExercise(
                exercise_id=c.exercise_id, count=c.count, follows_work=c.follows_work, position=k
            )
            for k, c in enumerate(candidates[:places], start=1)
        )
    rounds: tuple[int, ...] = ()
    if wish is WorkRestWish.OWN or _happens(dice, "other rounds"):
        rounds = tuple(dice.some_of((1, 2, 3), 2))
    changes: dict[str, object] = {"pace": Pace.TIMED} if wish is not WorkRestWish.OWN else {}
    if _happens(dice, "a slot near the usual length"):
        changes["slot_s"] = AROUND_S + dice.between(50, 130) * places * dice.between(1, 3)
    base = drawn.base.model_copy(
        update={
            "spec": spec.model_copy(update=changes),
            "people": _people(dice, dict(drawn.base.people)),
        }
    )
    return drawn.model_copy(
        update={
            "base": base,
            "candidates": candidates,
            "kept": kept,
            "rounds_choice": rounds,
            "work_rest": wish,
            "formats": drawn.formats[:2],
        }
    )
