"""Classes that are wished, not given: drawn people and kit, and a library to choose from.

People, kit and the class's form are those of the drawn halls of the tests; the library is
theirs twice over (`large_halls`), so that there is something to choose. A third of the halls
have people who are strong in some lifts and weak in others.
"""

from tests.support.builders import a_capacity
from tests.support.random_halls import ONE_RM_KG, Dice, drawn_class, drawn_kit
from tests.support.random_library import BURST_LINE, ONE_SIDED

from benchmarks.large_halls import a_copy
from roundwright.body.anatomy import Muscle
from roundwright.goals.class_wish import ClassFormat, Count, CountUnit, Pace
from roundwright.kit.inventory import Dumbbells, Inventory
from roundwright.library.catalogue import Catalogue
from roundwright.plan.planning_problem import Candidate, KeptExercise, PlanningProblem
from roundwright.plan.problem import Problem
from roundwright.plan.recent import Recent, RecentExercise

PEOPLE = (3, 14)
PLACES = (3, 6)
COPIES = 2
AROUND_S = 840
"""Warm-up, demonstration and cool-down of a drawn class."""
SECONDS_A_PLACE = (70, 160)
"""What the slot has for each place and round: some halls have too little; our choice."""


def a_drawn_wish(number: int, form: ClassFormat) -> PlanningProblem:
    """Draw a hall of 3 to 14 people and a class of 3 to 6 places that is to be chosen."""
    dice = Dice(number, "proposed hall")
    people, places = dice.between(*PEOPLE), dice.between(*PLACES)
    kit = _fitter(dice, drawn_kit(dice, masses=dice.between(4, 6), most=people))
    base = drawn_class(dice, people, places, dice.between(2, 3), kit)
    if number % 3 == 2:
        base = _uneven(dice, base)
    library, likes = _library(base.library, number)
    timed = base.spec.pace is Pace.TIMED
    candidates = tuple(
        Candidate(exercise_id=name, count=_count(dice, like, timed)) for name, like in likes
    )
    kept: tuple[KeptExercise, ...] = ()
    if dice.between(1, 4) == 1:
        one = dice.one_of(candidates)
        kept = (KeptExercise(exercise_id=one.exercise_id, count=one.count),)
    each_s = dice.between(*SECONDS_A_PLACE) * (2 if form is ClassFormat.PAIRS else 1)
    slot_s = AROUND_S + places * base.spec.rounds * each_s
    spec = base.spec.model_copy(
        update={
            "exercises": (),
            "keep": (),
            "ban": tuple(f"{name}_0" for name in base.spec.ban),
            "slot_s": slot_s,
            "rest_s": max(base.spec.rest_s, base.rules.rest_floor_s),
        }
    )
    base = base.model_copy(
        update={
            "spec": spec,
            "library": library,
            "recent": _recent(dice, base, tuple(name for name, _ in likes)),
            "substitutes": tuple(f"{line}_0" for line in base.substitutes),
        }
    )
    return PlanningProblem(
        base=base, places=places, kept=kept, candidates=candidates, formats=(form,)
    )


def _fitter(dice: Dice, kit: Inventory) -> Inventory:
    """Give the racks of two halls of three some light pairs more, as a hall has for a class."""
    if dice.between(1, 3) == 1:
        return kit
    light = (Dumbbells(unit_mass_g=3000, count=2 * dice.between(2, 6), flat_sided=True),)
    return kit.model_copy(update={"dumbbells": (*kit.dumbbells, *light)})


def _uneven(dice: Dice, problem: Problem) -> Problem:
    everyone = {}
    for person_id, person in problem.people.items():
        factors = {f: dice.one_of((0.5, 1.0, 1.8)) for f in ONE_RM_KG}
        capacities = tuple(
            a_capacity(person_id, f.value, kg * factors[f], 0.08) for f, kg in ONE_RM_KG.items()
        )
        everyone[person_id] = person.model_copy(update={"capacities": capacities})
    return problem.model_copy(update={"people": everyone})


def _library(own: Catalogue, number: int) -> tuple[Catalogue, tuple[tuple[str, str], ...]]:
    """Give the library several times over, and its exercises with what each is a copy of."""
    movements, lines = dict(own.movements), dict(own.lines)
    combinations, names = dict(own.combinations), []
    for n in range(COPIES):
        copy = a_copy(own, n, number)
        movements |= copy.movements
        lines |= copy.lines
        combinations |= copy.combinations
        names += [(f"{e}_{n}", e) for e in (*own.lines, *own.combinations) if e != BURST_LINE]
    library = Catalogue(movements=movements, lines=lines, combinations=combinations)
    return library, tuple(names)


def _count(dice: Dice, like: str, timed: bool) -> Count:
    if timed:
        unit = CountUnit.SECONDS_PER_SIDE if like in ONE_SIDED else CountUnit.SECONDS
        return Count(value=dice.one_of((20, 30, 40)), unit=unit)
    unit = CountUnit.REPS_PER_SIDE if like in ONE_SIDED else CountUnit.REPS
    return Count(value=dice.one_of((6, 8, 10, 12)), unit=unit)


def _recent(dice: Dice, problem: Problem, names: tuple[str, ...]) -> Recent:
    if dice.between(0, 1):
        return Recent()
    muscles = (Muscle.QUADS, Muscle.GLUTES, Muscle.CHEST, Muscle.LATS, Muscle.HAMSTRINGS)
    return Recent(
        exercises=tuple(
            RecentExercise(exercise_id=dice.one_of(names), days_ago=dice.one_of((2, 7, 9, 14)))
            for _ in range(dice.between(1, 5))
        ),
        worked={p: tuple(dice.some_of(muscles, 2)) for p in problem.people if dice.between(0, 1)},
    )
