"""A second oracle for small tables: exercises stand in slots, kit is counted slot by slot.

It shares only the rules of a set with the other model: who does what is chosen for each
slot and exercise, so that a mistake in the kit rows of one shows against the other.
"""

from collections import defaultdict

from benchmarks.yardstick_highs import (
    INFINITY,
    Model,
    SetAnswer,
    Terms,
    add_set_rules,
    answer_of,
)
from roundwright.optimise.planning.set_table import SetTable


def solve_by_slots(table: SetTable, limit_s: float = 120.0) -> SetAnswer:
    """Solve the slot-indexed model; for small tables only."""
    model, prices = Model(), table.prices
    slots, everything = range(table.rules.places), range(len(table.exercises))
    crowd = range(len(table.people))
    picks = [model.column(1.0, table.own_price[e]) for e in everything]
    stands = {(e, k): model.column(1.0) for e in everything for k in slots}
    for e in everything:
        model.row(0.0, [(picks[e], -1.0), *((stands[e, k], 1.0) for k in slots)], 0.0)
    for k in slots:
        model.row(1.0, [(stands[e, k], 1.0) for e in everything], 1.0)
    for k in slots[1:]:
        earlier = [(stands[e, k - 1], float(e)) for e in everything]
        model.row(1.0, [*((stands[e, k], float(e)) for e in everything), *_less(earlier)], INFINITY)
    add_set_rules(table, model, picks)
    contacts: list[Terms] = [[] for _ in crowd]
    hops: list[Terms] = [[] for _ in crowd]
    held: dict[tuple[int, int], int] = {}
    for k in slots:
        kit: dict[int, Terms] = defaultdict(list)
        number: Terms = []
        for e in everything:
            shown: dict[int, int] = {}
            for p in crowd:
                chosen: Terms = [(stands[e, k], -1.0)]
                for way in table.alternatives[e][p]:
                    x = model.column(1.0, way.price)
                    chosen.append((x, 1.0))
                    contacts[p].append((x, float(way.contacts)))
                    hops[p].append((x, float(way.low_hops)))
                    for item, units in way.kit:
                        kit[item].append((x, float(units)))
                    for version in way.versions:
                        if version not in shown:
                            shown[version] = model.column(1.0)
                        model.row(0.0, [(shown[version], 1.0), (x, -1.0)], INFINITY)
                    if way.mass_g:
                        if (p, way.mass_g) not in held:
                            held[p, way.mass_g] = model.column(1.0)
                        model.row(0.0, [(held[p, way.mass_g], 1.0), (x, -1.0)], INFINITY)
                model.row(0.0, chosen, 0.0)
            number += [(v, -1.0) for v in shown.values()]
        for free, price in (
            (1, prices.further_version),
            (prices.most_versions, prices.crowded_version),
        ):
            beyond = model.column(INFINITY, price, integer=False)
            model.row(-float(free), [(beyond, 1.0), *number], INFINITY)
        for item, terms in kit.items():
            model.row(-INFINITY, terms, table.kit_counts[item] * table.kit_factor)
    _add_bursts(table, model, contacts, hops)
    for p in crowd:
        model.row(-INFINITY, contacts[p], table.contact_limits[p])
        model.row(-INFINITY, hops[p], table.low_hop_limits[p])
        third = model.column(INFINITY, prices.third_mass, integer=False)
        in_hand = [(u, -1.0) for (q, _), u in held.items() if q == p]
        model.row(-2.0, [(third, 1.0), *in_hand], INFINITY)
    return answer_of(table, model, picks, limit_s)


def _less(terms: Terms) -> Terms:
    return [(column, -factor) for column, factor in terms]


def _add_bursts(table: SetTable, model: Model, contacts: list[Terms], hops: list[Terms]) -> None:
    kit: dict[int, Terms] = defaultdict(list)
    for p, ways in enumerate(table.burst):
        columns = [(model.column(1.0, way.price), way) for way in ways]
        model.row(1.0, [(y, 1.0) for y, _ in columns], 1.0)
        for y, way in columns:
            contacts[p].append((y, float(way.contacts)))
            hops[p].append((y, float(way.low_hops)))
            for item, units in way.kit:
                kit[item].append((y, float(units)))
    for item, terms in kit.items():
        model.row(-INFINITY, terms, table.kit_counts[item])
