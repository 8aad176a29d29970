"""What a person can do, with what certainty: the numbers, and the one chance function.

Written by the estimator (or a prior), read by planner, gate and next-time.
"""

import math
from datetime import date
from enum import StrEnum

from pydantic import Field, FiniteFloat

from roundwright.foundation.identifiers import Slug
from roundwright.foundation.model import Stored
from roundwright.foundation.quantities import BP, stored

ROUND_FATIGUE_LN = 0.011
"""Loss of ln(load) a round after the first (tried in simulation, no outside source)."""
NOISE_LN = 0.022
"""SD of day-to-day capacity in ln units when predicting (tried in simulation)."""
MANY_REPS_LN = 0.115
"""Extra SD per unit of rep curve beyond twelve reps (tried in simulation)."""


class CapacitySource(StrEnum):
    """Where the numbers come from."""

    PRIOR = "prior"
    TEST = "test"
    LOG = "log"


class Capacity(Stored):
    """What one person can do in one family (or with one movement).

    `ln_1rm_mean` and `ln_1rm_sd` are of ln(effective load in kg) at one rep,
    both limbs together; the rep exponent is the person's kappa; the
    recalibration is (intercept, slope) on the probit scale.
    """

    person_id: Slug
    key: Slug
    ln_1rm_mean: FiniteFloat
    ln_1rm_sd: FiniteFloat = Field(gt=0)
    rep_exponent_mean: FiniteFloat = 0.0
    rep_exponent_sd: FiniteFloat = Field(default=0.19, ge=0)
    recalibration: tuple[FiniteFloat, FiniteFloat] = (0.0, 1.0)
    source: CapacitySource = CapacitySource.PRIOR
    as_of: date | None = None


def rep_curve(reps: float) -> float:
    """Give ln(1 + n/30): how much lighter than one rep a load for n reps is, in ln units."""
    return math.log1p(reps / 30)


def p_can(
    capacity: Capacity, effective_load_kg: float, reps: float, rir: int, round_number: int
) -> int:
    """Give the chance of doing `reps` with `rir` left, in 1/10,000.

    Parameters
    ----------
    capacity : Capacity
        The person's numbers for this family, both limbs together.
    effective_load_kg : float
        External load plus lifted body mass, as both limbs would feel it, kg, > 0.
    reps : float
        Reps in the set, at least 1; may be fractional after fatigue is added.
    rir : int
        Reps that should be left in reserve.
    round_number : int
        1 for the first round.

    Notes
    -----
    Capacity n obeys ln(1 + n/30) = (x - ln L - 0.011 (round - 1)) e^(-k) + e, with
    x ~ N(mean, sd), k ~ N(mean, sd) and e ~ N(0, 0.022 + 0.115 (curve(n) - curve(12))+).
    The variance in k is taken to first order. Figures from simulation only.
    """
    if effective_load_kg <= 0:
        return BP
    needed = rep_curve(reps + rir)
    stretch = math.exp(capacity.rep_exponent_mean)
    margin = (
        capacity.ln_1rm_mean
        - math.log(effective_load_kg)
        - ROUND_FATIGUE_LN * (round_number - 1)
        - needed * stretch
    )
    noise = NOISE_LN + MANY_REPS_LN * max(0.0, needed - rep_curve(12))
    spread = math.sqrt(
        capacity.ln_1rm_sd**2
        + (needed * stretch * capacity.rep_exponent_sd) ** 2
        + (noise * stretch) ** 2
    )
    intercept, slope = capacity.recalibration
    z = intercept + slope * margin / spread
    return min(BP, max(0, stored(0.5 * math.erfc(-z / math.sqrt(2)) * BP)))


def p_fails(capacity: Capacity, effective_load_kg: float, reps: float, round_number: int) -> int:
    """Give the chance of failing the set outright (not doing all `reps`), in 1/10,000."""
    return BP - p_can(capacity, effective_load_kg, reps, 0, round_number)
