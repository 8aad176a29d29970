"""What exercises cost alone and together: prices on demand, kept, and the cuts they give.

A *stand* is an exercise at a kind of place. The extra of stands, their joint price less
what each costs alone, never falls when a stand joins: so the extra of a part is a
valid cut for every set that holds the part.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from itertools import combinations
from typing import TypeVar

from roundwright.optimise.planning.exercise_price import ExercisePrice, with_kit, without_kit
from roundwright.optimise.planning.joint_price import JointPrice, couples, joint_price
from roundwright.optimise.planning.set_table import SetTable, Ways
from roundwright.optimise.solver import Work

Stand = tuple[int, str]
"""An exercise, and the kind of place where it stands."""
NODES = 20_000
"""Solver nodes for one price; our choice."""
MOST_PARTS = 60
"""Parts of a set that are looked at for cuts, each time; our choice."""

T = TypeVar("T")


@dataclass
class Coupling:
    """Prices of stands and of groups of stands.

    Parameters
    ----------
    table : SetTable
        People, kit and limits.
    by_kind : mapping of kind to alternatives
        Ways by kind of place, exercise and person.
    """

    table: SetTable
    by_kind: Mapping[str, tuple[tuple[Ways, ...], ...]]
    seed: int = 1
    work_used: int = 0
    _alone: dict[tuple[Ways, ...], ExercisePrice] = field(default_factory=dict)
    _joint: dict[frozenset[Stand], JointPrice] = field(default_factory=dict)

    def ways(self, stand: Stand) -> tuple[Ways, ...]:
        """Give the ways of a stand, by person."""
        return self.by_kind[stand[1]][stand[0]]

    def alone(self, stand: Stand) -> ExercisePrice:
        """Give what is known of a stand's price: at first without kit."""
        ways = self.ways(stand)
        if ways not in self._alone:
            if all(ways):
                self._alone[ways] = without_kit(ways, self.table)
            else:
                self._alone[ways] = ExercisePrice(None, exact=True, ways=None)
        return self._alone[ways]

    def strengthen(self, stand: Stand) -> bool:
        """Make a stand's price exact; say whether it rose."""
        known = self.alone(stand)
        if known.exact:
            return False
        work = Work(NODES, 0, 0)
        exact = with_kit(self.ways(stand), self.table, work, self.seed)
        self.work_used += work.used
        # A bound that the solver could not close stays what it is: it is not tried again.
        self._alone[self.ways(stand)] = ExercisePrice(exact.price, exact=True, ways=exact.ways)
        return exact.price != known.price

    @property
    def burst(self) -> int | None:
        """What the burst costs at least; None: it is impossible."""
        return self.joint(()).price

    def joint(self, stands: Sequence[Stand]) -> JointPrice:
        """Give what stands cost together with the burst."""
        key = frozenset(stands)
        if key not in self._joint:
            self._joint[key] = self._together(sorted(key))
        return self._joint[key]

    def _together(self, stands: Sequence[Stand]) -> JointPrice:
        ways = [self.ways(stand) for stand in stands]
        favourites = [self._best_burst()]
        alone = [self.alone(stand) for stand in stands]
        if all(a.ways is not None for a in alone):
            taken = [
                [own[k] for own, k in zip(ways_of, a.ways or (), strict=True)]
                for ways_of, a in zip(ways, alone, strict=True)
            ]
            bursts = [own[k] for own, k in zip(self.table.bursts, favourites[0], strict=True)]
            if not couples([*taken, bursts], self.table):
                price = sum(a.price or 0 for a in alone) + sum(w.price for w in bursts)
                return JointPrice(price, exact=True)
        work = Work(NODES, 0, 0)
        answer = joint_price(ways, self.table, work, self.seed)
        self.work_used += work.used
        return answer

    def _best_burst(self) -> tuple[int, ...]:
        return tuple(
            min(range(len(ways)), key=lambda k: (ways[k].price, k)) for ways in self.table.bursts
        )

    def sum_alone(self, stands: Sequence[Stand]) -> int:
        """Give what stands cost alone, with the burst."""
        return sum(self.alone(stand).price or 0 for stand in stands) + (self.burst or 0)

    def extra(self, stands: Sequence[Stand]) -> int | None:
        """Give what stands cost more together than alone, at least; None: they can't be."""
        together = self.joint(stands).price
        return None if together is None else max(0, together - self.sum_alone(stands))

    def cuts(self, stands: Sequence[Stand]) -> dict[frozenset[Stand], int | None]:
        """Give the extra of a set and of its telling parts, small parts first.

        A part without extra is left out, and one whose extra a part of it has already.
        """
        found: dict[frozenset[Stand], int | None] = {}
        looked = 0
        for size in range(1, len(stands)):
            for some in combinations(sorted(stands), size):
                part = frozenset(some)
                if looked >= MOST_PARTS or not self._may_couple(some):
                    continue
                looked += part not in self._joint
                self._keep(part, found)
        self._keep(frozenset(stands), found)
        return found

    def _keep(self, part: frozenset[Stand], found: dict[frozenset[Stand], int | None]) -> None:
        extra = self.extra(sorted(part))
        smaller = [value for other, value in found.items() if other < part]
        if extra == 0 or (extra is not None and extra <= max((v or 0 for v in smaller), default=0)):
            return
        if extra is None and any(value is None for value in smaller):
            return
        found[part] = extra

    def _may_couple(self, stands: Sequence[Stand]) -> bool:
        """Say whether a part can have an extra: three hold masses, or somebody lands or hops."""
        holding = landing = 0
        for stand in stands:
            ways = [way for own in self.ways(stand) for way in own]
            holding += any(way.mass_g for way in ways)
            landing += any(way.contacts or way.low_hops for way in ways)
        bursts = any(w.contacts or w.low_hops for own in self.table.bursts for w in own)
        return holding == len(stands) >= 3 or (landing == len(stands) and landing + bursts >= 2)
