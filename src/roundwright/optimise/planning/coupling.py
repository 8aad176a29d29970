"""What exercises cost alone and together: prices on demand, kept, and the cuts they give.

A *stand* is an exercise at a kind of place. The extra of stands, their joint price less
what each costs alone, never falls when a stand joins: so the extra of a part is a
valid cut for every set that holds the part.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from itertools import combinations

from roundwright.optimise.planning.exercise_price import ExercisePrice, with_kit, without_kit
from roundwright.optimise.planning.joint_price import (
    JointPrice,
    couples,
    exercise_at_least,
    joint_price,
)
from roundwright.optimise.planning.part_bounds import PartBounds, Shadow
from roundwright.optimise.planning.set_table import SetTable, Way, Ways
from roundwright.optimise.solver import Work

Stand = tuple[int, str]
"""An exercise, and the kind of place where it stands."""
NODES = 20_000
"""Solver nodes for one price; our choice."""
MOST_PARTS = 60
"""Parts of a set that are looked at for cuts, each time; our choice."""


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
    _alone: dict[Stand, ExercisePrice] = field(default_factory=dict)
    _joint: dict[frozenset[Stand], JointPrice] = field(default_factory=dict)
    _least: dict[frozenset[Stand], JointPrice] = field(default_factory=dict)
    _bounded: set[Stand] = field(default_factory=set)
    _same: dict[Stand, Stand] = field(default_factory=dict)
    _couplers: dict[Stand, tuple[bool, bool]] = field(default_factory=dict)
    _shadows: dict[Stand, Shadow | None] = field(default_factory=dict)

    def __post_init__(self) -> None:
        masses = {w.mass_g for rows in self.by_kind.values() for own in rows for w in _all(own)}
        self._parts = PartBounds(self.table, tuple(sorted(masses - {0})))

    def _one(self, stand: Stand) -> Stand:
        """Give one name for the stands of an exercise that leave everyone the same ways."""
        if stand not in self._same:
            e, ways = stand[0], self.ways(stand)
            kinds = (kind for kind, rows in self.by_kind.items() if rows[e] == ways)
            self._same[stand] = (e, next(kinds))
        return self._same[stand]

    def ways(self, stand: Stand) -> tuple[Ways, ...]:
        """Give the ways of a stand, by person."""
        return self.by_kind[stand[1]][stand[0]]

    def alone(self, stand: Stand) -> ExercisePrice:
        """Give what is known of a stand's price: at first without kit."""
        one = self._one(stand)
        if one not in self._alone:
            ways = self.ways(one)
            if all(ways):
                self._alone[one] = without_kit(ways, self.table)
            else:
                self._alone[one] = ExercisePrice(None, exact=True, ways=None)
        return self._alone[one]

    def strengthen(self, stand: Stand) -> bool:
        """Raise a stand's price to a bound with kit, or make it exact; say whether it rose."""
        known, one = self.alone(stand), self._one(stand)
        if known.exact:
            return False
        work = Work(NODES, 0, 0)
        if one not in self._bounded:
            self._bounded.add(one)
            least = exercise_at_least(self.ways(one), self.table, work, self.seed)
            if least.exact or (least.price or 0) > (known.price or 0):
                self.work_used += work.used
                self._alone[one] = least
                return least.price != known.price
        exact = with_kit(self.ways(one), self.table, work, self.seed)
        self.work_used += work.used
        # A bound that the solver could not close stays what it is: it is not tried again.
        price = exact.price if exact.price is None else max(exact.price, known.price or 0)
        self._alone[one] = ExercisePrice(price, exact=True, ways=exact.ways)
        return price != known.price

    @property
    def burst(self) -> int | None:
        """What the burst costs at least; None: it is impossible."""
        return self.joint(()).price

    def joint(self, stands: Sequence[Stand]) -> JointPrice:
        """Give what stands cost together with the burst."""
        key = frozenset(self._one(stand) for stand in stands)
        if key not in self._joint:
            least = self.least(stands)
            self._joint[key] = least if least.exact else self._solve(sorted(key), relaxed=False)
        return self._joint[key]

    def least(self, stands: Sequence[Stand]) -> JointPrice:
        """Give what stands cost together with the burst at least: a bound, found fast."""
        key = frozenset(self._one(stand) for stand in stands)
        if key in self._joint:
            return self._joint[key]
        if key not in self._least:
            self._least[key] = self._apart(sorted(key)) or self._solve(sorted(key), relaxed=True)
        return self._least[key]

    def best_alone(self, stands: Sequence[Stand]) -> tuple[tuple[int, ...], ...] | None:
        """Give everyone's best ways for each stand alone, the burst last, where all are known."""
        alone = [self.alone(stand).ways for stand in stands]
        known = tuple(ways for ways in alone if ways is not None)
        return (*known, self._best_burst()) if len(known) == len(stands) else None

    def _apart(self, stands: Sequence[Stand]) -> JointPrice | None:
        """Give the price of stands whose best ways do not meet in anything."""
        found = self.best_alone(stands)
        if found is None:
            return None
        rows = [*(self.ways(stand) for stand in stands), self.table.bursts]
        taken = [
            [own[k] for own, k in zip(row, ways, strict=True)]
            for row, ways in zip(rows, found, strict=True)
        ]
        if couples(taken, self.table):
            return None
        price = sum(self.alone(stand).price or 0 for stand in stands)
        return JointPrice(price + sum(way.price for way in taken[-1]), exact=True, ways=found)

    def _solve(self, stands: Sequence[Stand], *, relaxed: bool) -> JointPrice:
        work = Work(NODES, 0, 0)
        ways = [self.ways(stand) for stand in stands]
        answer = joint_price(ways, self.table, work, self.seed, relaxed=relaxed)
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
        return self._above_alone(stands, self.joint(stands))

    def _above_alone(self, stands: Sequence[Stand], together: JointPrice) -> int | None:
        if together.price is None:
            return None
        return max(0, together.price - self.sum_alone(stands))

    def cuts(
        self, stands: Sequence[Stand], enough: int | None = None
    ) -> dict[frozenset[Stand], int | None]:
        """Give the extra of a set and of its telling parts, small parts first.

        A part without extra is left out, and one whose extra a part of it has already.
        Parts are looked at by their bound; the whole by its price, or by its bound where
        that reaches `enough`.
        """
        found: dict[frozenset[Stand], int | None] = {}
        looked = 0
        for size in range(1, len(stands)):
            for some in combinations(sorted(stands), size):
                part = frozenset(some)
                if looked >= MOST_PARTS or not self._may_couple(some):
                    continue
                looked += 1
                self._keep(part, self._part(some), found)
        whole = self.least(stands)
        if whole.price is not None and (enough is None or whole.price < enough):
            whole = self.joint(stands)
        self._keep(frozenset(stands), whole, found)
        return found

    def _part(self, stands: Sequence[Stand]) -> JointPrice:
        """Give a bound for a part: by shadow prices where only masses meet, else by the solver."""
        landing = sum(self._couples_by(stand)[1] for stand in stands)
        known = frozenset(self._one(stand) for stand in stands)
        if landing >= 2 or known in self._least or known in self._joint:
            return self.least(stands)
        shadows = [self._shadow(stand) for stand in stands]
        burst = self.burst
        if burst is None or any(shadow is None for shadow in shadows):
            return JointPrice(None, exact=True)
        at_least = self._parts.at_least([s for s in shadows if s is not None])
        return JointPrice(at_least + burst, exact=False)

    def _shadow(self, stand: Stand) -> Shadow | None:
        one = self._one(stand)
        if one not in self._shadows:
            self._shadows[one] = self._parts.shadow(self.ways(one))
            self.work_used += 1
        return self._shadows[one]

    def _keep(
        self,
        part: frozenset[Stand],
        together: JointPrice,
        found: dict[frozenset[Stand], int | None],
    ) -> None:
        extra = self._above_alone(sorted(part), together)
        smaller = [value for other, value in found.items() if other < part]
        if extra == 0 or (extra is not None and extra <= max((v or 0 for v in smaller), default=0)):
            return
        if extra is None and any(value is None for value in smaller):
            return
        found[part] = extra

    def _may_couple(self, stands: Sequence[Stand]) -> bool:
        """Say whether a part can have an extra: three hold masses, or somebody lands or hops."""
        marks = [self._couples_by(stand) for stand in stands]
        holding, landing = (sum(column) for column in zip(*marks, strict=True))
        bursts = any(w.contacts or w.low_hops for own in self.table.bursts for w in own)
        if landing == len(stands) and landing + bursts >= 2:
            return True
        return bool(holding == len(stands) >= 3)

    def _couples_by(self, stand: Stand) -> tuple[bool, bool]:
        """Say whether a stand has ways with a mass, and ways with landings or hops."""
        if stand not in self._couplers:
            ways = [way for own in self.ways(stand) for way in own]
            self._couplers[stand] = (
                any(way.mass_g for way in ways),
                any(way.contacts or way.low_hops for way in ways),
            )
        return self._couplers[stand]


def _all(rows: Sequence[Ways]) -> list[Way]:
    return [way for own in rows for way in own]
