"""Which movements a person may do at all, load and place apart (sections 3.1 to 3.6 of a fit).

For content outside the rounds, such as warm-up and cool-down. The maker of
plans and the gate each have their own reading of the same page.
"""

from collections.abc import Mapping

from roundwright.body.anatomy import Limb, Side
from roundwright.library.movement import Movement
from roundwright.library.vocabulary import HIGHEST_DEMAND, Demand, Laterality
from roundwright.plan.eased_in import dose_of
from roundwright.plan.problem import Problem, ProblemPerson

MODERATE_CAPS: Mapping[Demand, int] = {
    Demand.IMPACT: 0,
    Demand.ONE_FOOT_LANDING: 0,
    Demand.VIGOROUS: 1,
    Demand.FAST_LEVEL_CHANGE: 1,
    Demand.HEAD_LOW: 1,
}
"""What is capped for moderate only and for unknown clearance (floor page C1; CP)."""


def caps_of(person: ProblemPerson) -> dict[Demand, int]:
    """Give the highest degree of each capped demand: the least of all that apply."""
    caps = dict(person.caps)
    if person.is_moderate_only:
        for demand, degree in MODERATE_CAPS.items():
            caps[demand] = min(degree, caps.get(demand, HIGHEST_DEMAND))
    return caps


def has_the_side(person: ProblemPerson, limb: Limb | None, laterality: Laterality) -> bool:
    """Say whether a person has the side or sides that a line's version is done on."""
    unused = person.unused_side_of(limb)
    if unused is None or laterality is Laterality.BILATERAL:
        return True
    return laterality is Laterality.UNILATERAL and unused is not Side.BOTH


def contact_limit(problem: Problem, person_id: str) -> int:
    """Give the most foot contacts that a person may have over the class."""
    return dose_of(problem.people[person_id], problem.spec, problem.rules).contact_limit


def may_do(problem: Problem, person_id: str, line_id: str, movement: Movement) -> bool:
    """Say whether a person may do one version of a line, whatever the load and the place.

    Parameters
    ----------
    problem : Problem
        People with their caps, rules, bans and the library.
    person_id : str
        Somebody of the problem.
    line_id : str
        The line that the version is done as: its criteria and its ban count.
    movement : Movement
        The version.

    Returns
    -------
    bool
        True when demands, level, contacts, classes done, age and bans all allow it.
    """
    person, rules = problem.people[person_id], problem.rules
    level = person.level_for(movement.strength_family)
    highest = level + rules.highest_level_step
    if person.is_moderate_only:
        highest = min(highest, rules.moderate_level)
    is_child = person.youngest_age is not None and person.youngest_age < rules.child_age
    line = problem.library.lines[line_id]
    return (
        all(movement.demand(name) <= most for name, most in caps_of(person).items())
        and movement.level <= highest
        and (movement.contacts_a_rep == 0 or contact_limit(problem, person_id) > 0)
        and person.classes >= line.min_classes_for(movement.slug)
        and not (is_child and movement.dumbbells_lifted)
        and has_the_side(person, movement.limb, movement.laterality)
        and not {movement.slug, line_id} & set(problem.spec.ban)
    )
