"""Who would have to sit a place out so that the kit goes round: few people, found exactly."""

from collections.abc import Sequence
from dataclasses import replace

from roundwright.goals.class_wish import ClassFormat
from roundwright.optimise.allotment import allot
from roundwright.optimise.choice_value import chosen, together
from roundwright.optimise.class_price import class_price
from roundwright.optimise.fit import WORK
from roundwright.optimise.instance import Alternative, make_instance
from roundwright.optimise.options import Option
from roundwright.optimise.pairs import allot_in_pairs
from roundwright.optimise.solver import Work
from roundwright.plan.core import CellState
from roundwright.plan.outcome import Budget, WayOut
from roundwright.plan.problem import Problem


def sitting_out(problem: Problem, places: Sequence[int], seed: int) -> WayOut | None:
    """Give the cheapest plan in which some people do nothing at some places.

    Parameters
    ----------
    problem : Problem
        A class all together or in pairs; of other formats nothing is said.
    places : sequence of int
        Positions at which anybody may sit out, at the price of sitting out.

    Returns
    -------
    WayOut or None
        `persons` are those who sit out somewhere; None when even that gives no plan.
    """
    spec = problem.spec
    if spec.format not in (ClassFormat.TOGETHER, ClassFormat.PAIRS):
        return None
    instance = make_instance(problem)
    price = problem.costs.sit_out
    rest = Option(CellState.SIT_OUT, None, None, None, price)
    idle = Alternative(rest, price, 0, frozenset(), 0, 0, 0, 0, (), ())
    instance = replace(
        instance,
        table=tuple(
            tuple(
                (*options, idle) if place + 1 in places else options
                for place, options in enumerate(row)
            )
            for row in instance.table
        ),
    )
    nodes, groupings, swaps = WORK[Budget.QUICK]
    work = Work(nodes_left=nodes, groupings_left=groupings, swaps_left=swaps)
    if spec.format is ClassFormat.PAIRS:
        found = allot_in_pairs(instance, work, seed)
    else:
        found = allot(instance, together(len(instance.people)), work, seed)
    if found.choice is None:
        return None
    resting = {
        place: [
            person
            for p, person in enumerate(instance.people)
            if chosen(instance, found.choice, p, place - 1) is idle
        ]
        for place in places
    }
    persons = tuple(sorted({p for some in resting.values() for p in some}))
    return WayOut(
        kind="sit_out",
        positions=tuple(place for place, some in resting.items() if some),
        persons=persons,
        cost=found.price + class_price(problem, spec.format),
        overrun_s=found.overrun_s,
    )
