"""What goes into a master and comes out of it: prices by place, cuts, a set with its bound."""

from dataclasses import dataclass

from roundwright.optimise.solver import Ended


@dataclass(frozen=True, slots=True)
class EndPrices:
    """By exercise: its price in the middle, first and last of a round; None: never there.

    With one place only `first` counts.
    """

    middle: tuple[int | None, ...]
    first: tuple[int | None, ...]
    last: tuple[int | None, ...]


@dataclass(frozen=True, slots=True)
class Cut:
    """At least `extra` on top, where all of these stand; `extra` None: never all of these.

    `anywhere` are exercises at whatever place, `middle` those at none of the ends, `first`
    and `last` those at an end; `order` names neighbours that follow each other.
    """

    anywhere: frozenset[int]
    extra: int | None
    middle: frozenset[int] = frozenset()
    first: int | None = None
    last: int | None = None
    order: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class MasterAnswer:
    """A set and perhaps its order (first to last), and a bound for all that are left."""

    ended: Ended
    chosen: frozenset[int]
    order: tuple[int, ...]
    bound: int
    work: float
