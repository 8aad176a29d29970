"""How a search ended: a value, never an empty plan standing for 'none'."""

from enum import StrEnum

from pydantic import Field

from roundwright.foundation.identifiers import Slug
from roundwright.foundation.model import Stored


class Status(StrEnum):
    """What is known about the answer."""

    PROVEN = "proven"
    FOUND = "found"
    IMPOSSIBLE = "impossible"
    UNDECIDED = "undecided"


class StoppedBy(StrEnum):
    """What ended the search; `guard` also when the planner's process broke."""

    PROOF = "proof"
    BUDGET = "budget"
    GUARD = "guard"
    CALLER = "caller"


class Budget(StrEnum):
    """Counted work, not seconds."""

    QUICK = "quick"
    NORMAL = "normal"
    THOROUGH = "thorough"


class Clash(Stored):
    """One member of the smallest set of things that cannot all hold."""

    kind: str
    positions: tuple[int, ...] = ()
    persons: tuple[Slug, ...] = ()
    item: str = ""
    figures: dict[str, int] = Field(default_factory=dict)


class WayOut(Stored):
    """One change that was solved again and gives a plan; the kindest first.

    `parts` are the changes of one that is made of several (kind `several`).
    """

    kind: str
    positions: tuple[int, ...] = ()
    persons: tuple[Slug, ...] = ()
    item: str = ""
    figures: dict[str, int] = Field(default_factory=dict)
    cost: int = 0
    overrun_s: int = 0
    parts: tuple["WayOut", ...] = ()


class NotToday(Stored):
    """A person who does not take part, and the key of the kind words for it."""

    person_id: Slug
    words: str


class Outcome(Stored):
    """Status, cost, bound and what it took. `clash` is filled when impossible."""

    status: Status
    stopped_by: StoppedBy
    cost: int | None = None
    bound: int | None = None
    bound_covers: str = "all"
    overrun_s: int = 0
    seed: int = 1
    budget: Budget = Budget.NORMAL
    work_used: int = 0
    versions: dict[str, str] = Field(default_factory=dict)
    wall_ms: int = 0
    repeatable: bool = True
    clash: tuple[Clash, ...] = ()
    ways_out: tuple[WayOut, ...] = ()
    not_today: tuple[NotToday, ...] = ()
