"""Asks whether warm-up and cool-down are fit for everybody, and fit into their time.

Why a coach cares: people are hurt in a warm-up as well; it passes the same rules as the
main part, at level 2 at most, without loads, and only those land who jump in the class
(section P7 of the definition).
"""

from collections.abc import Iterator

from roundwright.library.movement import Movement
from roundwright.plan.core import Piece, PieceKind
from roundwright.plan.gate.found import of_class, of_person
from roundwright.plan.gate.kit_use import items_exist
from roundwright.plan.gate.landings import contacts_of
from roundwright.plan.gate.people_limits import allowed_by_person, low_hop_limit
from roundwright.plan.gate.reading import Reading
from roundwright.plan.verdict import Finding, Grade

FORBIDDEN, TOO_LONG = "pieces.forbidden", "pieces.too_long"
GRADES = {FORBIDDEN: Grade.NEVER, TOO_LONG: Grade.STOP}
HIGHEST_LEVEL = 2
"""Pieces are for everybody (P7)."""


def find(reading: Reading) -> Iterator[Finding]:
    """Give versions that a person must not do in a piece, and pieces longer than their time."""
    library, spec = reading.library, reading.problem.spec
    for piece in reading.core.pieces:
        for person_id, version in piece.versions.items():
            movement = library.movements.get(version)
            if movement is None or person_id not in reading.problem.people:
                continue
            for what in _forbids(reading, piece, person_id, movement):
                yield of_person(FORBIDDEN, Grade.NEVER, person_id, what=what, movement=version)
    times = ((PieceKind.WARM_UP, spec.warm_up_s), (PieceKind.COOL_DOWN, spec.cool_down_s))
    for kind, most_s in times:
        length = sum(p.length_s for p in reading.core.pieces if p.kind is kind)
        if length > most_s:
            yield of_class(TOO_LONG, Grade.STOP, what=kind.value, is_s=length, most_s=most_s)


def _forbids(reading: Reading, piece: Piece, person_id: str, movement: Movement) -> Iterator[str]:
    """Give why somebody must not do a piece so; what a limit forbids is not told apart."""
    problem, person = reading.problem, reading.problem.people[person_id]
    if movement.contacts_a_rep and (piece.why != "landing" or not contacts_of(reading, person_id)):
        yield "landings"
    if movement.low_hops_a_rep and not low_hop_limit(person, problem.rules):
        yield "skips"
    if not items_exist(problem, person, [movement], 0):
        yield "no_kit"
    if movement.level > HIGHEST_LEVEL:
        yield "level"
    if movement.dumbbells_needed:
        yield "load"
    if piece.line_id in problem.spec.ban or not allowed_by_person(
        person, movement, problem.rules, problem.spec.ban
    ):
        yield "not_for_them"
