"""Asks whether any movement is one that a person must avoid.

Why a coach cares: this is how somebody is hurt. The finding names the movement, never
the limit or its reason.
"""

from collections.abc import Iterator

from roundwright.plan.gate.found import at_burst, at_work
from roundwright.plan.gate.people_limits import above_caps
from roundwright.plan.gate.reading import Reading
from roundwright.plan.verdict import Finding, Grade

ABOVE_CAP = "demand.above_cap"
GRADES = {ABOVE_CAP: Grade.NEVER}


def find(reading: Reading) -> Iterator[Finding]:
    """Give each movement that a person's limits do not allow."""
    for work in reading.works:
        for movement in dict.fromkeys(m.slug for m in work.listing.movements):
            if above_caps(work.person, reading.library.movements[movement]):
                yield at_work(ABOVE_CAP, Grade.NEVER, work, movement=movement)
    for burst in reading.bursts:
        if above_caps(burst.person, burst.movement):
            yield at_burst(ABOVE_CAP, Grade.NEVER, burst, movement=burst.movement.slug)
