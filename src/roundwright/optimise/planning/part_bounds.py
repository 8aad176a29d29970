"""A bound for exercises together without a solver: everyone's masses, with kit at shadow prices.

One linear model an exercise says what a unit of short kit and a further version are worth.
With those prices people no longer meet: what remains is which two masses each of them takes for
all the exercises, and that is looked up. The bound holds for every set of exercises.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import combinations

import numpy as np
from numpy.typing import NDArray

from roundwright.optimise.planning.exercise_price import add_exercise
from roundwright.optimise.planning.set_table import SetTable, Ways
from roundwright.optimise.solver import Model

_FAR = 1e9
_SLACK = 1e-4
"""Taken off a bound before it is rounded up: more than the solver's tolerance."""


@dataclass(frozen=True, slots=True)
class Shadow:
    """One exercise with its kit and versions priced.

    Parameters
    ----------
    fixed : float
        What the exercise costs whoever does what.
    least : array by person
        The cheapest way of each person at these prices.
    by_pair : array by person and pair of masses
        The cheapest way that lifts nothing or one of the two masses.
    """

    fixed: float
    least: NDArray[np.float64]
    by_pair: NDArray[np.float64]


@dataclass
class PartBounds:
    """Bounds for parts of sets, over one table.

    Parameters
    ----------
    masses : tuple of int
        Every mass that somebody may lift, g.
    """

    table: SetTable
    masses: tuple[int, ...]

    @cached_property
    def pairs(self) -> NDArray[np.int64]:
        """Every two masses, by number."""
        some = list(combinations(range(len(self.masses)), 2))
        return np.array(some or [(0, 0)], dtype=np.int64)

    def shadow(self, ways_of: Sequence[Ways]) -> Shadow | None:
        """Price kit and versions of one exercise; None where it is impossible."""
        model = Model()
        numbers = add_exercise(
            model, ways_of, self.table, factor=self.table.kit_factor, versions=True
        )
        answer = model.shadow_prices(range(len(ways_of)))
        if answer is None:
            return None
        worth, objective = answer
        number = {mass: k for k, mass in enumerate(self.masses)}
        none = len(self.masses)
        by_mass = np.full((len(ways_of), none + 1), _FAR)
        for p, (row, ways) in enumerate(zip(numbers, ways_of, strict=True)):
            for n, way in zip(row, ways, strict=True):
                k = number[way.mass_g] if way.mass_g else none
                by_mass[p, k] = min(by_mass[p, k], worth[n])
        least = by_mass.min(axis=1)
        nothing = by_mass[:, none:]
        if none < 2:
            by_pair = least[:, None]
        else:
            one, other = by_mass[:, self.pairs[:, 0]], by_mass[:, self.pairs[:, 1]]
            by_pair = np.minimum(np.minimum(one, other), nothing)
        return Shadow(objective - float(least.sum()), least, by_pair)

    def at_least(self, shadows: Sequence[Shadow]) -> int:
        """Give what exercises cost together at least, the burst apart."""
        two = np.sum([s.by_pair for s in shadows], axis=0).min(axis=1)
        more = np.sum([s.least for s in shadows], axis=0) + self.table.prices.third_mass
        total = sum(s.fixed for s in shadows) + float(np.minimum(two, more).sum())
        return int(np.ceil(total - _SLACK))
