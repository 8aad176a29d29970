"""What a person can probably do before anything was measured, with wide uncertainty.

Everything here is assumed: our choice, to be replaced by a test or a log. The
form is ours: what a limb lifts of the person's own body, plus what they could
add to it. The added part grows with body mass to the power 2/3 and with level,
and falls with age; the body's own part is known once the mass is.
"""

import math
from dataclasses import dataclass
from datetime import date

from roundwright.foundation.instants import ages_on
from roundwright.library.vocabulary import StrengthFamily
from roundwright.people.capacity import Capacity, CapacitySource
from roundwright.people.person import Person, Sex

CHILD_AGE = 16
"""Below it adult norms are never used (floor page C9)."""

ASSUMED_MASS_G = {Sex.F: 68_000, Sex.M: 82_000, Sex.UNSTATED: 75_000}
"""Body mass where none is given, g. Assumed, our choice."""

UPPER_RATIO = 0.52
LOWER_RATIO = 0.66
"""Women's strength as a share of men's.

ref: women-vs-men-strength (Miller 1993), from memory, so treated as assumed. The
published ratio is between people of their own body mass; as mass has a term of
its own here, the part that mass explains is taken out of it.
"""

REFERENCE_MASS_KG = 70.0
MASS_EXPONENT = 2 / 3
LEVEL_FACTOR = {1: 0.65, 2: 0.8, 3: 1.0, 4: 1.2, 5: 1.4}
"""Added load by level, level 3 being 1. Assumed, our choice."""

DECLINE_FROM_AGE = 40
DECLINE_A_YEAR = 0.008
"""Share of the added load lost each year from 40 on. Assumed, our choice."""

SPREAD_LN = 0.25
SPREAD_UNSTATED_LN = 0.32
"""SD of ln(added load) between people alike on paper; simulation only (estimators trial)."""
LEAST_SPREAD_LN = 0.10
"""Least SD of ln(effective load), however much of it is the body's own. Our choice."""


@dataclass(frozen=True, slots=True)
class Reference:
    """What a man of 70 kg at level 3 could do once, both limbs together, kg.

    `body_share` is the part of body mass lifted along; `added_kg` comes on top.
    In one-leg work both are what one leg lifts over the library's limb factor
    (0.8 of body mass over 0.7), as strength is stated for both limbs.
    """

    body_share: float
    added_kg: float
    is_upper: bool


REFERENCES: dict[StrengthFamily, Reference] = {
    StrengthFamily.SQUAT: Reference(0.88, 95.0, is_upper=False),
    StrengthFamily.HINGE: Reference(0.5, 90.0, is_upper=False),
    StrengthFamily.LUNGE_STEP: Reference(1.15, 105.0, is_upper=False),
    StrengthFamily.HORIZONTAL_PUSH: Reference(0.0, 85.0, is_upper=True),
    StrengthFamily.VERTICAL_PUSH: Reference(0.0, 45.0, is_upper=True),
    StrengthFamily.HORIZONTAL_PULL: Reference(0.0, 70.0, is_upper=True),
    StrengthFamily.VERTICAL_PULL: Reference(0.0, 75.0, is_upper=True),
    StrengthFamily.ELBOW_FLEXION: Reference(0.0, 40.0, is_upper=True),
    StrengthFamily.ELBOW_EXTENSION: Reference(0.0, 35.0, is_upper=True),
}
"""Assumed, our choice; the squat's body share after ref: squat-body-fraction."""


def body_mass_g(person: Person) -> tuple[int, bool]:
    """Give body mass in g, and whether it is assumed because none was given."""
    if person.body_mass_g is not None:
        return person.body_mass_g, False
    return ASSUMED_MASS_G[person.sex], True


def sex_ln(sex: Sex, is_upper: bool) -> float:
    """Give ln of the added load relative to a man of the same body mass.

    Unstated takes the mean of both.
    """
    by_mass = (ASSUMED_MASS_G[Sex.F] / ASSUMED_MASS_G[Sex.M]) ** MASS_EXPONENT
    woman = math.log((UPPER_RATIO if is_upper else LOWER_RATIO) / by_mass)
    return {Sex.M: 0.0, Sex.F: woman, Sex.UNSTATED: woman / 2}[sex]


def age_ln(oldest_age: int | None) -> float:
    """Give ln of what age leaves of the added load; unknown age counts as 40 or less."""
    years = max(0, (oldest_age or 0) - DECLINE_FROM_AGE)
    return years * math.log1p(-DECLINE_A_YEAR)


def prior_capacities(person: Person, on: date) -> tuple[Capacity, ...]:
    """Give the assumed strength of one person in the nine families on a date.

    Returns
    -------
    tuple of Capacity
        `ln_1rm_mean` of the effective load in kg, both limbs together, and its
        SD (0.25 of the added part, 0.32 where sex is unstated, at least 0.10
        of the whole). Empty for anyone who may be under 16.

    Examples
    --------
    >>> someone = Person(person_id="p001", shown_name="Ada P", sex=Sex.M, body_mass_g=70_000,
    ...                  level=3)
    >>> press = prior_capacities(someone, date(2026, 3, 3))[4]
    >>> press.key, round(math.exp(press.ln_1rm_mean)), press.ln_1rm_sd
    ('vertical_push', 45, 0.25)
    """
    youngest, oldest = ages_on(person.birth_year, on) if person.birth_year else (None, None)
    if youngest is not None and youngest < CHILD_AGE:
        return ()
    return tuple(_prior(person, family, oldest, on) for family in StrengthFamily)


def _prior(person: Person, family: StrengthFamily, oldest: int | None, on: date) -> Capacity:
    reference = REFERENCES[family]
    mass_kg = body_mass_g(person)[0] / 1000
    level = person.level_by_family.get(family, person.level or 1)
    added_kg = reference.added_kg * math.exp(
        MASS_EXPONENT * math.log(mass_kg / REFERENCE_MASS_KG)
        + math.log(LEVEL_FACTOR[level])
        + sex_ln(person.sex, reference.is_upper)
        + age_ln(oldest)
    )
    whole_kg = reference.body_share * mass_kg + added_kg
    spread = SPREAD_UNSTATED_LN if person.sex is Sex.UNSTATED else SPREAD_LN
    return Capacity(
        person_id=person.person_id,
        key=family.value,
        ln_1rm_mean=math.log(whole_kg),
        ln_1rm_sd=max(LEAST_SPREAD_LN, spread * added_kg / whole_kg),
        source=CapacitySource.PRIOR,
        as_of=on,
    )
