"""The least that one exercise costs its people: exact, with the versions in the room.

First without kit, over every set of versions at once; only where what everyone likes
best does not fit the rack, a small exact model decides.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from roundwright.optimise.planning.set_table import SetTable, Way, Ways
from roundwright.optimise.solver import Ended, Model, Work

MOST_VERSIONS = 10
"""Up to so many versions of one exercise every set of them is looked at."""
_FAR = 10**9


@dataclass(frozen=True, slots=True)
class ExercisePrice:
    """A price and the ways that give it.

    Parameters
    ----------
    price : int or None
        The least price, or a bound below it where `exact` is False; None: there is
        not enough kit for any allotment.
    ways : tuple of int or None
        The number of each person's way, where known.
    """

    price: int | None
    exact: bool
    ways: tuple[int, ...] | None


def without_kit(ways_of: Sequence[Ways], table: SetTable) -> ExercisePrice:
    """Price an exercise as if there were enough of everything; exact when that fits the rack."""
    versions = 1 + max((v for ways in ways_of for w in ways for v in w.versions), default=-1)
    if versions > MOST_VERSIONS:
        return ExercisePrice(sum(min(w.price for w in ways) for ways in ways_of), False, None)
    best, first = _by_versions(ways_of, versions)
    shown = np.array([bin(mask).count("1") for mask in range(2**versions)])
    total = best.sum(axis=0) + np.array([table.versions_price(int(n)) for n in shown])
    mask = int(np.argmin(total))
    ways = tuple(int(k) for k in first[:, mask])
    fits = kit_fits([w[k] for w, k in zip(ways_of, ways, strict=True)], table)
    return ExercisePrice(int(total[mask]), fits, ways if fits else None)


def _by_versions(
    ways_of: Sequence[Ways], versions: int
) -> tuple[NDArray[np.int64], NDArray[np.int64]]:
    """Give each person's least price, and its way, by the set of versions that may be shown."""
    shape = (len(ways_of), 2**versions)
    best = np.full(shape, _FAR, dtype=np.int64)
    first = np.zeros(shape, dtype=np.int64)
    for p, ways in enumerate(ways_of):
        for k, way in enumerate(ways):
            mask = sum(1 << v for v in set(way.versions))
            if way.price < best[p, mask]:
                best[p, mask], first[p, mask] = way.price, k
    masks = np.arange(2**versions)
    for v in range(versions):
        more = masks[masks & (1 << v) > 0]
        less = more ^ (1 << v)
        better = best[:, less] < best[:, more]
        best[:, more] = np.where(better, best[:, less], best[:, more])
        first[:, more] = np.where(better, first[:, less], first[:, more])
    return best, first


def kit_fits(ways: Sequence[Way], table: SetTable, *, burst: bool = False) -> bool:
    """Say whether chosen ways, done by all at one exercise, stay within the kit."""
    used: dict[int, int] = {}
    for way in ways:
        for key, units in way.kit:
            used[key] = used.get(key, 0) + units
    factor = 1 if burst else table.kit_factor
    return all(units <= table.kit_counts[key] * factor for key, units in used.items())


def with_kit(ways_of: Sequence[Ways], table: SetTable, work: Work, seed: int) -> ExercisePrice:
    """Price an exercise exactly, or give the solver's bound where the work runs out."""
    quick = without_kit(ways_of, table)
    if quick.exact:
        return quick
    model = Model()
    numbers = add_exercise(model, ways_of, table, factor=table.kit_factor, versions=True)
    solved = model.solve(work, seed)
    if solved.ended is Ended.INFEASIBLE:
        return ExercisePrice(None, True, None)
    least = max(solved.bound, quick.price or 0)
    if solved.ended is Ended.LIMIT:
        return ExercisePrice(least, False, None)
    ways = tuple(next(k for k, n in enumerate(row) if solved.values[n] == 1) for row in numbers)
    return ExercisePrice(least, True, ways)


def add_exercise(
    model: Model,
    ways_of: Sequence[Ways],
    table: SetTable,
    *,
    factor: int,
    versions: bool,
) -> list[list[int]]:
    """Add one exercise to a model: one way a person, kit, versions; give the ways' variables."""
    numbers = [[model.add(cost=w.price, upper=1, whole=True) for w in ways] for ways in ways_of]
    use: dict[int, list[tuple[int, float]]] = {}
    shown: dict[int, list[list[int]]] = {}
    for row, ways in zip(numbers, ways_of, strict=True):
        model.row([(n, 1.0) for n in row], low=1, high=1)
        mine: dict[int, list[int]] = {}
        for n, way in zip(row, ways, strict=True):
            for key, units in way.kit:
                use.setdefault(key, []).append((n, float(units)))
            for v in set(way.versions):
                mine.setdefault(v, []).append(n)
        for v, some in mine.items():
            shown.setdefault(v, []).append(some)
    for key, terms in sorted(use.items()):
        model.row(terms, high=table.kit_counts[key] * factor)
    if versions and len(shown) > 1:
        _add_versions(model, shown, ways_of, table)
    return numbers


def _add_versions(
    model: Model, shown: dict[int, list[list[int]]], ways_of: Sequence[Ways], table: SetTable
) -> None:
    prices = table.prices
    marks = {v: model.add(cost=prices.further_version, upper=1) for v in sorted(shown)}
    for v, rows in sorted(shown.items()):
        for some in rows:
            model.row([(marks[v], 1.0), *((n, -1.0) for n in some)], low=0)
    always = any(all(w.versions for w in ways) for ways in ways_of)
    free = model.add(cost=-float(prices.further_version), upper=1)
    if always:
        model.row([(free, 1.0)], low=1, high=1)
    else:
        model.row([(free, -1.0), *((n, 1.0) for n in marks.values())], low=0)
    if len(shown) > prices.most_versions and prices.crowded_version:
        over = model.add(cost=prices.crowded_version)
        model.row(
            [(over, 1.0), *((n, -1.0) for n in marks.values())], low=-float(prices.most_versions)
        )
