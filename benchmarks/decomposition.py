"""Our decomposition on a set table alone: master, exact prices on demand, lazy cuts.

The parts are those of the planner (`SetMaster`, `Coupling`); the order of exercises is left
out, as it is in the yardsticks, so that all answer the same question. Each better plan
and each bound is written down with the seconds it took.
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from time import process_time

from benchmarks.quick_plan import at_most
from benchmarks.yardstick_highs import SetAnswer
from roundwright.optimise.planning.coupling import Coupling, Stand
from roundwright.optimise.planning.joint_price import JointPrice
from roundwright.optimise.planning.set_master import SetMaster
from roundwright.optimise.planning.set_parts import Cut, EndPrices
from roundwright.optimise.planning.set_table import SetTable
from roundwright.optimise.solver import Ended

KIND = "middle"
EFFORT = 30.0
"""CP-SAT's counted work for one solve of the master."""

SAFE_AT = (1, 2, 4, 8, 11, 14, 18, 24)
"""After so many masters a plan is made of exercises alone whose prices are exact."""

JOINT_FROM = 4
"""From so many masters on such a set is also given its joint price; before, it would cost more
than it tells. Both were tried on the tables that are measured; our choice."""


@dataclass(frozen=True)
class Mark:
    """What was known after so many seconds; `price` None: no plan yet."""

    at_s: float
    price: int | None
    bound: int


@dataclass
class Trace:
    """How an answer came about."""

    marks: list[Mark] = field(default_factory=list)
    masters: int = 0
    cuts: int = 0

    def at(self, seconds: float) -> Mark:
        """Give what was known after some seconds."""
        known = [mark for mark in self.marks if mark.at_s <= seconds]
        return known[-1] if known else Mark(seconds, None, 0)


Cuts = Mapping[frozenset[int], int | None]
Master = Callable[
    [SetTable, Sequence[int | None], Cuts, int | None], tuple[frozenset[int], int] | None
]
"""Gives the cheapest set left and a bound; None where none is left below what is known."""
Arranged = tuple[int | None, int | None]
"""Price of a set's best arrangement, and a bound for all of them; None: there is none."""
Arrange = Callable[[Coupling, Sequence[Stand], int | None], Arranged]
"""Gives both for a set; above a price that is known neither need be sharp."""


def planner_master(
    table: SetTable, prices: Sequence[int | None], cuts: Cuts, known: int | None = None
) -> tuple[frozenset[int], int] | None:
    """Ask the planner's own master, without an order, for sets below a known price."""
    made = [Cut(part, extra) for part, extra in sorted(cuts.items(), key=lambda c: sorted(c[0]))]
    same = tuple(prices)
    below = None if known is None else known - 1
    answer = SetMaster(table, cuts=made).solve(
        EndPrices(same, same, same), known=below, effort=EFFORT
    )
    if answer.ended is Ended.INFEASIBLE or (not answer.chosen and below is not None):
        return None
    return answer.chosen, answer.bound


@dataclass
class Decomposition:
    """What is known of a table: prices and cuts, kept from one question to the next.

    Parameters
    ----------
    arrange : callable, optional
        What a set costs with its order, where that costs more than the set alone.
    """

    table: SetTable
    master: Master = planner_master
    seed: int = 1
    clock: Callable[[], float] = process_time

    def __post_init__(self) -> None:
        self.coupling = Coupling(self.table, {KIND: self.table.alternatives}, self.seed)
        exercises = range(len(self.table.exercises))
        self.prices = [self.coupling.alone((e, KIND)).price for e in exercises]
        self.cuts: dict[frozenset[int], int | None] = {}

    def solve(self, limit_s: float, arrange: Arrange | None = None) -> tuple[SetAnswer, Trace]:
        """Solve until the bound meets the best plan, or for so many seconds.

        Sets are given a plan at once, and while prices still rise also the best set of those
        exercises whose prices are exact, so that there is a plan early.
        """
        run = _Run(self, limit_s, arrange)
        return run.solve(), run.trace


