"""Tier 2: exercises are swapped for others, the least harm over all that may stand there (C4).

First one place, then two together and so on, as long as more places leave fewer people out.
Each pick is weighed by what it must cost at least; those that cannot beat the best known are
not searched. The rest are searched as tier 1 searches, the most promising first.
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from heapq import heappop, heappush, merge
from itertools import combinations

from roundwright.library.catalogue import Catalogue
from roundwright.optimise.changing.free_places import FreePlaces, Pick
from roundwright.optimise.changing.makers import Makers
from roundwright.optimise.changing.mended_groups import old_offsets
from roundwright.optimise.changing.one_question import Best, least_of
from roundwright.optimise.changing.swap_bounds import SAMPLE, SwapBounds
from roundwright.optimise.solver import Work
from roundwright.plan.changing.change import Harm
from roundwright.plan.changing.restate import Restated
from roundwright.plan.core import CellState, Core

MOST_WEIGHED = 400
"""How many picks for several places at once are weighed; our choice."""

Key = tuple[int, int, int, int, int, int]
"""Left out, places swapped, then the rest of the harm in its order."""
Bound = tuple[int, int]
"""People left out, and points while nobody is disturbed, at least."""
Weighed = tuple[Bound, tuple[str, ...], Pick]


@dataclass(frozen=True, slots=True)
class Swap:
    """The best swap: the class with it, what was asked of it, and the answer."""

    restated: Restated
    best: Best
    places: frozenset[int]


def places_in_need(before: Core, restated: Restated, core: Core) -> tuple[int, ...]:
    """Give where the tool is to choose: open places, else those that newly leave somebody out.

    Parameters
    ----------
    core : Core
        The best answer with the same exercises. Who has a lock at a place is in no need there.
    """
    if restated.open_positions:
        return restated.open_positions
    locked = {(k.person, k.position) for k in restated.problem.spec.keep}
    rested = {(c.person_id, c.position) for c in before.cells if c.state is CellState.SIT_OUT}
    return tuple(
        sorted(
            {
                c.position
                for c in core.cells
                if c.state is CellState.SIT_OUT
                and (c.person_id, c.position) not in locked
                and (c.person_id, restated.came_from.get(c.position)) not in rested
            }
        )
    )


class TierTwo:
    """The search of swaps for one change.

    Parameters
    ----------
    library : Catalogue
        Everything that may be put into the class.
    hears : callable, optional
        Told of each better swap as it is found, with the bound so far.
    bounds : callable, optional
        Told what no swap can be below, as it becomes known.
    """

    def __init__(
        self,
        before: Core,
        overrun_s: int,
        restated: Restated,
        library: Catalogue,
        makers: Makers,
        work: Work,
        seed: int,
        hears: Callable[[Swap], None] | None = None,
        bounds: Callable[[Harm], None] | None = None,
    ) -> None:
        offsets = sorted({0, *old_offsets(before)})
        self._bounds = SwapBounds(before, overrun_s, restated, library, makers, offsets)
        self._free = FreePlaces(restated.problem, library, offsets)
        self._work = work
        self._seed = seed
        self._hears = hears
        self._tell_bound = bounds
        self._best: Swap | None = None
        self._limit: Key | None = None
        self._is_open = False
        self._unfinished: list[Key] = []
        self._weighings_left = MOST_WEIGHED

    def run(self, positions: tuple[int, ...], left_out: int | None) -> Swap | None:
        """Give the swaps of least harm, None where none may be made or none is better.

        Parameters
        ----------
        positions : tuple of int
            Places that may be given other exercises.
        left_out : int, optional
            How many people and places are left out without a swap: fewer are sought, for an
            exercise is not taken from everybody for less. None: the places are open, and all
            are filled, or as many as can be.
        """
        self._is_open = left_out is None
        self._limit = None if left_out is None else (left_out, 0, 0, 0, 0, 0)
        sizes = range(1, len(positions) + 1)
        for size in reversed(sizes) if self._is_open else sizes:
            if not self._is_open or (self._best is None and not self._unfinished):
                self._by_size(positions, size)
        return None if self._best is None else self._with_least(self._best)

    @property
    def unfinished(self) -> Harm | None:
        """Give what no swap that was left unsearched can be below; None: all were searched."""
        open_ones = [key for key in self._unfinished if not self._is_reached(key)]
        return _below(open_ones) if open_ones else None

    def _by_size(self, positions: tuple[int, ...], size: int) -> None:
        """Search the picks for so many places at once."""
        first = self._of_so_many(positions, size)
        if self._is_reached(first):
            return
        if self._tell_bound is not None:
            self._tell_bound(_below([first, *self._unfinished]))
        if self._work.groupings_left <= 0:
            self._unfinished.append(first)
            return
        for (left_out, price), _, pick in self._weighed(positions, size):
            key = (left_out, size, 0, 0, 0, price)
            if self._is_reached(key):
                return
            if size > 1 and not self._free.allows(pick):
                continue
            if self._work.groupings_left <= 0 or self._weighings_left <= 0:
                self._unfinished.append(key)
                return
            self._weighings_left -= size > 1
            places = frozenset(e.position for e in pick)
            swapped = self._bounds.with_pick(pick)
            least = self._bounds.weigh(
                swapped, places, lambda n, points: self._is_reached((n, size, 0, 0, 0, points))
            )
            if self._is_reached((least[0], size, 0, 0, 0, least[1])):
                continue
            self._work.groupings_left -= 1
            self._work.spend_round()
            ahead = [key]
            if not self._is_open and size < len(positions):
                ahead.append(self._of_so_many(positions, size + 1))
            self._search(swapped, places, ahead)

    def _search(self, swapped: Restated, places: frozenset[int], ahead: list[Key]) -> None:
        """Search one pick; `ahead` is what those that follow cannot be below."""
        size = len(places)

        def heard(found: Best) -> None:
            if self._hears is not None and not self._is_reached(_key(found.harm, size)):
                self._hears(self._with_least(Swap(swapped, found, places), ahead))

        today = self._bounds.question(swapped)
        found = least_of(today, self._work, self._seed, heard, below=self._of_use(size))
        key = _key(found.harm, size)
        if not found.is_proven:
            self._unfinished.append(_key(found.least, size))
        if not self._is_reached(key):
            self._best, self._limit = Swap(swapped, found, places), key
            if self._hears is not None:
                self._hears(self._with_least(self._best, ahead))

    def _of_use(self, size: int) -> Harm | None:
        """Give below what first four figures a swap of so many places must be; None: any."""
        if self._limit is None:
            return None
        left_out, places, overrun_s, people, cells, _ = self._limit
        if places != size:
            any_number = 10**9
            return Harm(
                left_out=left_out - 1,
                overrun_s=any_number,
                people=any_number,
                cells=any_number,
                price=0,
            )
        return Harm(left_out=left_out, overrun_s=overrun_s, people=people, cells=cells + 1, price=0)

    def _is_reached(self, key: Key) -> bool:
        """Say whether something is no better than the best known."""
        return self._limit is not None and key >= self._limit

    def _of_so_many(self, positions: tuple[int, ...], size: int) -> Key:
        """Give what swaps of so many places or more cannot be below."""
        return self._bounds.left_elsewhere(frozenset(positions)), size, 0, 0, 0, 0

    def _with_least(self, swap: Swap, ahead: Sequence[Key] = ()) -> Swap:
        """Give a swap with what no swap can be below.

        Parameters
        ----------
        ahead : sequence of tuple
            What those that follow cannot be below, if any follow.
        """
        best = swap.best
        mine = _key(best.harm, len(swap.places))
        keys = [mine, *ahead, *(k for k in self._unfinished if k < mine)]
        is_proven = keys == [mine]
        return replace(swap, best=replace(best, is_proven=is_proven, least=_below(keys)))

    def _weighed(self, positions: tuple[int, ...], size: int) -> Iterator[Weighed]:
        """Give picks for so many places by a quick bound, the least first."""
        if size == 1:
            return iter(sorted(self._single(positions), key=lambda one: one[:2]))
        return merge(
            *(self._several(frozenset(places)) for places in combinations(positions, size)),
            key=lambda one: one[:2],
        )

    def _single(self, positions: tuple[int, ...]) -> Iterator[Weighed]:
        for position in positions:
            place = frozenset({position})
            for exercise in self._free.candidates(position, place):
                pick = (exercise,)
                if self._free.allows(pick):
                    some = self._bounds.weigh(self._bounds.with_pick(pick), place, most=SAMPLE)
                    yield some, (exercise.exercise_id,), pick

    def _several(self, places: frozenset[int]) -> Iterator[Weighed]:
        """Give picks for several places, the least sum of their own bounds first."""
        rows: list[list[tuple[Bound, Pick]]] = []
        for position in sorted(places):
            picks = [(e,) for e in self._free.candidates(position, places)]
            row = [(self._bounds.for_some(pick), pick) for pick in picks]
            rows.append(sorted(row, key=lambda one: (one[0], one[1][0].exercise_id)))
        if not all(rows):
            return
        left_out = self._bounds.left_elsewhere(places)
        price = self._bounds.least_price_elsewhere(places)

        def weighed(at: tuple[int, ...]) -> tuple[Bound, tuple[str, ...], tuple[int, ...]]:
            chosen = [row[k] for row, k in zip(rows, at, strict=True)]
            bound = (
                left_out + sum(one[0][0] for one in chosen),
                price + sum(one[0][1] for one in chosen),
            )
            return bound, tuple(one[1][0].exercise_id for one in chosen), at

        first = (0,) * len(rows)
        ahead, seen = [weighed(first)], {first}
        while ahead:
            bound, names, at = heappop(ahead)
            yield bound, names, tuple(row[k][1][0] for row, k in zip(rows, at, strict=True))
            for k in range(len(at)):
                step = (*at[:k], at[k] + 1, *at[k + 1 :])
                if step[k] < len(rows[k]) and step not in seen:
                    seen.add(step)
                    heappush(ahead, weighed(step))


def _key(harm: Harm, size: int) -> Key:
    left_out, *rest = harm.order
    overrun_s, people, cells, price = rest
    return left_out, size, overrun_s, people, cells, price


def _below(keys: Sequence[Key]) -> Harm:
    """Give a harm that none of some keys is below, whatever the number of places."""
    left_out = min(key[0] for key in keys)
    overrun_s, people, cells, price = min(key[2:] for key in keys if key[0] == left_out)
    return Harm(left_out=left_out, overrun_s=overrun_s, people=people, cells=cells, price=price)
