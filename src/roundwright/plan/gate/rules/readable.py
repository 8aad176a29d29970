"""Asks whether the plan is what the problem asks for, and its figures true.

Why a coach cares: a plan that says something else than the class, or whose figures do
not hold, cannot be trusted in any other point.
"""

from collections.abc import Iterator

from roundwright.plan.gate.found import at_work, of_person
from roundwright.plan.gate.loads import chance, limiter
from roundwright.plan.gate.people_limits import (
    effort_ceiling,
    is_newcomer,
    reps_in_reserve,
    reps_to_leave,
)
from roundwright.plan.gate.price import asked_of
from roundwright.plan.gate.reading import Reading
from roundwright.plan.verdict import Finding, Grade

MALFORMED = "plan.malformed"
GRADES = {MALFORMED: Grade.NEVER}


def find(reading: Reading) -> Iterator[Finding]:
    """Give what cannot be read, and stored figures that differ from what they should be."""
    for note in reading.notes:
        yield Finding(
            rule=MALFORMED,
            grade=Grade.NEVER,
            persons=note.persons,
            positions=note.positions,
            round=note.round,
            figures={"what": note.what},
        )
    for work in reading.works:
        asked = asked_of(reading, work)
        if abs(work.cell.chance_bp - chance(asked, work.cell.unit_mass_g)) > 1:
            yield at_work(MALFORMED, Grade.NEVER, work, what="chance")
        if work.cell.limited_by != limiter(asked, work.cell.unit_mass_g):
            yield at_work(MALFORMED, Grade.NEVER, work, what="limiter")
    for person_id, person in reading.people.items():
        dose, rules = reading.doses[person_id], reading.problem.rules
        eased = person.is_moderate_only or is_newcomer(person, rules)
        right = reps_to_leave(person, reading.problem)
        said_elsewhere = eased and dose.rir < reps_in_reserve(person, rules)
        if dose.rir != right and not said_elsewhere:
            yield of_person(MALFORMED, Grade.NEVER, person_id, what="rir")
        if dose.effort_ceiling > effort_ceiling(person, rules) and not eased:
            yield of_person(MALFORMED, Grade.NEVER, person_id, what="effort")
