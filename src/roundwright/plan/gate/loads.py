"""How surely a person manages a load, how likely a failure is, and what the target load is."""

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property

from roundwright.body.anatomy import MIRRORED, Side
from roundwright.foundation.quantities import BP
from roundwright.library.movement import Movement
from roundwright.library.version import Step
from roundwright.library.vocabulary import Demand
from roundwright.people.capacity import p_can, p_fails
from roundwright.plan.gate.kit_use import items_exist, needs_flat, rack
from roundwright.plan.gate.people_limits import (
    is_child,
    is_heavy_overhead,
    is_newcomer,
    level_for,
    reps_to_leave,
)
from roundwright.plan.gate.recount import Listing
from roundwright.plan.problem import Problem, ProblemPerson

DEFAULT_LIMB_FACTOR_BP = 5000
"""What one limb can do of what both can, where the author gives none (our choice)."""


@dataclass(frozen=True)
class Demanded:
    """One person, one version, so many passes, ending in this round: what is asked of strength.

    Reps and chances are worked out once.
    """

    problem: Problem
    person: ProblemPerson
    listing: Listing
    passes: int
    last_round: int

    @cached_property
    def reps(self) -> tuple[float, ...]:
        """Reps of each step, with part of the reps of others that tire the same muscle."""
        return tuple(_reps_of_step(self, i) for i in range(len(self.listing.steps)))

    @cached_property
    def chances(self) -> dict[tuple[int, int], int | None]:
        """The chances worked out so far, by step and mass."""
        return {}

    @cached_property
    def own_largest(self) -> dict[int, int]:
        """The largest masses of single steps worked out so far."""
        return {}


def lifts(listing: Listing) -> tuple[Movement, ...]:
    """Give the movements of a listing that lift dumbbells."""
    return tuple(m for m in listing.movements if m.dumbbells_lifted)


def is_careful(movement: Movement) -> bool:
    """Say whether a failed rep would fall on the head or face."""
    return movement.demand(Demand.OVERHEAD) >= 1 or movement.demand(Demand.OVER_FACE) >= 1


def aim_bp(person: ProblemPerson, problem: Problem) -> int:
    """Give the chance that is aimed at."""
    rules = problem.rules
    early = person.classes < rules.first_chance_classes
    return rules.first_chance_bp if early else rules.usual_chance_bp


def assumed_mass_g(person: ProblemPerson, movement: Movement, problem: Problem) -> int | None:
    """Give the authored mass for a lifted movement without a strength family, if there is one."""
    table = movement.assumed_load_by_level or {}
    return table.get(str(level_for(person, movement, problem.rules)))


def effective_kg(person: ProblemPerson, movement: Movement, mass_g: int) -> float:
    """Give what a rep weighs as both limbs would feel it, kg."""
    body = movement.lifted_share_bp * person.body_mass_g / BP
    grams = mass_g * movement.dumbbells_lifted + body
    if movement.is_one_sided:
        grams *= BP / (movement.limb_factor_bp or DEFAULT_LIMB_FACTOR_BP)
    return grams / 1000


def _share_a_mover(one: Movement, other: Movement) -> bool:
    return bool(set(one.prime_movers) & set(other.prime_movers))


def _opposite(one: Step, other: Step) -> bool:
    return one.side is not Side.BOTH and other.side is MIRRORED[one.side]


def _reps_of_step(asked: Demanded, index: int) -> float:
    steps, movements = asked.listing.steps, asked.listing.movements
    fatigue = sum(
        asked.passes * step.times
        for i, step in enumerate(steps)
        if i != index
        and _share_a_mover(movements[index], movements[i])
        and not _opposite(steps[index], step)
    )
    share = asked.problem.rules.fatigue_share_bp / BP
    return asked.passes * steps[index].times + share * fatigue


def chance_of_step(asked: Demanded, index: int, mass_g: int) -> int | None:
    """Give the chance of one step in 1/10,000; None when it is not judged by chance."""
    key = (index, mass_g)
    if key not in asked.chances:
        asked.chances[key] = _chance_of_step(asked, index, mass_g)
    return asked.chances[key]


def _chance_of_step(asked: Demanded, index: int, mass_g: int) -> int | None:
    person, movement = asked.person, asked.listing.movements[index]
    load = effective_kg(person, movement, mass_g)
    if movement.strength_family is None or load <= 0:
        return None
    capacity = person.capacity_for(movement.slug, movement.strength_family)
    if capacity is None:
        return 0
    rir = reps_to_leave(person, asked.problem)
    return p_can(capacity, load, asked.reps[index], rir, asked.last_round)


def step_may_fail(asked: Demanded, index: int, mass_g: int) -> bool:
    """Say whether a lifted step fails outright more often than is allowed."""
    person, movement, rules = asked.person, asked.listing.movements[index], asked.problem.rules
    if mass_g * movement.dumbbells_lifted <= 0 or movement.strength_family is None:
        return False
    careful = is_newcomer(person, rules) or is_careful(movement)
    cap = rules.fail_cap_careful_bp if careful else rules.fail_cap_bp
    capacity = person.capacity_for(movement.slug, movement.strength_family)
    if capacity is None:
        return True
    load = effective_kg(person, movement, mass_g)
    return p_fails(capacity, load, asked.reps[index], asked.last_round) > cap


def chance(asked: Demanded, mass_g: int) -> int:
    """Give the least chance over the judged steps, in 1/10,000."""
    chances = (chance_of_step(asked, i, mass_g) for i in range(len(asked.listing.steps)))
    return min((c for c in chances if c is not None), default=BP)


