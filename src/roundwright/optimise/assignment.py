"""Scarce kit as an assignment: who gets which unit, place by place, where nothing else couples."""

import numpy as np
from scipy.optimize import linear_sum_assignment

from roundwright.optimise.choice_value import Choice
from roundwright.optimise.instance import Alternative, Instance
from roundwright.optimise.kit_choice import KitKey

_NEVER = 10**9


def assigned(instance: Instance) -> Choice | None:
    """Give the cheapest choice together, or None where the assignment does not apply.

    It applies when each alternative uses at most one scarce kit, everyone the same
    units of it, without tails, and no limit, version or third mass can couple.
    Prices are then each place's own, so the answer is exact for the price.
    """
    if not _applies(instance):
        return None
    columns = [_place(instance, place) for place in range(instance.places)]
    made = [column for column in columns if column is not None]
    if len(made) < len(columns):
        return None
    return tuple(tuple(column[p] for column in made) for p in range(len(instance.people)))


def _applies(instance: Instance) -> bool:
    for p, dose in enumerate(instance.doses):
        row = instance.table[p]
        if sum(max(a.contacts for a in options) for options in row) > dose.contact_limit:
            return False
        if sum(max(a.low_hops for a in options) for options in row) > dose.low_hop_limit:
            return False
        masses = {a.mass_g for options in row for a in options} - {0}
        holding = sum(any(a.mass_g for a in options) for options in row)
        if min(len(masses), holding) > 2 and instance.problem.costs.third_mass:
            return False
    for place in range(instance.places):
        column = [a for row in instance.table for a in row[place]]
        if len({s for a in column for s in a.signatures}) > 1:
            return False
        units: dict[KitKey, set[int]] = {}
        for alternative in column:
            if alternative.main_kit != alternative.last_kit or len(alternative.main_kit) > 1:
                return False
            for key, n in alternative.main_kit:
                units.setdefault(key, set()).add(n)
        if any(len(n) > 1 for n in units.values()):
            return False
    return True


def _place(instance: Instance, place: int) -> list[int] | None:
    """Assign people to units of scarce kit, or to a column of their own without any."""
    people = range(len(instance.people))
    units = {key: n for row in instance.table for a in row[place] for key, n in a.main_kit}
    slots = [key for key, n in sorted(units.items()) for _ in range(instance.counts[key] // n)]
    prices = np.full((len(people), len(slots) + len(people)), _NEVER, dtype=np.int64)
    takes = np.zeros(prices.shape, dtype=np.int64)
    for p in people:
        for k, alternative in enumerate(instance.table[p][place]):
            for column in _columns(alternative, slots, p):
                if alternative.price < prices[p, column]:
                    prices[p, column], takes[p, column] = alternative.price, k
    rows, columns = linear_sum_assignment(prices)
    if any(prices[p, c] >= _NEVER for p, c in zip(rows, columns, strict=True)):
        return None
    return [int(takes[p, c]) for p, c in zip(rows, columns, strict=True)]


def _columns(alternative: Alternative, slots: list[KitKey], person: int) -> list[int]:
    if not alternative.main_kit:
        return [len(slots) + person]
    key = alternative.main_kit[0][0]
    return [k for k, slot in enumerate(slots) if slot == key]
