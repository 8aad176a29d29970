"""Bounds without a solver: never above the price of a part, and sharp often enough to be of use."""

from itertools import combinations

import pytest

from roundwright.optimise.planning.joint_price import joint_price
from roundwright.optimise.planning.part_bounds import PartBounds, Shadow
from roundwright.optimise.planning.set_master import SetMaster
from roundwright.optimise.planning.set_parts import EndPrices
from roundwright.optimise.planning.set_table import SetTable
from roundwright.optimise.solver import Ended, Work
from tests.planning.drawn_tables import a_drawn_table

EXERCISES = 6


def _shadows(table: SetTable) -> tuple[PartBounds, list[Shadow]]:
    ways = [w for row in table.alternatives for own in row for w in own]
    parts = PartBounds(table, tuple(sorted({w.mass_g for w in ways} - {0})))
    found = [parts.shadow(row) for row in table.alternatives]
    return parts, [s for s in found if s is not None]


def _price(table: SetTable, some: tuple[int, ...], *, relaxed: bool) -> int | None:
    ways = [table.alternatives[e] for e in some]
    return joint_price(ways, table, Work(100_000, 0, 0), 1, relaxed=relaxed).price


@pytest.mark.parametrize("seed", range(12))
def test_a_bound_is_never_above_the_price(seed: int) -> None:
    table = a_drawn_table(seed, exercises=EXERCISES)
    parts, shadows = _shadows(table)
    for size in (1, 2, 3, 4):
        for some in combinations(range(EXERCISES), size):
            exact = _price(table, some, relaxed=False)
            bound = parts.at_least([shadows[e] for e in some])
            assert exact is None or bound <= exact


def test_third_masses_are_seen_without_a_solver() -> None:
    above_alone = sharp = 0
    for seed in range(12):
        table = a_drawn_table(seed, exercises=EXERCISES)
        parts, shadows = _shadows(table)
        for some in combinations(range(EXERCISES), 4):
            bound = parts.at_least([shadows[e] for e in some])
            alone = sum(parts.at_least([shadows[e]]) for e in some)
            above_alone += bound > alone
            sharp += bound == _price(table, some, relaxed=True)
    assert above_alone > 5
    assert sharp > 20


@pytest.mark.parametrize("seed", range(6))
def test_a_price_that_is_known_leaves_the_cheapest_sets_alone(seed: int) -> None:
    table = a_drawn_table(seed, exercises=8)
    prices = tuple(
        joint_price([row], table, Work(10_000, 0, 0), 1).price for row in table.alternatives
    )
    ends = EndPrices(prices, prices, prices)
    free = SetMaster(table).solve(ends)
    assert free.ended is Ended.OPTIMAL
    equal = SetMaster(table).solve(ends, known=free.bound)
    assert (equal.chosen, equal.bound) == (free.chosen, free.bound) or (
        equal.bound == free.bound and table.holds(equal.chosen)
    )
    below = SetMaster(table).solve(ends, known=free.bound - 1)
    assert below.bound == free.bound
    assert below.ended is not Ended.INFEASIBLE
