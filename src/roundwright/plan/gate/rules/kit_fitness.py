"""Asks whether every piece of kit is there at all, and fit for what is done with it.

Why a coach cares: a round dumbbell under a hand rolls, a box that tips breaks a wrist.
"""

from collections.abc import Iterator

from roundwright.plan.gate.found import at_burst, at_work
from roundwright.plan.gate.kit_use import mass_count, needs_flat, unfit_kinds, unknown_things
from roundwright.plan.gate.reading import Reading
from roundwright.plan.verdict import Finding, Grade

UNKNOWN, UNQUALIFIED = "kit.unknown", "kit.unqualified"
GRADES = {UNKNOWN: Grade.NEVER, UNQUALIFIED: Grade.NEVER}


def find(reading: Reading) -> Iterator[Finding]:
    """Give kit that the hall does not have, and kit that is not fit for its use."""
    problem = reading.problem
    for work in reading.works:
        cell, movements = work.cell, work.listing.movements
        unknown = unknown_things(problem, cell.kit, cell.unit_mass_g)
        for thing in unknown:
            yield at_work(UNKNOWN, Grade.NEVER, work, thing=thing)
        if cell.unit_mass_g and cell.unit_mass_g not in unknown:
            flat = needs_flat(movements)
            if mass_count(problem, cell.unit_mass_g, flat) == 0:
                yield at_work(UNQUALIFIED, Grade.NEVER, work, kind="dumbbell")
        for kind in unfit_kinds(problem, work.person, movements, cell.kit, cell.unit_mass_g):
            yield at_work(UNQUALIFIED, Grade.NEVER, work, kind=kind.value)
    for burst in reading.bursts:
        for thing in unknown_things(problem, burst.kit, 0):
            yield at_burst(UNKNOWN, Grade.NEVER, burst, thing=thing)
        for kind in unfit_kinds(problem, burst.person, [burst.movement], burst.kit, 0):
            yield at_burst(UNQUALIFIED, Grade.NEVER, burst, kind=kind.value)
