"""The set model in rows against every set and pair of ends; bounds and quick plans in order."""

from dataclasses import replace
from itertools import combinations, permutations

import numpy as np
import pytest
from benchmarks.quick_plan import at_most

from roundwright.foundation.seeds import generator
from roundwright.optimise.planning.coupling import Coupling
from roundwright.optimise.planning.exercise_facts import Neighbours
from roundwright.optimise.planning.exercise_price import with_kit
from roundwright.optimise.planning.joint_price import exercise_at_least, joint_price
from roundwright.optimise.planning.set_master import SetMaster
from roundwright.optimise.planning.set_parts import Cut, EndPrices
from roundwright.optimise.planning.set_table import Minutes, SetTable
from roundwright.optimise.solver import Ended, Work
from tests.planning.drawn_tables import a_drawn_table

KIND = "middle"
N, PLACES = 7, 4
Ends = tuple[frozenset[int], int, int]


def _row(seed: int, name: str, missing: float) -> EndPrices:
    draws = generator(seed, name)

    def some() -> tuple[int | None, ...]:
        prices = draws.integers(1, 40, N)
        gone = draws.random(N) < missing
        return tuple(None if g else int(p) for p, g in zip(prices, gone, strict=True))

    return EndPrices(some(), some(), some())


def _cuts(seed: int) -> list[Cut]:
    draws = generator(seed, "cuts of ends")
    a, b, c, d = (int(e) for e in draws.permutation(N)[:4])
    return [
        Cut(frozenset({a, b}), int(draws.integers(5, 30))),
        Cut(frozenset({b}), 12, middle=frozenset({c})),
        Cut(frozenset({c}), 9, first=a, last=b),
        Cut(frozenset({d, a}), None),
        Cut(frozenset({d}), None, last=c),
    ]


def _sum(prices: EndPrices, ends: Ends) -> int | None:
    chosen, first, last = ends
    inner = [prices.middle[e] for e in chosen - {first, last}]
    some = [prices.first[first], prices.last[last], *inner]
    return None if any(p is None for p in some) else sum(p or 0 for p in some)


def _extra(cuts: list[Cut], ends: Ends) -> int | None:
    chosen, first, last = ends
    values: list[int | None] = [0]
    for cut in cuts:
        if (
            cut.anywhere <= chosen
            and cut.middle <= chosen - {first, last}
            and cut.first in (None, first)
            and cut.last in (None, last)
        ):
            values.append(cut.extra)
    return None if None in values else max(v or 0 for v in values)


def _tried(
    table: SetTable, prices: EndPrices, time: EndPrices, most_s: int, cuts: list[Cut]
) -> dict[str, int | None]:
    found: dict[str, list[int]] = {"price": [], "time": []}
    for some in combinations(range(N), PLACES):
        if not table.holds(frozenset(some)):
            continue
        for first, last in permutations(some, 2):
            ends = (frozenset(some), first, last)
            price, seconds, extra = _sum(prices, ends), _sum(time, ends), _extra(cuts, ends)
            if first == 1 or price is None or extra is None or seconds is None:
                continue
            found["time"].append(seconds)
            if seconds <= most_s:
                found["price"].append(price + extra + table.set_price(ends[0]))
    return {name: min(values, default=None) for name, values in found.items()}


def _with_minutes(seed: int, table: SetTable) -> SetTable:
    """Let the minutes left have a price in two tables of three."""
    if seed % 3 == 0:
        return table
    draws = generator(seed, "minutes")
    seconds = tuple(int(draws.integers(100, 500)) for _ in range(N))
    free_s = int(draws.integers(150, 700)) * PLACES
    minutes = Minutes(seconds=seconds, free_s=free_s, spare_s=120, unused=6, hurried=12)
    return replace(table, minutes=minutes)


