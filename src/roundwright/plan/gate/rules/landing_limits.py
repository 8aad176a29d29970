"""Asks whether anyone lands or skips more often than they are used to.

Why a coach cares: shins and tendons count every landing (CP).
ref: plyo-contacts (for rested plyometrics; a circuit stays well below).
"""

from collections.abc import Iterator

from roundwright.plan.core import CellState
from roundwright.plan.gate.found import at_work, of_person
from roundwright.plan.gate.landings import contacts_of, low_hops_of, practised_of
from roundwright.plan.gate.own_level import cut_needlessly
from roundwright.plan.gate.people_limits import contact_limit, low_hop_limit
from roundwright.plan.gate.price import main_works
from roundwright.plan.gate.reading import Reading
from roundwright.plan.gate.recount import contacts_a_pass
from roundwright.plan.verdict import Finding, Grade

CONTACTS, LONG_SET = "contacts.over_limit", "contacts.long_set"
CUT_SHORT, LOW_HOPS = "contacts.cut_short", "low_hops.over_limit"
GRADES = {
    CONTACTS: Grade.STOP,
    LONG_SET: Grade.STOP,
    CUT_SHORT: Grade.ADVISE,
    LOW_HOPS: Grade.ADVISE,
}


def find(reading: Reading) -> Iterator[Finding]:
    """Give people who land or skip beyond their limit, and sets cut to a few jumps for nothing."""
    for work in main_works(reading):
        if work.cell.state is CellState.DO and cut_needlessly(reading, work):
            yield at_work(CUT_SHORT, Grade.ADVISE, work, number=work.count.value)
    for person_id, person in reading.people.items():
        landings = contacts_of(reading, person_id) + practised_of(reading, person_id)
        most = contact_limit(person, reading.problem.rules)
        if landings > most:
            yield of_person(CONTACTS, Grade.STOP, person_id, landings=landings, most=most)
        yield from _long_sets(reading, person_id)
        hops, most = low_hops_of(reading, person_id), low_hop_limit(person, reading.problem.rules)
        if hops > most:
            yield of_person(LOW_HOPS, Grade.ADVISE, person_id, hops=hops, most=most)


def _long_sets(reading: Reading, person_id: str) -> Iterator[Finding]:
    most = reading.problem.rules.most_landings_a_set
    for work in reading.works:
        a_pass = contacts_a_pass(work.listing)
        landings = work.passes * a_pass
        if work.person_id == person_id and landings > max(most, a_pass):
            yield at_work(LONG_SET, Grade.STOP, work, landings=landings, most=most)
