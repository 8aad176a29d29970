"""For which rosters a plan holds, and for how many people that is."""

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from enum import StrEnum

from roundwright.foundation.quantities import BP
from roundwright.plan.attendance.attendance_table import AttendanceTable
from roundwright.plan.changing.change import Harm

MOST_TIER = 1
"""An answer that needs another exercise is no longer the same class."""


class Ending(StrEnum):
    """What came of a plan when a roster stood there."""

    HELD = "held"
    LATE = "late"
    LEFT_OUT = "left_out"
    DISTURBED = "disturbed"
    OTHER_EXERCISE = "other_exercise"
    NO_ANSWER = "no_answer"


def ending_of(harm: Harm, tier: int, table: AttendanceTable) -> Ending:
    """Say whether an answer to a roster leaves the plan what it was (C9).

    Parameters
    ----------
    harm : Harm
        Of the answer, against the plan.
    tier : int
        Which tier found it.
    table : AttendanceTable
        How many people may be disturbed.
    """
    if tier > MOST_TIER:
        return Ending.OTHER_EXERCISE
    if harm.left_out:
        return Ending.LEFT_OUT
    if harm.overrun_s:
        return Ending.LATE
    return Ending.HELD if harm.people <= table.few_disturbed else Ending.DISTURBED


@dataclass(frozen=True, slots=True)
class Holding:
    """What came of one plan: by roster, in the order drawn, heads and ending."""

    endings: tuple[tuple[int, Ending], ...]

    @property
    def held(self) -> int:
        """How many rosters it held for."""
        return sum(ending is Ending.HELD for _, ending in self.endings)

    @property
    def held_bp(self) -> int:
        """Share of the rosters that it held for, 1/10,000, rounded down."""
        return self.held * BP // len(self.endings) if self.endings else 0

    def by_heads(self) -> dict[int, tuple[int, int]]:
        """Give for each head count how many rosters held, of how many."""
        drawn = Counter(heads for heads, _ in self.endings)
        held = Counter(heads for heads, ending in self.endings if ending is Ending.HELD)
        return {heads: (held[heads], drawn[heads]) for heads in sorted(drawn)}

    def why_not(self) -> dict[Ending, int]:
        """Give how often it did not hold, by reason, the most frequent first."""
        counted = Counter(e for _, e in self.endings if e is not Ending.HELD)
        return dict(sorted(counted.items(), key=lambda pair: (-pair[1], pair[0])))


def head_counts(holding: Holding, table: AttendanceTable) -> tuple[int, int] | None:
    """Give the longest row of head counts for which a plan held often enough.

    Parameters
    ----------
    holding : Holding
        What came of it.
    table : AttendanceTable
        `held_bp` of the rosters of each head count in the row; head counts with fewer than
        `least_rosters` break the row, as nothing can be said of them.

    Returns
    -------
    (fewest, most) or None
        Of rows of equal length the one that was drawn most often. None: for no head count.
    """
    rows: list[list[tuple[int, int]]] = []
    for heads, (held, drawn) in holding.by_heads().items():
        if drawn < table.least_rosters or held * BP < table.held_bp * drawn:
            continue
        if rows and rows[-1][-1][0] == heads - 1:
            rows[-1].append((heads, drawn))
        else:
            rows.append([(heads, drawn)])
    if not rows:
        return None
    best = max(rows, key=lambda row: (len(row), sum(drawn for _, drawn in row), -row[0][0]))
    return best[0][0], best[-1][0]


@dataclass(frozen=True, slots=True)
class Rated:
    """One plan of a pool: its number there, what came of it, and its price."""

    number: int
    held: int
    price: int


def best_of(pool: Sequence[Rated] | Iterable[Rated]) -> Rated:
    """Give the plan that holds for most rosters, then costs least, then came first."""
    return min(pool, key=lambda one: (-one.held, one.price, one.number))
