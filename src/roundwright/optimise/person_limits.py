"""Which movements a person may do at all, and where in the class (section 3, rules 1 to 7)."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from roundwright.foundation.quantities import BP
from roundwright.library.version import Step
from roundwright.library.vocabulary import HIGHEST_DEMAND, Demand, StrengthFamily
from roundwright.optimise.movement_facts import MovementFacts
from roundwright.plan.allowed import caps_of, has_the_side
from roundwright.plan.eased_in import Dose
from roundwright.plan.problem import ProblemPerson
from roundwright.plan.rule_table import RuleTable


@dataclass(frozen=True, slots=True)
class PersonLimits:
    """One person's limits as the search uses them; health reasons are not in here."""

    person: ProblemPerson
    dose: Dose
    rules: RuleTable
    caps: Mapping[Demand, int]
    banned: frozenset[str]

    @property
    def is_child(self) -> bool:
        """Whether the person may be under the age from which anything is lifted."""
        age = self.person.youngest_age
        return age is not None and age < self.rules.child_age

    @property
    def most_landings(self) -> int:
        """How many foot contacts one set may hold."""
        return self.rules.most_landings_a_set

    @property
    def least_cut_share_bp(self) -> int:
        """What share of the own count the landings of a set must leave, 1/10,000."""
        return self.rules.least_cut_share_bp

    @property
    def general_level(self) -> int:
        """The general level; moderate only: at most the moderate one."""
        return self._moderated(self.person.level)

    def level_for(self, family: StrengthFamily | None) -> int:
        """Give the level for a family; moderate only: at most the moderate one."""
        return self._moderated(self.person.level_for(family))

    def _moderated(self, level: int) -> int:
        return min(level, self.rules.moderate_level) if self.person.is_moderate_only else level

    def may_do(self, movement: MovementFacts, line_id: str, min_classes: int) -> bool:
        """Say whether rules 1 to 6 allow a movement to a person, whatever the load."""
        highest = self.level_for(movement.family) + self.rules.highest_level_step
        if self.person.is_moderate_only:
            highest = min(highest, self.rules.moderate_level)
        return (
            movement.level <= highest
            and all(
                degree <= self.caps.get(demand, HIGHEST_DEMAND)
                for demand, degree in movement.demands.items()
            )
            and (movement.contacts == 0 or self.dose.contact_limit > 0)
            and self.person.classes >= min_classes
            and not (self.is_child and movement.lifted > 0)
            and has_the_side(self.person, movement.limb, movement.laterality)
            and not self.banned & {movement.slug, line_id}
        )

    def is_heavy_overhead(self, movement: MovementFacts, mass_g: int) -> bool:
        """Say whether a step lifts a heavy load overhead, measured by body mass."""
        external_g = mass_g * movement.lifted
        return (
            movement.demands.get(Demand.OVERHEAD, 0) >= 1
            and external_g * BP > self.rules.heavy_overhead_bp * self.person.body_mass_g
        )

    def breaks_last_place(self, movements: Iterable[MovementFacts], mass_g: int) -> bool:
        """Say whether a listing may not stand last in the last round."""
        return any(
            m.contacts > 0
            or m.demands.get(Demand.BALANCE, 0) >= self.rules.one_leg_balance
            or self.is_heavy_overhead(m, mass_g)
            for m in movements
        )

    def breaks_after_burst(self, movements: Sequence[MovementFacts], mass_g: int) -> bool:
        """Say whether a listing may not stand first, right after a burst."""
        low = (Demand.ON_BACK, Demand.ON_FRONT, Demand.HEAD_LOW)
        return self.breaks_last_place(movements, mass_g) or any(
            m.demands.get(demand, 0) >= 1 for m in movements for demand in low
        )


def limits_of(
    person: ProblemPerson, dose: Dose, rules: RuleTable, ban: Sequence[str]
) -> PersonLimits:
    """Gather a person's limits; the caps are the least of all that apply."""
    return PersonLimits(person, dose, rules, caps_of(person), frozenset(ban))


def facts_of_steps(
    steps: Sequence[Step], facts: Mapping[str, MovementFacts]
) -> tuple[MovementFacts, ...]:
    """Give the figures of the movements of a listing, step by step."""
    return tuple(facts[step.movement_id] for step in steps)
