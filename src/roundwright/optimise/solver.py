"""The one place that talks to the HiGHS solver: rows in, checked status out."""

from collections.abc import Sequence
from dataclasses import dataclass, field
from enum import Enum
from math import ceil, inf

import highspy
import numpy as np

from roundwright.foundation.errors import RoundwrightError

_STOPPED = (
    highspy.HighsModelStatus.kSolutionLimit,
    highspy.HighsModelStatus.kIterationLimit,
    highspy.HighsModelStatus.kInterrupt,
)
_NONE = (
    highspy.HighsModelStatus.kInfeasible,
    highspy.HighsModelStatus.kUnboundedOrInfeasible,
)
_LESS_THAN_ONE = 0.5
"""Objectives are whole points or seconds: a gap below one is a proof."""


class _QuietHighs(highspy.Highs):
    """The solver without the banner that it prints while its callbacks are set up."""

    def __init__(self) -> None:
        super().__init__()  # type: ignore[no-untyped-call]

    def enableCallbacks(self) -> None:
        self.silent()
        super().enableCallbacks()  # type: ignore[no-untyped-call]


class Ended(Enum):
    """How one solve ended."""

    OPTIMAL = "optimal"
    LIMIT = "limit"
    INFEASIBLE = "infeasible"


@dataclass(slots=True)
class Work:
    """Counted work left for one fit: solver nodes, and groupings tried."""

    nodes_left: int
    groupings_left: int
    swaps_left: int
    used: int = 0

    def spend_nodes(self, nodes: int) -> None:
        """Count the nodes of one solve."""
        self.nodes_left = max(0, self.nodes_left - nodes)
        self.used += nodes

    def spend_round(self) -> None:
        """Count one grouping tried."""
        self.used += 1


@dataclass(frozen=True, slots=True)
class Solved:
    """One solve: values rounded to integers (empty when none), and a valid lower bound."""

    ended: Ended
    values: tuple[int, ...]
    bound: int


@dataclass(slots=True)
class Model:
    """A minimisation over variables that are added one by one."""

    costs: list[float] = field(default_factory=list)
    uppers: list[float] = field(default_factory=list)
    whole: list[bool] = field(default_factory=list)
    _starts: list[int] = field(default_factory=lambda: [0])
    _index: list[int] = field(default_factory=list)
    _value: list[float] = field(default_factory=list)
    _row_lower: list[float] = field(default_factory=list)
    _row_upper: list[float] = field(default_factory=list)

    def add(self, *, cost: float = 0.0, upper: float = inf, whole: bool = False) -> int:
        """Add a variable from 0 to `upper` and give its number."""
        self.costs.append(cost)
        self.uppers.append(upper)
        self.whole.append(whole)
        return len(self.costs) - 1

    def row(
        self, terms: Sequence[tuple[int, float]], *, low: float = -inf, high: float = inf
    ) -> None:
        """Add low ≤ Σ value × variable ≤ high."""
        self._index += [variable for variable, _ in terms]
        self._value += [value for _, value in terms]
        self._starts.append(len(self._index))
        self._row_lower.append(low)
        self._row_upper.append(high)

    def shadow_prices(self, apart: Sequence[int]) -> tuple[list[float], float] | None:
        """Solve with every variable divisible, and price each variable's use of the rows.

        Parameters
        ----------
        apart : sequence of int
            Rows whose prices are left out of what variables are worth.

        Returns
        -------
        (costs, objective) or None
            Each variable's cost less what the other rows give for it, and the least
            objective; None: there is no solution.

        Raises
        ------
        RoundwrightError
            When the solver ends in a state that is no answer: a fault of ours.
        """
        highs = self._divided()
        if highs is None:
            return None
        duals = list(highs.getSolution().row_dual)
        for row in apart:
            duals[row] = 0.0
        worth = list(self.costs)
        for row, dual in enumerate(duals):
            for k in range(self._starts[row], self._starts[row + 1]) if dual else ():
                worth[self._index[k]] -= dual * self._value[k]
        return worth, float(highs.getInfo().objective_function_value)

    def reduced_costs(self) -> tuple[list[float], float] | None:
        """Solve with every variable divisible: what one more of each adds, and the objective.

        Returns
        -------
        (costs, objective) or None
            None: there is no solution.
        """
        highs = self._divided()
        if highs is None:
            return None
        return list(highs.getSolution().col_dual), float(highs.getInfo().objective_function_value)

    def _divided(self) -> _QuietHighs | None:
        highs = _quiet(())
        lp = self._lp()
        lp.integrality_ = []
        highs.passModel(lp)
        highs.run()
        status = highs.getModelStatus()
        if status in _NONE:
            return None
        if status != highspy.HighsModelStatus.kOptimal:
            raise RoundwrightError(f"the solver ended with {highs.modelStatusToString(status)}")
        return highs

    def solve(self, work: Work, seed: int) -> Solved:
        """Minimise with one thread and the nodes that are left.

        Raises
        ------
        RoundwrightError
            When the solver ends in a state that is no answer: a fault of ours.
        """
        highs = _quiet(
            (
                ("random_seed", seed % 2**31),
                ("mip_rel_gap", 0.0),
                ("mip_abs_gap", _LESS_THAN_ONE),
                ("mip_max_nodes", work.nodes_left),
            )
        )
        highs.passModel(self._lp())
        highs.run()
        status, info = highs.getModelStatus(), highs.getInfo()
        work.spend_nodes(max(1, int(info.mip_node_count)))
        if status in _NONE:
            return Solved(Ended.INFEASIBLE, (), 0)
        if status != highspy.HighsModelStatus.kOptimal and status not in _STOPPED:
            raise RoundwrightError(f"the solver ended with {highs.modelStatusToString(status)}")
        bound = ceil(info.mip_dual_bound - 1e-6) if abs(info.mip_dual_bound) < 1e15 else 0
        feasible = info.primal_solution_status == highspy.SolutionStatus.kSolutionStatusFeasible
        values = tuple(round(v) for v in highs.getSolution().col_value) if feasible else ()
        if status == highspy.HighsModelStatus.kOptimal:
            return Solved(Ended.OPTIMAL, values, bound)
        return Solved(Ended.LIMIT, values, bound)

    def _lp(self) -> highspy.HighsLp:
        lp = highspy.HighsLp()
        lp.num_col_, lp.num_row_ = len(self.costs), len(self._row_lower)
        lp.col_cost_ = np.array(self.costs)
        lp.col_lower_ = np.zeros(len(self.costs))
        lp.col_upper_ = np.array(self.uppers)
        lp.row_lower_ = np.array(self._row_lower)
        lp.row_upper_ = np.array(self._row_upper)
        lp.a_matrix_.format_ = highspy.MatrixFormat.kRowwise
        lp.a_matrix_.start_ = np.array(self._starts, dtype=np.int32)
        lp.a_matrix_.index_ = np.array(self._index, dtype=np.int32)
        lp.a_matrix_.value_ = np.array(self._value)
        lp.integrality_ = [
            highspy.HighsVarType.kInteger if whole else highspy.HighsVarType.kContinuous
            for whole in self.whole
        ]
        return lp


def _quiet(options: Sequence[tuple[str, float]]) -> _QuietHighs:
    """Give a solver of one thread that prints nothing."""
    highs = _QuietHighs()
    highs.setOptionValue("output_flag", False)
    highs.setOptionValue("threads", 1)
    highs.setOptionValue("parallel", "off")
    for name, value in options:
        highs.setOptionValue(name, value)
    return highs
