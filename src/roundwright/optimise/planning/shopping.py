"""What is worth buying: one more pair of a mass, or one more item, and who gains by it.

Each is fitted again with the same exercises and format, and listed only when the plan
becomes better: shorter, or of less price. Only kit that runs short somewhere can help.
"""

from collections.abc import Iterator

from roundwright.foundation.seeds import DEFAULT_SEED
from roundwright.optimise.fit import fit
from roundwright.optimise.instance import Alternative, Instance, make_instance
from roundwright.optimise.kit_choice import KitKey, Rack
from roundwright.optimise.options import Option
from roundwright.optimise.planning.changes import with_spec
from roundwright.optimise.planning.clash_members import with_more
from roundwright.optimise.planning.ways_out import PLAN_ID
from roundwright.plan.core import Cell, Core
from roundwright.plan.outcome import Budget, WayOut
from roundwright.plan.problem import Problem

MOST_TRIED = 24
"""Kinds of kit that are fitted again at most, those of which most is wanted first; our choice."""
KIND = "one_more"

Wish = WayOut
"""One thing to buy: `persons` stop compromising; price and overrun before stand in `figures`."""


def shopping_list(
    problem: Problem, core: Core, seed: int = DEFAULT_SEED, budget: Budget = Budget.QUICK
) -> tuple[Wish, ...]:
    """Give what would make this class better if the hall had it, the best first.

    Parameters
    ----------
    problem : Problem
        The class with its exercises.
    core : Core
        A plan of it; its format is kept.
    seed, budget
        As for the fit. The class is fitted once as it is and once for each kind of kit.

    Returns
    -------
    tuple of WayOut
        `persons` are those whose version comes nearer their level or whose load comes nearer its
        target; `figures` hold units, unit_mass_g, price_before, overrun_before_s and
        `worse`, the number of people whose own price rises.
    """
    asked = with_spec(problem, format=core.class_.format)
    before = fit(asked, seed=seed, budget=budget, plan_id=PLAN_ID)
    if before.core is None or before.outcome.cost is None:
        return ()
    own_before = own_prices(asked, before.core)
    wishes = []
    for name, units, mass_g in _short_of(asked):
        more = asked.model_copy(update={"kit": with_more(asked.kit, {name: units})})
        after = fit(more, seed=seed, budget=budget, plan_id=PLAN_ID)
        if after.core is None or after.outcome.cost is None:
            continue
        then = (after.outcome.overrun_s, after.outcome.cost)
        if then >= (before.outcome.overrun_s, before.outcome.cost):
            continue
        better, worse = _falls_and_rises(own_before, own_prices(more, after.core))
        figures = {
            "units": units,
            "price_before": before.outcome.cost,
            "overrun_before_s": before.outcome.overrun_s,
            "worse": len(worse),
        }
        wishes.append(
            Wish(
                kind=KIND,
                item="dumbbell" if mass_g else name,
                persons=better,
                figures=figures | ({"unit_mass_g": mass_g} if mass_g else {}),
                cost=after.outcome.cost,
                overrun_s=after.outcome.overrun_s,
            )
        )
    return tuple(sorted(wishes, key=lambda w: (w.overrun_s, w.cost, -len(w.persons), w.item)))


def _short_of(problem: Problem) -> Iterator[tuple[str, int, int]]:
    """Give (name, further units, mass in g or 0) of kit that not everyone could have at once."""
    instance = make_instance(problem)
    rack = Rack(problem.kit, problem.spec.room_id, problem.rules)
    lonely = {(m.mass_g, "") for m in rack.masses if m.count < 2}
    wanted = sorted(
        {*instance.counts, *lonely}, key=lambda key: (-_people_wanting(instance, key), key)
    )
    for mass_g, item_id in wanted[:MOST_TRIED]:
        yield (str(mass_g), 2, mass_g) if mass_g else (item_id, 1, 0)


def _people_wanting(instance: Instance, key: KitKey) -> int:
    """Count the places at which somebody's cheapest alternative uses this kit."""
    cheapest = [
        min(options, key=lambda a: a.price) for row in instance.table for options in row if options
    ]
    return sum(any(k == key for k, _ in a.main_kit) for a in cheapest)


def own_prices(problem: Problem, core: Core) -> dict[tuple[str, int], int]:
    """Give what each person's version and load cost at each position, by (person, position).

    Versions in the room are not in it. The table is that of a class all together; what is
    not in it (an easier last place of a group at stations) is left out.
    """
    instance = make_instance(problem)
    prices: dict[tuple[str, int], int] = {}
    for p, person in enumerate(instance.people):
        for position in range(1, instance.positions + 1):
            mine = [c for c in core.cells if (c.person_id, c.position) == (person, position)]
            price = _price_of(min(mine, key=lambda c: c.round), instance.table[p][position - 1])
            if price is not None:
                prices[person, position] = price
    return prices


def _price_of(cell: Cell, options: tuple[Alternative, ...]) -> int | None:
    alike = [
        a.price
        for a in options
        if isinstance(a.what, Option)
        and a.what.state is cell.state
        and a.what.mass_g == cell.unit_mass_g
        and (a.what.main is None or a.what.main.signature == cell.signature)
    ]
    return min(alike, default=None)


def _falls_and_rises(
    before: dict[tuple[str, int], int], after: dict[tuple[str, int], int]
) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Give the people whose own price falls, and those whose own price rises."""
    change: dict[str, int] = {}
    for key in before.keys() & after.keys():
        change[key[0]] = change.get(key[0], 0) + after[key] - before[key]
    return (
        tuple(sorted(p for p, points in change.items() if points < 0)),
        tuple(sorted(p for p, points in change.items() if points > 0)),
    )
