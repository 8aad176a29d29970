"""What a person may do on a date, of all that was said: the most careful word holds.

An expiry means 'ask'. The tool may add a caution; only a named person takes one away.
"""

from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import date

from roundwright.library.vocabulary import Demand
from roundwright.people.clearance_record import ClearanceRecord, GivenBy
from roundwright.people.health_screen import HealthScreen, ScreenOutcome, screen_outcome
from roundwright.people.limitation import Limitation, SetBy
from roundwright.people.person import Clearance, Person
from roundwright.people.screen_table import Referral

MOST_CAREFUL_FIRST = (
    Clearance.NOT_CLEARED,
    Clearance.UNKNOWN,
    Clearance.MODERATE_ONLY,
    Clearance.CLEARED,
)
VIGOROUS_WITHIN_DAYS = 365
"""A clinician's word holds 12 months before vigorous work (id `screen-acsm-2015`)."""
LIGHT_CLASSES = 4
"""Classes that somebody inactive does light to moderate at first; our choice."""


@dataclass(frozen=True, slots=True)
class EffectiveClearance:
    """What planning may know: the clearance, caps and words of conditions, without reasons."""

    clearance: Clearance = field(repr=False)
    effort_only: bool = field(repr=False)
    caps: dict[Demand, int] = field(repr=False)
    effort_cap: int | None = field(repr=False)
    actions: tuple[str, ...] = field(repr=False)


def most_careful(words: Sequence[Clearance]) -> Clearance:
    """Give the most careful of some words; unknown when there is none."""
    return min(words, key=MOST_CAREFUL_FIRST.index, default=Clearance.UNKNOWN)


def effective_clearance(
    person: Person, screen: HealthScreen | None, record: ClearanceRecord | None, on: date
) -> EffectiveClearance:
    """Give what holds on a date of people.csv's word, the screen and the clearance record.

    Parameters
    ----------
    person : Person
        `clearance` of people.csv: `unknown` there says nothing once there is a
        screen; every other word counts.
    screen, record : optional
        The person's latest; a record without a screen never makes up for the screen.
    on : date
        The class's date.

    Notes
    -----
    A clinician's record answers a referral: one of *before any* when given on or
    after the day of the screen, one of *before vigorous* when given within the
    12 months before the class. A coach's record answers cautions alone. Nothing
    but new answers turns blank, unsure or expired into known.
    """
    words: list[Clearance] = []
    if person.clearance is not Clearance.UNKNOWN:
        words.append(person.clearance)
    if screen is not None:
        words.append(_after_the_record(screen_outcome(screen, on), person, screen, record, on))
    if not words:
        words.append(Clearance.UNKNOWN)
    if record is not None:
        words.append(record.clearance)
        if not record.holds_on(on):
            words.append(Clearance.UNKNOWN)
    needs_effort = screen is not None and screen_outcome(screen, on).effort_only
    return EffectiveClearance(
        clearance=most_careful(words),
        effort_only=person.effort_only or needs_effort,
        caps=dict(record.caps) if record else {},
        effort_cap=record.effort_ceiling if record else None,
        actions=record.words if record else (),
    )


def _after_the_record(
    outcome: ScreenOutcome,
    person: Person,
    screen: HealthScreen,
    record: ClearanceRecord | None,
    on: date,
) -> Clearance:
    """Give a screen's word once a record in force has answered what it may answer."""
    holds = record is not None and record.holds_on(on)
    later = holds and record is not None and record.on >= screen.answered_on
    clinician = record is not None and record.given_by is GivenBy.CLINICIAN
    if outcome.referral is Referral.BEFORE_ANY and not (later and clinician):
        return Clearance.NOT_CLEARED
    words: list[Clearance] = [Clearance.CLEARED]
    if outcome.open_questions or not screen.holds_on(on):
        words.append(Clearance.UNKNOWN)
    recent = holds and record is not None and (on - record.on).days <= VIGOROUS_WITHIN_DAYS
    if outcome.referral is Referral.BEFORE_VIGOROUS and not (recent and clinician):
        words.append(Clearance.MODERATE_ONLY)
    if outcome.cautions and not later:
        words.append(Clearance.MODERATE_ONLY)
    if outcome.starts_light and (person.classes_done or 0) < LIGHT_CLASSES:
        words.append(Clearance.MODERATE_ONLY)
    return most_careful(words)


def with_screen_limits(
    limitations: Sequence[Limitation], screen: HealthScreen | None, on: date
) -> tuple[Limitation, ...]:
    """Give a person's limitations and those that the screen proposes and nobody has written.

    A row of the person's own for the same concern, begun by the date, takes its place.
    """
    if screen is None:
        return tuple(limitations)
    own = {row.concern for row in limitations if row.from_on <= on}
    more = (
        Limitation(
            person_id=screen.person_id,
            concern=concern,
            amount=amount,
            from_on=min(screen.answered_on, on),
            set_by=SetBy.PERSON,
        )
        for concern, amount in screen_outcome(screen, on).proposed
        if concern not in own
    )
    return (*limitations, *more)
