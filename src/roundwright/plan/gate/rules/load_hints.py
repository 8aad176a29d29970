"""Asks whether a load is well chosen, where it is safe.

Why a coach cares: too light is a wasted set, unless a pause or a slow lowering makes up for it.
"""

from collections.abc import Iterator

from roundwright.foundation.quantities import BP
from roundwright.plan.gate.found import at_work
from roundwright.plan.gate.loads import (
    aim_bp,
    chance,
    lacking_shares,
    lifts,
    limiter,
    must_meet_aim,
    own_largest_g,
)
from roundwright.plan.gate.price import asked_of, main_works, target_of
from roundwright.plan.gate.reading import Reading
from roundwright.plan.verdict import Finding, Grade

BELOW_AIM, LIGHT, ASSUMED = "load.below_aim", "load.light", "load.assumed"
DECIDES = "load.part_decides"
GRADES = dict.fromkeys((BELOW_AIM, LIGHT, ASSUMED, DECIDES), Grade.ADVISE)


def find(reading: Reading) -> Iterator[Finding]:
    """Give loads below the aim, well below the target or not judged, and parts that decide."""
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
    yield from _deciding_parts(reading)


def _deciding_parts(reading: Reading) -> Iterator[Finding]:
    """Give parts of combinations that keep another far below its own load."""
    problem = reading.problem
    held: dict[tuple[int, str, int], dict[str, int]] = {}
    for work in main_works(reading):
        asked, mass = asked_of(reading, work), work.cell.unit_mass_g
        if work.listing.combination is None or not mass or not lifts(work.listing):
            continue
        part = limiter(asked, mass)
        if part and BP * max(lacking_shares(asked, mass)) >= problem.rules.part_decides_bp:
            people = held.setdefault(
                (work.position, problem.library.movements[part].name, mass), {}
            )
            people[work.person_id] = own_largest_g(asked)
    for (position, part, mass), people in sorted(held.items()):
        yield Finding(
            rule=DECIDES,
            grade=Grade.ADVISE,
            persons=tuple(people),
            positions=(position,),
            figures={"part": part, "mass_g": mass, "most_g": max(people.values())},
        )
