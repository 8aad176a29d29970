"""Drawn planning problems, small enough that every class of them can be tried.

Everything comes from (seed, purpose). People, kit, slot and burst are those of
``random_halls``; what is added here is what may be chosen, and the rules of choice.
`RATES` says how often each feature is drawn; what comes of it depends on the rest.
"""

from roundwright.body.anatomy import Muscle
from roundwright.goals.class_wish import ClassFormat, Count, CountUnit, Pace
from roundwright.plan.planning_problem import Candidate, KeptExercise, PlanningProblem
from roundwright.plan.problem import Problem
from roundwright.plan.recent import Recent, RecentExercise
from tests.support.random_halls import Dice, a_tiny_hall, with_drawn_cuts
from tests.support.random_library import (
    BURST_LINE,
    ONE_SIDED,
    with_common_versions,
    with_unloaded_hips,
)

MOST_PEOPLE = 3
SIMPLE_FORMATS = (ClassFormat.TOGETHER, ClassFormat.PAIRS)
ROTATING_FORMATS = (ClassFormat.STATIONS, ClassFormat.STAGGERED)
RATES = {
    "kept exercise": 0.3,
    "kept at a place": 0.5,
    "another number of rounds": 0.3,
    "a set already shown": 0.15,
    "recent classes": 0.5,
    "stricter rules of choice": 0.4,
    "a slot that is too short": 0.3,
    "a version in two lines": 0.4,
    "hip exercises are not loaded": 0.3,
}


def _happens(dice: Dice, feature: str) -> bool:
    return bool(dice.rng.random() < RATES[feature])


def _count(dice: Dice, name: str, combined: bool, timed: bool) -> Count:
    if name in ONE_SIDED:
        unit = CountUnit.SECONDS_PER_SIDE if timed else CountUnit.REPS_PER_SIDE
    elif timed:
        unit = dice.one_of((CountUnit.SECONDS, CountUnit.SECONDS_PER_SIDE))
    else:
        units = (CountUnit.REPS, CountUnit.REPS_PER_SIDE, CountUnit.REPS_ALTERNATING)
        unit = dice.one_of(units[: 2 if combined else 3])
    return Count(value=dice.one_of((20, 30) if timed else (6, 8, 10, 12)), unit=unit)


def _recent(dice: Dice, problem: Problem) -> Recent:
    if not _happens(dice, "recent classes"):
        return Recent()
    names = [*problem.library.lines, *problem.library.combinations, "long_gone"]
    muscles = (Muscle.QUADS, Muscle.GLUTES, Muscle.CHEST, Muscle.LATS, Muscle.HAMSTRINGS)
    return Recent(
        exercises=tuple(
            RecentExercise(exercise_id=dice.one_of(names), days_ago=dice.one_of((2, 7, 9, 14, 15)))
            for _ in range(dice.between(1, 5))
        ),
        worked={p: tuple(dice.some_of(muscles, 2)) for p in problem.people if dice.between(0, 1)},
    )


def _base(dice: Dice, seed: int) -> Problem:
    """Draw the people, kit and form of the class, of at most `MOST_PEOPLE` people."""
    hall = next(
        found
        for found in (a_tiny_hall(1000 * seed + n) for n in range(1000))
        if len(found.people) <= MOST_PEOPLE
    )
    rules = hall.rules
    if _happens(dice, "stricter rules of choice"):
        rules = rules.model_copy(
            update={
                "most_of_a_pattern": dice.one_of((1, 2)),
                "most_jumping": dice.one_of((0, 1, 2)),
                "most_new_combinations": dice.one_of((0, 1, 2)),
                "least_places_for_four": dice.one_of((4, 4, 5)),
                "least_places_for_trunk": dice.one_of((2, 3, 5)),
            }
        )
    apart = Dice(seed, "accessories and versions in common")
    rules = with_drawn_cuts(hall.model_copy(update={"rules": rules}), seed).rules
    rules = rules.model_copy(update={"most_accessories": apart.one_of((0, 1, 1, 2))})
    library = hall.library
    parts = Dice(seed, "parts of lines, and hips")
    rules = rules.model_copy(update={"most_of_a_line": parts.one_of((1, 2, 2))})
    if _happens(parts, "hip exercises are not loaded"):
        library = with_unloaded_hips(library)
    if _happens(apart, "a version in two lines"):
        library = with_common_versions(library)
    return hall.model_copy(
        update={
            "library": library,
            "spec": hall.spec.model_copy(
                update={"keep": (), "exercises": (), "rounds": dice.between(1, 2)}
            ),
            "recent": _recent(dice, hall),
            "rules": rules,
        }
    )


