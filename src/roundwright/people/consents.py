"""What a person agreed to, who speaks for them, and whom to call."""

from datetime import date
from typing import Annotated

from pydantic import Field

from roundwright.foundation.identifiers import Slug
from roundwright.foundation.model import Authored

ADULT_AGE = 18
"""Years below which a guardian is needed; local law goes first."""
Name = Annotated[str, Field(min_length=1, max_length=80)]
Phone = Annotated[str, Field(min_length=3, max_length=40)]


class Consent(Authored):
    """One consent: when it was given, to which version of the words, and when it was withdrawn."""

    on: date
    words_version: Annotated[str, Field(min_length=1, max_length=40)]
    withdrawn_on: date | None = None

    def holds_on(self, on: date) -> bool:
        """Say whether it was given by a date and not withdrawn by then."""
        return self.on <= on and (self.withdrawn_on is None or on < self.withdrawn_on)


class Guardian(Authored):
    """Who speaks for somebody under 18, and since when they agree; without a date they don't."""

    name: Name
    relation: Name
    phone: Phone
    consent_on: date | None = None


class EmergencyContact(Authored):
    """Whom to call."""

    name: Name
    phone: Phone
    relation: str = Field(default="", max_length=80)


class Consents(Authored):
    """All of one person: data, health data and training are agreed to apart."""

    person_id: Slug = Field(alias="person")
    data: Consent | None = Field(default=None, repr=False)
    health_data: Consent | None = Field(default=None, repr=False)
    training: Consent | None = Field(default=None, repr=False)
    guardian: Guardian | None = Field(default=None, repr=False)
    emergency_contact: EmergencyContact | None = Field(default=None, repr=False)
    review_on: date | None = None
