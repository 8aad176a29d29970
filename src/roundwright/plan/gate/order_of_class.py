"""Which movements must not stand right after a burst or at the very end (floor page C6; CP)."""

from roundwright.library.movement import Movement
from roundwright.library.vocabulary import Demand
from roundwright.plan.gate.people_limits import is_heavy_overhead
from roundwright.plan.problem import Problem, ProblemPerson

LOW_POSITIONS = (Demand.ON_BACK, Demand.ON_FRONT, Demand.HEAD_LOW)


def is_last_place(problem: Problem, interval: int, round_number: int) -> bool:
    """Say whether an interval of a round is the last of the whole class."""
    return interval == problem.spec.positions and round_number == problem.spec.rounds


def is_after_burst(problem: Problem, interval: int, round_number: int) -> bool:
    """Say whether an interval of a round comes before the breath has settled after a burst."""
    spec = problem.spec
    return (
        spec.burst is not None
        and interval == 1
        and round_number > 1
        and spec.rest_s < problem.rules.walk_after_burst_s
    )


def breaks_last_place(
    problem: Problem, person: ProblemPerson, movement: Movement, mass_g: int
) -> bool:
    """Say whether a movement is too much for the tired end of the class."""
    rules = problem.rules
    return (
        movement.contacts_a_rep > 0
        or movement.demand(Demand.BALANCE) >= rules.one_leg_balance
        or is_heavy_overhead(person, movement, mass_g, rules)
    )


def breaks_after_burst(
    problem: Problem, person: ProblemPerson, movement: Movement, mass_g: int
) -> bool:
    """Say whether a movement is wrong right after a burst: also anything lying or head-low."""
    return breaks_last_place(problem, person, movement, mass_g) or any(
        movement.demand(name) >= 1 for name in LOW_POSITIONS
    )
