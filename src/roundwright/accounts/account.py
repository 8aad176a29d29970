"""Accounts and roles: who may see what, and who may do what."""

from enum import StrEnum
from typing import Annotated

from pydantic import AwareDatetime, Field

from roundwright.foundation.model import Stored


class Role(StrEnum):
    """What somebody is in this house. Each may do what the one below may, and more."""

    OWNER = "owner"
    COACH = "coach"
    ASSISTANT = "assistant"


class May(StrEnum):
    """What can be asked of the house, in terms of who may ask it.

    `see_actions` is what a plan asks of people ('no jumps') without why; `see_health` is
    why. `lift_limits` never reaches what a clinician set.
    """

    SEE_PLANS = "see_plans"
    SEE_ACTIONS = "see_actions"
    SEE_PEOPLE = "see_people"
    SEE_HEALTH = "see_health"
    PLAN = "plan"
    CHANGE_PEOPLE = "change_people"
    CHANGE_HEALTH = "change_health"
    LIFT_LIMITS = "lift_limits"
    CHANGE_HALL = "change_hall"
    DELETE_PEOPLE = "delete_people"
    TAKE_OUT = "take_out"
    MANAGE_ACCOUNTS = "manage_accounts"
    MANAGE_BACKUPS = "manage_backups"
    SEE_TRAIL = "see_trail"


_ASSISTANT = frozenset({May.SEE_PLANS, May.SEE_ACTIONS, May.SEE_PEOPLE})
_COACH = _ASSISTANT | {
    May.SEE_HEALTH,
    May.PLAN,
    May.CHANGE_PEOPLE,
    May.CHANGE_HEALTH,
    May.LIFT_LIMITS,
    May.CHANGE_HALL,
    May.TAKE_OUT,
}
ALLOWED: dict[Role, frozenset[May]] = {
    Role.ASSISTANT: _ASSISTANT,
    Role.COACH: frozenset(_COACH),
    Role.OWNER: frozenset(May),
}
"""The one table of rights; a test holds every route against it."""


class Account(Stored):
    """Somebody who signs in. `password_hash` never shows in a repr and never leaves the store."""

    account_id: str
    sign_in_name: Annotated[str, Field(pattern=r"^[a-z0-9][a-z0-9._-]{1,39}$")]
    shown_name: Annotated[str, Field(min_length=1, max_length=40)]
    role: Role
    password_hash: str = Field(repr=False)
    units: Annotated[str, Field(pattern="^(kg|lb)$")] = "kg"
    language: Annotated[str, Field(pattern=r"^[a-z]{2,3}(-[A-Z]{2})?$")] = "en-GB"
    made_at: AwareDatetime
    closed_at: AwareDatetime | None = None
    version: int = 1

    def may(self, what: May) -> bool:
        """Say whether the account may do something now."""
        return self.closed_at is None and what in ALLOWED[self.role]
