"""How a plan is read against its problem: class, people and groups; cells are next door.

Never raises for what a core holds: what cannot be understood becomes a note.
"""

from roundwright.goals.class_wish import ClassFormat
from roundwright.people.person import Clearance
from roundwright.plan.core import Core, PersonDose
from roundwright.plan.gate.read_cells import read_cells
from roundwright.plan.gate.reading import BurstWork, Note, Reading, burst_rounds
from roundwright.plan.gate.recount import known_versions
from roundwright.plan.problem import Problem


def read(core: Core, problem: Problem) -> Reading:
    """Read a core against a problem; never raises for what the core holds."""
    reading = Reading(core, problem)
    _read_class(reading)
    _read_people(reading)
    _read_groups(reading)
    read_cells(reading)
    return reading


def _read_class(reading: Reading) -> None:
    mine, spec, note = reading.core.class_, reading.problem.spec, reading.notes.append
    pairs = (
        (mine.class_id, spec.class_id),
        (mine.starts_on, spec.starts_on),
        (mine.starts_at_local, spec.starts_at_local),
        (mine.slot_s, spec.slot_s),
        (mine.room_id, spec.room_id),
        (mine.room_id, reading.problem.room.id),
        (mine.rounds, spec.rounds),
        (mine.positions, spec.positions),
        (mine.after_last_round, spec.after_last_round),
    )
    if any(a != b for a, b in pairs):
        note(Note("class_differs"))
    if mine.format not in (ClassFormat.TOGETHER, ClassFormat.PAIRS) or (
        spec.format is not ClassFormat.ANY and mine.format is not spec.format
    ):
        note(Note("format"))
    planned = [(e.position, e.exercise_id, e.count) for e in reading.core.exercises]
    wished = [(e.position, e.exercise_id, e.count) for e in spec.exercises]
    if sorted(planned, key=lambda e: e[0]) != sorted(wished, key=lambda e: e[0]):
        note(Note("exercises_differ"))
    if [e.position for e in spec.exercises] != list(reading.positions()):
        note(Note("places_of_class"))
    unknown = [
        e.position for e in spec.exercises if not reading.library.has_exercise(e.exercise_id)
    ]
    if unknown:
        note(Note("unknown_exercise", positions=tuple(unknown)))
    try:
        _ = reading.core.digest
    except (TypeError, ValueError):
        note(Note("cannot_be_written"))
    for handover in reading.core.handovers:
        if not {handover.from_person, handover.to_person} <= reading.problem.people.keys():
            note(Note("unknown_person"))


def _read_people(reading: Reading) -> None:
    problem, note = reading.problem, reading.notes.append
    taking_part = set(problem.taking_part)
    if not taking_part:
        note(Note("nobody"))
    for dose in reading.core.people:
        person_id = dose.person_id
        if person_id not in problem.people:
            note(Note("unknown_person"))
        elif person_id in reading.doses:
            note(Note("two_doses", (person_id,)))
        elif person_id in taking_part:
            reading.doses[person_id] = dose
            rounds = tuple(sorted(set(dose.rounds) & set(range(1, problem.spec.rounds + 1))))
            if list(rounds) != list(dose.rounds) or not rounds:
                note(Note("rounds", (person_id,)))
            if not 0 < dose.dose_bp <= 10_000:
                note(Note("share", (person_id,)))
            elif rounds:
                reading.rounds[person_id] = rounds
                _read_burst(reading, dose, rounds)
    for person_id in sorted(taking_part - reading.doses.keys()):
        note(Note("no_dose", (person_id,)))


def _read_burst(reading: Reading, dose: PersonDose, rounds: tuple[int, ...]) -> None:
    problem, person_id = reading.problem, dose.person_id
    wish = problem.spec.burst
    after = tuple(r for r in rounds if r in burst_rounds(problem))
    if dose.burst is None:
        if dose.burst_kit:
            reading.notes.append(Note("burst", (person_id,)))
        if after:
            reading.without_burst.append(person_id)
        return
    versions = {m.slug: m for m in known_versions(problem.library, wish.line)} if wish else {}
    movement = versions.get(dose.burst)
    if movement is None:
        reading.notes.append(Note("burst", (person_id,)))
        return
    reading.bursts.append(
        BurstWork(person_id, problem.people[person_id], movement, dose.burst_kit, after)
    )


def _read_groups(reading: Reading) -> None:
    groups = reading.core.class_.groups
    members = [p for group in groups for p in group]
    expected = [
        p for p, x in reading.problem.people.items() if x.clearance is not Clearance.NOT_CLEARED
    ]
    if sorted(members) != sorted(expected):
        reading.notes.append(Note("groups"))
    if reading.core.class_.format is ClassFormat.PAIRS:
        sizes = sorted(len(group) for group in groups)
        n = len(expected)
        right = [2] * (n // 2) if n % 2 == 0 else [2] * ((n - 3) // 2) + [3] if n > 1 else [1]
        if sizes != right:
            reading.notes.append(Note("group_sizes"))
    reading.groups = groups
