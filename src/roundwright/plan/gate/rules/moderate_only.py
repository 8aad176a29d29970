"""Asks whether those who may only work lightly to moderately do no more than that.

Why a coach cares: full sentences, effort 4 of 10, no jumps, march (floor page C1; CP).
"""

from collections.abc import Iterator

from roundwright.plan.gate.bursts import easiest_burst
from roundwright.plan.gate.found import at_burst, at_work, of_person
from roundwright.plan.gate.people_limits import (
    above_moderate_caps,
    effort_ceiling,
    is_heavy_overhead,
    reps_in_reserve,
)
from roundwright.plan.gate.reading import Reading, Work
from roundwright.plan.verdict import Finding, Grade

MODERATE = "clearance.moderate_only"
GRADES = {MODERATE: Grade.NEVER}


def find(reading: Reading) -> Iterator[Finding]:
    """Give what is more than light to moderate for those to whom that matters."""
    rules = reading.problem.rules
    for work in reading.works:
        if work.person.is_moderate_only:
            for what in _at_work(reading, work):
                yield at_work(MODERATE, Grade.NEVER, work, what=what)
    for burst in reading.bursts:
        easiest = easiest_burst(reading.problem, burst.person)
        if burst.person.is_moderate_only and burst.movement.slug != easiest:
            yield at_burst(MODERATE, Grade.NEVER, burst, what="burst_too_hard")
    for person_id, person in reading.people.items():
        dose = reading.doses[person_id]
        if not person.is_moderate_only:
            continue
        if dose.rir < reps_in_reserve(person, rules):
            yield of_person(MODERATE, Grade.NEVER, person_id, what="rir")
        if dose.effort_ceiling > effort_ceiling(person, rules):
            yield of_person(MODERATE, Grade.NEVER, person_id, what="effort")


def _at_work(reading: Reading, work: Work) -> Iterator[str]:
    rules, movements = reading.problem.rules, work.listing.movements
    if any(above_moderate_caps(work.person, m) or m.contacts_a_rep for m in movements):
        yield "too_vigorous"
    if any(m.level > rules.moderate_level for m in movements):
        yield "level"
    if any(is_heavy_overhead(work.person, m, work.cell.unit_mass_g, rules) for m in movements):
        yield "heavy_overhead"
