"""Which demands a limitation caps on the day of a class, and what to say instead of why.

The rows are in `demand_cap_table`. Limits are judged on the class's date. A
limit past its end stays in force until somebody confirms its end: an expiry
means 'ask', not 'healthy'.
"""

from collections.abc import Iterable
from dataclasses import dataclass, field
from datetime import date

from roundwright.body.anatomy import Side
from roundwright.library.vocabulary import Demand
from roundwright.people.demand_cap_table import TABLE
from roundwright.people.limitation import Limitation, LimitedSide


@dataclass(frozen=True, slots=True)
class EffectiveLimits:
    """What one person's limitations come to on one date, without their reasons.

    `caps` maps a demand to the highest degree allowed; a demand that is not
    named is free. `actions` is what an assistant may see. `first_side` is the
    side to start with (the sore one). `effort_cap` is the highest effort of
    10, or None. Caps never show in a repr.
    """

    caps: dict[Demand, int] = field(repr=False)
    actions: tuple[str, ...]
    first_side: Side
    effort_cap: int | None = field(repr=False)


def effective_limits(limitations: Iterable[Limitation], on: date) -> EffectiveLimits:
    """Give the caps that hold on a date.

    Parameters
    ----------
    limitations : iterable of Limitation
        The rows of one person.
    on : date
        The class's date, local.

    Notes
    -----
    A row counts from `from_on` on, also past `until_on`. An override lifts its
    one demand of its own row, up to and including `override_until_on`; it
    never lifts another row's cap, nor the effort cap.
    """
    rows = [row for row in limitations if row.from_on <= on]
    caps: dict[Demand, int] = {}
    actions: dict[str, None] = {}
    efforts: list[int] = []
    for row in rows:
        cap_row = TABLE[row.concern, row.amount]
        lifted = lifted_demand(row, on)
        for demand, degree in cap_row.caps.items():
            if demand is not lifted:
                caps[demand] = min(degree, caps.get(demand, degree))
        for action in cap_row.actions:
            if action.follows_from is None or action.follows_from is not lifted:
                actions[action.words] = None
        if cap_row.effort_cap is not None:
            efforts.append(cap_row.effort_cap)
    return EffectiveLimits(
        caps=dict(sorted(caps.items())),
        actions=tuple(actions),
        first_side=first_side(rows),
        effort_cap=min(efforts, default=None),
    )


def lifted_demand(row: Limitation, on: date) -> Demand | None:
    """Give the demand that an override lifts on a date; None without a complete override."""
    complete = row.override_reason and row.override_by and row.override_until_on
    if row.override_until_on is None or not complete or on > row.override_until_on:
        return None
    return row.override_demand


def first_side(rows: Iterable[Limitation]) -> Side:
    """Give the side to start with: right when only right sides are sore, else left."""
    sides = {row.side for row in rows} - {LimitedSide.NONE}
    return Side.RIGHT if sides == {LimitedSide.RIGHT} else Side.LEFT
