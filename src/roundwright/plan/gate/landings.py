"""How many landings and rope skips a person does over the class, bursts included."""

from roundwright.plan.gate.reading import BurstWork, Reading
from roundwright.plan.gate.recount import milliseconds
from roundwright.plan.problem import Problem


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
