"""How much longer or shorter each set takes in each play: the draws of a rehearsal.

One stream for each block of plays, so that the first plays are the same however
many there are. What the factors do to a class is left to `play`.
"""

from collections.abc import Iterator
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from roundwright.foundation.quantities import BP
from roundwright.foundation.seeds import generator
from roundwright.plan.rule_table import RuleTable

Floats = NDArray[np.float64]
BLOCK = 250
"""Plays in one block, which has a stream of its own; our choice."""
TOGETHER = 4
"""Blocks that are moved on together: few enough to stay in the processor's cache; our choice."""
MOST_DRAWN = 4
"""Parts of draws that are remembered: those of two classes of 2,000 plays; our choice."""


def parts_of(plays: int) -> Iterator[slice]:
    """Give the parts, of some blocks each, that a number of plays falls into.

    Parameters
    ----------
    plays : int
        How many plays, 1 or more.

    Yields
    ------
    slice
        The plays in it.

    Examples
    --------
    >>> [(part.start, part.stop) for part in parts_of(2300)]
    [(0, 1000), (1000, 2000), (2000, 2300)]
    """
    for start in range(0, plays, BLOCK * TOGETHER):
        yield slice(start, min(start + BLOCK * TOGETHER, plays))


def factors_of_part(
    rules: RuleTable, shape: tuple[int, int, int], *, seed: int, part: slice
) -> Floats:
    """Draw the factors of a part of the plays, its blocks one below the other.

    Parameters
    ----------
    rules, shape, seed
        As for `factors_of`.
    part : slice
        One of `parts_of`.

    Returns
    -------
    ndarray, shape (plays in it, rounds * positions * people)
        As `factors_of`, read-only.
    """
    return _drawn_part(
        rules.pace_between_bp, rules.pace_within_bp, shape, seed, part.start, part.stop
    )


def factors_of(
    rules: RuleTable, shape: tuple[int, int, int], *, seed: int, block: int, plays: int
) -> Floats:
    """Draw the factor on the seconds of every set of one block of plays.

    Parameters
    ----------
    rules : RuleTable
        `pace_between_bp` and `pace_within_bp`, SD of the logarithms, 1/10,000.
    shape : tuple of (int, int, int)
        Rounds, positions, people.
    seed : int
        The caller's seed, 0 or larger.
    block : int
        Which block of plays, from 0.
    plays : int
        Plays wanted of this block, 1..`BLOCK`.

    Returns
    -------
    ndarray, shape (plays, rounds * positions * people)
        Factors above 0, read-only; set (round r, position k, person p) stands in column
        ((r - 1) * positions + k - 1) * people + p.

    Notes
    -----
    factor = exp(between * z_p + within * z_rkp), z standard normal: the median is 1.
    Normality of the logarithms is common practice for times, no source; so are both SD.

    Examples
    --------
    >>> few = factors_of(RuleTable(), (1, 2, 3), seed=1, block=0, plays=2)
    >>> more = factors_of(RuleTable(), (1, 2, 3), seed=1, block=0, plays=5)
    >>> few.shape, bool((few == more[:2]).all())
    ((2, 6), True)
    """
    return _drawn(rules.pace_between_bp, rules.pace_within_bp, shape, seed, block, plays)


@lru_cache(maxsize=MOST_DRAWN)
def _drawn_part(
    between_bp: int, within_bp: int, shape: tuple[int, int, int], seed: int, start: int, stop: int
) -> Floats:
    """Draw a part; a class that is changed and rehearsed again has the same draws."""
    whole = np.concatenate(
        [
            _drawn(between_bp, within_bp, shape, seed, first // BLOCK, min(BLOCK, stop - first))
            for first in range(start, stop, BLOCK)
        ]
    )
    whole.flags.writeable = False
    return whole


def _drawn(
    between_bp: int, within_bp: int, shape: tuple[int, int, int], seed: int, block: int, plays: int
) -> Floats:
    """Draw one block."""
    rounds, positions, people = shape
    drawn = generator(seed, "rehearsal", block).standard_normal(
        (plays, 1 + rounds * positions, people)
    )
    between = drawn[:, :1, :] * (between_bp / BP)
    logs = drawn[:, 1:, :]
    logs *= within_bp / BP
    logs += between
    factors: Floats = np.exp(logs).reshape(plays, rounds * positions * people)
    factors.flags.writeable = False
    return factors
