"""Why the best plan so far may still be bettered: section C7 of *How a plan is changed*."""

from enum import StrEnum

from roundwright.plan.outcome import Outcome


class StillOpen(StrEnum):
    """What a search is still after when it hands on its best so far."""

    TIME = "time"
    PRICE = "price"
    CHANCE = "chance"


def still_open(outcome: Outcome, chance_bp: int | None = None, wished_bp: int = 0) -> StillOpen:
    """Say what a better plan would have, the weightiest first.

    Parameters
    ----------
    outcome : Outcome
        How far the search is: what the plan overruns counts before all else.
    chance_bp, wished_bp : int
        The chance on time that the plan has, where it was played through, and the wished one.

    Returns
    -------
    StillOpen
        `time`: it overruns its slot. `chance`: it ends on time less often than is wished.
        `price`: the same class, or another, may suit people better (`outcome.bound` says how
        much at most, where that is known).

    Examples
    --------
    >>> from roundwright.plan.outcome import Status, StoppedBy
    >>> late = Outcome(status=Status.FOUND, stopped_by=StoppedBy.CALLER, overrun_s=60)
    >>> still_open(late).value
    'time'
    """
    if outcome.overrun_s:
        return StillOpen.TIME
    if chance_bp is not None and chance_bp < wished_bp:
        return StillOpen.CHANCE
    return StillOpen.PRICE
