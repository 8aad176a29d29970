"""Good groups for stations and staggered groups without a solver, and what a class lasts at least.

People are dealt out by strength in a snake, so that those who want the same
dumbbells stand in different groups; then swapped as long as less kit is missing.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations, product

import numpy as np
from numpy.typing import NDArray

from roundwright.optimise.choice_value import Groups
from roundwright.optimise.instance import Alternative, Rotating
from roundwright.optimise.rotation_model import Arrangement
from roundwright.plan.timeline import make_timeline, total_s

MOST_SWEEPS = 6
"""How often all swaps are gone through; our choice."""


@dataclass(frozen=True, slots=True)
class Dealt:
    """A grouping, and how much kit is missing in it: 0 where everything fits."""

    groups: Groups
    excess: int


class Dealing:
    """Deals people out to the groups of one arrangement, for what each of them takes.

    Parameters
    ----------
    taken : by person and place
        What people would take; its kit is what should fit.
    """

    def __init__(
        self,
        rotating: Rotating,
        way: Arrangement,
        taken: Sequence[Sequence[Alternative]],
    ) -> None:
        self._rotating = rotating
        self._way = way
        self._taken = taken
        keys = sorted(rotating.counts)
        positions, people = rotating.positions, len(rotating.people)
        use = np.zeros((people, positions, len(keys)), dtype=np.int64)
        for p, k in product(range(people), range(positions)):
            for key, units in taken[p][k].main_kit:
                use[p, k, keys.index(key)] = units
        shift = [np.roll(use, -offset, axis=1) for offset in way.offsets]
        self._use: NDArray[np.int64] = np.stack(shift, axis=1)
        self._counts = np.array([rotating.counts[key] for key in keys], dtype=np.int64)
        self._misfits = np.array(
            [
                [
                    sum(
                        a not in options
                        for a, options in zip(mine, rotating.row(p, o), strict=True)
                    )
                    for o in way.offsets
                ]
                for p, mine in enumerate(taken)
            ],
            dtype=np.int64,
        )

    def best(self) -> Dealt:
        """Give the grouping that two-person swaps lead to from the snake."""
        group_of = self._snake()
        excess = self._excess(group_of)
        for _ in range(MOST_SWEEPS):
            before = excess
            for one, other in combinations(range(len(group_of)), 2):
                if excess == 0 or group_of[one] == group_of[other]:
                    continue
                group_of[[one, other]] = group_of[[other, one]]
                now = self._excess(group_of)
                if now < excess:
                    excess = now
                else:
                    group_of[[one, other]] = group_of[[other, one]]
            if excess in (0, before):
                break
        return Dealt(_grouped(self._way, group_of), excess)

    def _excess(self, group_of: NDArray[np.int64]) -> int:
        people = np.arange(len(group_of))
        used = self._use[people, group_of].sum(axis=0)
        missing = np.maximum(used - self._counts, 0).sum()
        return int(missing + self._misfits[people, group_of].sum())

    def _snake(self) -> NDArray[np.int64]:
        levels = self._rotating.problem.people
        order = sorted(
            range(len(self._taken)),
            key=lambda p: (
                -sum(a.mass_g for a in self._taken[p]),
                -levels[self._rotating.people[p]].level,
                p,
            ),
        )
        number = len(self._way.offsets)
        turns = [*range(number), *reversed(range(number))]
        group_of = np.zeros(len(order), dtype=np.int64)
        for rank, p in enumerate(order):
            group_of[p] = turns[rank % len(turns)]
        return group_of


def _grouped(way: Arrangement, group_of: Sequence[int] | NDArray[np.int64]) -> Groups:
    return way.groups(
        tuple(
            tuple(p for p, group in enumerate(group_of) if group == g)
            for g in range(len(way.offsets))
        )
    )


def by_pace(rotating: Rotating, way: Arrangement) -> Groups:
    """Put the slow with the slow: an interval then waits for one group at most."""
    order = sorted(range(len(rotating.people)), key=lambda p: (-sum(_quickest(rotating, p)), p))
    people, number = len(order), len(way.offsets)
    group_of = [0] * people
    for rank, p in enumerate(order):
        group_of[p] = rank * number // people
    return _grouped(way, group_of)


def swapped(groups: Groups, one: int, other: int) -> Groups:
    """Give the grouping in which two people have changed places."""
    swap = {one: other, other: one}
    members = tuple(tuple(sorted(swap.get(p, p) for p in group)) for group in groups.members)
    return Groups(members, in_pairs=False, offsets=groups.offsets, rotating=groups.rotating)


def least_seconds(rotating: Rotating, way: Arrangement) -> int:
    """Give an overrun of the slot that no grouping of an arrangement can be below, s.

    A round lasts at least as long as its slowest person's own work; and where every
    group has somebody in it, each interval as long as its slowest position.
    """
    spec, positions = rotating.problem.spec, rotating.positions
    people = range(len(rotating.people))
    quickest = [_quickest(rotating, p) for p in people]
    always = [_always_works(rotating, p) for p in people]
    total = total_s(make_timeline(spec, way.form, spec.rounds, {}))
    for round_number in range(1, spec.rounds + 1):
        inside = [p for p in people if round_number in rotating.doses[p].rounds]
        if not inside:
            continue
        seconds = max(sum(quickest[p]) for p in inside)
        if len(people) - len(inside) < way.sizes(len(people))[0]:
            shortest = [min(quickest[p][k] for p in inside) for k in range(positions)]
            by_interval = [
                max(shortest[(t + o) % positions] for o in way.offsets) for t in range(positions)
            ]
            seconds = max(seconds, sum(by_interval))
        total += seconds
        if any(always[p] for p in inside):
            total += positions * spec.change_s
    return max(0, total - spec.slot_s)


def _quickest(rotating: Rotating, person: int) -> list[int]:
    """Give the least seconds of work at each position, whatever the start."""
    tables = list(rotating.by_role.values())
    return [
        min(
            (min(a.seconds, a.last_seconds) for t in tables for a in t[person][k]),
            default=0,
        )
        for k in range(rotating.positions)
    ]


def _always_works(rotating: Rotating, person: int) -> bool:
    return all(
        a.works
        for table in rotating.by_role.values()
        for options in table[person][: rotating.positions]
        for a in options
    )
