"""Asks whether any version is harder than the person is ready for.

Why a coach cares: one step up is a challenge to watch, two are a fall.
"""

from collections.abc import Iterator

from roundwright.plan.gate.found import at_burst, at_work
from roundwright.plan.gate.people_limits import general_level, level_for
from roundwright.plan.gate.reading import Reading
from roundwright.plan.verdict import Finding, Grade

TOO_HARD, ABOVE = "level.too_hard", "version.level_above"
GRADES = {TOO_HARD: Grade.NEVER, ABOVE: Grade.ADVISE}


def find(reading: Reading) -> Iterator[Finding]:
    """Give versions above the person's level: beyond the step allowed, and within it."""
    rules = reading.problem.rules
    for work in reading.works:
        above = max(m.level - level_for(work.person, m, rules) for m in work.listing.movements)
        if above > rules.highest_level_step:
            yield at_work(TOO_HARD, Grade.NEVER, work)
        elif above > 0:
            yield at_work(ABOVE, Grade.ADVISE, work)
    for burst in reading.bursts:
        if burst.movement.level > general_level(burst.person, rules):
            yield at_burst(TOO_HARD, Grade.NEVER, burst)
