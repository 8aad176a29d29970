"""A clearance that somebody gave by name: for what, on what conditions, until when."""

from datetime import date
from enum import StrEnum
from typing import Annotated

from pydantic import Field, field_validator

from roundwright.foundation.identifiers import Slug
from roundwright.foundation.model import Authored
from roundwright.library.vocabulary import HIGHEST_DEMAND, Demand
from roundwright.people.person import Clearance


class GivenBy(StrEnum):
    """Who gave a clearance; only a clinician answers a referral."""

    CLINICIAN = "clinician"
    COACH = "coach"
    OWNER = "owner"


class ClearanceRecord(Authored):
    """The latest clearance of one person. Past `until_on` it means 'ask'; its conditions stay.

    `caps` gives the highest degree of a demand (0 to 3), `effort_ceiling` the highest
    effort of 10; `words` say what to do, never why, and are printed on the sheet.
    """

    person_id: Slug = Field(alias="person")
    clearance: Clearance = Field(repr=False)
    given_by: GivenBy
    given_by_name: Annotated[str, Field(min_length=1, max_length=80)] = Field(repr=False)
    on: date
    until_on: date | None = None
    caps: dict[Demand, Annotated[int, Field(ge=0, le=HIGHEST_DEMAND)]] = Field(
        default_factory=dict, repr=False
    )
    effort_ceiling: int | None = Field(default=None, ge=1, le=10, repr=False)
    words: tuple[Annotated[str, Field(min_length=1, max_length=120)], ...] = Field(
        default=(), repr=False, max_length=10
    )

    @field_validator("clearance")
    @classmethod
    def _says_something(cls, value: Clearance) -> Clearance:
        if value is Clearance.UNKNOWN:
            raise ValueError("expected cleared, moderate_only or not_cleared")
        return value

    def holds_on(self, on: date) -> bool:
        """Say whether the clearance was given by a date and has not run out."""
        return self.on <= on and (self.until_on is None or on <= self.until_on)
