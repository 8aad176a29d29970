"""Drawn problems: tiny ones for the brute force, middling ones for the property tests.

Everything comes from (seed, purpose), so a case is named by its seed. `RATES`
says how often each feature is drawn; what comes of it depends on the rest.
"""

from collections.abc import Sequence
from typing import Any, TypeVar

import numpy as np

from roundwright.body.anatomy import Limb, Side
from roundwright.foundation.seeds import generator
from roundwright.goals.class_wish import (
    AfterLastRound,
    BurstWish,
    ClassFormat,
    Count,
    CountUnit,
    KeptCell,
    Pace,
)
from roundwright.kit.inventory import Dumbbells, Inventory, KitItem
from roundwright.library.vocabulary import Demand, KitKind, StrengthFamily
from roundwright.people.capacity import Capacity
from roundwright.people.person import Clearance
from roundwright.plan.cost_table import CostTable
from roundwright.plan.problem import PlannedExercise, Problem, ProblemPerson
from roundwright.plan.rule_table import Limit, RuleTable
from tests.support.builders import a_capacity, a_problem, a_spec
from tests.support.random_library import BURST_LINE, ONE_SIDED, a_library

T = TypeVar("T")

RATES = {
    "pairs": 0.25,
    "any format": 0.15,
    "burst": 0.6,
    "rest of 0 s after the burst": 0.3,
    "combination at a place": 0.35,
    "line with jumps or one-leg balance at the last place": 0.3,
    "timed pace": 0.2,
    "ban": 0.2,
    "keep": 0.2,
    "slot too short": 0.3,
    "moderate only or unknown": 0.2,
    "not cleared": 0.05,
    "newcomer": 0.3,
    "caps": 0.35,
    "away": 0.15,
    "child": 0.08,
    "65 or older": 0.12,
    "family level": 0.3,
    "round-sided dumbbells": 0.3,
    "item in another room or out of use": 0.12,
    "capacity missing": 0.04,
    "other prices": 0.35,
    "more contacts": 0.35,
    "a limb of which a side is not used": 0.12,
}
SOMETIMES_CAPPED = (
    Demand.KNEE,
    Demand.IMPACT,
    Demand.LOW_BACK,
    Demand.ON_BACK,
    Demand.ON_FRONT,
    Demand.OVERHEAD,
    Demand.WRIST,
    Demand.BALANCE,
    Demand.GRIP,
)
ONE_RM_KG = {
    StrengthFamily.SQUAT: 190.0,
    StrengthFamily.HINGE: 110.0,
    StrengthFamily.LUNGE_STEP: 220.0,
    StrengthFamily.HORIZONTAL_PUSH: 110.0,
    StrengthFamily.VERTICAL_PUSH: 55.0,
    StrengthFamily.HORIZONTAL_PULL: 75.0,
}
"""Invented strengths of a middling person, kg with the lifted share of body mass."""


class Dice:
    """Draws from one generator, in plain words."""

    def __init__(self, seed: int, purpose: str) -> None:
        self.seed, self.purpose = seed, purpose
        self.rng: np.random.Generator = generator(seed, purpose)

    def apart(self, what: str) -> "Dice":
        """Give dice of their own for one thing, so that all other draws stay as they are."""
        return Dice(self.seed, f"{self.purpose}: {what}")

    def happens(self, feature: str) -> bool:
        """Say whether a feature of `RATES` is drawn."""
        return bool(self.rng.random() < RATES[feature])

    def one_of(self, values: Sequence[T]) -> T:
        """Draw one value."""
        return values[int(self.rng.integers(len(values)))]

    def some_of(self, values: Sequence[T], number: int) -> list[T]:
        """Draw several different values, in the drawn order."""
        picks = self.rng.permutation(len(values))[:number]
        return [values[int(i)] for i in picks]

    def between(self, low: int, high: int) -> int:
        """Draw an integer, both ends included."""
        return int(self.rng.integers(low, high + 1))


def _capacities(dice: Dice, person_id: str, level: int) -> tuple[Capacity, ...]:
    strength = (0.6, 0.8, 1.0, 1.25)[level - 1] * float(dice.rng.uniform(0.8, 1.2))
    sd = dice.one_of((0.06, 0.1, 0.2))
    return tuple(
        a_capacity(person_id, family.value, kg * strength, sd)
        for family, kg in ONE_RM_KG.items()
        if not dice.happens("capacity missing")
    )


