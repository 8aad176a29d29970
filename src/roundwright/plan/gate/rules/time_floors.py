"""Asks whether warm-up, cool-down, change and rest have the least time they need.

Why a coach cares: these are the first to go when time is short, and the last that should.
"""

from collections.abc import Iterator

from roundwright.plan.gate.found import of_class
from roundwright.plan.gate.people_limits import is_newcomer, is_old
from roundwright.plan.gate.reading import Reading
from roundwright.plan.verdict import Finding, Grade

BELOW, SHORT_FOR_EASED = "time.below_floor", "warm_up.short_for_eased"
GRADES = {BELOW: Grade.STOP, SHORT_FOR_EASED: Grade.ADVISE}


def find(reading: Reading) -> Iterator[Finding]:
    """Give each stretch below its floor, and a warm-up that is short for who is there."""
    spec, rules = reading.problem.spec, reading.problem.rules
    floors = [
        ("warm_up", spec.warm_up_s, rules.warm_up_floor_s),
        ("cool_down", spec.cool_down_s, rules.cool_down_floor_s),
        ("change", spec.change_s, rules.change_floor_s),
    ]
    if spec.rounds > 1:
        floors.append(("rest", spec.rest_s, rules.rest_floor_s))
    for what, length, floor in floors:
        if length < floor:
            yield of_class(BELOW, Grade.STOP, what=what, is_s=length, floor_s=floor)
    eased = any(is_newcomer(p, rules) or is_old(p, rules) for p in reading.people.values())
    if eased and rules.warm_up_floor_s <= spec.warm_up_s < rules.warm_up_eased_s:
        yield of_class(
            SHORT_FOR_EASED, Grade.ADVISE, is_s=spec.warm_up_s, better_s=rules.warm_up_eased_s
        )
