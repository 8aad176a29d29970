"""Asks whether first classes, and the first ones after a time away, are eased in.

Why a coach cares: sore for a week means gone for good, and a few are hurt for months.
ref: rhabdo-novice (why new eccentric work is capped); the figures are CP.
"""

from collections.abc import Iterator

from roundwright.plan.gate.bursts import easiest_burst
from roundwright.plan.gate.found import at_burst, at_work, of_person
from roundwright.plan.gate.landings import contacts_of
from roundwright.plan.gate.people_limits import (
    contact_limit,
    dose_within_cap,
    eased_row,
    effort_ceiling,
    is_newcomer,
    reps_in_reserve,
)
from roundwright.plan.gate.reading import Reading, Work
from roundwright.plan.gate.recount import A_SIDE, whole
from roundwright.plan.verdict import Finding, Grade

DOSE = "newcomer.dose"
GRADES = {DOSE: Grade.NEVER}


def find(reading: Reading) -> Iterator[Finding]:
    """Give shares, rounds, counts, landings and bursts that are more than eased in."""
    problem, rules = reading.problem, reading.problem.rules
    for person_id, person in reading.people.items():
        dose, done = reading.doses[person_id], len(reading.rounds[person_id])
        if not dose_within_cap(person, rules, problem.spec.rounds, dose.dose_bp, done):
            yield of_person(DOSE, Grade.NEVER, person_id, what="dose")
        if not is_newcomer(person, rules):
            continue
        if contact_limit(person, rules) == 0 and contacts_of(reading, person_id) > 0:
            yield of_person(DOSE, Grade.NEVER, person_id, what="landings")
        if dose.rir < reps_in_reserve(person, rules):
            yield of_person(DOSE, Grade.NEVER, person_id, what="rir")
        if dose.effort_ceiling > effort_ceiling(person, rules):
            yield of_person(DOSE, Grade.NEVER, person_id, what="effort")
    for work in reading.works:
        row = eased_row(work.person, rules)
        if row is not None and _is_more_than_own(reading, work):
            yield at_work(DOSE, Grade.NEVER, work, what="more_than_own_count")
    for burst in reading.bursts:
        row = eased_row(burst.person, rules)
        if row is not None and row.easiest_burst:
            easiest = easiest_burst(problem, burst.person)
            if burst.movement.slug != easiest:
                yield at_burst(DOSE, Grade.NEVER, burst, what="burst_too_hard")


def _is_more_than_own(reading: Reading, work: Work) -> bool:
    dose = reading.doses[work.person_id]
    own = reading.own_counts(work.person_id, dose.dose_bp, work.rounds_done)
    wish = own.get(work.position)
    if wish is None or wish.is_timed is not work.count.is_timed:
        return False
    least = 2 if work.count.unit in A_SIDE or not work.count.is_timed else 1
    return whole(work.count).value > max(whole(wish).value, least)
