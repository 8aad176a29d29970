"""Who needs what on a date: what to ask of a person, whom, and whether before training."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from datetime import date, timedelta
from enum import StrEnum

from roundwright.people.clearance_record import ClearanceRecord
from roundwright.people.consents import ADULT_AGE, Consents
from roundwright.people.effective_clearance import effective_clearance
from roundwright.people.health_screen import HealthScreen, screen_outcome
from roundwright.people.limitation import WITH_WEEKS, Limitation, SetBy
from roundwright.people.person import Clearance, Person

SOON_DAYS = 28
"""How many days ahead an end is told; our choice."""


class DueKind(StrEnum):
    """What is to be asked."""

    SCREEN_MISSING = "screen_missing"
    SCREEN_EXPIRED = "screen_expired"
    SCREEN_OPEN = "screen_open"
    SCREEN_EXPIRES = "screen_expires"
    CLEARANCE_ASKED = "clearance_asked"
    CLEARANCE_EXPIRED = "clearance_expired"
    CLEARANCE_EXPIRES = "clearance_expires"
    REVIEW = "review"
    LIMITATION_ENDED = "limitation_ended"
    WEEKS_UNKNOWN = "weeks_unknown"
    GUARDIAN_MISSING = "guardian_missing"
    DATA_CONSENT_MISSING = "data_consent_missing"
    HEALTH_DATA_CONSENT_MISSING = "health_data_consent_missing"
    TRAINING_CONSENT_MISSING = "training_consent_missing"
    EMERGENCY_CONTACT_MISSING = "emergency_contact_missing"


class MayAnswer(StrEnum):
    """Who may answer."""

    PERSON = "person"
    COACH = "coach"
    CLINICIAN = "clinician"


class DueGrade(StrEnum):
    """How soon."""

    BEFORE_TRAINING = "before_training"
    SOON = "soon"


WORDS: dict[DueKind, str] = {
    DueKind.SCREEN_MISSING: "ask the health screen",
    DueKind.SCREEN_EXPIRED: "ask the health screen again",
    DueKind.SCREEN_OPEN: "ask what was left blank or unsure",
    DueKind.SCREEN_EXPIRES: "the health screen runs out: ask it again",
    DueKind.CLEARANCE_ASKED: "clearance first: ask for a clinician's word",
    DueKind.CLEARANCE_EXPIRED: "the clearance has run out: ask",
    DueKind.CLEARANCE_EXPIRES: "the clearance runs out: ask for the next",
    DueKind.REVIEW: "talk through what is written down",
    DueKind.LIMITATION_ENDED: "a limit is past its end and still holds: ask",
    DueKind.WEEKS_UNKNOWN: "ask which week; the most careful stage holds until then",
    DueKind.GUARDIAN_MISSING: "under 18: a guardian's name, phone and consent",
    DueKind.DATA_CONSENT_MISSING: "ask whether we may keep names and dates",
    DueKind.HEALTH_DATA_CONSENT_MISSING: "ask whether we may keep health data",
    DueKind.TRAINING_CONSENT_MISSING: "ask for consent to train",
    DueKind.EMERGENCY_CONTACT_MISSING: "ask whom to call",
}
"""What to do, for the coach."""


@dataclass(frozen=True, slots=True)
class Due:
    """One thing to be asked: since or until when, who may answer, and how soon. For coaches."""

    person_id: str
    what: DueKind = field(repr=False)
    who: MayAnswer
    grade: DueGrade
    since_on: date | None = None
    until_on: date | None = None

    @property
    def words(self) -> str:
        """Give what to do, in words for the coach."""
        return WORDS[self.what]


def due_of(
    person: Person,
    on: date,
    screen: HealthScreen | None = None,
    record: ClearanceRecord | None = None,
    consents: Consents | None = None,
    limitations: Sequence[Limitation] = (),
) -> tuple[Due, ...]:
    """Give what one person needs on a date, what must be before training first."""
    found = [
        *_of_screen(person, screen, record, on),
        *_of_clearance(person, screen, record, on),
        *_of_limitations(person, limitations, on),
        *_of_consents(person, consents, on),
    ]
    return tuple(sorted(found, key=lambda due: due.grade is DueGrade.SOON))


def _of_screen(
    person: Person, screen: HealthScreen | None, record: ClearanceRecord | None, on: date
) -> Iterator[Due]:
    who, before = MayAnswer.PERSON, DueGrade.BEFORE_TRAINING
    if screen is None:
        yield Due(person.person_id, DueKind.SCREEN_MISSING, who, before)
        return
    if not screen.holds_on(on):
        ended = screen.last_day + timedelta(days=1)
        since = min((d for d in (ended, screen.changed_on) if d), default=ended)
        yield Due(person.person_id, DueKind.SCREEN_EXPIRED, who, before, since_on=since)
    elif (screen.last_day - on).days <= SOON_DAYS:
        last = screen.last_day
        yield Due(person.person_id, DueKind.SCREEN_EXPIRES, who, DueGrade.SOON, until_on=last)
    outcome = screen_outcome(screen, on)
    if outcome.open_questions or (outcome.cautions and not _talked_through(screen, record, on)):
        since = screen.answered_on
        yield Due(person.person_id, DueKind.SCREEN_OPEN, who, before, since_on=since)


def _talked_through(screen: HealthScreen, record: ClearanceRecord | None, on: date) -> bool:
    """Say whether somebody by name has since said what the answers with a caution come to."""
    return record is not None and record.holds_on(on) and record.on >= screen.answered_on


def _of_clearance(
    person: Person, screen: HealthScreen | None, record: ClearanceRecord | None, on: date
) -> Iterator[Due]:
    who, before = MayAnswer.CLINICIAN, DueGrade.BEFORE_TRAINING
    if effective_clearance(person, screen, record, on).clearance is Clearance.NOT_CLEARED:
        yield Due(person.person_id, DueKind.CLEARANCE_ASKED, who, before)
    if record is None or record.until_on is None:
        return
    if record.until_on < on:
        since = record.until_on + timedelta(days=1)
        yield Due(person.person_id, DueKind.CLEARANCE_EXPIRED, who, before, since_on=since)
    elif (record.until_on - on).days <= SOON_DAYS:
        yield Due(
            person.person_id,
            DueKind.CLEARANCE_EXPIRES,
            who,
            DueGrade.SOON,
            until_on=record.until_on,
        )


def _of_limitations(person: Person, rows: Sequence[Limitation], on: date) -> Iterator[Due]:
    before = DueGrade.BEFORE_TRAINING
    for row in rows:
        if row.from_on > on:
            continue
        who = MayAnswer.CLINICIAN if row.set_by is SetBy.CLINICIAN else MayAnswer.PERSON
        if row.until_on is not None and row.until_on < on:
            since = row.until_on + timedelta(days=1)
            yield Due(person.person_id, DueKind.LIMITATION_ENDED, who, before, since_on=since)
        if row.concern in WITH_WEEKS and row.weeks is None:
            yield Due(
                person.person_id,
                DueKind.WEEKS_UNKNOWN,
                MayAnswer.PERSON,
                before,
                since_on=row.from_on,
            )


def _of_consents(person: Person, consents: Consents | None, on: date) -> Iterator[Due]:
    mine = consents or Consents(person_id=person.person_id)
    for what, consent, grade in (
        (DueKind.TRAINING_CONSENT_MISSING, mine.training, DueGrade.BEFORE_TRAINING),
        (DueKind.HEALTH_DATA_CONSENT_MISSING, mine.health_data, DueGrade.SOON),
        (DueKind.DATA_CONSENT_MISSING, mine.data, DueGrade.SOON),
    ):
        if consent is None or not consent.holds_on(on):
            since = consent.withdrawn_on if consent else None
            yield Due(person.person_id, what, MayAnswer.PERSON, grade, since_on=since)
    may_be_young = person.birth_year is not None and on.year - person.birth_year - 1 < ADULT_AGE
    agreed = mine.guardian.consent_on if mine.guardian else None
    if may_be_young and (agreed is None or agreed > on):
        before = DueGrade.BEFORE_TRAINING
        yield Due(person.person_id, DueKind.GUARDIAN_MISSING, MayAnswer.COACH, before)
    if mine.emergency_contact is None:
        soon = DueGrade.SOON
        yield Due(person.person_id, DueKind.EMERGENCY_CONTACT_MISSING, MayAnswer.PERSON, soon)
    if mine.review_on is not None and mine.review_on <= on:
        yield Due(
            person.person_id,
            DueKind.REVIEW,
            MayAnswer.COACH,
            DueGrade.SOON,
            since_on=mine.review_on,
        )
