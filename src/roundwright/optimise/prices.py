"""What a version, a load or a burst counts against a plan (section 8)."""

from collections.abc import Sequence
from fractions import Fraction

from roundwright.foundation.quantities import BP
from roundwright.library.catalogue import Catalogue
from roundwright.optimise.loads import Judged, PersonLoads
from roundwright.optimise.movement_facts import MovementFacts
from roundwright.optimise.person_limits import PersonLimits
from roundwright.optimise.versions import Version
from roundwright.plan.cost_table import CostTable
from roundwright.plan.counts_of_version import half_even


def levels_above(movements: Sequence[MovementFacts], limits: PersonLimits) -> int:
    """Give how far the hardest step lies above the person's level for it; below: negative."""
    return max(m.level - limits.level_for(m.family) for m in movements)


def version_price(
    movements: Sequence[MovementFacts], limits: PersonLimits, costs: CostTable
) -> int:
    """Price how far the hardest step lies above or below the person's level for it."""
    most = levels_above(movements, limits)
    return costs.version_above * most if most > 0 else costs.version_below * -most


def equals_price(exercise_id: str, movement_id: str, library: Catalogue, costs: CostTable) -> int:
    """Price each harder version of a line at the level of the one that is done."""
    if exercise_id not in library.lines:
        return 0
    versions = library.versions(exercise_id)
    at = next(k for k, m in enumerate(versions) if m.slug == movement_id)
    return costs.easier_of_equals * sum(m.level == versions[at].level for m in versions[at + 1 :])


def could_lift(version: Version, judged: Sequence[Judged], limits: PersonLimits) -> bool:
    """Say whether a version lifts at the person's own level, lands nowhere, and has a load.

    Parameters
    ----------
    judged : sequence of Judged
        The allowed masses of this version at this place.
    """
    return (
        version.lifts
        and not any(m.contacts or m.low_hops for m in version.movements)
        and levels_above(version.movements, limits) <= 0
        and any(j.chance_bp >= limits.dose.aim_bp for j in judged)
    )


def target_of(version: Version, judged: Sequence[Judged], loads: PersonLoads) -> int:
    """Give the target mass, g: the largest allowed one that meets the aim, or the authored one.

    Parameters
    ----------
    judged : sequence of Judged
        The allowed masses of this version at this place.

    Returns
    -------
    int
        0 where nothing is lifted or no allowed mass meets the aim.
    """
    lifting = [m for m in version.movements if m.lifted]
    if lifting and all(m.family is None for m in lifting):
        return min(loads.assumed_g(m) or 0 for m in lifting)
    aim = loads.limits.dose.aim_bp
    return max((j.mass_g for j in judged if j.chance_bp >= aim), default=0)


def load_price(
    version: Version, judged: Judged, target_g: int, limits: PersonLimits, costs: CostTable
) -> int:
    """Price a load short of its target, or a chance short of the aim."""
    aim = limits.dose.aim_bp
    if judged.chance_bp < aim:
        return costs.load_over_base + half_even(costs.load_over * (aim - judged.chance_bp), BP)
    if not version.lifts or target_g <= 0:
        return 0
    return half_even(costs.load_short * (target_g - judged.mass_g), target_g)


def held_back_price(share: Fraction, costs: CostTable) -> int:
    """Price the share of their own loads that the deciding part keeps from the others."""
    points = share * costs.held_back
    return half_even(points.numerator, points.denominator)


def burst_price(movement: MovementFacts, limits: PersonLimits, costs: CostTable) -> int:
    """Price a burst below the person's general level."""
    return costs.burst_below * (limits.general_level - movement.level)
