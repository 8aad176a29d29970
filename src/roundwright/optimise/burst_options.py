"""Which bursts a person may do (section 5)."""

from collections.abc import Mapping
from dataclasses import dataclass

from roundwright.optimise.kit_choice import ItemUse, Rack
from roundwright.optimise.movement_facts import MovementFacts
from roundwright.optimise.person_limits import PersonLimits
from roundwright.optimise.prices import burst_price
from roundwright.plan.counts_of_version import burst_reps
from roundwright.plan.problem import Problem
from roundwright.plan.timeline import has_burst_after


@dataclass(frozen=True, slots=True)
class BurstOption:
    """One burst for one person; `movement_id` None means none. Landings and hops a class."""

    movement_id: str | None
    items: tuple[ItemUse, ...]
    price: int
    contacts: int
    low_hops: int


NO_BURST = BurstOption(None, (), 0, 0, 0)


def burst_options(
    problem: Problem, limits: PersonLimits, facts: Mapping[str, MovementFacts], rack: Rack
) -> tuple[BurstOption, ...]:
    """Give a person's bursts, easy to hard; only `NO_BURST` where none is to be had.

    Versions that need dumbbells are left out: a burst has no load.
    """
    spec, library, burst = problem.spec, problem.library, problem.spec.burst
    times = sum(has_burst_after(spec, n, spec.rounds) for n in limits.dose.rounds)
    if burst is None or times == 0:
        return (NO_BURST,)
    line = library.lines[burst.line]
    made: list[BurstOption] = []
    for slug in line.versions:
        movement = facts[slug]
        if (
            movement.level > limits.general_level
            or movement.needed
            or not limits.may_do(movement, burst.line, line.min_classes_for(slug))
        ):
            continue
        reps = burst_reps(library.movements[slug], burst)
        contacts, hops = (times * reps * n for n in (movement.contacts, movement.low_hops))
        if contacts > limits.dose.contact_limit or hops > limits.dose.low_hop_limit:
            continue
        if limits.dose.easiest_burst and (movement.contacts or movement.low_hops):
            continue
        price = burst_price(movement, limits, problem.costs)
        ways = rack.item_choices((movement,), limits.person.body_mass_g, 0)
        made += [BurstOption(slug, items, price, contacts, hops) for items in ways]
        if made and limits.dose.easiest_burst:
            break
    return tuple(made) or (NO_BURST,)