def a_tiny_planning(
    seed: int, formats: tuple[ClassFormat, ...] = SIMPLE_FORMATS
) -> PlanningProblem:
    """Draw 2 or 3 people, 4 to 6 candidates, 2 to 4 places and some of the formats.

    With 4 places knee, hip, push and pull are each needed; candidates are then
    5 or 6 and people 2, so that all of it can still be tried.
    """
    dice = Dice(seed, "tiny planning " + " ".join(formats))
    base = _base(dice, seed)
    places = dice.one_of((2, 2, 3, 3, 4))
    if places == 4:
        pair = dict(list(base.people.items())[:2])
        if not base.model_copy(update={"people": pair}).taking_part:
            pair = {p: base.people[p] for p in base.taking_part[:1]}
        base = base.model_copy(update={"people": pair})
    timed = base.spec.pace is Pace.TIMED
    lines = [line for line in base.library.lines if line != BURST_LINE]
    combined = tuple(base.library.combinations)
    if places == 4:
        names = ["squat_line", "hinge_line", *dice.some_of(("push_line", "press_line"), 1)]
        names += dice.some_of(("row_line", "step_line", "hop_line"), 2)
        names += [dice.one_of(combined)]
        names = dice.some_of(names, dice.between(5, 6))
    else:
        number = dice.between(max(4, places), 6)
        names = [
            *dice.some_of(lines, number - 1),
            *dice.some_of(combined, 1),
        ]
    candidates = tuple(
        Candidate(exercise_id=n, count=_count(dice, n, n in combined, timed)) for n in names
    )
    kept: tuple[KeptExercise, ...] = ()
    if _happens(dice, "kept exercise"):
        one = dice.one_of(candidates)
        place = dice.between(1, places) if _happens(dice, "kept at a place") else None
        kept = (KeptExercise(exercise_id=one.exercise_id, count=one.count, position=place),)
    besides: tuple[tuple[str, ...], ...] = ()
    others = 1
    if _happens(dice, "a set already shown"):
        besides = (tuple(dice.some_of(names, places)),)
        others = Dice(seed, "others than those shown").one_of((1, 2))
    rounds = (3 - base.spec.rounds,) if _happens(dice, "another number of rounds") else ()
    slot = 840 + dice.between(40, 110) * places * base.spec.rounds
    spec = base.spec.model_copy(
        update={"slot_s": slot if _happens(dice, "a slot that is too short") else 7200}
    )
    return PlanningProblem(
        base=base.model_copy(update={"spec": spec}),
        places=places,
        kept=kept,
        candidates=candidates,
        formats=tuple(dice.some_of(formats, dice.between(1, len(formats)))),
        rounds_choice=rounds,
        besides=besides,
        others=others,
    )


def a_tiny_rotation(seed: int, form: ClassFormat) -> Problem:
    """Draw a concrete class of 2 or 3 places in a format in which groups take turns.

    Half of the classes are the tool's choice, so that the class itself has a price.
    """
    dice = Dice(seed, "tiny rotation")
    hall = next(
        found
        for found in (a_tiny_hall(1000 * seed + n + 500) for n in range(500))
        if found.spec.positions > 1
    )
    by_tool = dice.between(0, 1) == 1
    spec = hall.spec.model_copy(
        update={"format": form, "chosen_by": "tool" if by_tool else "coach"}
    )
    return hall.model_copy(update={"spec": spec, "recent": _recent(dice, hall)})
