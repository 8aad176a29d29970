"""Asks whether anything stands in the plan that the coach ruled out for this class.

Why a coach cares: what the coach says is out is out.
"""

from collections.abc import Iterator

from roundwright.plan.gate.found import at_burst, at_work
from roundwright.plan.gate.reading import Reading
from roundwright.plan.gate.recount import lines_of
from roundwright.plan.verdict import Finding, Grade

BANNED = "version.banned"
GRADES = {BANNED: Grade.NEVER}


def find(reading: Reading) -> Iterator[Finding]:
    """Give each place with a version, line or combination that is ruled out."""
    spec = reading.problem.spec
    ban = set(spec.ban)
    for work in reading.works:
        lines = lines_of(reading.library, work.exercise_id)
        if ban & {*work.listing.signature, work.exercise_id, *lines}:
            yield at_work(BANNED, Grade.NEVER, work)
    for burst in reading.bursts:
        line = spec.burst.line if spec.burst else ""
        if ban & {burst.movement.slug, line}:
            yield at_burst(BANNED, Grade.NEVER, burst)
