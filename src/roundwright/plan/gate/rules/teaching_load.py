"""Asks whether there is more to teach than a coach can show.

Why a coach cares: three versions can be shown, five cannot; what is new needs eyes on it.
"""

from collections.abc import Iterator

from roundwright.plan.gate.found import at_work, of_person
from roundwright.plan.gate.price import versions_at
from roundwright.plan.gate.reading import Reading
from roundwright.plan.gate.recount import lines_of
from roundwright.plan.verdict import Finding, Grade

VERSIONS, CRITERIA = "versions.many", "criteria.not_met"
GRADES = {VERSIONS: Grade.ADVISE, CRITERIA: Grade.ADVISE}


def find(reading: Reading) -> Iterator[Finding]:
    """Give places with many versions, and steps taken early."""
    problem, library = reading.problem, reading.library
    for position in reading.positions():
        number = versions_at(reading, position)
        if number > problem.rules.most_versions:
            yield Finding(
                rule=VERSIONS,
                grade=Grade.ADVISE,
                positions=(position,),
                figures={"number": number, "most": problem.rules.most_versions},
            )
    for work in reading.works:
        lines = [
            library.lines[n] for n in lines_of(library, work.exercise_id) if n in library.lines
        ]
        needed = max(
            (line.min_classes_for(m) for line in lines for m in work.listing.signature), default=0
        )
        if work.person.classes < needed:
            yield at_work(CRITERIA, Grade.ADVISE, work, classes=needed)
    for piece in reading.core.pieces:
        line = library.lines.get(piece.line_id)
        for person_id, version in piece.versions.items():
            person = reading.people.get(person_id)
            if line and person and person.classes < line.min_classes_for(version):
                yield of_person(
                    CRITERIA, Grade.ADVISE, person_id, classes=line.min_classes_for(version)
                )
