"""A plan for a set at once: everyone's best ways, mended where they meet in one person.

Not always the cheapest, but within kit and limits: what is shown while the exact price is
still sought.
"""

from collections import Counter
from collections.abc import Sequence

from roundwright.optimise.planning.coupling import Coupling, Stand
from roundwright.optimise.planning.joint_price import JointPrice, holds_together, price_of_ways
from roundwright.optimise.planning.set_table import SetTable, Way, Ways

FAR = 10_000
"""Weighs one landing or hop too many above any price; our choice."""
MOST_MOVES = 20
"""Changes for one person; our choice."""


def at_most(coupling: Coupling, stands: Sequence[Stand]) -> JointPrice | None:
    """Give a plan for stands at once, if that holds together, not always the cheapest."""
    found, table = coupling.best_alone(stands), coupling.table
    if found is None:
        return None
    ways = [coupling.ways(stand) for stand in stands]
    found = mended([*ways, table.bursts], found, table)
    if not holds_together(ways, found, table):
        return None
    return JointPrice(price_of_ways(ways, found, table), exact=False, ways=found)


def mended(
    rows: Sequence[Sequence[Ways]], start: Sequence[Sequence[int]], table: SetTable
) -> tuple[tuple[int, ...], ...]:
    """Change one way of one person after another while that makes the whole better.

    Parameters
    ----------
    rows : sequence
        By exercise and person, the burst last: what may be chosen.
    start : sequence
        Chosen ways, each exercise within its kit.
    """
    plan = _Plan(rows, start, table)
    for p in range(len(table.people)):
        if plan.on_top(plan.of(p), p):
            plan.mend(p)
    return tuple(tuple(row) for row in plan.ways)


class _Plan:
    """Chosen ways with the kit they use and the versions they show."""

    def __init__(
        self, rows: Sequence[Sequence[Ways]], start: Sequence[Sequence[int]], table: SetTable
    ) -> None:
        self._rows, self._table = rows, table
        self.ways = [list(row) for row in start]
        self._used: list[Counter[int]] = []
        self._shown: list[Counter[int]] = []
        for row, ways in zip(rows, self.ways, strict=True):
            taken = [own[k] for own, k in zip(row, ways, strict=True)]
            used: Counter[int] = Counter()
            for way in taken:
                used.update(dict(way.kit))
            self._used.append(used)
            self._shown.append(Counter(v for way in taken for v in way.versions))

    def of(self, p: int) -> list[Way]:
        """Give one person's ways."""
        return [row[p][ways[p]] for row, ways in zip(self._rows, self.ways, strict=True)]

    def on_top(self, mine: Sequence[Way], p: int) -> int:
        """Give what a person's ways cost together: masses beyond two, limits broken."""
        table = self._table
        masses = len({way.mass_g for way in mine} - {0})
        over = max(0, sum(way.contacts for way in mine) - table.contact_limits[p])
        over += max(0, sum(way.low_hops for way in mine) - table.low_hop_limits[p])
        return table.prices.third_mass * max(0, masses - 2) + FAR * over

    def mend(self, p: int) -> None:
        """Change one person's ways, the best change first, until none helps."""
        for _ in range(MOST_MOVES):
            mine = self.of(p)
            now = self.on_top(mine, p)
            best: tuple[int, int, int] | None = None
            for n, row in enumerate(self._rows):
                for k, way in enumerate(row[p]):
                    others = [*mine[:n], way, *mine[n + 1 :]]
                    gain = way.price - mine[n].price + self.on_top(others, p) - now
                    if gain >= 0 or (best is not None and (gain, n, k) >= best):
                        continue
                    gain += self._more_versions(n, mine[n], way)
                    if gain < 0 and (best is None or (gain, n, k) < best) and self._fits(n, p, way):
                        best = (gain, n, k)
            if best is None:
                return
            self._change(best[1], p, best[2])

    def _more_versions(self, n: int, old: Way, new: Way) -> int:
        if n == len(self._rows) - 1:
            return 0
        shown = self._shown[n]
        after = shown - Counter(old.versions) + Counter(new.versions)
        return self._table.versions_price(len(after)) - self._table.versions_price(len(+shown))

    def _fits(self, n: int, p: int, way: Way) -> bool:
        old = dict(self._rows[n][p][self.ways[n][p]].kit)
        factor = 1 if n == len(self._rows) - 1 else self._table.kit_factor
        return all(
            self._used[n][key] - old.get(key, 0) + units <= self._table.kit_counts[key] * factor
            for key, units in way.kit
        )

    def _change(self, n: int, p: int, k: int) -> None:
        old, new = self._rows[n][p][self.ways[n][p]], self._rows[n][p][k]
        self._used[n].subtract(dict(old.kit))
        self._used[n].update(dict(new.kit))
        self._shown[n].subtract(old.versions)
        self._shown[n].update(new.versions)
        self.ways[n][p] = k
