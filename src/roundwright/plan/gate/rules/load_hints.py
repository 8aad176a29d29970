"""Asks whether a load is well chosen, where it is safe.

Why a coach cares: too light is a wasted set, unless a pause or a slow lowering makes up for it.
"""

from collections.abc import Iterator

from roundwright.plan.gate.found import at_work
from roundwright.plan.gate.loads import aim_bp, chance, lifts, must_meet_aim
from roundwright.plan.gate.price import asked_of, target_of
from roundwright.plan.gate.reading import Reading
from roundwright.plan.verdict import Finding, Grade

BELOW_AIM, LIGHT, ASSUMED = "load.below_aim", "load.light", "load.assumed"
GRADES = {BELOW_AIM: Grade.ADVISE, LIGHT: Grade.ADVISE, ASSUMED: Grade.ADVISE}


def find(reading: Reading) -> Iterator[Finding]:
    """Give loads below the aimed chance, well below the target, and not judged at all."""
    rules = reading.problem.rules
    for work in reading.works:
        asked, mass = asked_of(reading, work), work.cell.unit_mass_g
        reached, aim = chance(asked, mass), aim_bp(work.person, reading.problem)
        if rules.least_chance_bp <= reached < aim and not must_meet_aim(asked, mass):
            yield at_work(BELOW_AIM, Grade.ADVISE, work, chance_bp=reached)
        lifted = lifts(work.listing)
        if not lifted or not mass:
            continue
        if any(m.strength_family is None for m in lifted):
            yield at_work(ASSUMED, Grade.ADVISE, work, mass_g=mass)
        target = target_of(reading, work)
        if target is not None and 4 * mass < 3 * target and reached >= aim:
            yield at_work(LIGHT, Grade.ADVISE, work, mass_g=mass, target_g=target)