class _Run:
    """One question: a best plan, a bound, and the cuts that hold for it alone."""

    def __init__(self, of: Decomposition, limit_s: float, arrange: Arrange | None) -> None:
        self.of, self.arrange, self.limit_s = of, arrange, limit_s
        self.trace = Trace()
        self.start = of.clock()
        self.best: int | None = None
        self.chosen: frozenset[int] = frozenset()
        self.bound = 0
        self.own: dict[frozenset[int], int | None] = {}

    def _known(self) -> SetAnswer:
        return SetAnswer(self.best, float(self.bound), False, self.chosen)

    def _proven(self) -> SetAnswer:
        bound = float("inf") if self.best is None else float(self.best)
        return SetAnswer(self.best, bound, True, self.chosen)

    def _keep(self, stands: Sequence[Stand], price: int | None) -> None:
        some = frozenset(e for e, _ in stands)
        if price is None:
            return
        whole = price + self.of.table.set_price(some)
        if self.best is None or whole < self.best:
            self.best, self.chosen = whole, some
            self._mark()

    def _keep_plan(self, stands: Sequence[Stand], plan: JointPrice | None) -> None:
        if self.arrange is None and plan is not None:
            self._keep(stands, plan.price)

    def _mark(self) -> None:
        self.trace.marks.append(Mark(self.of.clock() - self.start, self.best, self.bound))

    def solve(self) -> SetAnswer:
        of, coupling = self.of, self.of.coupling
        burst = coupling.burst
        if burst is None:
            return self._proven()
        while of.clock() - self.start < self.limit_s:
            known = None if self.best is None else self.best - burst
            found = of.master(of.table, of.prices, self._cuts(), known)
            self.trace.masters += 1
            if found is None:
                return self._proven()
            candidate, below = found
            self.bound = max(self.bound, below + burst)
            self._mark()
            if self.best is not None and self.bound >= self.best:
                return self._proven()
            stands = [(e, KIND) for e in sorted(candidate)]
            risen = [stand for stand in stands if coupling.strengthen(stand)]
            for e, _ in risen:
                of.prices[e] = coupling.alone((e, KIND)).price
            new = bool(risen)
            if risen:
                self._early(stands)
            else:
                new = self._learn(stands, candidate)
            if self.best is not None and self.bound >= self.best:
                return self._proven()
            if not new:
                return self._known()
        return self._known()

    def _cuts(self) -> Cuts:
        """Give all cuts; of two for one set the sharper."""
        together = dict(self.of.cuts)
        for part, extra in self.own.items():
            before = together.get(part, 0)
            together[part] = None if extra is None or before is None else max(extra, before)
        return together

    def _early(self, stands: Sequence[Stand]) -> None:
        of, coupling = self.of, self.of.coupling
        if self.arrange is not None:
            return
        self._keep_plan(stands, at_most(coupling, stands))
        if self.trace.masters in SAFE_AT:
            alone = [coupling.alone((e, KIND)).exact for e in range(len(of.prices))]
            safe = [p if exact else None for p, exact in zip(of.prices, alone, strict=True)]
            known = of.master(of.table, safe, self._cuts(), None)
            if known is None or not known[0]:
                return
            stands = [(e, KIND) for e in sorted(known[0])]
            self._keep_plan(stands, at_most(coupling, stands))
            if self.trace.masters >= JOINT_FROM:
                together = coupling.least(stands)
                self._keep_plan(stands, together if together.exact else None)

    def _learn(self, stands: Sequence[Stand], candidate: frozenset[int]) -> bool:
        """Find the cuts of a set and a plan for it; say whether anything was learnt."""
        of, coupling = self.of, self.of.coupling
        if self.arrange is None:
            quick = coupling.least(stands)
            self._keep_plan(stands, quick if quick.exact else at_most(coupling, stands))
        enough = None if self.best is None else self.best - of.table.set_price(candidate)
        learnt = {
            frozenset(e for e, _ in part): extra
            for part, extra in coupling.cuts(stands, enough).items()
        }
        new = any(part not in of.cuts or of.cuts[part] != extra for part, extra in learnt.items())
        of.cuts |= learnt
        together = coupling.least(stands)
        if self.arrange is None:
            self._keep_plan(stands, together if together.exact else None)
        elif together.price is not None and (enough is None or together.price < enough):
            price, least = self.arrange(coupling, stands, enough)
            self._keep(stands, price)
            extra = None if least is None else max(0, least - coupling.sum_alone(stands))
            new = new or extra != 0 or self.best is not None
            if extra != 0:
                self.own[candidate] = extra
        self.trace.cuts = len(self._cuts())
        return new


def solve_by_decomposition(
    table: SetTable,
    master: Master = planner_master,
    limit_s: float = 120.0,
    seed: int = 1,
    clock: Callable[[], float] = process_time,
) -> tuple[SetAnswer, Trace]:
    """Solve one table: the seconds count from the table's first price."""
    start = clock()
    made = Decomposition(table, master, seed, clock)
    run = _Run(made, limit_s, None)
    run.start = start
    return run.solve(), run.trace
