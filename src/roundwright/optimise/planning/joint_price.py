"""The least that several exercises cost together: masses a person, landings, low hops.

Alone each exercise has its price; together a person may need a third mass, or must
land less. What comes on top is the *extra* of a set, and of every part of it.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from roundwright.optimise.planning.exercise_price import ExercisePrice, add_exercise, kit_fits
from roundwright.optimise.planning.set_table import SetTable, Way, Ways
from roundwright.optimise.solver import Ended, Model, Solved, Work

WaysOf = Sequence[Ways]
"""One exercise's ways, by person."""


@dataclass(frozen=True, slots=True)
class JointPrice:
    """What exercises cost together with the burst.

    Parameters
    ----------
    price : int or None
        The least price, or a bound below it; None: it is impossible.
    exact : bool
        Whether the price is that of `ways`.
    ways : tuple of tuple of int
        By exercise and person; the burst's come last. Empty where not known.
    """

    price: int | None
    exact: bool
    ways: tuple[tuple[int, ...], ...] = ()


def joint_price(
    some: Sequence[WaysOf], table: SetTable, work: Work, seed: int, *, relaxed: bool = False
) -> JointPrice:
    """Price several exercises and the burst as one model.

    Parameters
    ----------
    relaxed : bool
        People may be divided between ways: a bound, found fast. Where nobody is divided
        in it, it is the price.
    """
    model = Model()
    numbers = add_together(model, some, table)
    if relaxed:
        _relax(model)
    solved = model.solve(work, seed)
    if solved.ended is Ended.INFEASIBLE:
        return JointPrice(None, exact=True)
    if solved.ended is Ended.LIMIT:
        return JointPrice(solved.bound, exact=False)
    if relaxed:
        return _undivided(some, numbers, solved, table)
    ways = tuple(
        tuple(next(k for k, n in enumerate(own) if solved.values[n] == 1) for own in row)
        for row in numbers
    )
    return JointPrice(price_of_ways(some, ways, table), exact=True, ways=ways)


def add_together(model: Model, some: Sequence[WaysOf], table: SetTable) -> list[list[list[int]]]:
    """Add several exercises and the burst to a model, with all that they share.

    Returns
    -------
    list
        The ways' variables by exercise and person; the burst's come last.
    """
    numbers = [
        add_exercise(model, ways_of, table, factor=table.kit_factor, versions=True)
        for ways_of in some
    ]
    numbers.append(add_exercise(model, table.bursts, table, factor=1, versions=False))
    everything = [*some, table.bursts]
    for p in range(len(table.people)):
        mine = [
            (n, way)
            for row, ways_of in zip(numbers, everything, strict=True)
            for n, way in zip(row[p], ways_of[p], strict=True)
        ]
        for limit, terms in (
            (table.contact_limits[p], [(n, float(w.contacts)) for n, w in mine if w.contacts]),
            (table.low_hop_limits[p], [(n, float(w.low_hops)) for n, w in mine if w.low_hops]),
        ):
            if terms:
                model.row(terms, high=limit)
        _add_masses(model, [row[p] for row in numbers], [w[p] for w in everything], table)
    return numbers


def _relax(model: Model) -> None:
    """Let people be divided; the solver's bound wants a whole number in a model: one that is 0."""
    model.whole = [False] * len(model.costs)
    model.add(upper=0, whole=True)


def exercise_at_least(ways_of: WaysOf, table: SetTable, work: Work, seed: int) -> ExercisePrice:
    """Price one exercise with the kit there is, people divided: a bound, or the price."""
    model = Model()
    rows = add_exercise(model, ways_of, table, factor=table.kit_factor, versions=True)
    _relax(model)
    solved = model.solve(work, seed)
    if solved.ended is Ended.INFEASIBLE:
        return ExercisePrice(None, exact=True, ways=None)
    bound = ExercisePrice(solved.bound, exact=False, ways=None)
    if solved.ended is Ended.LIMIT:
        return bound
    values = [[solved.values[n] for n in own] for own in rows]
    if any(own.count(1) != 1 for own in values):
        return bound
    ways = tuple(own.index(1) for own in values)
    taken = [own[k] for own, k in zip(ways_of, ways, strict=True)]
    versions = len({v for way in taken for v in way.versions})
    price = sum(way.price for way in taken) + table.versions_price(versions)
    if price != solved.bound or not kit_fits(taken, table):
        return bound
    return ExercisePrice(price, exact=True, ways=ways)


