"""Asks who does something else, or nothing, while the others work.

Why a coach cares: it is the coach's word that lets somebody do another movement, and
nobody should be left out unseen.
"""

from collections import Counter
from collections.abc import Iterator

from roundwright.plan.core import CellState
from roundwright.plan.gate.found import at_work, of_class, of_person
from roundwright.plan.gate.reading import Reading
from roundwright.plan.verdict import Finding, Grade

ASKS, MANY, SIT_OUT = "substitute.asks", "substitute.many", "sit_out"
GRADES = {ASKS: Grade.ADVISE, MANY: Grade.ADVISE, SIT_OUT: Grade.ADVISE}
MOST_A_PERSON = 1
"""Substitutes a person before it is worth another class plan (CP)."""


def find(reading: Reading) -> Iterator[Finding]:
    """Give substitutes that need the coach's yes, too many of them, and places left out."""
    places: set[tuple[str, int]] = set()
    for work in reading.works:
        if work.cell.state is CellState.SUBSTITUTE:
            places.add((work.person_id, work.position))
            if not reading.coach_gives(work.cell):
                yield at_work(ASKS, Grade.ADVISE, work)
    most = reading.problem.rules.most_substitutes
    if len(places) > most:
        yield of_class(MANY, Grade.ADVISE, number=len(places), most=most)
    for person_id, number in Counter(p for p, _ in places).items():
        if number > MOST_A_PERSON:
            yield of_person(MANY, Grade.ADVISE, person_id, number=number, most=MOST_A_PERSON)
    for cell in reading.sit_outs:
        yield Finding(
            rule=SIT_OUT,
            grade=Grade.ADVISE,
            persons=(cell.person_id,),
            positions=(cell.position,),
            round=cell.round,
            figures={"what": "not_held"}
            if (cell.person_id, cell.position) in reading.unheld
            else {},
        )
    for person_id in reading.without_burst:
        yield of_person(SIT_OUT, Grade.ADVISE, person_id, what="burst")
