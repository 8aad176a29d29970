"""Whether a place leaves a person a version at their level that is kept whole (rules 11 and 12)."""

from collections.abc import Iterator
from dataclasses import replace

from roundwright.goals.class_wish import Count
from roundwright.plan.gate.loads import Demanded, fits, masses
from roundwright.plan.gate.offered import is_cut_short, offered
from roundwright.plan.gate.order_of_class import is_last_place
from roundwright.plan.gate.people_limits import contact_limit, level_for, low_hop_limit
from roundwright.plan.gate.reading import Reading, Work
from roundwright.plan.gate.recount import Listing, contacts_a_pass, passes_of
from roundwright.plan.gate.tails import place_allows


def levels_above(reading: Reading, work: Work, listing: Listing) -> int:
    """Give how far the hardest movement of a listing lies above the person's level for it."""
    rules = reading.problem.rules
    return max(m.level - level_for(work.person, m, rules) for m in listing.movements)


def own_level_is_open(reading: Reading, work: Work) -> bool:
    """Say whether the person could do a version at their level or below it at this place."""
    return any(
        levels_above(reading, work, listing) <= 0 for listing in _open_versions(reading, work)
    )


def cut_needlessly(reading: Reading, work: Work) -> bool:
    """Say whether landings leave little of the own count, and a version kept whole is open.

    That version is at the person's level or below it, as the one that is done is, or must not
    be; a version above the level that need not be is said by another rule.
    """
    wish = _own_count(reading, work)
    if wish is None or not is_cut_short(reading.problem, work.person, work.listing, wish):
        return False
    others = list(_open_versions(reading, work))
    at_level = [listing for listing in others if levels_above(reading, work, listing) <= 0]
    if at_level and levels_above(reading, work, work.listing) > 0:
        return False
    return not all(
        is_cut_short(reading.problem, work.person, listing, wish) for listing in at_level or others
    )


def _own_count(reading: Reading, work: Work) -> Count | None:
    dose = reading.doses[work.person_id]
    counts = reading.own_counts(work.person_id, dose.dose_bp, work.rounds_done)
    return counts.get(work.position)


def _open_versions(reading: Reading, work: Work) -> Iterator[Listing]:
    """Give what the person could do at this place, what the coach keeps for them there held."""
    problem, wish = reading.problem, _own_count(reading, work)
    if wish is None:
        return
    for listing, count in offered(problem, work.person, work.exercise_id, wish):
        passes = passes_of(listing, count)
        other = replace(work, listing=listing, count=count, passes=passes)
        asked = Demanded(problem, work.person, listing, passes, work.last_round)
        if _lands_too_often(reading, other):
            continue
        if any(
            _is_kept(reading, other, mass_g)
            and fits(asked, mass_g)
            and place_allows(problem, other, wish, mass_g)
            for mass_g in masses(listing, problem)
        ):
            yield listing


def _lands_too_often(reading: Reading, work: Work) -> bool:
    """Say whether a version alone breaks a limit on landings or skips, in a set or over a class."""
    rules, landings = reading.problem.rules, work.passes * contacts_a_pass(work.listing)
    if work.count.is_timed and landings > rules.most_landings_a_set:
        return True
    ends = is_last_place(reading.problem, work.interval, work.last_round)
    steps = zip(work.listing.steps, work.listing.movements, strict=True)
    hops = work.passes * sum(step.times * m.low_hops_a_rep for step, m in steps)
    return landings * (work.rounds_done - ends) > contact_limit(
        work.person, rules
    ) or hops * work.rounds_done > low_hop_limit(work.person, rules)


def _is_kept(reading: Reading, work: Work, mass_g: int) -> bool:
    mine = [
        k
        for k in reading.problem.spec.keep
        if (k.person, k.position) == (work.person_id, work.position)
    ]
    return all(
        (k.version is None or k.version in work.listing.signature) and k.mass_g in (None, mass_g)
        for k in mine
    )
