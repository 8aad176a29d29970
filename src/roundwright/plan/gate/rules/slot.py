"""Asks whether the class fits the booked time.

Why a coach cares: the third round is cut every week, or the next class waits at the door.
"""

from collections.abc import Iterator

from roundwright.plan.gate.found import of_class
from roundwright.plan.gate.reading import Reading
from roundwright.plan.gate.times import total_s
from roundwright.plan.verdict import Finding, Grade

OVERRUN, NO_MARGIN = "slot.overrun", "slot.no_margin"
GRADES = {OVERRUN: Grade.STOP, NO_MARGIN: Grade.ADVISE}


def find(reading: Reading) -> Iterator[Finding]:
    """Give by how much the class overruns, or that nothing is left to register and clear up."""
    total, slot = total_s(reading), reading.problem.spec.slot_s
    if total > slot:
        yield of_class(OVERRUN, Grade.STOP, total_s=total, slot_s=slot, over_s=total - slot)
    elif total + reading.problem.rules.register_and_clear_s > slot:
        yield of_class(NO_MARGIN, Grade.ADVISE, left_s=slot - total)
