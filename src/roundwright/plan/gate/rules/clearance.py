"""Asks who takes part and should see a doctor first, and whom we do not know.

Why a coach cares: unknown is not healthy, and 'not today' is kinder than an ambulance.
"""

from collections.abc import Iterator

from roundwright.people.person import Clearance
from roundwright.plan.gate.found import of_person
from roundwright.plan.gate.reading import Reading
from roundwright.plan.verdict import Finding, Grade

NOT_CLEARED, UNKNOWN = "clearance.not_cleared", "screen.unknown"
GRADES = {NOT_CLEARED: Grade.NEVER, UNKNOWN: Grade.ADVISE}


def find(reading: Reading) -> Iterator[Finding]:
    """Give people without clearance who are in the plan, and walk-ins to be asked."""
    core = reading.core
    named = {d.person_id for d in core.people} | {c.person_id for c in core.cells}
    named |= {p for group in core.class_.groups for p in group}
    named |= {p for piece in core.pieces for p in piece.versions}
    named |= {p for h in core.handovers for p in (h.from_person, h.to_person)}
    for person_id in sorted(named & reading.problem.people.keys()):
        clearance = reading.problem.people[person_id].clearance
        if clearance is Clearance.NOT_CLEARED:
            yield of_person(NOT_CLEARED, Grade.NEVER, person_id)
        elif clearance is Clearance.UNKNOWN:
            yield of_person(UNKNOWN, Grade.ADVISE, person_id)
