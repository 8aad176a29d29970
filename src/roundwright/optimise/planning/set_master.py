"""Which set, and with an order which neighbours: the cheapest that is not yet ruled out.

Binary for each exercise, and for being first and last of the round. With an order
the round is a path from burst to burst (a ring where groups rotate), whose arcs carry
the neighbours' prices. What exercises cost their people together comes in by cuts.
That model is CP-SAT's, with one worker and counted work; where the order is left out,
the much smaller one in `set_rows` is HiGHS's. A solve that is stopped early gives its bound,
never its objective.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from math import ceil

from ortools.sat.python import cp_model

from roundwright.foundation.errors import RoundwrightError
from roundwright.optimise.planning.exercise_facts import Neighbours
from roundwright.optimise.planning.set_parts import Cut, EndPrices, MasterAnswer
from roundwright.optimise.planning.set_rows import SetRows
from roundwright.optimise.planning.set_table import SetTable
from roundwright.optimise.solver import Ended

MOST_SECONDS = 1_000_000
MOST_EXTRA = 1_000_000
"""More than any class costs: the range of what comes on top."""


@dataclass
class SetMaster:
    """Builds the model anew for each solve: it is small, and the cuts grow.

    Parameters
    ----------
    table : SetTable
        Rules and prices of sets.
    neighbours : Neighbours or None
        None: the order is left out.
    ring : bool
        Whether the last of a round is a neighbour of the first.
    fixed : mapping of exercise to place
        Kept places, from 0.
    never_at : iterable of (exercise, place)
        Places ruled out.
    """

    table: SetTable
    neighbours: Neighbours | None = None
    ring: bool = False
    fixed: Mapping[int, int] = field(default_factory=dict)
    never_at: Iterable[tuple[int, int]] = ()
    cuts: list[Cut] = field(default_factory=list)

    def solve(
        self,
        prices: EndPrices,
        *,
        seconds: Sequence[EndPrices] = (),
        at_most_s: int | None = None,
        by_time: bool = False,
        above: int | None = None,
        known: int | None = None,
        effort: float = 5.0,
        seed: int = 1,
    ) -> MasterAnswer:
        """Find the cheapest set left, or with `by_time` the shortest.

        Parameters
        ----------
        prices : EndPrices
            What each exercise costs its people at least, the burst apart.
        seconds : sequence of EndPrices
            What each exercise takes at least: one row together, one a person where groups
            take turns. The class is as long as the longest row.
        at_most_s : int, optional
            Seconds that work and changes may take.
        above : int, optional
            Nothing below this is looked for: a bound that is known.
        known : int, optional
            Sets above it need not be told apart (used where the order is left out).
        effort : float
            Units of the solver's own count of work, not seconds.
        """
        if self.neighbours is None and self.table.rules.places > 1:
            rows = self._rows(prices, seconds, at_most_s, by_time)
            fixed_price = 0 if by_time else self.table.fixed_price
            return rows.solve(effort, seed, above=above or 0, fixed_price=fixed_price, known=known)
        model = _Model(self, prices)
        if at_most_s is not None:
            for row in seconds:
                model.cp.add(model.total(row) <= at_most_s)
        objective = model.longest(seconds) if by_time else model.price()
        if above is not None:
            model.cp.add(objective >= above)
        model.cp.minimize(objective)
        solver = cp_model.CpSolver()
        solver.parameters.num_workers = 1
        solver.parameters.catch_sigint_signal = False  # an interrupt is the caller's
        solver.parameters.random_seed = seed % 2**31
        solver.parameters.max_deterministic_time = effort
        status = solver.solve(model.cp)
        work = float(solver.response_proto.deterministic_time)
        if status == cp_model.INFEASIBLE:
            return MasterAnswer(Ended.INFEASIBLE, frozenset(), (), 0, work)
        if status == cp_model.MODEL_INVALID:
            raise RoundwrightError(f"the model of sets is no model: {model.cp.validate()}")
        bound = max(0, ceil(solver.best_objective_bound - 1e-6))
        if status == cp_model.UNKNOWN:
            return MasterAnswer(Ended.LIMIT, frozenset(), (), max(bound, above or 0), work)
        chosen = frozenset(e for e, s in model.stands.items() if solver.value(s))
        order = model.order(solver, chosen)
        ended = Ended.OPTIMAL if status == cp_model.OPTIMAL else Ended.LIMIT
        return MasterAnswer(ended, chosen, order, bound, work)

    def _rows(
        self,
        prices: EndPrices,
        seconds: Sequence[EndPrices],
        at_most_s: int | None,
        by_time: bool,
    ) -> SetRows:
        rows = SetRows(self.table, prices, with_ends=self.ends_matter(prices))
        if rows.with_ends:
            rows.hold_ends(dict(self.fixed), self.never_at)
        for cut in self.cuts:
            rows.cut(cut)
        if at_most_s is not None:
            for row in seconds:
                rows.model.row(rows.total(row), high=at_most_s)
        if by_time:
            rows.time_it(seconds)
        else:
            rows.price_it()
        return rows

    def ends_matter(self, prices: EndPrices) -> bool:
        """Say whether it makes any difference who is first and last."""
        return bool(
            self.neighbours is not None
            or self.fixed
            or list(self.never_at)
            or not prices.first == prices.middle == prices.last
            or any(cut.first is not None or cut.last is not None for cut in self.cuts)
        )


class _Model:
    """One model of sets and orders."""

    def __init__(self, master: SetMaster, prices: EndPrices) -> None:
        self.cp = cp_model.CpModel()
        self._master, self._prices = master, prices
        table = master.table
        rows = list(zip(prices.middle, prices.first, prices.last, strict=True))
        usable = [e for e, row in enumerate(rows) if any(price is not None for price in row)]
        ends = [e for e in usable if prices.first[e] is not None]
        lasts = [e for e in usable if prices.last[e] is not None]
        if table.rules.places == 1:
            ends = lasts = [e for e in ends if e in lasts]
        self.stands = {e: self.cp.new_bool_var(f"s{e}") for e in usable}
        self.first = {e: self.cp.new_bool_var(f"f{e}") for e in ends}
        self.last = {e: self.cp.new_bool_var(f"l{e}") for e in lasts}
        self._arcs: dict[tuple[int, int], cp_model.IntVar] = {}
        self._set_rules()
        if master.ends_matter(prices):
            self._ends()
        else:
            self.first, self.last = {}, {}
        if master.neighbours is not None:
            self._path(master.neighbours)
        self._places()
        self.extra = self.cp.new_int_var(0, MOST_EXTRA, "extra")
        for cut in master.cuts:
            self._cut(cut)

    def _set_rules(self) -> None:
        table, cp, stands = self._master.table, self.cp, self.stands
        rules, most = table.rules, table.most_held_against
        cp.add(sum(stands.values()) == rules.places)
        for e in sorted(rules.kept):
            if e in stands:
                cp.add(stands[e] == 1)
            else:
                cp.add_bool_or([])
        for some in table.apart:
            others = [s for e, s in stands.items() if e in some - rules.kept]
            if some & rules.kept:
                cp.add(sum(others) == 0)
            elif len(others) > 1:
                cp.add_at_most_one(others)
        for pattern in sorted({table.pattern[e] for e in stands}):
            same_pattern = [s for e, s in stands.items() if table.pattern[e] == pattern]
            cp.add(sum(same_pattern) <= most["pattern", pattern])
        cp.add(sum(s for e, s in stands.items() if table.jumping[e]) <= most["jumping", 0])
        cp.add(sum(s for e, s in stands.items() if table.combination[e]) <= most["combination", 0])
        for line, some in table.of_a_line.items():
            holding = [s for e, s in stands.items() if e in some]
            cp.add(sum(holding) <= most["line", line])
        accessories = [s for e, s in stands.items() if e in table.accessories]
        cp.add(sum(accessories) <= most["accessory", 0])
        cp.add(sum(s for e, s in stands.items() if table.loaded[e]) >= most["loaded", 0])
        missed = []
        for need in rules.needs:
            missed.append(cp.new_bool_var("missed"))
            cp.add_bool_or([missed[-1], *(s for e, s in stands.items() if e in need)])
        cp.add(sum(missed) <= table.may_miss)
        for shown in rules.besides:
            if len(shown) > rules.most_shown_again:
                again = [s for e, s in stands.items() if e in shown]
                cp.add(sum(again) <= rules.most_shown_again)

    def _ends(self) -> None:
        cp, single = self.cp, self._master.table.rules.places == 1
        cp.add_exactly_one(self.first.values())
        cp.add_exactly_one(self.last.values())
        for e, stands in self.stands.items():
            some = [x[e] for x in (self.first, self.last) if e in x]
            for x in some:
                cp.add_implication(x, stands)
            if len(some) == 2 and not single:
                cp.add_at_most_one(some)
            if len(some) == 2 and single:
                cp.add(some[0] == some[1])
            if self._prices.middle[e] is None:
                cp.add_bool_or([~stands, *some])

    def _path(self, neighbours: Neighbours) -> None:
        """Make the chosen ones one path from node 0 to node 0."""
        arcs: list[tuple[int, int, cp_model.LiteralT]] = []
        for e, stands in self.stands.items():
            arcs.append((e + 1, e + 1, ~stands))
            if e in self.first:
                arcs.append((0, e + 1, self.first[e]))
            if e in self.last:
                arcs.append((e + 1, 0, self.last[e]))
            for other in self.stands:
                if other != e and not neighbours.forbidden[e, other]:
                    arc = self.cp.new_bool_var(f"a{e}_{other}")
                    self._arcs[e, other] = arc
                    arcs.append((e + 1, other + 1, arc))
        if not arcs:  # nobody can do anything: the number of places already says so
            return
        self.cp.add_circuit(arcs)
        if self._master.ring and self._master.table.rules.places > 2:
            self._close(neighbours)

    def _close(self, neighbours: Neighbours) -> None:
        """Where groups rotate the last one is followed by the first."""
        for e, last in self.last.items():
            for other, first in self.first.items():
                if e == other:
                    continue
                if neighbours.forbidden[e, other]:
                    self.cp.add_bool_or([~last, ~first])
                elif neighbours.price[e, other]:
                    both = self.cp.new_bool_var(f"w{e}_{other}")
                    self.cp.add_bool_or([~last, ~first, both])
                    self._arcs[-1 - e, other] = both

    def _places(self) -> None:
        """Hold kept places, and places ruled out."""
        master, places = self._master, self._master.table.rules.places
        inner = [k for k in master.fixed.values() if 0 < k < places - 1]
        inner += [k for _, k in master.never_at if 0 < k < places - 1]
        for ends, place in ((self.first, 0), (self.last, places - 1)):
            for e, k in master.fixed.items():
                if k == place:
                    self.cp.add_bool_or([ends[e]] if e in ends else [])
                elif e in ends:
                    self.cp.add(ends[e] == 0)
            for e, k in master.never_at:
                if k == place and e in ends:
                    self.cp.add(ends[e] == 0)
        if not inner or master.neighbours is None:
            return
        at = {e: self.cp.new_int_var(0, places - 1, f"k{e}") for e in self.stands}
        for e, first in self.first.items():
            self.cp.add(at[e] == 0).only_enforce_if(first)
        for (e, other), arc in self._arcs.items():
            if e >= 0:
                self.cp.add(at[other] == at[e] + 1).only_enforce_if(arc)
        for e, k in master.fixed.items():
            if e in at:
                self.cp.add(at[e] == k)
        for e, k in master.never_at:
            if e in at and 0 < k < places - 1:
                self.cp.add(at[e] != k).only_enforce_if(self.stands[e])

    def _cut(self, cut: Cut) -> None:
        if not cut.anywhere | cut.middle <= self.stands.keys():
            return
        marks: list[cp_model.LinearExprT] = [self.stands[e] for e in sorted(cut.anywhere)]
        for e in sorted(cut.middle):
            marks.append(self.stands[e] - sum(x[e] for x in (self.first, self.last) if e in x))
        for ends, end in ((self.first, cut.first), (self.last, cut.last)):
            if end is not None and end not in ends:
                return
            marks += [ends[end]] if end is not None else []
        for pair in zip(cut.order, cut.order[1:], strict=False):
            if pair not in self._arcs:
                return
            marks.append(self._arcs[pair])
        missing = len(marks) - cp_model.LinearExpr.sum(marks)
        if cut.extra is None:
            self.cp.add(missing >= 1)
        else:
            self.cp.add(self.extra + cut.extra * missing >= cut.extra)

    def price(self) -> cp_model.LinearExprT:
        """Give all that is priced: exercises, neighbours, balance, what comes on top."""
        table = self._master.table
        terms: list[cp_model.LinearExprT] = [self.total(self._prices), self.extra]
        terms += [table.own_price[e] * s for e, s in self.stands.items() if table.own_price[e]]
        neighbours = self._master.neighbours
        if neighbours is not None:
            for (e, other), arc in self._arcs.items():
                price = int(neighbours.price[e if e >= 0 else -1 - e, other])
                if price:
                    terms.append(price * arc)
        terms += [*self._balance(), *self._minutes()]
        return cp_model.LinearExpr.sum(terms) + table.fixed_price

    def _minutes(self) -> list[cp_model.LinearExprT]:
        """Give what the minutes left of the slot cost."""
        minutes = self._master.table.minutes
        terms: list[cp_model.LinearExprT] = []
        for values, least, price in minutes.rows() if minutes else ():
            number = self.cp.new_int_var(0, MOST_SECONDS, "minutes")
            work = [values[e] * s for e, s in self.stands.items()]
            self.cp.add(60 * number + cp_model.LinearExpr.sum(work) >= least)
            terms.append(price * number)
        return terms

    def total(self, prices: EndPrices) -> cp_model.LinearExprT:
        """Sum something that each exercise has, ends apart."""
        terms: list[cp_model.LinearExprT] = []
        single = self._master.table.rules.places == 1
        for e, stands in self.stands.items():
            middle = prices.middle[e] or 0
            terms.append(middle * stands)
            for ends, price in ((self.first, prices.first[e]), (self.last, prices.last[e])):
                if e in ends and price is not None and not (single and ends is self.last):
                    terms.append((price - middle) * ends[e])
        return cp_model.LinearExpr.sum(terms)

    def longest(self, seconds: Sequence[EndPrices]) -> cp_model.LinearExprT:
        """Give the longest of several sums."""
        length = self.cp.new_int_var(0, MOST_SECONDS, "length")
        for row in seconds:
            self.cp.add(length >= self.total(row))
        return length

    def _balance(self) -> list[cp_model.LinearExprT]:
        table, places = self._master.table, self._master.table.rules.places
        terms: list[cp_model.LinearExprT] = []
        for signs, before, price in (
            (table.push_pull, table.push_pull_before, table.prices.push_pull),
            (table.knee_hip, table.knee_hip_before, table.prices.knee_hip),
        ):
            if not price:
                continue
            off = self.cp.new_int_var(0, places + abs(before), "off")
            balance = before + sum(signs[e] * s for e, s in self.stands.items() if signs[e])
            self.cp.add(off >= balance)
            self.cp.add(off >= -balance)
            terms.append(price * off)
        return terms

    def order(self, solver: cp_model.CpSolver, chosen: frozenset[int]) -> tuple[int, ...]:
        """Read the order off the path, or put only the ends where they belong."""
        if not self.first:
            return tuple(sorted(chosen))
        first = next(e for e, x in self.first.items() if solver.value(x))
        last = next(e for e, x in self.last.items() if solver.value(x))
        if self._master.neighbours is None:
            inner = sorted(chosen - {first, last})
            return (first, *inner, last) if first != last else (first,)
        following = {e: o for (e, o), arc in self._arcs.items() if e >= 0 and solver.value(arc)}
        order: Sequence[int] = [first]
        while order[-1] != last:
            order = [*order, following[order[-1]]]
        return tuple(order)