def may_fail(asked: Demanded, mass_g: int) -> bool:
    """Say whether any lifted step fails outright more often than is allowed."""
    return any(step_may_fail(asked, i, mass_g) for i in range(len(asked.listing.steps)))


def is_above_assumed(asked: Demanded, mass_g: int) -> bool:
    """Say whether a load is above what is authored for a movement without a strength family."""
    for movement in lifts(asked.listing):
        if movement.strength_family is None and mass_g:
            authored = assumed_mass_g(asked.person, movement, asked.problem)
            if authored is None or mass_g > authored:
                return True
    return False


def must_meet_aim(asked: Demanded, mass_g: int) -> bool:
    """Say whether this person or this movement may never be loaded above the aim."""
    lifted = lifts(asked.listing)
    if not mass_g or not lifted:
        return False
    newcomer = is_newcomer(asked.person, asked.problem.rules)
    return newcomer or any(is_careful(m) for m in lifted)


def load_is_allowed(asked: Demanded, mass_g: int) -> bool:
    """Say whether section 4 of the definition allows this load."""
    reached = chance(asked, mass_g)
    if reached < asked.problem.rules.least_chance_bp:
        return False
    if reached < aim_bp(asked.person, asked.problem) and must_meet_aim(asked, mass_g):
        return False
    return not may_fail(asked, mass_g) and not is_above_assumed(asked, mass_g)


def _kit_allows(asked: Demanded, mass_g: int) -> bool:
    person, problem, movements = asked.person, asked.problem, asked.listing.movements
    if is_child(person, problem.rules) and lifts(asked.listing):
        return False
    if person.is_moderate_only and any(
        is_heavy_overhead(person, m, mass_g, problem.rules) for m in movements
    ):
        return False
    return items_exist(problem, person, movements, mass_g)


def fits(asked: Demanded, mass_g: int) -> bool:
    """Say whether kit, person and strength allow a load, wherever in the class it stands."""
    return _kit_allows(asked, mass_g) and load_is_allowed(asked, mass_g)


def masses(listing: Listing, problem: Problem) -> tuple[int, ...]:
    """Give the masses on the rack that a version could be done with; 0 when it needs none."""
    units = max(m.dumbbells_needed for m in listing.movements)
    return rack(problem, units, needs_flat(listing.movements)) if units else (0,)


def target_g(asked: Demanded, place_allows: Callable[[int], bool]) -> int | None:
    """Give the largest allowed mass that meets the aim; None when there is none.

    Parameters
    ----------
    asked : Demanded
        Person, version, passes and last round.
    place_allows : callable
        Whether a mass may stand at this place of the class.
    """
    aim = aim_bp(asked.person, asked.problem)
    for mass_g in reversed(masses(asked.listing, asked.problem)):
        if (
            mass_g > 0
            and chance(asked, mass_g) >= aim
            and fits(asked, mass_g)
            and place_allows(mass_g)
        ):
            return mass_g
    return None


def limiter(asked: Demanded, mass_g: int) -> str | None:
    """Give the movement that decides how heavy the whole can be."""
    steps = range(len(asked.listing.steps))
    lifted = [i for i in steps if asked.listing.movements[i].dumbbells_lifted]
    if len(lifted) == 1:
        return asked.listing.movements[lifted[0]].slug
    if lifted:
        chosen = min(
            lifted,
            key=lambda i: (_own_largest_g(asked, i), _known(chance_of_step(asked, i, mass_g)), i),
        )
        return asked.listing.movements[chosen].slug
    judged = [(c, i) for i in steps if (c := chance_of_step(asked, i, mass_g)) is not None]
    return asked.listing.movements[min(judged)[1]].slug if judged else None


def lacking_shares(asked: Demanded, mass_g: int) -> list[Fraction]:
    """Give for each lifting step the share of its own largest mass that another part costs it.

    What the part that decides could take by itself, or the mass if that is more, is the whole's.
    """
    movements, decides = asked.listing.movements, limiter(asked, mass_g)
    own = [(i, _own_largest_g(asked, i)) for i, m in enumerate(movements) if m.dumbbells_lifted]
    whole_g = max([mass_g, *(most for i, most in own if movements[i].slug == decides)])
    return [Fraction(max(0, most - whole_g), max(1, most)) for _, most in own]


def own_largest_g(asked: Demanded) -> int:
    """Give the largest mass that any one lifting step could take by itself, 0 for none."""
    steps = [i for i, m in enumerate(asked.listing.movements) if m.dumbbells_lifted]
    return max((_own_largest_g(asked, i) for i in steps), default=0)


def _known(chance_bp: int | None) -> int:
    return BP if chance_bp is None else chance_bp


def _own_largest_g(asked: Demanded, index: int) -> int:
    """Give the largest mass that one lifting step could take by itself, 0 for none."""
    if index not in asked.own_largest:
        asked.own_largest[index] = _largest_g_of_step(asked, index)
    return asked.own_largest[index]


def _largest_g_of_step(asked: Demanded, index: int) -> int:
    aim = aim_bp(asked.person, asked.problem)
    movement = asked.listing.movements[index]
    for mass_g in reversed(masses(asked.listing, asked.problem)):
        if movement.strength_family is None:
            authored = assumed_mass_g(asked.person, movement, asked.problem)
            if authored is not None and mass_g <= authored:
                return mass_g
        elif _known(chance_of_step(asked, index, mass_g)) >= aim and not step_may_fail(
            asked, index, mass_g
        ):
            return mass_g
    return 0
