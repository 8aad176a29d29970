"""Drawn halls in which one part of a combination decides how heavy the whole can be."""

from roundwright.goals.class_wish import Count, CountUnit
from roundwright.kit.inventory import Dumbbells
from roundwright.people.person import Clearance
from roundwright.plan.problem import PlannedExercise, Problem
from tests.support.builders import a_capacity
from tests.support.random_halls import ONE_RM_KG, Dice, drawn_class, drawn_kit


def an_uneven_hall(seed: int) -> Problem:
    """Draw a tiny hall of held combinations, for regulars with a wide rack.

    Legs are strong and shoulders weak or the other way round, so that one part of a
    combination decides; half of the slots are too short.
    """
    dice = Dice(seed, "uneven hall")
    people = dice.one_of((2, 2, 3))
    kit = drawn_kit(dice, masses=1, most=people)
    rack = (2000, 4000, dice.one_of((6000, 8000)), dice.one_of((12_000, 16_000)))
    kit = kit.model_copy(
        update={
            "dumbbells": tuple(
                Dumbbells(unit_mass_g=g, count=2 * dice.between(1, people), flat_sided=True)
                for g in rack
            )
        }
    )
    problem = drawn_class(dice, people, dice.between(1, 2), dice.between(1, 2), kit)
    held = [c.slug for c in problem.library.combinations.values() if c.load == "held"]
    exercises = tuple(
        PlannedExercise(
            position=place.position,
            exercise_id=dice.one_of(held),
            count=Count(value=dice.between(5, 10), unit=CountUnit.REPS_PER_SIDE),
        )
        for place in problem.spec.exercises
    )
    everyone = {}
    for person_id, person in problem.people.items():
        factors = {f: dice.one_of((0.6, 1.0, 2.0)) for f in ONE_RM_KG}
        capacities = tuple(
            a_capacity(person_id, f.value, kg * factors[f], 0.06) for f, kg in ONE_RM_KG.items()
        )
        changes = {"classes_done": 30, "clearance": Clearance.CLEARED, "caps": {}}
        everyone[person_id] = person.model_copy(update=changes | {"capacities": capacities})
    slot_s = dice.one_of((960, 7200))
    changes = {"exercises": exercises, "keep": (), "ban": (), "slot_s": slot_s}
    return problem.model_copy(
        update={"spec": problem.spec.model_copy(update=changes), "people": everyone}
    )
