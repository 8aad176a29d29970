"""Does the class end within its slot? The one figure that a planner asks a rehearsal for."""

from roundwright.foundation.seeds import DEFAULT_SEED
from roundwright.plan.core import Core
from roundwright.plan.document import ChanceOnTime
from roundwright.plan.problem import Problem
from roundwright.rehearsal.play import USUAL_PLAYS, play


def chance_on_time(
    core: Core, problem: Problem, seed: int = DEFAULT_SEED, plays: int = USUAL_PLAYS
) -> ChanceOnTime:
    """Give the chance that a plan ends within the slot of its problem.

    Parameters
    ----------
    core : Core
        The plan.
    problem : Problem
        What it answers to; its `spec.slot_s` is the slot, whatever the plan was made against.
    seed : int
        0 or larger.
    plays : int
        1 or more.

    Returns
    -------
    ChanceOnTime
        Chance in 1/10,000, median length, and the length one class in ten exceeds, s.
        The chance has a sampling SD of at most 0.5 / sqrt(plays).

    Raises
    ------
    BadInputError
        When the plan names what its problem does not hold.
    """
    return play(core, problem, seed=seed, plays=plays).chance_on_time
