"""What one person may do at most, worked out again from the problem: dose, effort, caps, levels."""

from fractions import Fraction

from roundwright.body.anatomy import Side
from roundwright.foundation.quantities import BP
from roundwright.library.movement import Movement
from roundwright.library.vocabulary import Demand, Laterality
from roundwright.plan.problem import Problem, ProblemPerson
from roundwright.plan.rule_table import EasedIn, Limit, RuleTable

MODERATE_CAPS: dict[Demand, int] = {
    Demand.IMPACT: 0,
    Demand.ONE_FOOT_LANDING: 0,
    Demand.VIGOROUS: 1,
    Demand.FAST_LEVEL_CHANGE: 1,
    Demand.HEAD_LOW: 1,
}
"""What light to moderate work leaves of some demands (floor page C1; CP)."""


def reached(limits: tuple[Limit, ...], person: ProblemPerson, default: int) -> int:
    """Give the last limit of a table that a person has reached, or the default."""
    limit = default
    for row in limits:
        if row.from_classes <= person.classes and row.from_level <= person.level:
            limit = row.limit
    return limit


def is_newcomer(person: ProblemPerson, rules: RuleTable) -> bool:
    """Say whether the person has done fewer classes than a regular."""
    return person.classes < rules.newcomer_classes


def is_first_timer(person: ProblemPerson) -> bool:
    """Say whether this is the person's first class."""
    return person.classes == 0


def is_old(person: ProblemPerson, rules: RuleTable) -> bool:
    """Say whether the person may be of the age from which things take longer."""
    return person.oldest_age is not None and person.oldest_age >= rules.old_age


def is_child(person: ProblemPerson, rules: RuleTable) -> bool:
    """Say whether the person may be a child; unknown age is an adult."""
    return person.youngest_age is not None and person.youngest_age < rules.child_age


def eased_row(person: ProblemPerson, rules: RuleTable) -> EasedIn | None:
    """Give what this n-th class may hold at most, for a person's first classes."""
    return next((row for row in rules.eased_in if row.classes_done == person.classes), None)


def share_cap_bp(person: ProblemPerson, rules: RuleTable) -> int:
    """Give the largest share of the planned work, in 1/10,000."""
    row = eased_row(person, rules)
    cap = BP if row is None else min(BP, row.share_bp)
    away = person.days_since_last
    if away is not None and away >= rules.away_days:
        cap = min(cap, rules.away_share_bp)
    return cap


def rounds_cap(person: ProblemPerson, rules: RuleTable, rounds: int) -> int:
    """Give the largest number of rounds."""
    row = eased_row(person, rules)
    return rounds if row is None else min(rounds, row.rounds)


def dose_within_cap(
    person: ProblemPerson, rules: RuleTable, rounds: int, dose_bp: int, rounds_done: int
) -> bool:
    """Say whether a share of so many rounds is no more than the person may do.

    The least step in one round is always allowed: somebody who may do less
    than that would otherwise have no class at all.
    """
    least = min(rules.dose_steps_bp, default=BP)
    if rounds_done <= 1 and dose_bp <= least:
        return True
    cap = share_cap_bp(person, rules)
    return dose_bp * rounds_done <= cap * rounds and rounds_done <= rounds_cap(
        person, rules, rounds
    )


def reps_in_reserve(person: ProblemPerson, rules: RuleTable) -> int:
    """Give the reps that should be left in a set."""
    rir = reached(rules.rir, person, max((row.limit for row in rules.rir), default=10))
    return max(rir, rules.moderate_rir) if person.is_moderate_only else rir


def reps_to_leave(person: ProblemPerson, problem: Problem) -> int:
    """Give the reps in reserve: the person's own, or what the class asks where that is more."""
    return max(reps_in_reserve(person, problem.rules), problem.spec.reps_left or 0)


def effort_ceiling(person: ProblemPerson, rules: RuleTable) -> int:
    """Give the highest effort of 10."""
    ceilings = [rules.usual_effort]
    if is_newcomer(person, rules):
        ceilings.append(rules.newcomer_effort)
    if person.is_moderate_only:
        ceilings.append(rules.moderate_effort)
    if person.effort_cap is not None:
        ceilings.append(person.effort_cap)
    return min(ceilings)


def contact_limit(person: ProblemPerson, rules: RuleTable) -> int:
    """Give the most landings in a class."""
    return 0 if person.is_moderate_only else reached(rules.contacts, person, 0)


def low_hop_limit(person: ProblemPerson, rules: RuleTable) -> int:
    """Give the most rope skips in a class."""
    return reached(rules.low_hops, person, 0)


def pace_factor(person: ProblemPerson, rules: RuleTable) -> Fraction:
    """Give how much longer a rep takes than the library says."""
    factors = [BP]
    if is_newcomer(person, rules):
        factors.append(rules.newcomer_pace_bp)
    if is_old(person, rules):
        factors.append(rules.old_pace_bp)
    return Fraction(max(factors), BP)


def level_for(person: ProblemPerson, movement: Movement, rules: RuleTable) -> int:
    """Give the person's level for a movement."""
    level = person.level_for(movement.strength_family)
    return min(level, rules.moderate_level) if person.is_moderate_only else level


def general_level(person: ProblemPerson, rules: RuleTable) -> int:
    """Give the person's general level."""
    return min(person.level, rules.moderate_level) if person.is_moderate_only else person.level


def above_caps(person: ProblemPerson, movement: Movement) -> bool:
    """Say whether a movement asks for more than the person's limits allow."""
    return any(degree > person.caps.get(name, 3) for name, degree in movement.demands.items())


def above_moderate_caps(person: ProblemPerson, movement: Movement) -> bool:
    """Say whether a movement asks for more than light to moderate work, where that is all."""
    return person.is_moderate_only and any(
        movement.demand(name) > cap for name, cap in MODERATE_CAPS.items()
    )


def lacks_sides(person: ProblemPerson, movement: Movement) -> bool:
    """Say whether a line's version is done on a side of a limb that the person does not use."""
    unused = person.unused_side_of(movement.limb)
    if unused is None or not movement.is_one_sided:
        return False
    return unused is Side.BOTH or movement.laterality is Laterality.ALTERNATING


def is_heavy_overhead(
    person: ProblemPerson, movement: Movement, mass_g: int, rules: RuleTable
) -> bool:
    """Say whether a load over the head is heavy for this person."""
    external = mass_g * movement.dumbbells_lifted
    return (
        movement.demand(Demand.OVERHEAD) >= 1
        and external * BP > rules.heavy_overhead_bp * person.body_mass_g
    )


def allowed_by_person(
    person: ProblemPerson, movement: Movement, rules: RuleTable, ban: tuple[str, ...]
) -> bool:
    """Say whether a movement is allowed, apart from kit, load and place in the class."""
    level = level_for(person, movement, rules)
    if movement.slug in ban or above_caps(person, movement):
        return False
    if lacks_sides(person, movement):
        return False
    if above_moderate_caps(person, movement):
        return False
    if person.is_moderate_only and movement.level > rules.moderate_level:
        return False
    if is_child(person, rules) and movement.dumbbells_lifted:
        return False
    if movement.contacts_a_rep and contact_limit(person, rules) == 0:
        return False
    return movement.level <= level + rules.highest_level_step