def _undivided(
    some: Sequence[WaysOf],
    numbers: Sequence[Sequence[Sequence[int]]],
    solved: Solved,
    table: SetTable,
) -> JointPrice:
    """Read a relaxed answer: exact where its rounded values are a plan at its price."""
    bound = JointPrice(solved.bound, exact=False)
    rows = [[[solved.values[n] for n in own] for own in row] for row in numbers]
    if any(own.count(1) != 1 for row in rows for own in row):
        return bound
    ways = tuple(tuple(own.index(1) for own in row) for row in rows)
    if price_of_ways(some, ways, table) != solved.bound or not holds_together(some, ways, table):
        return bound
    return JointPrice(solved.bound, exact=True, ways=ways)


def holds_together(some: Sequence[WaysOf], ways: Sequence[Sequence[int]], table: SetTable) -> bool:
    """Say whether chosen ways stay within kit, landings and low hops; the burst's come last."""
    taken = [
        [ways_of[p][k] for p, k in enumerate(row)]
        for ways_of, row in zip([*some, table.bursts], ways, strict=True)
    ]
    return (
        all(kit_fits(row, table) for row in taken[:-1])
        and kit_fits(taken[-1], table, burst=True)
        and all(
            sum(row[p].contacts for row in taken) <= table.contact_limits[p]
            and sum(row[p].low_hops for row in taken) <= table.low_hop_limits[p]
            for p in range(len(table.people))
        )
    )


def _add_masses(
    model: Model, numbers: Sequence[Sequence[int]], ways: Sequence[Ways], table: SetTable
) -> None:
    """Price each mass beyond two that one person would use."""
    price = table.prices.third_mass
    by_mass: dict[int, list[list[int]]] = {}
    for row, own in zip(numbers, ways, strict=True):
        here: dict[int, list[int]] = {}
        for n, way in zip(row, own, strict=True):
            if way.mass_g:
                here.setdefault(way.mass_g, []).append(n)
        for mass, some in here.items():
            by_mass.setdefault(mass, []).append(some)
    holding = sum(any(w.mass_g for w in own) for own in ways)
    if not price or min(len(by_mass), holding) < 3:
        return
    held = {mass: model.add(upper=1) for mass in sorted(by_mass)}
    for mass, rows in sorted(by_mass.items()):
        for some in rows:
            model.row([(held[mass], 1.0), *((n, -1.0) for n in some)], low=0)
    more = model.add(cost=price)
    model.row([(more, 1.0), *((n, -1.0) for n in held.values())], low=-2)


def price_of_ways(some: Sequence[WaysOf], ways: Sequence[Sequence[int]], table: SetTable) -> int:
    """Count the price of chosen ways in integers; the burst's ways come last."""
    everything = [*some, table.bursts]
    taken = [
        [ways_of[p][k] for p, k in enumerate(row)]
        for ways_of, row in zip(everything, ways, strict=True)
    ]
    total = sum(way.price for row in taken for way in row)
    for row in taken[:-1]:
        total += table.versions_price(len({v for way in row for v in way.versions}))
    for p in range(len(table.people)):
        masses = {row[p].mass_g for row in taken} - {0}
        total += table.prices.third_mass * max(0, len(masses) - 2)
    return total


def couples(taken: Sequence[Sequence[Way]], table: SetTable) -> bool:
    """Say whether ways, each best for its exercise, cost more or break a limit together."""
    for p in range(len(table.people)):
        mine = [row[p] for row in taken]
        if len({w.mass_g for w in mine} - {0}) > 2 and table.prices.third_mass:
            return True
        if sum(w.contacts for w in mine) > table.contact_limits[p]:
            return True
        if sum(w.low_hops for w in mine) > table.low_hop_limits[p]:
            return True
    return not kit_fits(taken[-1], table, burst=True)
