"""What one exercise takes of a class at least, whatever versions are chosen."""

from collections.abc import Sequence

from roundwright.goals.class_wish import ClassFormat
from roundwright.optimise.planning.set_table import Ways
from roundwright.plan.problem import ClassSpec


def least_seconds(
    ways_of: Sequence[Ways],
    rounds_of: Sequence[tuple[int, ...]],
    spec: ClassSpec,
    class_format: ClassFormat,
) -> tuple[int, ...]:
    """Give the least seconds over all rounds: work, changes and partner swaps.

    Parameters
    ----------
    ways_of : sequence of ways
        By person.
    rounds_of : sequence of tuple of int
        The rounds that each person does.
    class_format : ClassFormat

    Returns
    -------
    tuple of int
        One row where all work the same position at once. Where groups take turns, a row
        for each person: their own intervals last at least as long as their own work.
    """
    turns = class_format not in (ClassFormat.TOGETHER, ClassFormat.PAIRS)
    if turns:
        return tuple(
            _in_turns(ways, rounds, spec) for ways, rounds in zip(ways_of, rounds_of, strict=True)
        )
    return (_at_once(ways_of, rounds_of, spec, in_pairs=class_format is ClassFormat.PAIRS),)


def _in_turns(ways: Ways, rounds: tuple[int, ...], spec: ClassSpec) -> int:
    """Give one person's own seconds of an exercise over the class, with the changes."""
    if not ways or min(w.seconds for w in ways) <= 0:
        return 0
    last = spec.rounds in rounds
    seconds = min(
        w.seconds * (len(rounds) - last) + min(w.seconds, w.last_seconds) * last for w in ways
    )
    return seconds + spec.change_s * len(rounds)


def _at_once(
    ways_of: Sequence[Ways],
    rounds_of: Sequence[tuple[int, ...]],
    spec: ClassSpec,
    *,
    in_pairs: bool,
) -> int:
    total = 0
    for n in range(1, spec.rounds + 1):
        least = sorted(
            min((w.last_seconds if n == spec.rounds else w.seconds) for w in ways)
            for ways, rounds in zip(ways_of, rounds_of, strict=True)
            if n in rounds and ways
        )
        if not least or least[-1] <= 0:
            continue
        total += least[-1] + spec.change_s
        if in_pairs:
            others = len(least) - (len(ways_of) + 1) // 2
            total += spec.partner_swap_s + (least[others - 1] if others > 0 else 0)
    return total
