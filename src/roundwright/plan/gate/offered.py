"""Which versions of an exercise a person may be shown, whatever the load and the place."""

from collections.abc import Iterator

from roundwright.foundation.quantities import BP
from roundwright.goals.class_wish import Count
from roundwright.library.movement import Movement
from roundwright.plan.gate.people_limits import allowed_by_person
from roundwright.plan.gate.recount import (
    Listing,
    combination_listing,
    count_of_version,
    known_versions,
    line_listing,
    within_landings,
)
from roundwright.plan.problem import Problem, ProblemPerson

HIGHEST_LEVEL = 5


def offered(
    problem: Problem,
    person: ProblemPerson,
    exercise_id: str,
    wish: Count,
    highest: int = HIGHEST_LEVEL,
) -> Iterator[tuple[Listing, Count]]:
    """Give one pass and the count of every version that the person may do, hardest first.

    Parameters
    ----------
    wish : Count
        The person's own count at the place.
    highest : int
        The highest level of a combination's parts.
    """
    most = problem.rules.most_landings_a_set
    combination = problem.library.combinations.get(exercise_id)
    if combination is None:
        for movement in reversed(known_versions(problem.library, exercise_id)):
            if _is_offered(problem, person, exercise_id, movement):
                listing = line_listing(movement, person)
                unused = person.unused_side_of(movement.limb)
                count = count_of_version(wish, movement.laterality, unused)
                yield listing, within_landings(listing, count, most)
        return
    for level in range(min(highest, HIGHEST_LEVEL), 0, -1):
        parts: list[Movement] = []
        for part in combination.parts:
            open_to = [
                m
                for m in known_versions(problem.library, part.line)
                if m.level <= level
                and _is_offered(problem, person, part.line, m)
                and not (part.side == "both" and m.is_one_sided)
                and not (combination.load == "none" and m.dumbbells_lifted)
                and not (m.is_one_sided and person.unused_side_of(m.limb))
            ]
            parts += open_to[-1:]
        if len(parts) != len(combination.parts):
            continue
        made = combination_listing(combination, parts, wish.unit, person.first_side)
        if made is not None:
            yield made, within_landings(made, wish, most)


def is_cut_short(problem: Problem, person: ProblemPerson, listing: Listing, wish: Count) -> bool:
    """Say whether the landings of one set leave a version too little of the person's own count.

    Parameters
    ----------
    wish : Count
        The person's own count at the place.
    """
    whole = wish
    if listing.combination is None:
        movement = listing.movements[0]
        whole = count_of_version(wish, movement.laterality, person.unused_side_of(movement.limb))
    left = within_landings(listing, whole, problem.rules.most_landings_a_set)
    return left.value * BP < whole.value * problem.rules.least_cut_share_bp


def _is_offered(problem: Problem, person: ProblemPerson, line_id: str, movement: Movement) -> bool:
    line = problem.library.lines[line_id]
    return allowed_by_person(
        person, movement, problem.rules, problem.spec.ban
    ) and person.classes >= line.min_classes_for(movement.slug)
