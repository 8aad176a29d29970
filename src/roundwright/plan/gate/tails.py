"""Whether an easier version could end the class where a harder one must not stand last."""

from collections.abc import Iterator

from roundwright.goals.class_wish import Count
from roundwright.plan.gate.loads import Demanded, fits, lifts, masses
from roundwright.plan.gate.offered import offered
from roundwright.plan.gate.order_of_class import (
    breaks_after_burst,
    breaks_last_place,
    is_after_burst,
    is_last_place,
)
from roundwright.plan.gate.reading import Work
from roundwright.plan.gate.recount import Listing, known_versions, passes_of
from roundwright.plan.problem import Problem


def place_allows(problem: Problem, work: Work, wish: Count | None, mass_g: int) -> bool:
    """Say whether a version with a load may stand at its place, with a tail if it needs one.

    Parameters
    ----------
    problem : Problem
        The class.
    work : Work
        What is done at the place.
    wish : Count or None
        The person's own count there; None for a substitute, which has no tail.
    mass_g : int
        Mass of one dumbbell.
    """
    person, movements = work.person, work.listing.movements
    starts = [r for r in range(1, work.last_round + 1) if is_after_burst(problem, work.interval, r)]
    if starts and any(breaks_after_burst(problem, person, m, mass_g) for m in movements):
        return False
    ends = is_last_place(problem, work.interval, work.last_round)
    if not ends or not any(breaks_last_place(problem, person, m, mass_g) for m in movements):
        return True
    if work.rounds_done < 2 or wish is None:
        return False
    return any(
        _may_end(problem, work, tail, count, mass_g) for tail, count in _lower(problem, work, wish)
    )


def _may_end(problem: Problem, work: Work, tail: Listing, count: Count, mass_g: int) -> bool:
    mass = mass_g if lifts(tail) or any(m.dumbbells_needed for m in tail.movements) else 0
    if mass not in masses(tail, problem):
        return False
    person = work.person
    if any(breaks_last_place(problem, person, m, mass) for m in tail.movements):
        return False
    asked = Demanded(problem, person, tail, passes_of(tail, count), work.last_round)
    return fits(asked, mass)


def _lower(problem: Problem, work: Work, wish: Count) -> Iterator[tuple[Listing, Count]]:
    """Give the easier versions of the same exercise that the person may do, hardest first."""
    if work.listing.combination is None:
        versions = known_versions(problem.library, work.exercise_id)
        here = next((i for i, m in enumerate(versions) if m is work.listing.movements[0]), 0)
        easier = {m.slug for m in versions[:here]}
        for listing, count in offered(problem, work.person, work.exercise_id, wish):
            if listing.movements[0].slug in easier:
                yield listing, count
        return
    hardest = max(m.level for m in work.listing.movements)
    for listing, count in offered(problem, work.person, work.exercise_id, wish, hardest):
        if listing.signature != work.listing.signature:
            yield listing, count
