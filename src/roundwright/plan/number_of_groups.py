"""How many groups a class may have where groups take turns: P4 of *How a class is planned*."""

from roundwright.goals.class_wish import ClassFormat
from roundwright.plan.planning_problem import PlanningProblem
from roundwright.plan.problem import ClassSpec, Problem

ROTATING = (ClassFormat.STATIONS, ClassFormat.STAGGERED)
STAGGERED_GROUPS = (2, 3)
"""How many staggered groups there are where the class does not say."""


def numbers_of_groups(
    form: ClassFormat, people: int, positions: int, wished: int | None = None
) -> tuple[int, ...]:
    """Give the numbers of groups that stations or staggered groups may have; none: not at all.

    Parameters
    ----------
    people, positions : int
        Who takes part, and exercises of a round.
    wished : int, optional
        The number that the class says.

    Examples
    --------
    >>> numbers_of_groups(ClassFormat.STAGGERED, 12, 5)
    (2, 3)
    >>> numbers_of_groups(ClassFormat.STAGGERED, 12, 5, 4)
    (4,)
    >>> numbers_of_groups(ClassFormat.STATIONS, 12, 5, 4)
    ()
    """
    most = min(people, positions)
    if form is ClassFormat.STATIONS:
        return (most,) if most and wished in (None, most) else ()
    open_to_choice = STAGGERED_GROUPS if wished is None else (wished,)
    return tuple(number for number in open_to_choice if number <= most)


def can_be_held(planning: PlanningProblem, form: ClassFormat) -> bool:
    """Say whether a form of class is possible at all with so many people, places and groups."""
    people, wished = len(planning.base.taking_part), planning.base.spec.groups
    return form not in ROTATING or bool(numbers_of_groups(form, people, planning.places, wished))


def with_groups_that_can_be(problem: Problem) -> Problem:
    """Give a changed problem whose number of groups is the tool's again where it can't be held."""
    spec = problem.spec
    if spec.groups is None or _can_be(spec, len(problem.taking_part)):
        return problem
    return problem.model_copy(update={"spec": spec.model_copy(update={"groups": None})})


def _can_be(spec: ClassSpec, people: int) -> bool:
    numbers = numbers_of_groups(spec.format, people, spec.positions, spec.groups)
    return spec.format in ROTATING and bool(numbers)
