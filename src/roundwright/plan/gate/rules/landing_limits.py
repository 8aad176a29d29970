"""Asks whether anyone lands or skips more often than they are used to.

Why a coach cares: shins and tendons count every landing (CP).
ref: plyo-contacts (for rested plyometrics; a circuit stays well below).
"""

from collections.abc import Iterator

from roundwright.plan.gate.found import of_person
from roundwright.plan.gate.landings import contacts_of, low_hops_of
from roundwright.plan.gate.people_limits import contact_limit, low_hop_limit
from roundwright.plan.gate.reading import Reading
from roundwright.plan.verdict import Finding, Grade

CONTACTS, LOW_HOPS = "contacts.over_limit", "low_hops.over_limit"
GRADES = {CONTACTS: Grade.STOP, LOW_HOPS: Grade.ADVISE}


def find(reading: Reading) -> Iterator[Finding]:
    """Give people with more landings, or more rope skips, than their limit."""
    for person_id, person in reading.people.items():
        landings, most = (
            contacts_of(reading, person_id),
            contact_limit(person, reading.problem.rules),
        )
        if landings > most:
            yield of_person(CONTACTS, Grade.STOP, person_id, landings=landings, most=most)
        hops, most = low_hops_of(reading, person_id), low_hop_limit(person, reading.problem.rules)
        if hops > most:
            yield of_person(LOW_HOPS, Grade.ADVISE, person_id, hops=hops, most=most)
