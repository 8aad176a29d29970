"""What the gate says of a plan."""

from enum import StrEnum

from pydantic import Field

from roundwright.foundation.identifiers import Slug
from roundwright.foundation.model import Stored
from roundwright.plan.cost_table import CostLine


class Grade(StrEnum):
    """How grave a finding is.

    `never`: refused for print, store and show. `stop`: a draft only. `advise`:
    shown, never blocks.
    """

    NEVER = "never"
    STOP = "stop"
    ADVISE = "advise"


class Finding(Stored):
    """One thing that the gate found. `figures` never holds a reason for a limit."""

    rule: str
    grade: Grade
    persons: tuple[Slug, ...] = ()
    positions: tuple[int, ...] = ()
    round: int = 0
    window: int | None = None
    figures: dict[str, int | str] = Field(default_factory=dict)


class Verdict(Stored):
    """All findings, in a fixed order, with the cost that the gate counted."""

    findings: tuple[Finding, ...] = ()
    cost: int = 0
    cost_lines: tuple[CostLine, ...] = ()
    total_s: int = 0

    def of_grade(self, grade: Grade) -> tuple[Finding, ...]:
        """Give the findings of one grade."""
        return tuple(f for f in self.findings if f.grade is grade)

    @property
    def is_refused(self) -> bool:
        """Whether any finding says never."""
        return bool(self.of_grade(Grade.NEVER))

    @property
    def is_clear(self) -> bool:
        """Whether no finding says never or stop."""
        return not self.is_refused and not self.of_grade(Grade.STOP)
