"""How many reps of each movement a count comes to.

A pass is one run through the listed steps. Everything else (contacts, tonnage,
muscles) is counted from the reps found here, in the neighbouring files.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal

from roundwright.body.anatomy import Side
from roundwright.foundation.quantities import stored
from roundwright.goals.class_wish import Count, CountUnit
from roundwright.library.movement import Movement
from roundwright.library.version import Step


@dataclass(frozen=True, slots=True)
class StepReps:
    """Reps of one step of a listing in one set; `expected` where seconds were turned into reps."""

    movement_id: str
    side: Side
    reps: int
    expected: bool = False


@dataclass(frozen=True, slots=True)
class MovementReps:
    """Reps of one movement, by side; `expected` when any of them came from seconds."""

    movement_id: str
    both: int = 0
    left: int = 0
    right: int = 0
    expected: bool = False

    @property
    def total(self) -> int:
        """Reps on both sides together: 12 a side is 24."""
        return self.both + self.left + self.right


def passes(
    count: Count, steps: Sequence[Step], movements: Mapping[str, Movement], link_s: float = 0.0
) -> int:
    """Give how many passes through the listing one set holds.

    Parameters
    ----------
    count : Count
        The person's own count at this place: reps or whole seconds.
    steps : sequence of Step, shape (n_steps,)
        The listing of one pass. With a per-side count its first half is one side.
    movements : mapping
        Movements of the library by slug, for seconds a rep.
    link_s : float
        Seconds between two neighbouring steps of a side (0 for a line), >= 0; used
        with seconds only.

    Returns
    -------
    int
        Passes, >= 0. From seconds it is the expected number, whole passes only.

    Raises
    ------
    KeyError
        When a step names a movement that `movements` does not hold.

    Notes
    -----
    reps and reps a side: the value; alternating: half the value; seconds:
    floor(window / seconds of one pass), for seconds a side those of one side's
    steps. A pass of n steps holds n - 1 links.

    References
    ----------
    Common practice, no source.

    Examples
    --------
    >>> from roundwright.goals.class_wish import Count, CountUnit
    >>> steps = (Step(movement_id="row", side=Side.LEFT), Step(movement_id="row", side=Side.RIGHT))
    >>> passes(Count(value=16, unit=CountUnit.REPS_ALTERNATING), steps, {})
    8
    """
    if count.unit is CountUnit.REPS_ALTERNATING:
        return count.value // 2
    if not count.is_timed:
        return count.value
    listing = steps[: len(steps) // 2] if count.unit is CountUnit.SECONDS_PER_SIDE else steps
    if not listing:
        return 0
    one_pass_ms = milliseconds(link_s) * (len(listing) - 1) + sum(
        milliseconds(movements[step.movement_id].seconds_a_rep) * step.times for step in listing
    )
    return count.value * 1000 // one_pass_ms


def reps_of_steps(
    count: Count, steps: Sequence[Step], movements: Mapping[str, Movement], link_s: float = 0.0
) -> tuple[StepReps, ...]:
    """Give the reps of each step of the listing in one set, in order.

    Parameters
    ----------
    count : Count
        The person's own count at this place: reps or whole seconds.
    steps : sequence of Step, shape (n_steps,)
        The listing of one pass.
    movements : mapping
        Movements of the library by slug.
    link_s : float
        Seconds between two neighbouring steps, >= 0; used with seconds only.

    Returns
    -------
    tuple of StepReps, shape (n_steps,)
        Passes x times of each step, marked expected when the count is in seconds.

    Raises
    ------
    KeyError
        When a count in seconds meets a movement that `movements` does not hold.

    Notes
    -----
    A pass that is done holds every step of the listing. A combination and a
    complex of the same parts hold the same reps: only their order differs.

    References
    ----------
    Common practice, no source.

    Examples
    --------
    >>> from roundwright.goals.class_wish import Count, CountUnit
    >>> steps = (Step(movement_id="squat", side=Side.BOTH, times=2),)
    >>> reps_of_steps(Count(value=8, unit=CountUnit.REPS), steps, {})[0].reps
    16
    """
    done = passes(count, steps, movements, link_s)
    return tuple(
        StepReps(step.movement_id, step.side, done * step.times, count.is_timed) for step in steps
    )


def by_movement(reps: Iterable[StepReps]) -> tuple[MovementReps, ...]:
    """Add up reps by movement and side.

    Parameters
    ----------
    reps : iterable of StepReps
        Reps of any number of steps and sets.

    Returns
    -------
    tuple of MovementReps
        One for each movement, in alphabetical order of the slugs.

    Notes
    -----
    A sum that holds any expected reps is expected as a whole.

    References
    ----------
    Common practice, no source.

    Examples
    --------
    >>> one = StepReps("row", Side.LEFT, 12), StepReps("row", Side.RIGHT, 12)
    >>> by_movement(one)[0].total
    24
    """
    sides: dict[str, dict[Side, int]] = {}
    expected: set[str] = set()
    for step in reps:
        mine = sides.setdefault(step.movement_id, dict.fromkeys(Side, 0))
        mine[step.side] += step.reps
        if step.expected:
            expected.add(step.movement_id)
    return tuple(
        MovementReps(slug, n[Side.BOTH], n[Side.LEFT], n[Side.RIGHT], slug in expected)
        for slug, n in sorted(sides.items())
    )


def milliseconds(seconds: float) -> int:
    """Give seconds as whole milliseconds, so that floors are exact.

    Parameters
    ----------
    seconds : float
        Seconds, >= 0.

    Returns
    -------
    int
        Milliseconds, rounded half to even.

    Notes
    -----
    60 s hold exactly 100 reps of 0.6 s; in binary fractions they would hold 99.

    References
    ----------
    Our choice.

    Examples
    --------
    >>> 60 * 1000 // milliseconds(0.6)
    100
    """
    return stored(Decimal(str(seconds)) * 1000)
