"""What a count becomes for one version: unit, steps of a pass, passes, seconds, landings.

Implements section 2 and the burst reps of section 5 of *How a class is fitted*.
All arithmetic is in integers (milliseconds, 1/10,000), rounded once, half to even.
"""

from collections.abc import Mapping, Sequence

from roundwright.body.anatomy import MIRRORED, Side
from roundwright.foundation.quantities import BP, stored
from roundwright.goals.class_wish import BurstWish, Count, CountUnit
from roundwright.library.combination import Combination
from roundwright.library.movement import Movement
from roundwright.library.version import Step
from roundwright.library.vocabulary import DoneAs, Laterality

PER_SIDE = frozenset({CountUnit.REPS_PER_SIDE, CountUnit.SECONDS_PER_SIDE})
_MS = 1000


def half_even(numerator: int, denominator: int) -> int:
    """Give a ratio of integers (denominator > 0) rounded half to even.

    Examples
    --------
    >>> half_even(5, 2), half_even(7, 2), half_even(-1, 3)
    (2, 4, 0)
    """
    whole, rest = divmod(numerator, denominator)
    up = 2 * rest > denominator or (2 * rest == denominator and whole % 2 == 1)
    return whole + 1 if up else whole


def milliseconds(seconds: float) -> int:
    """Give authored seconds in whole milliseconds."""
    return stored(seconds * _MS)


def is_per_side(count: Count) -> bool:
    """Say whether a count is done once on each side."""
    return count.unit in PER_SIDE