def a_drawn_person(dice: Dice, person_id: str) -> ProblemPerson:
    """Draw one person with everything that planning may know."""
    level = dice.one_of((1, 2, 2, 3, 3, 4))
    clearance = Clearance.CLEARED
    if dice.happens("moderate only or unknown"):
        clearance = dice.one_of((Clearance.MODERATE_ONLY, Clearance.UNKNOWN))
    elif dice.happens("not cleared"):
        clearance = Clearance.NOT_CLEARED
    classes = dice.one_of((4, 8, 12, 30, 60))
    if dice.happens("newcomer"):
        classes = dice.one_of((0, 0, 1, 2, 3))
    ages: tuple[int | None, int | None] = dice.one_of(((None, None), (30, 31), (44, 45)))
    if dice.happens("child"):
        ages = (15, 16)
    elif dice.happens("65 or older"):
        ages = (64, 65)
    caps: dict[Demand, int] = {}
    if dice.happens("caps"):
        number = dice.between(1, 3)
        caps = {d: dice.between(0, 1) for d in dice.some_of(SOMETIMES_CAPPED, number)}
    levels: dict[StrengthFamily, int] = {}
    if dice.happens("family level"):
        levels = {dice.one_of(tuple(ONE_RM_KG)): dice.between(1, 4)}
    return ProblemPerson(
        level=level,
        level_by_family=levels,
        classes_done=None if classes == 0 and dice.between(0, 1) else classes,
        days_since_last=dice.between(14, 40) if dice.happens("away") else dice.one_of((None, 7)),
        youngest_age=ages[0],
        oldest_age=ages[1],
        body_mass_g=dice.between(50, 100) * 1000,
        clearance=clearance,
        caps=caps,
        first_side=dice.one_of((Side.LEFT, Side.RIGHT)),
        capacities=_capacities(dice, person_id, level),
        unused=_unused(dice.apart(f"sides of {person_id}")),
    )


def _unused(dice: Dice) -> dict[Limb, Side]:
    if not dice.happens("a limb of which a side is not used"):
        return {}
    return {dice.one_of(tuple(Limb)): dice.one_of(tuple(Side))}


def drawn_kit(dice: Dice, masses: int, most: int) -> Inventory:
    """Draw a rack and store; `most` bounds each count, so that small means scarce."""
    rack = sorted(dice.some_of((2000, 4000, 6000, 8000, 10_000, 12_000), masses))

    def item(item_id: str, kind: KitKind, **more: Any) -> KitItem:
        away = dice.happens("item in another room or out of use")
        room = dice.one_of(("main", None))
        in_use = True
        if away:
            room, in_use = dice.one_of((("annex", True), ("main", False)))
        count = dice.between(1, most)
        return KitItem(id=item_id, kind=kind, count=count, room=room, in_use=in_use, **more)

    return Inventory(
        dumbbells=tuple(
            Dumbbells(
                unit_mass_g=mass,
                count=dice.between(1, 2 * most),
                flat_sided=not dice.happens("round-sided dumbbells"),
            )
            for mass in rack
        ),
        items=(
            item("bench", KitKind.BENCH, strength=dice.one_of((90_000, 200_000))),
            item("low_box", KitKind.BOX, height=250, strength=200_000, stable=True),
            item("tall_box", KitKind.BOX, height=500, strength=200_000, stable=True),
            item("loose_box", KitKind.BOX, height=300, strength=200_000),
            item("chair", KitKind.CHAIR, strength=dice.one_of((None, 150_000))),
            item("mat", KitKind.MAT),
            item("band", KitKind.BAND),
            item("rope", KitKind.ROPE),
        ),
    )


