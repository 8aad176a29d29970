"""Asks whether anybody who may be under sixteen lifts.

Why a coach cares: adult norms say nothing about children (floor page C9).
"""

from collections.abc import Iterator

from roundwright.plan.gate.found import at_work
from roundwright.plan.gate.loads import lifts
from roundwright.plan.gate.people_limits import is_child
from roundwright.plan.gate.reading import Reading
from roundwright.plan.verdict import Finding, Grade

LIFTING = "child.lifting"
GRADES = {LIFTING: Grade.NEVER}


def find(reading: Reading) -> Iterator[Finding]:
    """Give each place at which a child would lift dumbbells."""
    for work in reading.works:
        if is_child(work.person, reading.problem.rules) and lifts(work.listing):
            yield at_work(LIFTING, Grade.NEVER, work)
