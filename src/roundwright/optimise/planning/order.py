"""The best order of a set: exact, over all subsets that may stand before an exercise.

What counts is which two stand side by side and which stand at the ends; the rest of
a class's price is the same for every order with equal ends. For up to twelve exercises.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from roundwright.optimise.planning.exercise_facts import Neighbours

Best = tuple[int, tuple[str, ...], tuple[int, ...]]
"""Price, names in order, exercises in order."""


@dataclass(frozen=True, slots=True)
class OrderRules:
    """Who may stand where.

    Parameters
    ----------
    names : sequence of str
        Exercises by number; of equal orders the one with the smaller names is taken.
    fixed : dict of exercise to place
        Kept places, from 0.
    never_at : frozenset of (exercise, place)
        Places ruled out.
    ring : bool
        Whether the last is a neighbour of the first.
    all_ends : bool
        Whether every place is first and last for some group (stations).
    """

    names: Sequence[str]
    neighbours: Neighbours
    fixed: dict[int, int]
    never_at: frozenset[tuple[int, int]]
    ring: bool = False
    all_ends: bool = False

    def may_stand(self, exercise: int, place: int, places: int) -> bool:
        """Say whether an exercise may stand at a place, whatever its neighbours."""
        if self.fixed.get(exercise, place) != place or (exercise, place) in self.never_at:
            return False
        is_end = self.all_ends or place in (0, places - 1)
        return not (is_end and self.neighbours.not_at_ends[exercise])


def best_orders(chosen: frozenset[int], rules: OrderRules) -> dict[tuple[int, int], Best]:
    """Give the best order for each first and last exercise that allow one.

    Returns
    -------
    dict
        By (first, last): neighbours' price, names, order. Empty: no good order.
    """
    members, places = sorted(chosen), len(chosen)
    found: dict[tuple[int, int], Best] = {}
    for first in members:
        if not rules.may_stand(first, 0, places):
            continue
        for last, best in _from(first, members, rules).items():
            price = best[0]
            if rules.ring and places > 2:
                if rules.neighbours.forbidden[last, first]:
                    continue
                price += int(rules.neighbours.price[last, first])
            found[first, last] = (price, best[1], best[2])
    return found


def _from(first: int, members: Sequence[int], rules: OrderRules) -> dict[int, Best]:
    """Give the best order of all members from one first to each last."""
    places, neighbours, names = len(members), rules.neighbours, rules.names
    layer: dict[tuple[frozenset[int], int], Best] = {
        (frozenset((first,)), first): (0, (names[first],), (first,))
    }
    for place in range(1, places):
        following: dict[tuple[frozenset[int], int], Best] = {}
        for (before, at), (price, named, order) in layer.items():
            for e in members:
                if (
                    e in before
                    or neighbours.forbidden[at, e]
                    or not rules.may_stand(e, place, places)
                ):
                    continue
                key = (before | {e}, e)
                better = (price + int(neighbours.price[at, e]), (*named, names[e]), (*order, e))
                if key not in following or better < following[key]:
                    following[key] = better
        layer = following
    return {at: best for (_, at), best in layer.items()}
