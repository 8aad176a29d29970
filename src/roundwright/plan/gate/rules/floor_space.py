"""Asks whether there is floor enough for everyone.

Why a coach cares: swings, ropes and lying people need air around them.
ref: space-per-person (the room's own figure may differ).
"""

from collections.abc import Iterator

from roundwright.plan.gate.found import of_class
from roundwright.plan.gate.reading import Reading
from roundwright.plan.verdict import Finding, Grade

FLOOR = "space.floor"
GRADES = {FLOOR: Grade.STOP}


def find(reading: Reading) -> Iterator[Finding]:
    """Give a room too small for its people, and windows that use more floor than there is."""
    room, people = reading.problem.room, len(reading.people)
    area_mm2 = room.length * room.width
    if people * room.space_a_person > room.area_m2:
        yield of_class(FLOOR, Grade.STOP, people=people, what="people")
    for number in range(1, reading.problem.spec.rounds + 1):
        for interval in reading.positions():
            works = reading.works_in(interval, number)
            used = sum(
                max(m.floor.length * m.floor.width for m in work.listing.movements)
                for work in works
            )
            if used > area_mm2:
                yield Finding(
                    rule=FLOOR,
                    grade=Grade.STOP,
                    positions=tuple(sorted({work.position for work in works})),
                    round=number,
                    figures={"what": "window", "people": people},
                )
        bursts = [b for b in reading.bursts if number in b.rounds]
        if sum(b.movement.floor.length * b.movement.floor.width for b in bursts) > area_mm2:
            yield Finding(
                rule=FLOOR,
                grade=Grade.STOP,
                round=number,
                figures={"what": "burst", "people": people},
            )
