"""Groups that take turns, on a set table: who stands where when, and what a shared interval costs.

Group g works, in interval t of a round, the exercise at place (t + its offset) mod places.
People are dealt to the groups by load, in a snake, beforehand; set, order and everyone's ways
are chosen. A group alone with the whole rack gives each exercise its price (kit
numbered by group, so that the planner's own prices and cuts hold); what the groups want in one
interval is looked at for the sets that come up: an order in which nothing collides costs
nothing more, otherwise one exact model an order, the most promising first.
"""

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property
from itertools import permutations

import numpy as np
from numpy.typing import NDArray

from benchmarks.decomposition import KIND, Arranged, Decomposition, Trace
from benchmarks.yardstick_highs import SetAnswer
from roundwright.goals.class_wish import ClassFormat
from roundwright.optimise.planning.coupling import NODES, Coupling, Stand
from roundwright.optimise.planning.joint_price import add_together
from roundwright.optimise.planning.set_table import SetTable, Way
from roundwright.optimise.solver import Ended, Model, Work

MOST_ORDERS = 24
"""Exact models of one set before it is left with its bound; our choice."""
Order = tuple[int, ...]
Use = NDArray[np.int64]


def dealt(table: SetTable, number: int) -> tuple[int, ...]:
    """Give each person's group: by the masses they would like, in a snake."""
    wishes = [
        sum(min(row[p], key=lambda w: w.price).mass_g for row in table.alternatives if row[p])
        for p in range(len(table.people))
    ]
    turns = [*range(number), *reversed(range(number))]
    group_of = [0] * len(wishes)
    for rank, p in enumerate(sorted(range(len(wishes)), key=lambda p: (-wishes[p], p))):
        group_of[p] = turns[rank % len(turns)]
    return tuple(group_of)


def apart(table: SetTable, group_of: Sequence[int]) -> SetTable:
    """Give every group a rack of its own."""
    kinds = len(table.kit_counts)

    def own(way: Way, p: int) -> Way:
        return replace(way, kit=tuple((group_of[p] * kinds + k, n) for k, n in way.kit))

    return replace(
        table,
        alternatives=tuple(
            tuple(tuple(own(way, p) for way in ways) for p, ways in enumerate(row))
            for row in table.alternatives
        ),
        kit_counts=table.kit_counts * (max(group_of) + 1),
    )


@dataclass
class Turns:
    """One way for groups to take turns, as what a set costs at least and with its best order.

    Parameters
    ----------
    table : SetTable
        With one rack for all, and without a burst.
    group_of : by person
    offsets : by group
        How many places ahead each stands.
    left : int, optional
        The least bound of the sets that were given up without proof, their own price included.
    """

    table: SetTable
    group_of: tuple[int, ...]
    offsets: tuple[int, ...]
    left: int | None = None
    orders: dict[frozenset[int], Order] = field(default_factory=dict)

    @cached_property
    def _all_orders(self) -> NDArray[np.int64]:
        """Every order of the places as a ring: the first stands still."""
        rest = permutations(range(1, self.table.rules.places))
        return np.array([(0, *order) for order in rest], dtype=np.int64)

    def arranged(self, coupling: Coupling, stands: Sequence[Stand], enough: int | None) -> Arranged:
        """Give the price of a set with its best order, the set's own price apart, and a bound."""
        exercises = [e for e, _ in stands]
        alone = coupling.joint(stands)
        if alone.price is None:
            return None, None
        excess = self._excess(self._use(exercises, alone.ways))
        first = int(excess.argmin())
        if excess[first] == 0:
            self._note(exercises, first)
            return alone.price, alone.price
        over_round = self._solve(exercises, None, relaxed=True)
        if over_round is None:
            return None, None
        return self._by_models(exercises, excess, max(alone.price, over_round), enough)

    def _use(self, exercises: Sequence[int], ways: Sequence[Sequence[int]]) -> Use:
        """Count units by group, exercise and kit."""
        shape = (len(self.offsets), len(exercises), len(self.table.kit_counts))
        use = np.zeros(shape, dtype=np.int64)
        for i, e in enumerate(exercises):
            for p, k in enumerate(ways[i]):
                for key, units in self.table.alternatives[e][p][k].kit:
                    use[self.group_of[p], i, key] += units
        return use

    def _excess(self, use: Use) -> Use:
        """Count the units that are missing, by order."""
        orders, places = self._all_orders, self.table.rules.places
        counts = np.array(self.table.kit_counts)
        missing = np.zeros(len(orders), dtype=np.int64)
        for t in range(places):
            total = sum(
                use[g][orders[:, (t + offset) % places]] for g, offset in enumerate(self.offsets)
            )
            missing += np.maximum(total - counts, 0).sum(axis=1)
        return missing

    def _by_models(
        self, exercises: Sequence[int], excess: Use, least: int, enough: int | None
    ) -> Arranged:
        """Solve order after order, until the best meets the bound for all of them.

        An order's relaxed price bounds it; only those that may win are solved exactly.
        """
        best: int | None = None
        most = enough
        for n, k in enumerate(np.argsort(excess, kind="stable")):
            if most is not None and least >= most:
                break
            if n >= MOST_ORDERS:
                whole = least + self.table.set_price(frozenset(exercises))
                self.left = whole if self.left is None else min(self.left, whole)
                return best, None
            for relaxed in (True, False):
                solved = self._solve(exercises, int(k), relaxed=relaxed)
                if solved is None or (most is not None and solved >= most):
                    break
            else:
                best = most = solved
                self._note(exercises, int(k))
        return best, most

    def _solve(self, exercises: Sequence[int], order: int | None, *, relaxed: bool) -> int | None:
        """Price a set in one order, or bound it; None: there is no way.

        Without an order the kit of all intervals counts together: a bound for every order.
        """
        model, table = Model(), self.table
        numbers = add_together(
            model, [table.alternatives[e] for e in exercises], replace(table, kit_factor=10**6)
        )
        places = table.rules.places
        rows: dict[tuple[int, int], list[tuple[int, float]]] = {}
        for t in range(places):
            for p, group in enumerate(self.group_of):
                at = (t + self.offsets[group]) % places
                i = at if order is None else int(self._all_orders[order, at])
                ways = table.alternatives[exercises[i]][p]
                for n, way in zip(numbers[i][p], ways, strict=True):
                    for key, units in way.kit:
                        row = (0 if order is None else t, key)
                        rows.setdefault(row, []).append((n, float(units)))
        for (_, key), terms in sorted(rows.items()):
            model.row(terms, high=table.kit_counts[key] * (places if order is None else 1))
        if relaxed:
            answer = model.reduced_costs()
            return None if answer is None else int(np.ceil(answer[1] - 1e-4))
        solved = model.solve(Work(NODES, 0, 0), 1)
        if solved.ended is Ended.INFEASIBLE:
            return None
        if solved.ended is Ended.LIMIT:
            raise RuntimeError("the model of one order was not solved to its end")
        return solved.bound

    def _note(self, exercises: Sequence[int], order: int) -> None:
        self.orders[frozenset(exercises)] = tuple(exercises[i] for i in self._all_orders[order])


