"""How often feet land: foot contacts and low hops, which are never added to one another."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from roundwright.dose.counting import StepReps, milliseconds
from roundwright.goals.class_wish import BurstWish
from roundwright.library.movement import Movement


@dataclass(frozen=True, slots=True)
class Landings:
    """Foot contacts and low hops. One landing, on one foot or on both together, is one."""

    contacts: int = 0
    low_hops: int = 0

    def __add__(self, other: "Landings") -> "Landings":
        return Landings(self.contacts + other.contacts, self.low_hops + other.low_hops)

    def __mul__(self, times: int) -> "Landings":
        return Landings(self.contacts * times, self.low_hops * times)


def landings(reps: Iterable[StepReps], movements: Mapping[str, Movement]) -> Landings:
    """Give the contacts and low hops of some reps.

    Parameters
    ----------
    reps : iterable of StepReps
        Reps by step.
    movements : mapping
        Movements of the library by slug.

    Returns
    -------
    Landings
        Contacts and low hops, each >= 0; expected where the reps are.

    Raises
    ------
    KeyError
        When a step names a movement that `movements` does not hold.

    Notes
    -----
    Contacts = sum of reps x contacts a rep, as authored for the movement.

    References
    ----------
    Common practice, no source; a box jump stepped down is 1, a jumping jack 2.

    Examples
    --------
    >>> landings((), {})
    Landings(contacts=0, low_hops=0)
    """
    total = Landings()
    for step in reps:
        movement = movements[step.movement_id]
        total += Landings(movement.contacts_a_rep, movement.low_hops_a_rep) * step.reps
    return total


def burst_reps(burst: BurstWish, movement: Movement) -> int:
    """Give how many reps, skips or steps of a movement one burst holds.

    Parameters
    ----------
    burst : BurstWish
        The class's burst: its length in s and, where given, its rate a minute.
    movement : Movement
        What the person does in the burst.

    Returns
    -------
    int
        Whole reps, >= 0, expected.

    Notes
    -----
    floor(length x rate / 60); the class's rate is for movements with low hops,
    otherwise the movement's own; without a rate floor(length / seconds a rep).

    References
    ----------
    Common practice, no source.

    Examples
    --------
    >>> BurstWish(line="skip_line", length_s=60).length_s
    60
    """
    rate = movement.rate_a_min
    if burst.rate_a_min is not None and movement.low_hops_a_rep:
        rate = burst.rate_a_min
    if rate is not None:
        return burst.length_s * rate // 60
    return burst.length_s * 1000 // milliseconds(movement.seconds_a_rep)


def burst_landings(burst: BurstWish, movement: Movement) -> Landings:
    """Give the contacts and low hops of one burst.

    Parameters
    ----------
    burst : BurstWish
        The class's burst.
    movement : Movement
        What the person does in the burst.

    Returns
    -------
    Landings
        Contacts and low hops of one burst, expected.

    Notes
    -----
    Reps of the burst x contacts (low hops) a rep.

    References
    ----------
    Common practice, no source.

    Examples
    --------
    >>> Landings(0, 120) * 3
    Landings(contacts=0, low_hops=360)
    """
    return Landings(movement.contacts_a_rep, movement.low_hops_a_rep) * burst_reps(burst, movement)
