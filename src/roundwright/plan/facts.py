"""The totals that are stored with a plan: the short form of its count."""

from roundwright.plan.core import Core
from roundwright.plan.count import count_of
from roundwright.plan.document import ChanceOnTime, Facts, PersonFacts
from roundwright.plan.problem import Problem


def facts_of(core: Core, problem: Problem, chance: ChanceOnTime | None = None) -> Facts:
    """Give the totals that follow from a core.

    Parameters
    ----------
    core : Core
        The plan itself.
    problem : Problem
        What it answers to.
    chance : ChanceOnTime, optional
        How often it ends within its slot, where it has been played through.

    Returns
    -------
    Facts
        Length of the class, and by person: reps by movement, contacts, low hops, tonnage.

    Raises
    ------
    BadInputError
        When the plan names what its problem does not hold.
    """
    count = count_of(core, problem)
    return Facts(
        total_s=count.total_s,
        chance_on_time=chance,
        people=tuple(
            PersonFacts(
                person_id=person.person_id,
                reps_by_movement={m.movement_id: m.total for m in person.movements},
                contacts=person.contacts,
                low_hops=person.low_hops,
                tonnage_g=person.tonnage_g,
            )
            for person in count.people
        ),
    )
