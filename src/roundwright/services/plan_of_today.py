"""A plan as it stands today: what is printed is judged by who people are now, not by then."""

from roundwright.hall.hall import Hall
from roundwright.library.vocabulary import HIGHEST_DEMAND
from roundwright.people.person import Clearance
from roundwright.plan.document import PlanDocument
from roundwright.plan.problem import Problem, ProblemPerson
from roundwright.services.check_plan import problem_today

_STRICTNESS = (
    Clearance.CLEARED,
    Clearance.MODERATE_ONLY,
    Clearance.UNKNOWN,
    Clearance.NOT_CLEARED,
)
"""From the freest; unknown is not healthy."""


def plan_of_today(document: PlanDocument, hall: Hall) -> PlanDocument:
    """Give a plan with the problem that it answers to today.

    Parameters
    ----------
    document : PlanDocument
        The plan as it was kept.
    hall : Hall
        The hall as it is now.

    Returns
    -------
    PlanDocument
        A plan as it was made: with the problem built anew. A plan that was changed by hand
        (somebody came, something hurts): with its own problem, in which each person whom the
        class still has obeys the stricter of what was said then and what holds today.
        Its verdict is the old one: the gate judges it again.

    Raises
    ------
    NotFoundError
        When the hall no longer has the plan's class.
    """
    today = problem_today(document, hall)
    if document.core.parent_revision is not None:
        today = _stricter_problem(document.problem, today)
    return document.model_copy(update={"problem": today})


def _stricter_problem(then: Problem, today: Problem) -> Problem:
    people = {
        person_id: _stricter(person, today.people[person_id])
        if person_id in today.people
        else person
        for person_id, person in then.people.items()
    }
    return then.model_copy(update={"people": people})


def _stricter(then: ProblemPerson, now: ProblemPerson) -> ProblemPerson:
    demands = {*then.caps, *now.caps}
    efforts = [cap for cap in (then.effort_cap, now.effort_cap) if cap is not None]
    return then.model_copy(
        update={
            "clearance": max(then.clearance, now.clearance, key=_STRICTNESS.index),
            "effort_only": then.effort_only or now.effort_only,
            "caps": {
                d: min(then.caps.get(d, HIGHEST_DEMAND), now.caps.get(d, HIGHEST_DEMAND))
                for d in sorted(demands)
            },
            "effort_cap": min(efforts, default=None),
            "unused": {**then.unused, **now.unused},
            "actions": tuple(dict.fromkeys((*then.actions, *now.actions))),
        }
    )
