"""Smallest valid movements, people, rooms and problems; each test changes what it is about.

The loads and strengths here are invented for tests and say nothing about people.
"""

from collections.abc import Iterable, Mapping
from datetime import date, time
from math import log
from typing import Any

from roundwright.body.anatomy import Muscle, MuscleRole, Side
from roundwright.goals.class_wish import AfterLastRound, ClassFormat, Count, CountUnit, Pace
from roundwright.kit.inventory import Dumbbells, Inventory, KitItem, Room
from roundwright.library.catalogue import Catalogue
from roundwright.library.combination import Combination, Part
from roundwright.library.line import ProgressionLine
from roundwright.library.movement import FaultAndFix as Fault
from roundwright.library.movement import FloorNeed, KitNeed, Movement, MuscleShare, Teaching
from roundwright.library.vocabulary import (
    KitKind,
    KitUse,
    Laterality,
    Pattern,
    StrengthFamily,
)
from roundwright.people.capacity import Capacity, CapacitySource
from roundwright.people.person import Clearance
from roundwright.plan.problem import ClassSpec, PlannedExercise, Problem, ProblemPerson

CLASS_DAY = date(2026, 3, 3)

TEACHING = Teaching(
    set_up="Stand tall.",
    steps=("Move.",),
    start="Tall.",
    end="Tall.",
    feel="The working muscles.",
    breathing="Out with the effort.",
    cues=("Slow down.", "Stay tall."),
    faults=(Fault(fault="Rushing.", fix="Count two."),),
    watch="Balance.",
)


def a_movement(slug: str, **changes: Any) -> Movement:
    """Make a bilateral body-weight squat of level 2, 3 s a rep, with changes."""
    values: dict[str, Any] = {
        "slug": slug,
        "name": slug.replace("_", " ").capitalize(),
        "pattern": Pattern.SQUAT,
        "laterality": Laterality.BILATERAL,
        "level": 2,
        "seconds_a_rep": 3.0,
        "contacts_a_rep": 0,
        "low_hops_a_rep": 0,
        "floor": FloorNeed(length=2000, width=2000),
        "muscles": {Muscle.QUADS: MuscleShare(role=MuscleRole.PRIME_MOVER, share=1.0)},
        "tempo": "1-0-1",
        "demands": {},
        "teaching": TEACHING,
    }
    return Movement(**(values | changes))


def lifting(units: int = 2) -> tuple[KitNeed, ...]:
    """Give the kit of a movement that lifts one or two dumbbells."""
    return (KitNeed(item=KitKind.DUMBBELL, units=units, use=KitUse.LIFT),)


def mover(muscle: Muscle) -> dict[Muscle, MuscleShare]:
    """Give one prime mover that does all the work."""
    return {muscle: MuscleShare(role=MuscleRole.PRIME_MOVER, share=1.0)}


PARTNERS = {
    Muscle.QUADS: Muscle.ADDUCTORS,
    Muscle.HAMSTRINGS: Muscle.ABDUCTORS,
    Muscle.GLUTES: Muscle.HIP_FLEXORS,
    Muscle.CHEST: Muscle.TRICEPS,
    Muscle.FRONT_DELTS: Muscle.SIDE_DELTS,
    Muscle.LATS: Muscle.BICEPS,
    Muscle.ABDOMINALS: Muscle.LOW_BACK,
    Muscle.FOREARMS: Muscle.UPPER_BACK,
}


def movers(muscle: Muscle) -> dict[Muscle, MuscleShare]:
    """Give two prime movers, a muscle and one that works with no other: no accessory."""
    return {
        muscle: MuscleShare(role=MuscleRole.PRIME_MOVER, share=0.75),
        PARTNERS[muscle]: MuscleShare(role=MuscleRole.PRIME_MOVER, share=0.25),
    }


def a_line(slug: str, *versions: str, **changes: Any) -> ProgressionLine:
    """Make a line of versions, easy to hard."""
    values: dict[str, Any] = {
        "slug": slug,
        "name": slug.replace("_", " ").capitalize(),
        "versions": versions,
        "up": ("Two classes at the top of the range.",),
        "down": ("Two faulty reps after a cue.",),
    }
    return ProgressionLine(**(values | changes))


