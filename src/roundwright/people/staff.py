"""Who teaches: certificates with their ends, and what each may teach.

Common practice, no source; local law, licences and the insurer's words go first. An end that has
passed means 'ask', never permission.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from enum import StrEnum
from typing import Annotated, Literal

from pydantic import Field

from roundwright.foundation.identifiers import Slug
from roundwright.foundation.model import Authored

SOON_DAYS = 28
"""How many days ahead an end is told; our choice."""
Words = Annotated[str, Field(min_length=1, max_length=80)]


class CertificateKind(StrEnum):
    """What a certificate is about."""

    COACHING = "coaching"
    FIRST_AID = "first_aid"
    DEFIBRILLATOR = "defibrillator"
    SAFEGUARDING = "safeguarding"
    INSURANCE = "insurance"
    OTHER = "other"


class Teaches(StrEnum):
    """What not everybody may teach."""

    NEWCOMERS = "newcomers"
    JUMPS = "jumps"
    OVERHEAD_LOADS = "overhead_loads"
    NEW_COMBINATIONS = "new_combinations"
    PREGNANT_AND_POSTNATAL = "pregnant_and_postnatal"
    UNDER_16 = "under_16"
    OVER_65 = "over_65"
    SEATED_AND_ADAPTED = "seated_and_adapted"


class Certificate(Authored):
    """One certificate: what about, who gave it, from when until when; no end: it has none."""

    kind: CertificateKind
    given_by: str = Field(default="", max_length=80)
    issued_on: date | None = None
    expires_on: date | None = None

    def holds_on(self, on: date) -> bool:
        """Say whether it was given by a date and has not run out."""
        begun = self.issued_on is None or self.issued_on <= on
        return begun and (self.expires_on is None or on <= self.expires_on)


class StaffMember(Authored):
    """A coach or an assistant of the hall."""

    id: Slug
    name: Words
    role: Literal["coach", "assistant"] = "coach"
    may_teach: tuple[Teaches, ...] = ()
    certificate: tuple[Certificate, ...] = Field(default=(), max_length=20)

    def holds(self, kind: CertificateKind, on: date) -> bool:
        """Say whether a certificate of a kind holds on a date."""
        return any(one.kind is kind and one.holds_on(on) for one in self.certificate)


class StaffDueKind(StrEnum):
    """What is to be asked about staff."""

    EXPIRED = "expired"
    EXPIRES = "expires"
    NO_COACHING = "no_coaching"
    NOBODY_WITH_FIRST_AID = "nobody_with_first_aid"


STAFF_WORDS: dict[StaffDueKind, str] = {
    StaffDueKind.EXPIRED: "has run out: ask for the new one before they teach",
    StaffDueKind.EXPIRES: "runs out: ask for the next",
    StaffDueKind.NO_COACHING: "no coaching certificate is written down: ask",
    StaffDueKind.NOBODY_WITH_FIRST_AID: "nobody holds a first aid certificate: ask before a class",
}
"""What to do, for the owner."""


@dataclass(frozen=True, slots=True)
class StaffDue:
    """One thing to be asked: of whom (empty: of all), about which certificate, and its end."""

    what: StaffDueKind
    name: str = ""
    kind: CertificateKind | None = None
    ends_on: date | None = None

    @property
    def words(self) -> str:
        """Give what to do."""
        return STAFF_WORDS[self.what]


def staff_due(staff: Sequence[StaffMember], on: date) -> tuple[StaffDue, ...]:
    """Give what is to be asked about staff on a date; nothing where no staff is written down.

    Notes
    -----
    A certificate that ran out is not told where another of its kind holds.
    """
    found = [due for member in staff for due in _of_member(member, on)]
    if staff and not any(m.holds(CertificateKind.FIRST_AID, on) for m in staff):
        found.insert(0, StaffDue(StaffDueKind.NOBODY_WITH_FIRST_AID))
    return tuple(found)


def _of_member(member: StaffMember, on: date) -> Iterator[StaffDue]:
    kinds = dict.fromkeys(one.kind for one in member.certificate)
    for kind in kinds:
        ends = [c.expires_on for c in member.certificate if c.kind is kind]
        last = None if None in ends else max(end for end in ends if end is not None)
        if not member.holds(kind, on):
            yield StaffDue(StaffDueKind.EXPIRED, member.name, kind, last)
        elif last is not None and last <= on + timedelta(days=SOON_DAYS):
            yield StaffDue(StaffDueKind.EXPIRES, member.name, kind, last)
    if member.role == "coach" and CertificateKind.COACHING not in kinds:
        yield StaffDue(StaffDueKind.NO_COACHING, member.name)