def _count(dice: Dice, name: str, combined: bool, timed: bool) -> Count:
    if name in ONE_SIDED:
        unit = CountUnit.SECONDS_PER_SIDE if timed else CountUnit.REPS_PER_SIDE
        return Count(value=dice.one_of((6, 8, 20)), unit=unit)
    if timed:
        unit = dice.one_of((CountUnit.SECONDS, CountUnit.SECONDS_PER_SIDE))
        return Count(value=dice.one_of((20, 30, 40)), unit=unit)
    units = [CountUnit.REPS, CountUnit.REPS_PER_SIDE, CountUnit.REPS_ALTERNATING]
    unit = dice.one_of(units[: 2 if combined else 3])
    return Count(value=dice.one_of((6, 8, 10, 12)), unit=unit)


def _keep(dice: Dice, people: Sequence[str], problem: Problem) -> tuple[KeptCell, ...]:
    exercise = dice.one_of(problem.spec.exercises)
    line = dice.one_of(problem.library.lines_of_exercise(exercise.exercise_id))
    return (
        KeptCell(
            person=dice.one_of(people),
            position=exercise.position,
            version=dice.one_of((None, dice.one_of(problem.library.lines[line].versions))),
            mass_g=dice.one_of((None, None, *(d.unit_mass_g for d in problem.kit.dumbbells))),
        ),
    )


def drawn_class(dice: Dice, people_count: int, places: int, rounds: int, kit: Inventory) -> Problem:
    library = a_library()
    timed, close = dice.happens("timed pace"), dice.happens("rest of 0 s after the burst")
    lines = [line for line in library.lines if line != BURST_LINE]
    chosen = [
        dice.one_of(tuple(library.combinations))
        if dice.happens("combination at a place")
        else dice.one_of(lines)
        for _ in range(places)
    ]
    if dice.happens("line with jumps or one-leg balance at the last place"):
        chosen[-1] = dice.one_of(("step_line", "step_line", "lunge_line", "hinge_line"))
    exercises = tuple(
        PlannedExercise(
            position=k,
            exercise_id=name,
            count=_count(dice, name, name in library.combinations, timed),
        )
        for k, name in enumerate(chosen, start=1)
    )
    burst = None
    if dice.happens("burst"):
        rate = dice.one_of((None, 100))
        burst = BurstWish(line=BURST_LINE, length_s=dice.one_of((10, 20, 40)), rate_a_min=rate)
    form = ClassFormat.TOGETHER
    if dice.happens("pairs"):
        form = ClassFormat.PAIRS
    elif dice.happens("any format"):
        form = ClassFormat.ANY
    banned = sorted(library.movements)
    spec = a_spec(
        format=form,
        rounds=rounds,
        pace=Pace.TIMED if timed else Pace.COUNTED,
        rest_s=0 if close and places > 1 else 60,
        side_change_s=dice.one_of((0, 4)),
        burst=burst,
        after_last_round=dice.one_of(tuple(AfterLastRound)),
        exercises=exercises,
        ban=tuple(dice.some_of(banned, 2)) if dice.happens("ban") else (),
        slot_s=840 + dice.between(60, 150) * places * rounds
        if dice.happens("slot too short")
        else 7200,
    )
    ids = [f"p{n:03d}" for n in range(1, people_count + 1)]
    people = {p: a_drawn_person(dice, p) for p in ids}
    if all(p.clearance is Clearance.NOT_CLEARED for p in people.values()):
        people[ids[0]] = people[ids[0]].model_copy(update={"clearance": Clearance.CLEARED})
    substitutes = tuple(dice.some_of(lines, 3))
    rules, costs = RuleTable(), CostTable()
    if dice.happens("more contacts"):
        limits = (Limit(from_classes=0, limit=0), Limit(from_classes=4, limit=60))
        rules = RuleTable(contacts=limits)
    if dice.happens("other prices"):
        costs = CostTable(
            version_below=dice.one_of((8, 25)), further_version=dice.one_of((0, 3)), third_mass=40
        )
    problem = a_problem(
        spec, library, people, kit, substitutes=substitutes, rules=rules, costs=costs
    )
    if dice.happens("keep"):
        kept = _keep(dice, problem.taking_part, problem)
        spec = spec.model_copy(update={"keep": kept})
    return problem.model_copy(update={"spec": spec})


