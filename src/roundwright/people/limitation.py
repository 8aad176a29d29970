"""What a person must avoid or go easy on, and who may lift it.

Regions and conditions are one vocabulary of authored words; what each asks of
the demands is the table in `demand_cap_table`, labelled there.
"""

from datetime import date
from enum import StrEnum

from pydantic import Field

from roundwright.foundation.identifiers import Slug
from roundwright.foundation.model import Authored
from roundwright.library.vocabulary import Demand


class Concern(StrEnum):
    """A body region or a condition that limits what a person does."""

    KNEE = "knee"
    HIP = "hip"
    ANKLE = "ankle"
    LOW_BACK = "low_back"
    NECK = "neck"
    SHOULDER = "shoulder"
    ELBOW = "elbow"
    WRIST = "wrist"
    BALANCE = "balance"
    HIGH_BLOOD_PRESSURE = "high_blood_pressure"
    PREGNANCY = "pregnancy"
    POSTNATAL = "postnatal"
    OSTEOPOROSIS = "osteoporosis"
    HERNIA = "hernia"
    PELVIC_FLOOR = "pelvic_floor"
    ASTHMA = "asthma"
    DIABETES = "diabetes"
    EPILEPSY = "epilepsy"
    LOW_VISION = "low_vision"
    HARD_OF_HEARING = "hard_of_hearing"
    ONE_ARM = "one_arm"
    ONE_LEG = "one_leg"
    HIGH_BODY_MASS = "high_body_mass"
    AGE_65_UP = "age_65_up"
    UNDER_16 = "under_16"


WITH_WEEKS = (Concern.PREGNANCY, Concern.POSTNATAL)
"""Concerns that change by the week."""


MOST_WEEKS = 520
"""The most weeks that can be said of a concern: ten years."""


class LimitedSide(StrEnum):
    """On which side; `none` for conditions without one."""

    LEFT = "left"
    RIGHT = "right"
    BOTH = "both"
    NONE = "none"


class Amount(StrEnum):
    """How much: `avoid` allows a low demand on it at most, `ease` a clear one."""

    AVOID = "avoid"
    EASE = "ease"


class OverrideRole(StrEnum):
    """Who may lift a demand of a limitation; an assistant can't."""

    COACH = "coach"
    OWNER = "owner"
    CLINICIAN = "clinician"


class SetBy(StrEnum):
    """Who said that a limitation holds; only a clinician lifts what a clinician set."""

    PERSON = "person"
    COACH = "coach"
    CLINICIAN = "clinician"


class Limitation(Authored):
    """One row of limitations.csv. Past `until_on` it stays in force until its end is confirmed.

    `weeks` is the week of pregnancy, or how many weeks ago the birth was, on `from_on`.
    An override lifts one demand of it, with reason, role and end date; of a clinician's
    item only a clinician's own override does. Health values are left out of its repr.
    """

    person_id: Slug
    concern: Concern = Field(repr=False)
    side: LimitedSide = Field(default=LimitedSide.NONE, repr=False)
    amount: Amount = Field(repr=False)
    from_on: date
    until_on: date | None = None
    weeks: int | None = Field(default=None, ge=0, le=MOST_WEEKS, repr=False)
    set_by: SetBy = Field(default=SetBy.PERSON, repr=False)
    override_demand: Demand | None = Field(default=None, repr=False)
    override_reason: str | None = Field(default=None, max_length=200, repr=False)
    override_by: OverrideRole | None = None
    override_until_on: date | None = None

    def week_on(self, on: date) -> int | None:
        """Give the week on a date, counted from what was said on `from_on`; None if unknown."""
        if self.weeks is None or self.concern not in WITH_WEEKS:
            return None
        return self.weeks + (on - self.from_on).days // 7
