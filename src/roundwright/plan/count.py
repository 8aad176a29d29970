"""What a plan comes to, as a coach counts it: the figures of ``count PLAN``.

`facts` gives the short form that is stored with the plan; this is the whole.
"""

from roundwright.dose.contacts import Landings, burst_landings, landings
from roundwright.dose.counting import StepReps, by_movement, reps_of_steps
from roundwright.dose.muscle_sets import HARD_SET_RIR, half_sets_of_set, muscle_volume
from roundwright.dose.tonnage import body_tonnage_g, external_tonnage_g
from roundwright.foundation.errors import BadInputError
from roundwright.foundation.faults import Fault
from roundwright.goals.class_wish import AfterLastRound
from roundwright.plan.class_count import (
    ClassCount,
    MovementCount,
    PersonCount,
    PlaceTonnage,
    RoundLengths,
)
from roundwright.plan.core import Cell, Core, PersonDose, WindowKind
from roundwright.plan.full_count import full_dose_counts
from roundwright.plan.problem import Problem

ROUND_KINDS = frozenset({WindowKind.WORK, WindowKind.CHANGE, WindowKind.BURST, WindowKind.REST})


def count_of(core: Core, problem: Problem) -> ClassCount:
    """Count a plan.

    Parameters
    ----------
    core : Core
        Who does what; its counts are the people's own.
    problem : Problem
        What the plan answers to, for the movements, the burst and body masses.

    Returns
    -------
    ClassCount
        Reps by movement and side, contacts, low hops, tonnage, sets, times.

    Raises
    ------
    BadInputError
        When the plan names a movement or person that its problem does not hold.
    """
    _refuse_unknown(core, problem)
    return ClassCount(
        plan_id=core.plan_id,
        revision=core.revision,
        total_s=total_s(core),
        rounds=_rounds(core),
        people=tuple(_person_count(core, problem, dose) for dose in core.people),
        full_dose=full_dose_counts(problem),
    )


def total_s(core: Core) -> int:
    """Give the length of the class: the end of its last window, s; 0 without any."""
    return max((window.at_s + window.length_s for window in core.timeline), default=0)


def link_s_of(problem: Problem, exercise_id: str | None) -> float:
    """Give the seconds between the parts of an exercise within a pass; 0 for lines."""
    combination = problem.library.combinations.get(exercise_id or "")
    return combination.link_s if combination else 0.0


def _person_count(core: Core, problem: Problem, dose: PersonDose) -> PersonCount:
    movements = problem.library.movements
    person = problem.people[dose.person_id]
    everything: list[StepReps] = []
    half_sets: dict[str, int] = {}
    places: dict[int, int] = {}
    body_g = 0
    mine = [cell for cell in core.cells if cell.person_id == dose.person_id]
    reps_of = {id(cell): _reps_of(cell, problem) for cell in mine}
    for round_number in dose.rounds:
        done = sorted((c for c in mine if c.round in (0, round_number)), key=lambda c: c.position)
        everything.extend(step for cell in done for step in reps_of[id(cell)])
    for cell in mine:
        reps, times = reps_of[id(cell)], sum(cell.round in (0, r) for r in dose.rounds)
        if not times:
            continue
        lifted = external_tonnage_g(reps, cell.unit_mass_g, movements)
        places[cell.position] = places.get(cell.position, 0) + lifted * times
        body_g += body_tonnage_g(reps, person.body_mass_g, movements) * times
        if dose.rir <= HARD_SET_RIR:
            for muscle, halves in half_sets_of_set(reps, movements).items():
                half_sets[muscle] = half_sets.get(muscle, 0) + halves * times
    feet = landings(everything, movements) + _burst_landings(core, problem, dose)
    return PersonCount(
        person_id=dose.person_id,
        movements=tuple(MovementCount.of(m) for m in by_movement(everything)),
        contacts=feet.contacts,
        low_hops=feet.low_hops,
        tonnage_g=sum(places.values()),
        body_tonnage_g=body_g,
        body_mass_assumed=person.body_mass_assumed,
        by_place=tuple(PlaceTonnage(position=k, tonnage_g=g) for k, g in sorted(places.items())),
        half_sets=dict(sorted(half_sets.items())),
        muscle_volume=muscle_volume(everything, movements),
        burst=dose.burst,
        burst_s=_bursts(core, dose) * problem.spec.burst.length_s if problem.spec.burst else 0,
    )


def _reps_of(cell: Cell, problem: Problem) -> tuple[StepReps, ...]:
    if cell.count is None:
        return ()
    link_s = link_s_of(problem, cell.exercise_id)
    return reps_of_steps(cell.count, cell.steps, problem.library.movements, link_s)


def _bursts(core: Core, dose: PersonDose) -> int:
    """Count the bursts that a person does: after each of their rounds that has one."""
    if dose.burst is None:
        return 0
    last_has_none = core.class_.after_last_round is AfterLastRound.NOTHING
    return sum(1 for r in dose.rounds if not (last_has_none and r == core.class_.rounds))


def _burst_landings(core: Core, problem: Problem, dose: PersonDose) -> Landings:
    if dose.burst is None or problem.spec.burst is None:
        return Landings()
    movement = problem.library.movements[dose.burst]
    return burst_landings(problem.spec.burst, movement) * _bursts(core, dose)


def _rounds(core: Core) -> tuple[RoundLengths, ...]:
    found = []
    for number in range(1, core.class_.rounds + 1):
        mine = [w for w in core.timeline if w.round == number and w.kind in ROUND_KINDS]
        work = tuple(w.length_s for w in mine if w.kind is WindowKind.WORK)
        total = sum(w.length_s for w in mine)
        found.append(RoundLengths(round=number, work_s=work, total_s=total))
    return tuple(found)


def _refuse_unknown(core: Core, problem: Problem) -> None:
    named = {step.movement_id for cell in core.cells for step in cell.steps}
    named |= {dose.burst for dose in core.people if dose.burst}
    faults = [
        _unknown("movement", name) for name in sorted(named - problem.library.movements.keys())
    ]
    exercises = {e.exercise_id for e in problem.spec.exercises}
    library = problem.library
    faults += [_unknown("exercise", e) for e in sorted(exercises) if not library.has_exercise(e)]
    people = {dose.person_id for dose in core.people}
    faults += [_unknown("person", name) for name in sorted(people - problem.people.keys())]
    if faults:
        raise BadInputError(faults)


def _unknown(kind: str, name: str) -> Fault:
    return Fault(
        code="name.unknown",
        file="the plan",
        field=kind,
        value=name,
        expected=f"a {kind} that the plan's own problem holds",
        remedy="Fit the class again; this plan has been changed by hand.",
    )
