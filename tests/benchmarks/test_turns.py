"""Groups that take turns on set tables: against every set and order, and the single model."""

from dataclasses import replace
from itertools import combinations, permutations, product

import pytest
from benchmarks.generator import a_set_table
from benchmarks.turns import dealt, kinds_of_offsets, solve_in_turns
from benchmarks.yardstick_turns import solve_turns_with_highs

from roundwright.goals.class_wish import ClassFormat
from roundwright.optimise.planning.joint_price import price_of_ways
from roundwright.optimise.planning.set_table import SetTable, Way
from tests.planning.drawn_tables import a_drawn_table

Offsets = tuple[int, ...]


def _fits(table: SetTable, order: tuple[int, ...], ways: list[list[int]], at: list[int]) -> bool:
    """Count units interval by interval; `at` gives each person's offset."""
    for t in range(len(order)):
        used = [0] * len(table.kit_counts)
        for p, offset in enumerate(at):
            place = (t + offset) % len(order)
            for key, units in table.alternatives[order[place]][p][ways[place][p]].kit:
                used[key] += units
        if any(n > count for n, count in zip(used, table.kit_counts, strict=True)):
            return False
    return True


def _lands(table: SetTable, order: tuple[int, ...], ways: list[list[int]]) -> bool:
    return all(
        sum(table.alternatives[e][p][w[p]].contacts for e, w in zip(order, ways, strict=True))
        <= table.contact_limits[p]
        for p in range(len(table.people))
    )


def _by_trying(table: SetTable, group_of: tuple[int, ...], offsets: Offsets) -> int | None:
    """Try every set, order and choice."""
    best: int | None = None
    at = [offsets[g] for g in group_of]
    people = range(len(table.people))
    for some in combinations(range(len(table.exercises)), table.rules.places):
        if not table.holds(frozenset(some)):
            continue
        cells = [range(len(table.alternatives[e][p])) for e in some for p in people]
        for flat in product(*cells):
            ways = [list(flat[k * len(people) : (k + 1) * len(people)]) for k in range(len(some))]
            row = [table.alternatives[e] for e in some]
            price = price_of_ways(row, [*ways, [0] * len(people)], table)
            price += table.set_price(frozenset(some))
            if (best is not None and price >= best) or not _lands(table, some, ways):
                continue
            for order in permutations(range(len(some))):
                placed = tuple(some[k] for k in order)
                if _fits(table, placed, [ways[k] for k in order], at):
                    best = price
                    break
    return best


def _tiny(seed: int) -> SetTable:
    """Draw a table for two in which only two kinds of dumbbells serve all masses."""
    table = a_drawn_table(seed, exercises=5, people=2)

    def two_kinds(way: Way) -> Way:
        return replace(way, kit=tuple((key % 2, units) for key, units in way.kit))

    return replace(
        table,
        kit_counts=(2, 2),
        alternatives=tuple(
            tuple(tuple(two_kinds(way) for way in ways) for ways in row)
            for row in table.alternatives
        ),
    )


@pytest.mark.parametrize("seed", range(10))
def test_two_groups_against_every_set_order_and_choice(seed: int) -> None:
    table = _tiny(seed)
    answer = solve_in_turns(table, (0, 1), ((0, 1),), 60.0)
    assert answer.best.is_proven
    assert answer.best.price == _by_trying(table, (0, 1), (0, 1))


def test_groups_meet_in_some_of_the_tiny_tables() -> None:
    answers = [solve_in_turns(_tiny(seed), (0, 1), ((0, 1),), 60.0) for seed in range(10)]
    meeting = sum(a.best.price != a.alone.price for a in answers)
    assert 0 < meeting < len(answers)


@pytest.mark.parametrize("seed", range(3))
@pytest.mark.parametrize("form", [ClassFormat.STAGGERED, ClassFormat.STATIONS])
def test_the_single_model_says_the_same(seed: int, form: ClassFormat) -> None:
    table = a_set_table((12, 6, 4), seed)
    table = replace(table, kit_counts=tuple(min(n, 2) for n in table.kit_counts))
    kinds = kinds_of_offsets(form, 4)
    group_of = dealt(table, len(kinds[0]))
    answer = solve_in_turns(table, group_of, kinds, 60.0)
    for offsets in kinds:
        yardstick = solve_turns_with_highs(table, group_of, offsets, 60.0)
        assert yardstick.is_proven
        assert answer.by_offsets[offsets].price == yardstick.price


def test_offsets_with_the_same_divisor_ask_the_same() -> None:
    assert kinds_of_offsets(ClassFormat.STAGGERED, 8) == ((0, 1), (0, 2), (0, 4))
    assert kinds_of_offsets(ClassFormat.STAGGERED, 7) == ((0, 1),)
    table = a_set_table((12, 6, 4), 1)
    table = replace(table, kit_counts=tuple(min(n, 2) for n in table.kit_counts))
    group_of = dealt(table, 2)
    one = solve_in_turns(table, group_of, ((0, 1),), 60.0)
    three = solve_in_turns(table, group_of, ((0, 3),), 60.0)
    assert one.best.price == three.best.price
