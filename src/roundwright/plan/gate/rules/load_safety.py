"""Asks whether each person manages the load, and whether a failure is rare enough.

Why a coach cares: a weight that comes down over a head cannot be taken back (floor page C12).
"""

from collections.abc import Iterator

from roundwright.plan.gate.found import at_work
from roundwright.plan.gate.loads import aim_bp, chance, is_above_assumed, may_fail, must_meet_aim
from roundwright.plan.gate.price import asked_of
from roundwright.plan.gate.reading import Reading
from roundwright.plan.verdict import Finding, Grade

MAY_FAIL, ABOVE_AIM, CHANCE_LOW = "load.may_fail", "load.above_aim", "load.chance_low"
GRADES = {MAY_FAIL: Grade.NEVER, ABOVE_AIM: Grade.NEVER, CHANCE_LOW: Grade.STOP}


def find(reading: Reading) -> Iterator[Finding]:
    """Give loads that may fail, that must not be above the aim, or that are too unsure."""
    for work in reading.works:
        asked, mass = asked_of(reading, work), work.cell.unit_mass_g
        reached = chance(asked, mass)
        if may_fail(asked, mass):
            yield at_work(MAY_FAIL, Grade.NEVER, work)
        below_aim = reached < aim_bp(work.person, reading.problem)
        if (below_aim and must_meet_aim(asked, mass)) or is_above_assumed(asked, mass):
            yield at_work(ABOVE_AIM, Grade.NEVER, work)
        if reached < reading.problem.rules.least_chance_bp:
            yield at_work(CHANCE_LOW, Grade.STOP, work, chance_bp=reached)