def converted(wish: Count, laterality: Laterality, *, one_side: bool = False) -> Count:
    """Give the count of a line's version that keeps the total of the wish.

    Parameters
    ----------
    wish : Count
        The person's own count at this place.
    laterality : Laterality
        Of the version that is done.
    one_side : bool
        Whether a unilateral version is done on one side only: then the count
        a side is given as plain reps or seconds.
    """
    value, unit = wish.value, wish.unit
    if wish.is_timed:
        total = value * 2 if unit is CountUnit.SECONDS_PER_SIDE else value
        if laterality is Laterality.UNILATERAL:
            unit = CountUnit.SECONDS if one_side else CountUnit.SECONDS_PER_SIDE
            return Count(value=max(1, total // 2), unit=unit)
        return Count(value=total, unit=CountUnit.SECONDS)
    total = value * 2 if unit is CountUnit.REPS_PER_SIDE else value
    if laterality is Laterality.UNILATERAL:
        unit = CountUnit.REPS if one_side else CountUnit.REPS_PER_SIDE
        return Count(value=max(1, total // 2), unit=unit)
    if laterality is Laterality.ALTERNATING:
        return Count(value=max(2, total - total % 2), unit=CountUnit.REPS_ALTERNATING)
    return Count(value=total, unit=CountUnit.REPS)


def in_total(wish: Count) -> Count:
    """Give a wish as whole reps or whole seconds, as a substitute takes it over."""
    if wish.is_timed:
        return converted(wish, Laterality.BILATERAL)
    total = wish.value * 2 if wish.unit is CountUnit.REPS_PER_SIDE else wish.value
    return Count(value=total, unit=CountUnit.REPS)


def steps_of_movement(
    movement: Movement, first_side: Side, unused: Side | None = None
) -> tuple[Step, ...]:
    """Give one pass of a line's version: both, or the first side and then the other.

    With one side of the movement's limb unused, a one-sided version is done on
    the other side alone.
    """
    if not movement.is_one_sided:
        return (Step(movement_id=movement.slug, side=Side.BOTH),)
    if unused is not None:
        return (Step(movement_id=movement.slug, side=MIRRORED[unused]),)
    first = Side.RIGHT if first_side is Side.RIGHT else Side.LEFT
    return (
        Step(movement_id=movement.slug, side=first),
        Step(movement_id=movement.slug, side=MIRRORED[first]),
    )


def steps_of_parts(
    combination: Combination, versions: Sequence[Movement], count: Count, first_side: Side
) -> tuple[Step, ...]:
    """Give one pass of a combination whose parts are done in these versions.

    With a per-side count the parts come twice, the second time mirrored; for a
    person whose first side is right the whole listing is mirrored.
    """
    pairs = zip(combination.parts, versions, strict=True)
    listing = [
        Step(
            movement_id=movement.slug,
            side=part.side if movement.is_one_sided else Side.BOTH,
            times=part.times,
        )
        for part, movement in pairs
    ]
    if is_per_side(count):
        listing += [_mirrored(step) for step in listing]
    if first_side is Side.RIGHT:
        listing = [_mirrored(step) for step in listing]
    return tuple(listing)


def _mirrored(step: Step) -> Step:
    return step.model_copy(update={"side": MIRRORED[step.side]})


def _one_pass_ms(
    steps: Sequence[Step], movements: Mapping[str, Movement], combination: Combination | None
) -> int:
    links = 0 if combination is None else (len(steps) - 1) * milliseconds(combination.link_s)
    return _work_ms(steps, movements) + links


def _work_ms(steps: Sequence[Step], movements: Mapping[str, Movement]) -> int:
    return sum(s.times * milliseconds(movements[s.movement_id].seconds_a_rep) for s in steps)


def passes_of(
    count: Count,
    steps: Sequence[Step],
    movements: Mapping[str, Movement],
    combination: Combination | None,
) -> int:
    """Give how many passes through the listing are done in one round.

    Parameters
    ----------
    count : Count
        The converted count.
    steps : sequence of Step
        One pass as listed; a per-side listing holds both sides.
    movements : mapping of str to Movement
        The library's movements.
    combination : Combination or None
        None for a line.

    Notes
    -----
    Seconds are divided by the seconds of one pass at ordinary pace, links
    included; for seconds a side by the first half of the listing.
    """
    if count.unit is CountUnit.REPS_ALTERNATING:
        return count.value // 2
    if not count.is_timed:
        return count.value
    listed = steps[: len(steps) // 2] if is_per_side(count) else steps
    return count.value * _MS // _one_pass_ms(listed, movements, combination)


def seconds_of(
    count: Count,
    steps: Sequence[Step],
    movements: Mapping[str, Movement],
    combination: Combination | None,
    *,
    pace_bp: int,
    side_change_s: int,
) -> int:
    """Give the planned seconds of one round's work at one place.

    Parameters
    ----------
    pace_bp : int
        The person's seconds a rep against the ordinary ones, in 1/10,000.
    side_change_s : int
        Added once where the count is per side, s.
    """
    change_s = side_change_s if is_per_side(count) else 0
    if count.is_timed:
        return count.value * (2 if is_per_side(count) else 1) + change_s
    passes = passes_of(count, steps, movements, combination)
    work_ms = passes * _work_ms(steps, movements)
    if combination is not None:
        sides = 2 if is_per_side(count) else 1
        links = sides * (len(combination.parts) - 1) * milliseconds(combination.link_s)
        work_ms += links if combination.done_as is DoneAs.COMPLEX else passes * links
    return half_even(work_ms * pace_bp, BP * _MS) + change_s


def contacts_of(steps: Sequence[Step], passes: int, movements: Mapping[str, Movement]) -> int:
    """Give the landings of one round's work at one place."""
    return passes * sum(s.times * movements[s.movement_id].contacts_a_rep for s in steps)


def within_landings(
    count: Count, steps: Sequence[Step], movements: Mapping[str, Movement], most: int
) -> Count:
    """Cut a count of reps so that one set holds at most so many landings, or one pass.

    Timed counts come back as they are.
    """
    a_pass = contacts_of(steps, 1, movements)
    if count.is_timed or not a_pass:
        return count
    a_value = 2 if count.unit is CountUnit.REPS_ALTERNATING else 1
    return count.model_copy(update={"value": min(count.value, max(1, most // a_pass) * a_value)})


def low_hops_of(steps: Sequence[Step], passes: int, movements: Mapping[str, Movement]) -> int:
    """Give the low hops (rope) of one round's work at one place."""
    return passes * sum(s.times * movements[s.movement_id].low_hops_a_rep for s in steps)


def burst_reps(movement: Movement, burst: BurstWish) -> int:
    """Give the reps of one burst: by the class's rate (rope), the movement's, or its seconds."""
    rate = movement.rate_a_min
    if movement.low_hops_a_rep and burst.rate_a_min is not None:
        rate = burst.rate_a_min
    if rate is not None:
        return burst.length_s * rate // 60
    return burst.length_s * _MS // milliseconds(movement.seconds_a_rep)
