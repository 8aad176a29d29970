"""What the house remembers of kept plans: a revision never changes, so it is opened once."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING

from roundwright.accounts.account import Account, May
from roundwright.goals.class_wish import ClassWish
from roundwright.hall.hall import Hall
from roundwright.people.staff import Teaches
from roundwright.plan.document import PlanDocument
from roundwright.plan.verdict import Grade
from roundwright.services.keeping.shelves import PlanEntry
from roundwright.services.who_leads import lead_advice, lead_words, needs_of_plan

if TYPE_CHECKING:
    from roundwright.web.house.house import House

MOST_PLANNED = 500
"""Revisions of which it is remembered what is in them; our choice."""


@dataclass(frozen=True, slots=True)
class Planned:
    """Who is in a revision, whether something stops it, what it asks of whoever leads."""

    people: frozenset[str]
    is_stopped: bool
    needs: frozenset[Teaches]


def look_at(house: "House", hall_id: str, entry: PlanEntry) -> Planned:
    """Give what is remembered of a revision; the first time it is opened."""
    known = house.planned.get((entry.plan_id, entry.revision))
    if known is None:
        opened = house.keeping.plans.opened(hall_id, entry.plan_id, entry.revision)
        known = remember(house, opened.document)
    return known


def remember(house: "House", plan: PlanDocument) -> Planned:
    """Remember what is in a revision that somebody has in hand."""
    known, key = house.planned, (plan.core.plan_id, plan.core.revision)
    if key not in known:
        if len(known) >= MOST_PLANNED:
            known.clear()
        stopped = bool(plan.verdict.of_grade(Grade.STOP))
        known[key] = Planned(frozenset(plan.problem.people), stopped, needs_of_plan(plan))
    return known[key]


def about_lead(
    house: "House",
    hall_id: str,
    hall: Hall,
    wish: ClassWish,
    on: date,
    plans: Sequence[PlanEntry],
    account: Account,
) -> str:
    """Say what is to be asked about who leads a class, by what an account may see; else empty.

    Parameters
    ----------
    plans : sequence of PlanEntry
        The plans of the class on that day; the last one counts.
    """
    needs = look_at(house, hall_id, plans[-1]).needs if plans else frozenset()
    advice = lead_advice(hall, wish, on, needs)
    return lead_words(advice, with_health=account.may(May.SEE_HEALTH)) if advice else ""
