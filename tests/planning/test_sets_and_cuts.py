from itertools import combinations, product

import pytest

from roundwright.optimise.planning.coupling import Coupling, Stand
from roundwright.optimise.planning.exercise_price import with_kit, without_kit
from roundwright.optimise.planning.joint_price import price_of_ways
from roundwright.optimise.planning.set_master import SetMaster
from roundwright.optimise.planning.set_parts import Cut, EndPrices
from roundwright.optimise.planning.set_table import SetTable
from roundwright.optimise.solver import Ended, Work
from tests.planning.drawn_tables import a_drawn_table, best_by_trying

KIND = "middle"


def _by_cuts(table: SetTable) -> tuple[int | None, int]:
    """Solve a table by master and cuts; give the price and how many cuts that took."""
    coupling = Coupling(table, {KIND: table.alternatives})
    cuts: dict[frozenset[Stand], int | None] = {}
    for _ in range(60):
        prices = tuple(coupling.alone((e, KIND)).price for e in range(len(table.exercises)))
        made = [Cut(frozenset(e for e, _ in part), extra) for part, extra in cuts.items()]
        answer = SetMaster(table, cuts=made).solve(EndPrices(prices, prices, prices))
        if answer.ended is Ended.INFEASIBLE:
            return None, len(cuts)
        stands = [(e, KIND) for e in sorted(answer.chosen)]
        if [s for s in stands if coupling.strengthen(s)]:
            continue
        together = coupling.joint(stands).price
        bound = answer.bound + (coupling.burst or 0)
        if together is not None and together + table.set_price(answer.chosen) == bound:
            return bound, len(cuts)
        cuts |= coupling.cuts(stands)
    raise AssertionError("the cuts do not close")


@pytest.mark.parametrize("seed", range(12))
def test_master_and_cuts_find_the_best_of_all_sets(seed: int) -> None:
    table = a_drawn_table(seed, places=3 + seed % 2)
    assert _by_cuts(table)[0] == best_by_trying(table)


def test_some_of_the_drawn_tables_need_cuts() -> None:
    assert sum(_by_cuts(a_drawn_table(seed, places=4))[1] > 0 for seed in range(12)) >= 3


@pytest.mark.parametrize("seed", range(4))
def test_the_price_of_one_exercise_is_the_least_over_all_choices(seed: int) -> None:
    table = a_drawn_table(seed, exercises=4, people=3)
    for ways_of in table.alternatives:
        prices = []
        for ways in product(*(range(len(own)) for own in ways_of)):
            use: dict[int, int] = {}
            for own, k in zip(ways_of, ways, strict=True):
                for key, units in own[k].kit:
                    use[key] = use.get(key, 0) + units
            if all(units <= table.kit_counts[key] for key, units in use.items()):
                prices.append(price_of_ways([ways_of], [ways, (0, 0, 0)], table))
        exact = with_kit(ways_of, table, Work(10_000, 0, 0), 1)
        assert exact.price == min(prices, default=None)
        assert (without_kit(ways_of, table).price or 0) <= (exact.price or 10**6)


@pytest.mark.parametrize("seed", range(6))
def test_the_extra_of_a_part_never_exceeds_that_of_the_whole(seed: int) -> None:
    table = a_drawn_table(seed)
    coupling = Coupling(table, {KIND: table.alternatives})
    for some in combinations(range(6), 4):
        stands = [(e, KIND) for e in some]
        for stand in stands:
            coupling.strengthen(stand)
        whole = coupling.extra(stands)
        parts = [coupling.extra(part) for part in combinations(stands, 3)]
        if whole is not None:
            assert all(part is not None and part <= whole for part in parts)


def test_kept_exercises_alone_may_break_what_the_rest_must_hold() -> None:
    table = a_drawn_table(1)
    jumps = [e for e in range(8) if table.jumping[e]]
    assert len(jumps) == 2
    strict = table.rules.__class__(places=3, kept=frozenset(jumps), most_jumping=1)
    kept = SetTable(
        **{f: getattr(table, f) for f in table.__dataclass_fields__} | {"rules": strict}
    )
    assert kept.most_held_against["jumping", 0] == 2
    free = table.rules.__class__(places=3, most_jumping=1)
    loose = SetTable(**{f: getattr(table, f) for f in table.__dataclass_fields__} | {"rules": free})
    assert not loose.holds(frozenset({*jumps, 1}))
