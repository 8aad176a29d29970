"""How a plan is read against its problem: class, people and groups; cells are next door.

Never raises for what a core holds: what cannot be understood becomes a note.
"""

from roundwright.goals.class_wish import ClassFormat
from roundwright.plan.core import Core, PersonDose, PieceKind
from roundwright.plan.gate.read_cells import read_cells
from roundwright.plan.gate.read_groups import read_groups
from roundwright.plan.gate.reading import BurstWork, Note, Reading, burst_rounds
from roundwright.plan.gate.recount import known_versions
from roundwright.plan.problem import Problem

_PART_OF = {
    "pulse": PieceKind.WARM_UP,
    "mobilise": PieceKind.WARM_UP,
    "pattern": PieceKind.WARM_UP,
    "landing": PieceKind.WARM_UP,
    "walk": PieceKind.COOL_DOWN,
    "floor": PieceKind.COOL_DOWN,
}
"""Which part of the class a piece belongs to by what it is for (P7)."""


def read(core: Core, problem: Problem) -> Reading:
    """Read a core against a problem; never raises for what the core holds."""
    reading = Reading(core, problem)
    _read_class(reading)
    _read_people(reading)
    _read_pieces(reading)
    read_groups(reading)
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
    if mine.format is ClassFormat.ANY or spec.format not in (ClassFormat.ANY, mine.format):
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


def _read_pieces(reading: Reading) -> None:
    for piece in reading.core.pieces:
        if piece.line_id not in reading.library.lines:
            reading.notes.append(Note("piece_line"))
            continue
        if piece.kind is not _PART_OF[piece.why]:
            reading.notes.append(Note("piece_kind"))
        known = {m.slug for m in known_versions(reading.library, piece.line_id)}
        for person_id, version in piece.versions.items():
            if person_id not in reading.problem.people:
                reading.notes.append(Note("unknown_person"))
            elif version not in known:
                reading.notes.append(Note("piece_version", (person_id,)))
