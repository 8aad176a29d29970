from itertools import pairwise, permutations

import numpy as np
import pytest

from roundwright.foundation.seeds import generator
from roundwright.optimise.planning.exercise_facts import Neighbours
from roundwright.optimise.planning.order import OrderRules, best_orders
from roundwright.optimise.planning.set_master import SetMaster
from roundwright.optimise.planning.set_parts import EndPrices
from tests.planning.drawn_tables import a_drawn_table


def _rules(
    seed: int, n: int, *, ring: bool = False, fixed: dict[int, int] | None = None
) -> OrderRules:
    draws = generator(seed, "orders")
    price = draws.integers(0, 9, (n, n))
    apart = draws.random((n, n)) < 0.2
    neighbours = Neighbours(
        price=np.maximum(price, price.T),
        forbidden=apart | apart.T,
        not_at_ends=draws.random(n) < 0.2,
    )
    return OrderRules(
        [f"e{e}" for e in range(n)], neighbours, fixed or {}, frozenset({(1, 0)}), ring
    )


def _tried(rules: OrderRules, n: int) -> dict[tuple[int, int], tuple[int, tuple[int, ...]]]:
    found: dict[tuple[int, int], tuple[int, tuple[int, ...]]] = {}
    for order in permutations(range(n)):
        pairs = list(pairwise(order))
        if rules.ring and n > 2:
            pairs.append((order[-1], order[0]))
        if any(rules.neighbours.forbidden[pair] for pair in pairs):
            continue
        if any(rules.neighbours.not_at_ends[e] for e in (order[0], order[-1])):
            continue
        if any(order.index(e) != k for e, k in rules.fixed.items()) or order[0] == 1:
            continue
        value = (sum(int(rules.neighbours.price[pair]) for pair in pairs), order)
        key = (order[0], order[-1])
        found[key] = min(found.get(key, value), value)
    return found


@pytest.mark.parametrize("ring", [False, True])
@pytest.mark.parametrize("seed", range(10))
def test_the_best_order_for_each_pair_of_ends_is_that_of_trying_all(seed: int, ring: bool) -> None:
    rules = _rules(seed, 6, ring=ring, fixed={3: 2} if seed % 2 else None)
    mine = {ends: (b[0], b[2]) for ends, b in best_orders(frozenset(range(6)), rules).items()}
    assert mine == _tried(rules, 6)


def test_twelve_exercises_are_ordered() -> None:
    assert best_orders(frozenset(range(12)), _rules(3, 12))


@pytest.mark.parametrize("seed", range(8))
def test_the_master_sees_the_same_neighbours_as_the_order(seed: int) -> None:
    table = a_drawn_table(seed, exercises=6, places=4)
    rules = _rules(seed, 6)
    free = EndPrices(
        (0,) * 6, *(tuple(None if x else 0 for x in rules.neighbours.not_at_ends),) * 2
    )
    master = SetMaster(table, neighbours=rules.neighbours, never_at=sorted(rules.never_at))
    answer = master.solve(free)
    best = min(
        (
            (price[0] + table.set_price(frozenset(chosen)))
            for chosen in permutations(range(6), 4)
            if list(chosen) == sorted(chosen) and table.holds(frozenset(chosen))
            for price in best_orders(frozenset(chosen), rules).values()
        ),
        default=None,
    )
    assert (answer.bound if answer.order else None) == best
