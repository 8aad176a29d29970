"""How surely a person manages a load, which loads are allowed, and what decides (section 4)."""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from roundwright.body.anatomy import MIRRORED, Side
from roundwright.foundation.quantities import BP
from roundwright.library.version import Step
from roundwright.optimise.movement_facts import MovementFacts
from roundwright.optimise.person_limits import PersonLimits
from roundwright.optimise.versions import Version
from roundwright.people.capacity import Capacity, p_can, p_fails


@dataclass(frozen=True, slots=True)
class Judged:
    """What the load rules say of one version with one mass."""

    mass_g: int
    chance_bp: int


class PersonLoads:
    """One person's chances, each worked out once."""

    def __init__(self, limits: PersonLimits) -> None:
        self.limits = limits
        self._rules = limits.rules
        self._chances: dict[tuple[str, float, int], int] = {}
        self._fails: dict[tuple[str, float, int], bool] = {}
        self._capacities: dict[str, Capacity | None] = {}
        self._largest: dict[tuple[str, float, tuple[int, ...]], int] = {}
        self._reps: dict[tuple[tuple[Step, ...], int], list[float]] = {}

    def judge(self, version: Version, mass_g: int) -> Judged | None:
        """Give the chance of a version with a mass, or None where it is not allowed."""
        reps = self._reps_of(version)
        chance = BP
        for movement, n in zip(version.movements, reps, strict=True):
            if not self._may_hold(movement, mass_g, n):
                return None
            if self._is_judged(movement, mass_g):
                chance = min(chance, self._chance(movement, n, mass_g))
        if chance < self._rules.least_chance_bp:
            return None
        lifting = [m for m in version.movements if m.lifted and mass_g]
        if lifting and chance < self.limits.dose.aim_bp:
            careful = any(m.is_overhead_or_over_face for m in lifting)
            if careful or self.limits.dose.is_newcomer:
                return None
        return Judged(mass_g, chance)

    def _reps_of(self, version: Version) -> list[float]:
        key = (version.steps, version.passes)
        if key not in self._reps:
            self._reps[key] = reps_of_steps(
                version.steps, version.movements, version.passes, self._rules.fatigue_share_bp
            )
        return self._reps[key]

    def limiter(self, version: Version, mass_g: int, masses: tuple[int, ...]) -> str | None:
        """Give the movement that decides the load, or the chance where nothing is lifted.

        Parameters
        ----------
        masses : tuple of int
            What the rack offers for this version, g.
        """
        reps = self._reps_of(version)
        best: tuple[int, int] | None = None
        name: str | None = None
        for movement, n in zip(version.movements, reps, strict=True):
            if version.lifts and not movement.lifted:
                continue
            if not version.lifts and not self._is_judged(movement, mass_g):
                continue
            judged = self._is_judged(movement, mass_g)
            chance = self._chance(movement, n, mass_g) if judged else BP
            own = self._own_largest(movement, n, masses) if version.lifts else 0
            if best is None or (own, chance) < best:
                best, name = (own, chance), movement.slug
        return name

    def held_back(self, version: Version, mass_g: int, masses: tuple[int, ...]) -> Fraction:
        """Give what a combination's limiter keeps from the other lifting steps.

        Parameters
        ----------
        masses : tuple of int
            What the rack offers for this version, g.

        Returns
        -------
        Fraction
            The share of their own largest masses beyond the limiter's that they go without,
            0 to 1, as a mean over all lifting steps; 0 where nothing is lifted.
        """
        if not version.lifts:
            return Fraction(0)
        limiter = self.limiter(version, mass_g, masses)
        reps = self._reps_of(version)
        own = [
            (m.slug, self._own_largest(m, n, masses))
            for m, n in zip(version.movements, reps, strict=True)
            if m.lifted
        ]
        reached = max(mass_g, *(most for slug, most in own if slug == limiter))
        lacking = sum(
            (Fraction(most - reached, most) for _, most in own if most > reached), Fraction(0)
        )
        return lacking / len(own)

    def assumed_g(self, movement: MovementFacts) -> int | None:
        """Give the authored mass of a loaded movement without a family for this person's level."""
        if movement.assumed_g is None:
            return None
        return movement.assumed_g.get(str(self.limits.level_for(movement.family)))

    def _own_largest(self, movement: MovementFacts, reps: float, masses: tuple[int, ...]) -> int:
        key = (movement.slug, reps, masses)
        if key not in self._largest:
            meeting = [
                mass
                for mass in masses
                if self._may_hold(movement, mass, reps)
                and (
                    not self._is_judged(movement, mass)
                    or self._chance(movement, reps, mass) >= self.limits.dose.aim_bp
                )
            ]
            self._largest[key] = max(meeting, default=0)
        return self._largest[key]

    def _may_hold(self, movement: MovementFacts, mass_g: int, reps: float) -> bool:
        """Say whether the authored load or the cap on failing lets a step lift a mass."""
        if not movement.lifted or not mass_g:
            return True
        if movement.family is None:
            authored = self.assumed_g(movement)
            return authored is not None and mass_g <= authored
        key = (movement.slug, reps, mass_g)
        if key not in self._fails:
            careful = self.limits.dose.is_newcomer or movement.is_overhead_or_over_face
            cap = self._rules.fail_cap_careful_bp if careful else self._rules.fail_cap_bp
            capacity = self._capacity(movement)
            load_kg = self._effective_kg(movement, mass_g)
            self._fails[key] = (
                capacity is not None
                and p_fails(capacity, load_kg, reps, self.limits.dose.last_round) <= cap
            )
        return self._fails[key]

    def _is_judged(self, movement: MovementFacts, mass_g: int) -> bool:
        return movement.family is not None and self._effective_kg(movement, mass_g) > 0

    def _effective_kg(self, movement: MovementFacts, mass_g: int) -> float:
        body_g = movement.lifted_share_bp * self.limits.person.body_mass_g / BP
        return (mass_g * movement.lifted + body_g) / 1000 / (movement.limb_bp / BP)

    def _capacity(self, movement: MovementFacts) -> Capacity | None:
        if movement.slug not in self._capacities:
            self._capacities[movement.slug] = self.limits.person.capacity_for(
                movement.slug, movement.family
            )
        return self._capacities[movement.slug]

    def _chance(self, movement: MovementFacts, reps: float, mass_g: int) -> int:
        key = (movement.slug, reps, mass_g)
        if key not in self._chances:
            capacity = self._capacity(movement)
            dose = self.limits.dose
            self._chances[key] = (
                0
                if capacity is None
                else p_can(
                    capacity, self._effective_kg(movement, mass_g), reps, dose.rir, dose.last_round
                )
            )
        return self._chances[key]


def reps_of_steps(
    steps: Sequence[Step], movements: Sequence[MovementFacts], passes: int, fatigue_share_bp: int
) -> list[float]:
    """Give the reps of each step, with a share of what other steps tire of the same muscles."""
    own = [passes * step.times for step in steps]
    reps: list[float] = []
    for k, step in enumerate(steps):
        tiring = sum(
            own[j]
            for j, other in enumerate(steps)
            if j != k
            and movements[j].prime_movers & movements[k].prime_movers
            and (other.side is Side.BOTH or other.side is not MIRRORED[step.side])
        )
        reps.append(own[k] + fatigue_share_bp * tiring / BP)
    return reps
