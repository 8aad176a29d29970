"""Whether somebody who lifts nothing at a place could lift there: the gate's own answer (F8)."""

from collections.abc import Iterator
from dataclasses import replace

from roundwright.goals.class_wish import Count
from roundwright.plan.core import CellState
from roundwright.plan.gate.class_facts import PATTERN_SETS, main_pattern
from roundwright.plan.gate.loads import Demanded, aim_bp, chance, fits, lifts, masses
from roundwright.plan.gate.offered import offered
from roundwright.plan.gate.people_limits import level_for
from roundwright.plan.gate.reading import Reading, Work
from roundwright.plan.gate.recount import passes_of
from roundwright.plan.gate.tails import place_allows

WHOLE_BODY = ("knee", "hip", "push", "pull")


def lifts_needlessly_nothing(reading: Reading, work: Work) -> bool:
    """Say whether a cell of the class's own exercise lifts nothing where its person could lift.

    Asked of exercises for knees, hips, a push or a pull, by their main pattern.
    """
    pattern = main_pattern(reading.library, work.exercise_id)
    if work.cell.state is not CellState.DO or lifts(work.listing):
        return False
    if not any(pattern in PATTERN_SETS[name] for name in WHOLE_BODY):
        return False
    return any(_meets_the_aim(reading, other) for other in _lifting(reading, work))


def _lifting(reading: Reading, work: Work) -> Iterator[Work]:
    """Give the same place done in each version that lifts, at the level or below, on the ground."""
    problem, rules, wish = reading.problem, reading.problem.rules, _wish(reading, work)
    for listing, count in offered(problem, work.person, work.exercise_id, wish) if wish else ():
        jumps = any(m.contacts_a_rep or m.low_hops_a_rep for m in listing.movements)
        above = any(m.level > level_for(work.person, m, rules) for m in listing.movements)
        if lifts(listing) and not jumps and not above:
            passes = passes_of(listing, count)
            yield replace(work, listing=listing, count=count, passes=passes)


def _wish(reading: Reading, work: Work) -> Count | None:
    """Give the person's own count at the place."""
    dose = reading.doses[work.person_id]
    counts = reading.own_counts(work.person_id, dose.dose_bp, work.rounds_done)
    return counts.get(work.position)


def _meets_the_aim(reading: Reading, work: Work) -> bool:
    problem = reading.problem
    asked = Demanded(problem, work.person, work.listing, work.passes, work.last_round)
    aim = aim_bp(work.person, problem)
    return any(
        mass_g > 0
        and chance(asked, mass_g) >= aim
        and fits(asked, mass_g)
        and place_allows(problem, work, _wish(reading, work), mass_g)
        for mass_g in masses(work.listing, problem)
    )