def a_combination(slug: str, *parts: tuple[str, Side], **changes: Any) -> Combination:
    """Make a combination of (line, side) parts without link time."""
    values: dict[str, Any] = {
        "slug": slug,
        "name": slug.replace("_", " ").capitalize(),
        "parts": tuple(Part(line=line, side=side) for line, side in parts),
        "link_s": 0.0,
    }
    return Combination(**(values | changes))


def a_catalogue(
    movements: Iterable[Movement],
    lines: Iterable[ProgressionLine],
    combinations: Iterable[Combination] = (),
) -> Catalogue:
    """Make a catalogue of what is given."""
    return Catalogue(
        movements={m.slug: m for m in movements},
        lines={line.slug: line for line in lines},
        combinations={c.slug: c for c in combinations},
    )


def a_capacity(person_id: str, key: str, one_rep_max_kg: float, sd: float = 0.1) -> Capacity:
    """Make a capacity from a 1RM (both limbs, effective) and its ln SD."""
    return Capacity(
        person_id=person_id,
        key=key,
        ln_1rm_mean=log(one_rep_max_kg),
        ln_1rm_sd=sd,
        rep_exponent_sd=0.1,
        source=CapacitySource.TEST,
    )


def a_person(person_id: str = "p001", **changes: Any) -> ProblemPerson:
    """Make a cleared regular of level 3, 70 kg, strong in every family, with changes."""
    values: dict[str, Any] = {
        "level": 3,
        "classes_done": 30,
        "youngest_age": 40,
        "oldest_age": 41,
        "body_mass_g": 70_000,
        "clearance": Clearance.CLEARED,
        "capacities": tuple(a_capacity(person_id, f.value, 200.0) for f in StrengthFamily),
    }
    return ProblemPerson(**(values | changes))


def a_room(**changes: Any) -> Room:
    """Make a hall of 20 by 15 metres."""
    values: dict[str, Any] = {"id": "main", "name": "Main hall", "length": 20_000, "width": 15_000}
    return Room(**(values | changes))


def a_kit(dumbbells: Mapping[int, int] | None = None, *items: KitItem) -> Inventory:
    """Make an inventory from {unit mass in g: count}, all flat-sided, and items."""
    masses = {8000: 40} if dumbbells is None else dumbbells
    return Inventory(
        dumbbells=tuple(
            Dumbbells(unit_mass_g=mass, count=count, flat_sided=True)
            for mass, count in masses.items()
        ),
        items=items,
    )


def a_spec(*exercises: tuple[str, Count], **changes: Any) -> ClassSpec:
    """Make a 45-minute class of these exercises, one round, together."""
    values: dict[str, Any] = {
        "class_id": "tuesday",
        "name": "Tuesday circuit",
        "starts_on": CLASS_DAY,
        "starts_at_local": time(18, 0),
        "time_zone": "Europe/London",
        "slot_s": 2700,
        "room_id": "main",
        "format": ClassFormat.TOGETHER,
        "coaches": 1,
        "rounds": 1,
        "pace": Pace.COUNTED,
        "change_s": 15,
        "side_change_s": 0,
        "partner_swap_s": 6,
        "rest_s": 60,
        "burst": None,
        "after_last_round": AfterLastRound.BURST,
        "warm_up_s": 300,
        "demonstration_s": 240,
        "cool_down_s": 300,
        "exercises": tuple(
            PlannedExercise(position=k, exercise_id=name, count=count)
            for k, (name, count) in enumerate(exercises, start=1)
        ),
    }
    return ClassSpec(**(values | changes))


def reps(value: int) -> Count:
    """Count whole reps."""
    return Count(value=value, unit=CountUnit.REPS)


def a_side(value: int) -> Count:
    """Count reps a side."""
    return Count(value=value, unit=CountUnit.REPS_PER_SIDE)


def a_problem(
    spec: ClassSpec,
    library: Catalogue,
    people: Mapping[str, ProblemPerson],
    kit: Inventory | None = None,
    **changes: Any,
) -> Problem:
    """Make a problem; everything that matters to a test is given by the test."""
    values: dict[str, Any] = {
        "spec": spec,
        "people": dict(people),
        "kit": kit or a_kit(),
        "room": a_room(),
        "library": library,
    }
    return Problem(**(values | changes))
