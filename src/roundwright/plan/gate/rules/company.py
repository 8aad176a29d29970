"""Asks whether the coaches can watch everybody who needs watching.

Why a coach cares: eyes are the scarcest kit (floor page B; CP).
"""

from collections.abc import Iterator

from roundwright.plan.gate.found import of_class
from roundwright.plan.gate.landings import contacts_of
from roundwright.plan.gate.people_limits import is_first_timer
from roundwright.plan.gate.reading import Reading
from roundwright.plan.verdict import Finding, Grade

PEOPLE, FIRST_TIMERS, PAIRED = "people.many", "first_timers.many", "first_timers.paired"
GRADES = {PEOPLE: Grade.ADVISE, FIRST_TIMERS: Grade.ADVISE, PAIRED: Grade.ADVISE}


def find(reading: Reading) -> Iterator[Finding]:
    """Give classes with many people or many first-timers a coach, and first-timers paired."""
    rules, coaches = reading.problem.rules, reading.problem.spec.coaches
    people = reading.people
    jumps = any(contacts_of(reading, p) for p in people)
    most = coaches * (rules.people_a_coach_jumps if jumps else rules.people_a_coach)
    most = min(most, rules.room_people_caution)
    if len(people) > most:
        yield of_class(PEOPLE, Grade.ADVISE, number=len(people), most=most)
    new = [p for p, person in people.items() if is_first_timer(person)]
    if len(new) > coaches * rules.most_first_timers:
        yield of_class(
            FIRST_TIMERS, Grade.ADVISE, number=len(new), most=coaches * rules.most_first_timers
        )
    if reading.in_pairs:
        for group in reading.groups:
            both = tuple(sorted(p for p in group if p in new))
            if len(both) > 1:
                yield Finding(rule=PAIRED, grade=Grade.ADVISE, persons=both)
