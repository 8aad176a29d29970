"""With what chance a person does a version with a mass, and whether that is allowed (4)."""

from fractions import Fraction

from roundwright.body.anatomy import Side
from roundwright.library.vocabulary import Demand
from roundwright.people.capacity import p_can, p_fails
from roundwright.plan.problem import Problem
from tests.brute_force.oracle_allowed import is_heavy_overhead
from tests.brute_force.oracle_kit import lifts, masses_on_rack
from tests.brute_force.oracle_people import dosage, is_newcomer, level_of
from tests.brute_force.oracle_versions import OneStep, Version

OPPOSITE = {(Side.LEFT, Side.RIGHT), (Side.RIGHT, Side.LEFT)}


def reps_of_step(problem: Problem, version: Version, index: int) -> float:
    """Reps for one side, with a share of the reps of like steps not on the other side."""
    mine = version.steps[index]
    reps = float(version.passes * mine.times)
    for other_index, other in enumerate(version.steps):
        if other_index == index or (mine.side, other.side) in OPPOSITE:
            continue
        if set(mine.movement.prime_movers) & set(other.movement.prime_movers):
            reps += problem.rules.fatigue_share_bp / 10_000 * version.passes * other.times
    return reps


def effective_kg(step: OneStep, mass_g: int, body_mass_g: int) -> float:
    movement = step.movement
    grams: float = mass_g * movement.dumbbells_lifted
    grams += movement.lifted_share_bp * body_mass_g / 10_000
    if movement.is_one_sided:
        grams /= (movement.limb_factor_bp or 5000) / 10_000
    return grams / 1000


def aim_bp(problem: Problem, person_id: str) -> int:
    rules = problem.rules
    early = problem.people[person_id].classes < rules.first_chance_classes
    return rules.first_chance_bp if early else rules.usual_chance_bp


def _is_careful(step: OneStep) -> bool:
    return step.movement.demand(Demand.OVERHEAD) >= 1 or step.movement.demand(Demand.OVER_FACE) >= 1


def authored_mass(problem: Problem, person_id: str, step: OneStep) -> int | None:
    """The mass authored for the person's level, for a lift without a strength family."""
    table = step.movement.assumed_load_by_level or {}
    return table.get(str(level_of(problem, problem.people[person_id], step.movement)))


def chance_if_allowed(
    problem: Problem, person_id: str, version: Version, mass_g: int
) -> int | None:
    """The chance of section 4, or None where the load is not allowed."""
    rules, person = problem.rules, problem.people[person_id]
    dose, newcomer = dosage(problem, person_id), is_newcomer(problem, person)
    chance = 10_000
    for index, step in enumerate(version.steps):
        movement = step.movement
        external = mass_g * movement.dumbbells_lifted
        if person.is_moderate_only and is_heavy_overhead(problem, person, movement, mass_g):
            return None
        if movement.strength_family is None:
            if external > 0:
                authored = authored_mass(problem, person_id, step)
                if authored is None or mass_g > authored:
                    return None
            continue
        load_kg = effective_kg(step, mass_g, person.body_mass_g)
        if load_kg == 0:
            continue
        capacity = person.capacity_for(movement.slug, movement.strength_family)
        if capacity is None:
            return None
        reps = reps_of_step(problem, version, index)
        chance = min(chance, p_can(capacity, load_kg, reps, dose.rir, dose.rounds))
        if external > 0:
            careful = newcomer or _is_careful(step)
            cap = rules.fail_cap_careful_bp if careful else rules.fail_cap_bp
            if p_fails(capacity, load_kg, reps, dose.rounds) > cap:
                return None
    if chance < rules.least_chance_bp:
        return None
    lifting = [s for s in version.steps if s.movement.dumbbells_lifted > 0]
    strict = newcomer or any(_is_careful(s) for s in lifting)
    if mass_g > 0 and lifting and strict and chance < aim_bp(problem, person_id):
        return None
    return chance


def _own_largest(problem: Problem, person_id: str, version: Version, index: int) -> int:
    """The largest mass on the rack at which one step alone meets the aim and its fail cap."""
    rules, person, step = problem.rules, problem.people[person_id], version.steps[index]
    movement, dose = step.movement, dosage(problem, person_id)
    strict = is_newcomer(problem, person) or _is_careful(step)
    cap = rules.fail_cap_careful_bp if strict else rules.fail_cap_bp
    reps = reps_of_step(problem, version, index)
    largest = 0
    for mass in masses_on_rack(problem, version.steps):
        if movement.strength_family is None:
            authored = authored_mass(problem, person_id, step)
            meets = authored is not None and mass <= authored
        else:
            capacity = person.capacity_for(movement.slug, movement.strength_family)
            load_kg = effective_kg(step, mass, person.body_mass_g)
            meets = (
                capacity is not None
                and p_can(capacity, load_kg, reps, dose.rir, dose.rounds)
                >= aim_bp(problem, person_id)
                and p_fails(capacity, load_kg, reps, dose.rounds) <= cap
            )
        if meets:
            largest = max(largest, mass)
    return largest


def _own_chance(problem: Problem, person_id: str, version: Version, index: int, mass_g: int) -> int:
    """The chance of one step with a mass; certain where it is not judged."""
    step, person = version.steps[index], problem.people[person_id]
    load_kg = effective_kg(step, mass_g, person.body_mass_g)
    if step.movement.strength_family is None or load_kg == 0:
        return 10_000
    capacity = person.capacity_for(step.movement.slug, step.movement.strength_family)
    if capacity is None:
        return 0
    dose, reps = dosage(problem, person_id), reps_of_step(problem, version, index)
    return p_can(capacity, load_kg, reps, dose.rir, dose.rounds)


def held_back_price(problem: Problem, person_id: str, version: Version, mass_g: int) -> int:
    """What the deciding part of a combination keeps from the other lifting steps, as a mean."""
    lifting = [i for i, s in enumerate(version.steps) if s.movement.dumbbells_lifted > 0]
    if not lifting:
        return 0
    own = {i: _own_largest(problem, person_id, version, i) for i in lifting}
    decides = sorted(
        lifting, key=lambda i: (own[i], _own_chance(problem, person_id, version, i, mass_g), i)
    )[0]
    name = version.steps[decides].movement.slug
    whole = max(mass_g, max(own[i] for i in lifting if version.steps[i].movement.slug == name))
    missing = sum((1 - Fraction(whole, own[i]) for i in lifting if own[i] > whole), Fraction(0))
    return round(problem.costs.held_back * missing / len(lifting))


def load_price(
    problem: Problem, person_id: str, version: Version, mass_g: int, chance: int, target: int
) -> int:
    """Price of a load; `target` is the largest allowed mass that meets the aim."""
    costs, aim = problem.costs, aim_bp(problem, person_id)
    if chance < aim:
        return costs.load_over_base + round(costs.load_over * (aim - chance) / 10_000)
    if not lifts(version.steps):
        return 0
    lifting = [s for s in version.steps if s.movement.dumbbells_lifted > 0]
    if all(s.movement.strength_family is None for s in lifting):
        authored = [authored_mass(problem, person_id, s) for s in lifting]
        target = min(a for a in authored if a is not None)
    return round(costs.load_short * (target - mass_g) / target)
