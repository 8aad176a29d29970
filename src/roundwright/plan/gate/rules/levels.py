"""Asks whether any version is harder than the person is ready for.

Why a coach cares: one step up is a challenge to watch, two are a fall.
"""

from collections.abc import Iterator

from roundwright.plan.core import CellState
from roundwright.plan.gate.found import at_burst, at_work
from roundwright.plan.gate.own_level import levels_above, own_level_is_open
from roundwright.plan.gate.people_limits import general_level
from roundwright.plan.gate.price import main_works
from roundwright.plan.gate.reading import Reading
from roundwright.plan.verdict import Finding, Grade

TOO_HARD, ABOVE, OPEN = "level.too_hard", "version.level_above", "version.own_level_open"
GRADES = {TOO_HARD: Grade.NEVER, ABOVE: Grade.ADVISE, OPEN: Grade.ADVISE}


def find(reading: Reading) -> Iterator[Finding]:
    """Give versions above the level: beyond the step allowed, within it, and needlessly."""
    rules = reading.problem.rules
    for work in reading.works:
        above = levels_above(reading, work, work.listing)
        if above > rules.highest_level_step:
            yield at_work(TOO_HARD, Grade.NEVER, work)
        elif above > 0:
            yield at_work(ABOVE, Grade.ADVISE, work)
    for work in main_works(reading):
        above = levels_above(reading, work, work.listing)
        if work.cell.state is CellState.DO and above > 0 and own_level_is_open(reading, work):
            yield at_work(OPEN, Grade.ADVISE, work)
    for burst in reading.bursts:
        if burst.movement.level > general_level(burst.person, rules):
            yield at_burst(TOO_HARD, Grade.NEVER, burst)
