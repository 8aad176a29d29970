"""Who joins, who came without booking, and what somebody must avoid now: as changes of a plan.

The rule of the three questions is in `people/walk_in.py`.
"""

from collections.abc import Collection

from roundwright.foundation.errors import BadInputError, NotFoundError
from roundwright.foundation.faults import Fault
from roundwright.foundation.identifiers import nearest_names
from roundwright.hall.hall import Hall
from roundwright.people.demand_cap_table import row_for
from roundwright.people.limitation import Amount, Concern
from roundwright.people.person import Clearance, Person
from roundwright.people.region_caps import REGIONS
from roundwright.people.walk_in import ThreeReplies, walk_in_outcome
from roundwright.plan.build_problem import problem_person
from roundwright.plan.changing.change import PersonCame, PersonLimited
from roundwright.plan.outcome import NotToday
from roundwright.plan.problem import Problem, ProblemPerson

CLEARANCE_FIRST = "clearance_first"
WALK_IN = "walk_in_"
HURTS = tuple(concern for concern in Concern if concern in REGIONS)
"""Regions of which somebody may say that it hurts now."""


def somebody_joins(hall: Hall, person_id: str, problem: Problem) -> PersonCame | NotToday:
    """Give the change by which somebody of the hall joins a planned class.

    Limits and ages are judged on the class's date.

    Returns
    -------
    PersonCame or NotToday
        The second for somebody who needs a clearance first.

    Raises
    ------
    NotFoundError
        The hall has no such person; the nearest ids are said.
    """
    person = hall.person(person_id)
    if person is None:
        near = nearest_names(person_id, [p.person_id for p in hall.people])
        nearest = f" Nearest: {', '.join(near)}." if near else ""
        raise NotFoundError(f"The hall has no person '{person_id}'.{nearest}")
    known = problem_person(hall, person, problem.spec.starts_on, problem.rules)
    if known.clearance is Clearance.NOT_CLEARED:
        return NotToday(person_id=person_id, words=CLEARANCE_FIRST)
    return PersonCame(person=person_id, known=known)


def walk_in(
    hall: Hall, problem: Problem, replies: ThreeReplies, taken: Collection[str] = ()
) -> PersonCame | NotToday:
    """Give the change by which somebody joins of whom nothing is known but three replies.

    Nothing makes them more than `unknown`: light to moderate work, as a first class.

    Parameters
    ----------
    taken : collection of str
        Further ids that are not free, such as those of earlier revisions.
    """
    person_id = next_walk_in({*problem.people, *taken, *(p.person_id for p in hall.people)})
    outcome = walk_in_outcome(replies)
    if not outcome.may_train:
        return NotToday(person_id=person_id, words=CLEARANCE_FIRST)
    person = Person(person_id=person_id, shown_name="walk-in", level=outcome.level, classes_done=0)
    known: ProblemPerson = problem_person(hall, person, problem.spec.starts_on, problem.rules)
    if outcome.effort_cap is not None:
        known = known.model_copy(
            update={
                "effort_cap": outcome.effort_cap,
                "actions": (*known.actions, *outcome.actions),
            }
        )
    return PersonCame(person=person_id, known=known)


def next_walk_in(taken: Collection[str]) -> str:
    """Give the next free id of a walk-in: `walk_in_1`, `walk_in_2` and so on."""
    number = 1
    while f"{WALK_IN}{number}" in taken:
        number += 1
    return f"{WALK_IN}{number}"


def hurts_now(person_id: str, region: str) -> PersonLimited:
    """Give the change by which somebody avoids a region for the rest of the class.

    Raises
    ------
    BadInputError
        No such region. What was given is not repeated.
    """
    concern = next((c for c in HURTS if c.value == region), None)
    if concern is None:
        fault = Fault(
            code="field.value",
            file="change",
            field="region",
            value="(hidden)",
            expected=f"one of {', '.join(c.value for c in HURTS)}",
        )
        raise BadInputError([fault])
    row = row_for(concern, Amount.AVOID, None)
    return PersonLimited(person=person_id, caps=dict(row.caps), effort_cap=row.effort_cap)
