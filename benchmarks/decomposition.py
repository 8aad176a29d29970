"""Our decomposition on a set table alone: master, exact prices on demand, lazy cuts.

The parts are those of the planner (`SetMaster`, `Coupling`); the order of exercises is left
out, as it is in the yardsticks, so that all answer the same question. Each better plan
and each bound is written down with the seconds it took.
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from time import process_time

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

SAFE_AT = (1, 2, 4, 8, 16)
"""After so many masters a plan is made of exercises alone whose prices are exact."""


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
Master = Callable[[SetTable, Sequence[int | None], Cuts], tuple[frozenset[int], int] | None]
"""Gives the cheapest set left and a bound; None where no set is left."""


def planner_master(
    table: SetTable, prices: Sequence[int | None], cuts: Cuts
) -> tuple[frozenset[int], int] | None:
    """Ask the planner's own master, without an order."""
    made = [Cut(part, extra) for part, extra in sorted(cuts.items(), key=lambda c: sorted(c[0]))]
    same = tuple(prices)
    answer = SetMaster(table, cuts=made).solve(EndPrices(same, same, same), effort=EFFORT)
    return None if answer.ended is Ended.INFEASIBLE else (answer.chosen, answer.bound)


def solve_by_decomposition(
    table: SetTable,
    master: Master = planner_master,
    limit_s: float = 120.0,
    seed: int = 1,
    clock: Callable[[], float] = process_time,
) -> tuple[SetAnswer, Trace]:
    """Solve until the bound meets the best plan, or for so many seconds.

    Sets are given a plan at once, and while prices still rise also the best set of those
    exercises whose prices are exact, so that there is a plan early.
    """
    start, trace = clock(), Trace()
    coupling = Coupling(table, {KIND: table.alternatives}, seed)
    prices = [coupling.alone((e, KIND)).price for e in range(len(table.exercises))]
    cuts: dict[frozenset[int], int | None] = {}
    best: int | None = None
    chosen: frozenset[int] = frozenset()
    bound = 0
    burst = coupling.burst
    if burst is None:
        return SetAnswer(None, float("inf"), True), trace

    def keep(stands: Sequence[Stand], plan: JointPrice | None) -> None:
        nonlocal best, chosen
        some = frozenset(e for e, _ in stands)
        price = None if plan is None else plan.price
        if price is not None and (best is None or price + table.set_price(some) < best):
            best, chosen = price + table.set_price(some), some
            trace.marks.append(Mark(clock() - start, best, bound))

    while clock() - start < limit_s:
        found = master(table, prices, cuts)
        trace.masters += 1
        if found is None:
            if best is None:
                return SetAnswer(None, float("inf"), True), trace
            return SetAnswer(best, float(best), True, chosen), trace
        candidate, below = found
        bound = max(bound, below + burst)
        trace.marks.append(Mark(clock() - start, best, bound))
        if best is not None and bound >= best:
            return SetAnswer(best, float(best), True, chosen), trace
        stands = [(e, KIND) for e in sorted(candidate)]
        risen = [stand for stand in stands if coupling.strengthen(stand)]
        for e, _ in risen:
            prices[e] = coupling.alone((e, KIND)).price
        learnt: dict[frozenset[int], int | None] = {}
        if risen:
            keep(stands, coupling.at_most(stands))
            if trace.masters in SAFE_AT:
                safe = [
                    p if coupling.alone((e, KIND)).exact else None for e, p in enumerate(prices)
                ]
                known = master(table, safe, cuts)
                stands = [(e, KIND) for e in sorted(known[0])] if known is not None else []
                keep(stands, coupling.at_most(stands) if stands else None)
        else:
            quick = coupling.least(stands)
            keep(stands, quick if quick.exact else coupling.at_most(stands))
            enough = None if best is None else best - table.set_price(candidate)
            for part, extra in coupling.cuts(stands, enough).items():
                learnt[frozenset(e for e, _ in part)] = extra
            together = coupling.least(stands)
            keep(stands, together if together.exact else None)
        if best is not None and bound >= best:
            return SetAnswer(best, float(best), True, chosen), trace
        if risen:
            continue
        if all(part in cuts and cuts[part] == extra for part, extra in learnt.items()):
            break
        cuts |= learnt
        trace.cuts = len(cuts)
    return SetAnswer(best, float(bound), False, chosen), trace
