"""A master without ends, in HiGHS: a second opinion on the one of the planner.

Binaries for the exercises alone, the rules of a set, and one column for what comes on top.
"""

from collections.abc import Mapping, Sequence
from math import ceil

from benchmarks.yardstick_highs import INFINITY, Model, add_set_rules, answer_of
from roundwright.optimise.planning.set_table import SetTable

LIMIT_S = 60.0


def cheapest_set(
    table: SetTable,
    prices: Sequence[int | None],
    cuts: Mapping[frozenset[int], int | None],
    known: int | None = None,
) -> tuple[frozenset[int], int] | None:
    """Give the cheapest set left and a bound for all; None where no set is left.

    A price that is `known` makes no difference to it.
    """
    model = Model()
    picks = [
        model.column(0.0 if price is None else 1.0, (price or 0) + own)
        for price, own in zip(prices, table.own_price, strict=True)
    ]
    add_set_rules(table, model, picks)
    on_top = model.column(INFINITY, 1.0, integer=False)
    for part, extra in cuts.items():
        others = len(part) - 1
        if extra is None:
            model.row(-INFINITY, [(picks[e], 1.0) for e in part], others)
        else:
            marks = [(picks[e], -float(extra)) for e in part]
            model.row(-float(extra * others), [(on_top, 1.0), *marks], INFINITY)
    answer = answer_of(table, model, picks, LIMIT_S)
    if answer.price is None:
        return None
    return answer.chosen, ceil(answer.bound - 1e-6)
