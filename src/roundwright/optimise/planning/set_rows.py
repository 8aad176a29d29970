"""The choice of a set as rows for HiGHS: where the master does not see the whole order.

The same question as in `set_master`, with binaries for first and last only where the
ends make a difference. Such models are small and solved within a few hundredths of a
second; work is counted in nodes.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

from roundwright.optimise.planning.set_parts import Cut, EndPrices, MasterAnswer
from roundwright.optimise.planning.set_table import SetTable
from roundwright.optimise.solver import Ended, Model, Work

NODES_A_UNIT = 2000
"""Nodes for one unit of effort; our choice."""

TOLERANCE = 1e-4
"""More than the solver's own."""

Terms = list[tuple[int, float]]


@dataclass
class SetRows:
    """One model of sets and perhaps of their ends.

    Parameters
    ----------
    with_ends : bool
        Whether it makes a difference who is first and last.
    """

    table: SetTable
    prices: EndPrices
    with_ends: bool
    model: Model = field(default_factory=Model)
    stands: dict[int, int] = field(default_factory=dict)
    first: dict[int, int] = field(default_factory=dict)
    last: dict[int, int] = field(default_factory=dict)
    possible: bool = True

    def __post_init__(self) -> None:
        prices = self.prices
        rows = list(zip(prices.middle, prices.first, prices.last, strict=True))
        for e, row in enumerate(rows):
            if any(price is not None for price in row):
                self.stands[e] = self.model.add(upper=1, whole=True)
        self.possible = self.table.rules.kept <= self.stands.keys()
        self._set_rules()
        if self.with_ends:
            self._ends()
        self.extra = self.model.add()

    def _sum(self, which: Iterable[int]) -> Terms:
        return [(self.stands[e], 1.0) for e in which if e in self.stands]

    def _set_rules(self) -> None:
        table, model, most = self.table, self.model, self.table.most_held_against
        rules, everything = table.rules, sorted(self.stands)
        model.row(self._sum(everything), low=rules.places, high=rules.places)
        model.row(self._sum(sorted(rules.kept)), low=len(rules.kept))
        for apart in table.apart:
            model.row(self._sum(sorted(apart - rules.kept)), high=0 if apart & rules.kept else 1)
        for k, some in _alike(table.pattern, everything):
            if len(some) > most["pattern", k]:
                model.row(self._sum(some), high=most["pattern", k])
        for name, marks in (("jumping", table.jumping), ("combination", table.combination)):
            model.row(self._sum(e for e in everything if marks[e]), high=most[name, 0])
        for line, holding in table.of_a_line.items():
            model.row(self._sum(sorted(holding)), high=most["line", line])
        if table.accessories:
            model.row(self._sum(sorted(table.accessories)), high=most["accessory", 0])
        model.row(self._sum(e for e in everything if table.loaded[e]), low=most["loaded", 0])
        missed = []
        for need in rules.needs:
            missed.append((model.add(upper=1, whole=True), 1.0))
            model.row([missed[-1], *self._sum(sorted(need))], low=1)
        model.row(missed, high=table.may_miss)
        for shown in rules.besides:
            if len(shown) > rules.most_shown_again:
                model.row(self._sum(sorted(shown)), high=rules.most_shown_again)

    def _ends(self) -> None:
        model, prices = self.model, self.prices
        for ends, row in ((self.first, prices.first), (self.last, prices.last)):
            ends |= {e: model.add(upper=1, whole=True) for e in self.stands if row[e] is not None}
            model.row([(x, 1.0) for x in ends.values()], low=1, high=1)
        for e, stands in self.stands.items():
            some = [(x[e], 1.0) for x in (self.first, self.last) if e in x]
            if some:
                model.row([*some, (stands, -1.0)], high=0)
            if prices.middle[e] is None:
                model.row([*some, (stands, -1.0)], low=0)

    def hold_ends(self, fixed: dict[int, int], never_at: Iterable[tuple[int, int]]) -> None:
        """Hold kept places at the ends, and ends ruled out."""
        never = sorted(never_at)
        for ends, place in ((self.first, 0), (self.last, self.table.rules.places - 1)):
            for e, k in fixed.items():
                if k == place and e not in ends:
                    self.possible = False
                elif k == place:
                    self.model.row([(ends[e], 1.0)], low=1)
                elif e in ends:
                    self.model.row([(ends[e], 1.0)], high=0)
            for e, k in never:
                if k == place and e in ends:
                    self.model.row([(ends[e], 1.0)], high=0)

    def cut(self, cut: Cut) -> None:
        """Add a cut; one about exercises that cannot stand there holds anyway."""
        if not cut.anywhere | cut.middle <= self.stands.keys() or cut.order:
            return
        marks = self._sum(sorted(cut.anywhere))
        count = len(marks) + len(cut.middle)
        for e in sorted(cut.middle):
            marks.append((self.stands[e], 1.0))
            marks += [(x[e], -1.0) for x in (self.first, self.last) if e in x]
        for ends, end in ((self.first, cut.first), (self.last, cut.last)):
            if end is not None and end not in ends:
                return
            if end is not None:
                marks.append((ends[end], 1.0))
                count += 1
        added: dict[int, float] = {}
        for n, value in marks:
            added[n] = added.get(n, 0.0) + value
        if cut.extra is None:
            self.model.row(sorted(added.items()), high=count - 1)
        else:
            terms = [(n, -cut.extra * value) for n, value in sorted(added.items())]
            self.model.row([(self.extra, 1.0), *terms], low=cut.extra * (1 - count))

    def total(self, prices: EndPrices) -> Terms:
        """Sum something that each exercise has, ends apart."""
        terms: Terms = []
        for e, stands in self.stands.items():
            middle = prices.middle[e]
            if middle is None and not self.with_ends:
                middle = prices.first[e]
            terms.append((stands, float(middle or 0)))
            for ends, price in ((self.first, prices.first[e]), (self.last, prices.last[e])):
                if e in ends and price is not None:
                    terms.append((ends[e], float(price - (middle or 0))))
        return terms

    def price_it(self) -> None:
        """Let the model ask for the cheapest: exercises, balance, what comes on top."""
        table, model = self.table, self.model
        for n, price in self.total(self.prices):
            model.costs[n] += price
        for e, stands in self.stands.items():
            model.costs[stands] += table.own_price[e]
        model.costs[self.extra] = 1.0
        for signs, before, price in (
            (table.push_pull, table.push_pull_before, table.prices.push_pull),
            (table.knee_hip, table.knee_hip_before, table.prices.knee_hip),
        ):
            off = model.add(cost=price)
            terms = [(n, float(signs[e])) for e, n in self.stands.items() if signs[e]]
            model.row([*terms, (off, -1.0)], high=-before)
            model.row([*terms, (off, 1.0)], low=-before)

        for values, least, price in table.minutes.rows() if table.minutes else ():
            minutes = model.add(cost=price, whole=True)
            work = [(n, float(values[e])) for e, n in self.stands.items()]
            model.row([(minutes, 60.0), *work], low=least)

    def time_it(self, seconds: Sequence[EndPrices]) -> None:
        """Let the model ask for the shortest: the longest of several sums."""
        length = self.model.add(cost=1.0)
        for row in seconds:
            terms = [(n, -value) for n, value in self.total(row)]
            self.model.row([(length, 1.0), *terms], low=0)

    def leave_out_above(self, known: int) -> bool:
        """Leave out exercises that only sets above a known figure have; say whether any was.

        With an exercise the figure rises at least by its reduced cost.
        """
        answer = self.model.reduced_costs()
        if answer is None:
            return False
        reduced, least = answer
        above = [n for n in self.stands.values() if least + reduced[n] > known + TOLERANCE]
        for n in above:
            self.model.uppers[n] = 0.0
        return bool(above)

    def solve(
        self, effort: float, seed: int, *, above: int, fixed_price: int, known: int | None = None
    ) -> MasterAnswer:
        """Solve, with a bound that holds whatever ended it.

        Parameters
        ----------
        known : int, optional
            Sets above it need not be told apart: there the bound is this and one more.
        """
        if not self.possible:
            return MasterAnswer(Ended.INFEASIBLE, frozenset(), (), 0, 0.0)
        less = known is not None and self.leave_out_above(known - fixed_price)
        work = Work(max(1, round(NODES_A_UNIT * effort)), 0, 0)
        solved = self.model.solve(work, seed)
        used = work.used / NODES_A_UNIT
        if solved.ended is Ended.INFEASIBLE:
            ended = Ended.LIMIT if less else Ended.INFEASIBLE
            bound = known + 1 if less and known is not None else 0
            return MasterAnswer(ended, frozenset(), (), bound, used)
        bound = max(0, solved.bound + fixed_price, above)
        if less and known is not None:
            bound = min(bound, known + 1)
        if not solved.values:
            return MasterAnswer(Ended.LIMIT, frozenset(), (), bound, used)
        chosen = frozenset(e for e, n in self.stands.items() if solved.values[n] == 1)
        return MasterAnswer(solved.ended, chosen, self._order(solved.values, chosen), bound, used)

    def _order(self, values: Sequence[int], chosen: frozenset[int]) -> tuple[int, ...]:
        """Put the ends where they belong, the rest by number."""
        if not self.first:
            return tuple(sorted(chosen))
        first = next(e for e, n in self.first.items() if values[n] == 1)
        last = next(e for e, n in self.last.items() if values[n] == 1)
        return (first, *sorted(chosen - {first, last}), last)


def _alike(marks: Sequence[int], which: Iterable[int]) -> list[tuple[int, list[int]]]:
    """Group exercises by a mark."""
    found: dict[int, list[int]] = {}
    for e in which:
        found.setdefault(marks[e], []).append(e)
    return sorted(found.items())