def a_tiny_hall(seed: int) -> Problem:
    """Draw 2 to 4 people, 1 to 3 exercises, 1 to 3 masses, 1 to 3 rounds, scarce kit."""
    dice = Dice(seed, "tiny hall")
    people = dice.one_of((2, 2, 3, 3, 4))
    places = dice.one_of((1, 2, 2, 3))
    kit = drawn_kit(dice, masses=dice.between(1, 3), most=dice.between(1, people))
    return drawn_class(dice, people, places, dice.between(1, 3), kit)


def with_drawn_cuts(problem: Problem, seed: int) -> Problem:
    """Draw how many landings a set may hold, and what share of a count they must leave."""
    dice = Dice(seed, "landings a set")
    rules = problem.rules.model_copy(
        update={
            "most_landings_a_set": dice.one_of((4, 8, 8)),
            "least_cut_share_bp": dice.one_of((5000, 5000, 8000, 10_000)),
        }
    )
    return problem.model_copy(update={"rules": rules})


def a_hasty_hall(seed: int) -> Problem:
    """Draw a tiny hall in which every second, lunge, push-up and landing counts.

    The slot is always too short; more than half are at their first class; high counts of lunges,
    steps, jumps and push-ups; half of the classes are in pairs.
    """
    dice = Dice(seed, "hasty hall")
    people = dice.one_of((2, 3, 3, 4))
    kit = drawn_kit(dice, masses=2, most=people)
    problem = drawn_class(dice, people, dice.between(1, 2), dice.between(2, 3), kit)
    lines = ("lunge_line", "step_line", "push_line", "steps_and_squat", "splits_and_press")
    units = (CountUnit.REPS, CountUnit.REPS_PER_SIDE)
    exercises = tuple(
        PlannedExercise(
            position=place.position,
            exercise_id=dice.one_of(lines),
            count=Count(value=dice.between(8, 20), unit=dice.one_of(units)),
        )
        for place in problem.spec.exercises
    )
    form = dice.one_of((ClassFormat.TOGETHER, ClassFormat.PAIRS))
    changes = {"exercises": exercises, "format": form, "slot_s": 840, "keep": ()}
    first = {
        p: person.model_copy(update={"classes_done": 0, "clearance": Clearance.CLEARED})
        for p, person in problem.people.items()
        if dice.between(0, 9) < 6
    }
    return problem.model_copy(
        update={
            "spec": problem.spec.model_copy(update=changes),
            "people": problem.people | first,
        }
    )


def a_middling_hall(seed: int, most_people: int = 20, form: ClassFormat | None = None) -> Problem:
    """Draw 5 to `most_people` people and 3 to 6 exercises with a fair amount of kit."""
    dice = Dice(seed, "middling hall")
    people = dice.between(5, most_people)
    kit = drawn_kit(dice, masses=dice.between(4, 6), most=people)
    problem = drawn_class(dice, people, dice.between(3, 6), dice.between(2, 3), kit)
    if form is None:
        return problem
    return problem.model_copy(update={"spec": problem.spec.model_copy(update={"format": form})})


def a_hall_of(seed: int, people: int, places: int, rounds: int = 3) -> Problem:
    """Draw a class together of a given size, with ten masses in few pairs, few ropes and boxes."""
    dice = Dice(seed, f"hall of {people} by {places}")
    kit = drawn_kit(dice, masses=1, most=people)
    rack = (2, 3, 4, 5, 6, 8, 10, 12, 14, 16)
    kit = Inventory(
        dumbbells=tuple(
            Dumbbells(
                unit_mass_g=kg * 1000, count=2 * dice.between(1, people // 3), flat_sided=True
            )
            for kg in rack
        ),
        items=tuple(
            i.model_copy(
                update={
                    "count": i.count if i.id in ("rope", "low_box") else people,
                    "room": None,
                    "in_use": True,
                }
            )
            for i in kit.items
        ),
    )
    problem = drawn_class(dice, people, places, rounds, kit)
    changes = {
        "format": ClassFormat.TOGETHER,
        "keep": (),
        "ban": (),
        "slot_s": 900 + 60 * places * rounds,
    }
    lines = tuple(line for line in problem.library.lines if line != BURST_LINE)
    return problem.model_copy(
        update={"spec": problem.spec.model_copy(update=changes), "substitutes": lines}
    )