@dataclass(frozen=True)
class TurnsAnswer:
    """The answers by offsets, and the price of the best set where groups do not meet."""

    by_offsets: dict[tuple[int, ...], SetAnswer]
    alone: SetAnswer
    trace: Trace

    @property
    def best(self) -> SetAnswer:
        """The cheapest; proven where every offset is."""
        answers = list(self.by_offsets.values())
        priced = [a for a in answers if a.price is not None]
        proven = all(a.is_proven for a in answers)
        if not priced:
            return replace(answers[0], is_proven=proven)
        best = min(priced, key=lambda a: a.price or 0)
        return replace(best, is_proven=proven, bound=min(a.bound for a in answers))


def kinds_of_offsets(form: ClassFormat, places: int) -> tuple[tuple[int, ...], ...]:
    """Give the offsets that ask different questions, two groups where they are staggered.

    Where any order may be taken only the common divisor of offset and places tells.
    """
    if form is ClassFormat.STATIONS:
        return (tuple(range(places)),)
    return tuple((0, d) for d in range(1, places // 2 + 1) if places % d == 0)


def solve_in_turns(
    table: SetTable, group_of: tuple[int, ...], kinds: Sequence[tuple[int, ...]], limit_s: float
) -> TurnsAnswer:
    """Solve every kind of offsets: first as if groups did not meet, then what they share."""
    made = Decomposition(apart(table, group_of))
    start = made.clock()
    alone, trace = made.solve(limit_s)
    found: dict[tuple[int, ...], SetAnswer] = {}
    for offsets in kinds:
        turns = Turns(table, group_of, offsets)
        if alone.price is not None:
            stands = [(e, KIND) for e in sorted(alone.chosen)]
            price, _ = turns.arranged(made.coupling, stands, None)
            if price is not None and price + table.set_price(alone.chosen) == alone.price:
                found[offsets] = alone
                continue
        elif alone.is_proven:
            found[offsets] = alone
            continue
        turns.left = None
        left_s = max(0.0, limit_s - (made.clock() - start))
        answer, more = made.solve(left_s, turns.arranged)
        trace.masters += more.masters
        trace.cuts = max(trace.cuts, more.cuts)
        if turns.left is not None and (answer.price is None or turns.left < answer.price):
            bound = min(answer.bound, float(turns.left))
            answer = replace(answer, bound=bound, is_proven=False)
        found[offsets] = answer
    return TurnsAnswer(found, alone, trace)
