"""Which demands a limitation caps on the day of a class, and what to say instead of why.

The rows are in `demand_cap_table`. Limits are judged on the class's date. A
limit past its end stays in force until somebody confirms its end: an expiry
means 'ask', not 'healthy', and the question stands among the actions.
"""

from collections.abc import Iterable
from dataclasses import dataclass, field
from datetime import date

from roundwright.body.anatomy import Limb, Side
from roundwright.library.vocabulary import Demand
from roundwright.people.cap_row import ASK_SIDE, ASK_STILL
from roundwright.people.demand_cap_table import row_for
from roundwright.people.limitation import (
    Amount,
    Concern,
    Limitation,
    LimitedSide,
    OverrideRole,
    SetBy,
)
from roundwright.people.stage_caps import CLINICIAN_LIFTS

LIMBS = {
    Concern.ONE_ARM: (Limb.ARM, Demand.NEEDS_BOTH_ARMS),
    Concern.ONE_LEG: (Limb.LEG, Demand.NEEDS_BOTH_LEGS),
}
"""Concerns about a limb: which, and the demand whose override says that it is used after all."""


@dataclass(frozen=True, slots=True)
class EffectiveLimits:
    """What one person's limitations come to on one date, without their reasons.

    `caps` maps a demand to the highest degree allowed; a demand that is not
    named is free. `actions` is what an assistant may see. `first_side` is the
    side to start with (the sore one). `effort_cap` is the highest effort of
    10, or None. `unused` names the side of a limb that is not there or not
    used, `both` where neither is or nobody said which. Caps never show in a repr.
    """

    caps: dict[Demand, int] = field(repr=False)
    actions: tuple[str, ...]
    first_side: Side
    effort_cap: int | None = field(repr=False)
    unused: dict[Limb, Side] = field(repr=False)


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
    never lifts another row's cap, nor the effort cap. Some caps only a
    clinician lifts (`stage_caps.CLINICIAN_LIFTS`).
    """
    rows = [row for row in limitations if row.from_on <= on]
    caps: dict[Demand, int] = {}
    actions: dict[str, None] = {}
    efforts: list[int] = []
    for row in rows:
        cap_row = row_for(row.concern, row.amount, row.week_on(on))
        lifted = lifted_demand(row, on)
        for demand, degree in cap_row.caps.items():
            if demand is not lifted:
                caps[demand] = min(degree, caps.get(demand, degree))
        for action in cap_row.actions:
            if action.follows_from is None or action.follows_from is not lifted:
                actions[action.words] = None
        if row.concern in LIMBS and row.side is LimitedSide.NONE:
            actions[ASK_SIDE.words] = None
        if row.until_on is not None and row.until_on < on:
            actions[ASK_STILL.words] = None
        if cap_row.effort_cap is not None:
            efforts.append(cap_row.effort_cap)
    return EffectiveLimits(
        caps=dict(sorted(caps.items())),
        actions=tuple(actions),
        first_side=first_side(rows),
        effort_cap=min(efforts, default=None),
        unused=unused_sides(rows, on),
    )


def lifted_demand(row: Limitation, on: date) -> Demand | None:
    """Give the demand that an override lifts on a date; None without a complete override."""
    complete = row.override_reason and row.override_by and row.override_until_on
    if row.override_until_on is None or not complete or on > row.override_until_on:
        return None
    if row.override_by is not OverrideRole.CLINICIAN:
        if row.set_by is SetBy.CLINICIAN:
            return None
        demand = row.override_demand
        if demand is not None and needs_clinician(row.concern, demand, row.week_on(on)):
            return None
    return row.override_demand


def needs_clinician(concern: Concern, demand: Demand, week: int | None) -> bool:
    """Say whether only a clinician may lift a demand of a concern in a week, None if unknown."""
    lifts = CLINICIAN_LIFTS.get(concern, {})
    if demand not in lifts:
        return False
    from_week = lifts[demand]
    return from_week is None or week is None or week < from_week


def never_by_coach(concern: Concern, demand: Demand) -> bool:
    """Say whether no week lets anybody but a clinician lift a demand of a concern."""
    return CLINICIAN_LIFTS.get(concern, {}).get(demand, 0) is None


def unused_sides(rows: Iterable[Limitation], on: date) -> dict[Limb, Side]:
    """Give the side of each limb that is not used on a date; only *avoid* says so."""
    unused: dict[Limb, Side] = {}
    for row in rows:
        if row.concern not in LIMBS or row.amount is not Amount.AVOID:
            continue
        limb, needs_both = LIMBS[row.concern]
        if lifted_demand(row, on) is needs_both:
            continue
        one = row.side in (LimitedSide.LEFT, LimitedSide.RIGHT)
        side = Side(row.side.value) if one else Side.BOTH
        unused[limb] = side if unused.get(limb, side) is side else Side.BOTH
    return unused


def first_side(rows: Iterable[Limitation]) -> Side:
    """Give the side to start with: right when only right sides are sore, else left."""
    sides = {row.side for row in rows if row.concern not in LIMBS} - {LimitedSide.NONE}
    return Side.RIGHT if sides == {LimitedSide.RIGHT} else Side.LEFT
