"""Asks whether anything dangerous stands right after a burst or at the tired end.

Why a coach cares: breathless legs land badly, and heads go down too fast (floor page C6).
"""

from collections.abc import Iterator

from roundwright.plan.gate.found import at_work
from roundwright.plan.gate.order_of_class import (
    breaks_after_burst,
    breaks_last_place,
    is_after_burst,
    is_last_place,
)
from roundwright.plan.gate.reading import Reading
from roundwright.plan.verdict import Finding, Grade

AFTER_BURST, LAST_PLACE = "order.after_burst", "order.last_place"
GRADES = {AFTER_BURST: Grade.NEVER, LAST_PLACE: Grade.NEVER}


def find(reading: Reading) -> Iterator[Finding]:
    """Give what stands where it must not."""
    problem = reading.problem
    for work in reading.works:
        mass, person, movements = work.cell.unit_mass_g, work.person, work.listing.movements
        if any(is_after_burst(problem, work.interval, r) for r in work.rounds) and any(
            breaks_after_burst(problem, person, m, mass) for m in movements
        ):
            yield at_work(AFTER_BURST, Grade.NEVER, work)
        if any(is_last_place(problem, work.interval, r) for r in work.rounds) and any(
            breaks_last_place(problem, person, m, mass) for m in movements
        ):
            yield at_work(LAST_PLACE, Grade.NEVER, work)
