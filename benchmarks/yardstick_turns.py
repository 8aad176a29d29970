"""The yardstick for groups that take turns: the single set model with the intervals in it.

Beside the rows of `yardstick_highs`: one binary for each exercise and place, and for each group,
place and kit the units in use, which follow the exercise that stands there. In an interval
the groups' units are within the rack.
"""

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import replace

from benchmarks.yardstick_highs import (
    INFINITY,
    Model,
    SetAnswer,
    Terms,
    add_people,
    add_set_rules,
    answer_of,
    worth_listing,
)
from roundwright.optimise.planning.set_table import SetTable


def solve_turns_with_highs(
    table: SetTable, group_of: Sequence[int], offsets: Sequence[int], limit_s: float = 120.0
) -> SetAnswer:
    """Solve the single model for one set of offsets."""
    model, exercises = Model(), range(len(table.exercises))
    places, groups = range(table.rules.places), range(len(offsets))
    picks = [
        model.column(1.0 if all(table.alternatives[e]) else 0.0, table.own_price[e])
        for e in exercises
    ]
    add_set_rules(table, model, picks)
    listed = add_people(replace(table, kit_factor=len(offsets)), model, picks)
    stands = {(e, k): model.column(1.0) for e in exercises for k in places}
    for e in exercises:
        model.row(0.0, [(picks[e], -1.0), *((stands[e, k], 1.0) for k in places)], 0.0)
    for k in places:
        model.row(1.0, [(stands[e, k], 1.0) for e in exercises], 1.0)
    used = {
        (g, k, key): model.column(count, integer=False)
        for g in groups
        for k in places
        for key, count in enumerate(table.kit_counts)
    }
    for e in exercises:
        for g in groups:
            wanted: dict[int, Terms] = defaultdict(list)
            for p in (p for p in range(len(table.people)) if group_of[p] == g):
                ways = worth_listing(table.alternatives[e][p])
                for x, way in zip(listed[e][p], ways, strict=True):
                    for key, units in way.kit:
                        wanted[key].append((x, float(units)))
            for key, terms in wanted.items():
                most = min(float(table.kit_counts[key]), sum(units for _, units in terms))
                model.row(-INFINITY, [*terms, (picks[e], -most)], 0.0)
                for k in places:
                    row = [(used[g, k, key], 1.0), (stands[e, k], -most)]
                    model.row(-most, [*row, *((x, -units) for x, units in terms)], INFINITY)
    for t in places:
        for key, count in enumerate(table.kit_counts):
            at = [(used[g, (t + offsets[g]) % len(places), key], 1.0) for g in groups]
            model.row(-INFINITY, at, count)
    return answer_of(table, model, picks, limit_s)
