"""A choice written down as the core of a plan: cells, doses, timeline, handovers."""

from collections.abc import Iterator

from roundwright.optimise.burst_options import BurstOption
from roundwright.optimise.choice_value import Choice, Groups, chosen, timeline_of
from roundwright.optimise.handovers import handovers_of
from roundwright.optimise.instance import Instance
from roundwright.optimise.kit_choice import ItemUse
from roundwright.optimise.options import Doing, Option
from roundwright.plan.core import (
    Cell,
    Core,
    CoreClass,
    CoreExercise,
    KitUnits,
    PersonDose,
)


def core_of(instance: Instance, choice: Choice, groups: Groups, plan_id: str) -> Core:
    """Write the first revision of a plan."""
    spec = instance.problem.spec
    return Core(
        plan_id=plan_id,
        revision=1,
        made_by="tool",
        class_=CoreClass(
            class_id=spec.class_id,
            starts_on=spec.starts_on,
            starts_at_local=spec.starts_at_local,
            slot_s=spec.slot_s,
            room_id=spec.room_id,
            format=groups.format,
            groups=tuple(tuple(instance.people[p] for p in group) for group in groups.members),
            rounds=spec.rounds,
            positions=spec.positions,
            after_last_round=spec.after_last_round,
        ),
        exercises=tuple(
            CoreExercise(position=e.position, exercise_id=e.exercise_id, count=e.count)
            for e in spec.exercises
        ),
        people=tuple(_dose(instance, choice, p) for p in range(len(instance.people))),
        cells=tuple(_cells(instance, choice)),
        timeline=timeline_of(instance, choice, groups),
        handovers=handovers_of(instance, choice, groups),
    )


def _kit(items: tuple[ItemUse, ...]) -> tuple[KitUnits, ...]:
    return tuple(KitUnits(item_id=item_id, units=units) for item_id, units in sorted(items))


def _dose(instance: Instance, choice: Choice, person: int) -> PersonDose:
    dose = instance.doses[person]
    burst = chosen(instance, choice, person, instance.positions).what
    movement_id, items = (
        (burst.movement_id, burst.items) if isinstance(burst, BurstOption) else (None, ())
    )
    return PersonDose(
        person_id=instance.people[person],
        dose_bp=dose.dose_bp,
        rounds=dose.rounds,
        burst=movement_id,
        burst_kit=_kit(items),
        effort_ceiling=dose.effort_ceiling,
        rir=dose.rir,
    )


def _cells(instance: Instance, choice: Choice) -> Iterator[Cell]:
    for person, person_id in enumerate(instance.people):
        for place in range(instance.positions):
            what = chosen(instance, choice, person, place).what
            if not isinstance(what, Option):
                continue
            if what.main is None or what.last is None:
                yield Cell(
                    person_id=person_id, position=place + 1, state=what.state, kept=what.kept
                )
            elif what.tail is None:
                yield _cell(person_id, place + 1, 0, what, what.main)
            else:
                for n in instance.doses[person].rounds:
                    doing = what.last if instance.is_last_at(person, place, n) else what.main
                    yield _cell(person_id, place + 1, n, what, doing)


def _cell(person_id: str, position: int, round_number: int, option: Option, doing: Doing) -> Cell:
    return Cell(
        person_id=person_id,
        position=position,
        round=round_number,
        state=option.state,
        exercise_id=option.exercise_id,
        steps=doing.steps,
        count=doing.count,
        unit_mass_g=doing.mass_g,
        units=doing.units,
        kit=_kit(doing.items),
        limited_by=doing.limited_by,
        kept=option.kept,
        chance_bp=doing.chance_bp,
    )
