"""How many landings and rope skips a person does over the class, bursts and practice included."""

from roundwright.plan.gate.reading import BurstWork, Reading
from roundwright.plan.gate.recount import milliseconds
from roundwright.plan.problem import Problem

PRACTISED = 5
"""Landings of each person in a piece of landing practice (P7)."""


def burst_reps(problem: Problem, burst: BurstWork) -> int:
    """Give the reps of one burst: by the class's rate where it skips, the movement's, or its s."""
    wish, movement = problem.spec.burst, burst.movement
    if wish is None:
        return 0
    rate = movement.rate_a_min
    if movement.low_hops_a_rep > 0 and wish.rate_a_min is not None:
        rate = wish.rate_a_min
    if rate is not None:
        return wish.length_s * rate // 60
    return wish.length_s * 1000 // max(1, milliseconds(movement.seconds_a_rep))


def contacts_of(reading: Reading, person_id: str) -> int:
    """Give a person's landings over the class."""
    total = 0
    for work in reading.works:
        if work.person_id == person_id:
            steps = zip(work.listing.steps, work.listing.movements, strict=True)
            a_pass = sum(step.times * m.contacts_a_rep for step, m in steps)
            total += a_pass * work.passes * len(work.rounds)
    for burst in reading.bursts:
        if burst.person_id == person_id:
            reps = burst_reps(reading.problem, burst)
            total += reps * burst.movement.contacts_a_rep * len(burst.rounds)
    return total


def practised_of(reading: Reading, person_id: str) -> int:
    """Give a person's landings in the landing practice of the warm-up."""
    movements = reading.library.movements
    versions = [p.versions.get(person_id) for p in reading.core.pieces if p.why == "landing"]
    return sum(PRACTISED * movements[v].contacts_a_rep for v in versions if v in movements)


def low_hops_of(reading: Reading, person_id: str) -> int:
    """Give a person's rope skips over the class."""
    total = 0
    for work in reading.works:
        if work.person_id == person_id:
            steps = zip(work.listing.steps, work.listing.movements, strict=True)
            a_pass = sum(step.times * m.low_hops_a_rep for step, m in steps)
            total += a_pass * work.passes * len(work.rounds)
    for burst in reading.bursts:
        if burst.person_id == person_id:
            reps = burst_reps(reading.problem, burst)
            total += reps * burst.movement.low_hops_a_rep * len(burst.rounds)
    return total