@pytest.mark.parametrize("by_rows", [True, False])
@pytest.mark.parametrize("seed", range(12))
def test_both_masters_find_the_cheapest_and_the_shortest_of_all(seed: int, by_rows: bool) -> None:
    table = _with_minutes(seed, a_drawn_table(seed, exercises=N, places=PLACES))
    prices = _row(seed, "prices", 0.15)
    full = _row(seed, "seconds", 0.0)
    time = EndPrices(
        *(
            tuple(None if p is None else s for p, s in zip(asked, own, strict=True))
            for asked, own in (
                (prices.middle, full.middle),
                (prices.first, full.first),
                (prices.last, full.last),
            )
        )
    )
    nothing = Neighbours(
        price=np.zeros((N, N), dtype=np.int64),
        forbidden=np.zeros((N, N), dtype=np.bool_),
        not_at_ends=np.zeros(N, dtype=np.bool_),
    )
    cuts = _cuts(seed)
    master = SetMaster(table, None if by_rows else nothing, never_at=[(1, 0)], cuts=cuts)
    most_s = 85
    best = _tried(table, prices, time, most_s, cuts)
    cheapest = master.solve(prices, seconds=[time], at_most_s=most_s)
    shortest = master.solve(prices, seconds=[time], by_time=True)
    for answer, value in ((cheapest, best["price"]), (shortest, best["time"])):
        assert (answer.ended is Ended.INFEASIBLE) == (value is None)
        assert value is None or answer.bound == value


def test_the_ends_are_left_out_only_where_they_make_no_difference() -> None:
    table = a_drawn_table(0)
    same = (3,) * len(table.exercises)
    other = (4, *same[1:])
    assert not SetMaster(table).ends_matter(EndPrices(same, same, same))
    assert SetMaster(table).ends_matter(EndPrices(same, other, same))
    assert SetMaster(table, fixed={0: 0}).ends_matter(EndPrices(same, same, same))
    cut = Cut(frozenset({1}), 3, last=2)
    assert SetMaster(table, cuts=[cut]).ends_matter(EndPrices(same, same, same))


@pytest.mark.parametrize("seed", range(8))
def test_bound_price_and_quick_plan_stand_in_this_order(seed: int) -> None:
    table = a_drawn_table(seed, exercises=6)
    coupling = Coupling(table, {KIND: table.alternatives})
    for some in combinations(range(6), 4):
        stands = [(e, KIND) for e in some]
        for stand in stands:
            while coupling.strengthen(stand):
                pass
        ways = [table.alternatives[e] for e in some]
        exact = joint_price(ways, table, Work(10_000, 0, 0), 1)
        bound = joint_price(ways, table, Work(10_000, 0, 0), 1, relaxed=True)
        quick = at_most(coupling, stands)
        if exact.price is None:
            assert quick is None
        else:
            assert bound.price is not None
            assert bound.price <= exact.price
            assert not bound.exact or bound.price == exact.price
            assert quick is None or (quick.price or 0) >= exact.price
        assert coupling.joint(stands).price == exact.price


def test_most_quick_plans_are_there_and_some_are_the_best() -> None:
    there = best = feasible = 0
    for seed in range(8):
        table = a_drawn_table(seed, exercises=6)
        coupling = Coupling(table, {KIND: table.alternatives})
        for some in combinations(range(6), 4):
            stands = [(e, KIND) for e in some]
            for stand in stands:
                while coupling.strengthen(stand):
                    pass
            exact, quick = coupling.joint(stands).price, at_most(coupling, stands)
            feasible += exact is not None
            there += quick is not None
            best += quick is not None and quick.price == exact
    assert feasible >= there >= feasible / 2
    assert 0 < best < feasible


@pytest.mark.parametrize("seed", range(8))
def test_an_exercise_with_people_divided_never_costs_more(seed: int) -> None:
    table = a_drawn_table(seed, exercises=6, people=5)
    for ways in table.alternatives:
        exact = with_kit(ways, table, Work(10_000, 0, 0), 1)
        bound = exercise_at_least(ways, table, Work(10_000, 0, 0), 1)
        assert exact.price is None or (bound.price or 0) <= exact.price
        assert not bound.exact or bound.price == exact.price
