"""Which movements a person may do at all (3.1 to 3.6), and what the order forbids (3.7)."""

from collections.abc import Iterable

from roundwright.body.anatomy import Limb, Side
from roundwright.goals.class_wish import AfterLastRound
from roundwright.library.movement import Movement
from roundwright.library.vocabulary import Demand, Laterality
from roundwright.plan.problem import Problem, ProblemPerson
from tests.brute_force.oracle_people import cap_of, dosage, level_of


def is_child(problem: Problem, person: ProblemPerson) -> bool:
    return person.youngest_age is not None and person.youngest_age < problem.rules.child_age


def missing_side(person: ProblemPerson, movement: Movement) -> Side | None:
    """The side of a one-sided movement's limb that is not used: section 2, one side only."""
    arms = {"horizontal_push", "vertical_push", "elbow_extension"}
    arms |= {"horizontal_pull", "vertical_pull", "elbow_flexion", "carry"}
    legs = {"squat", "lunge", "step", "jump", "hinge"}
    if movement.laterality is Laterality.BILATERAL:
        return None
    if movement.pattern.value in arms:
        return person.unused.get(Limb.ARM)
    return person.unused.get(Limb.LEG) if movement.pattern.value in legs else None


def movement_is_allowed(problem: Problem, person_id: str, line_id: str, movement: Movement) -> bool:
    """Rules 3.1 to 3.6, which look at one movement of one line."""
    person, rules = problem.people[person_id], problem.rules
    if any(movement.demand(d) > cap_of(person, d) for d in Demand):
        return False
    if movement.level > level_of(problem, person, movement) + rules.highest_level_step:
        return False
    if person.is_moderate_only and movement.level > rules.moderate_level:
        return False
    if movement.contacts_a_rep > 0 and dosage(problem, person_id).contact_limit == 0:
        return False
    if person.classes < problem.library.lines[line_id].min_classes_for(movement.slug):
        return False
    if is_child(problem, person) and movement.dumbbells_lifted > 0:
        return False
    gone = missing_side(person, movement)
    if gone is not None and (gone is Side.BOTH or movement.laterality is Laterality.ALTERNATING):
        return False
    return movement.slug not in problem.spec.ban and line_id not in problem.spec.ban


def is_heavy_overhead(
    problem: Problem, person: ProblemPerson, movement: Movement, mass_g: int
) -> bool:
    external = mass_g * movement.dumbbells_lifted
    return (
        movement.demand(Demand.OVERHEAD) >= 1
        and external * 10_000 > problem.rules.heavy_overhead_bp * person.body_mass_g
    )


def _breaks_either_order(
    problem: Problem, person: ProblemPerson, movements: Iterable[Movement], mass_g: int
) -> bool:
    return any(
        m.contacts_a_rep > 0
        or m.demand(Demand.BALANCE) >= problem.rules.one_leg_balance
        or is_heavy_overhead(problem, person, m, mass_g)
        for m in movements
    )


def breaks_last_place(
    problem: Problem, person_id: str, position: int, movements: tuple[Movement, ...], mass_g: int
) -> bool:
    """Whether 3.7 forbids it in the last round that the class has, at its last position."""
    does_it = dosage(problem, person_id).rounds == problem.spec.rounds
    if not does_it or position != problem.spec.positions:
        return False
    return _breaks_either_order(problem, problem.people[person_id], movements, mass_g)


def breaks_after_burst(
    problem: Problem, person_id: str, position: int, movements: tuple[Movement, ...], mass_g: int
) -> bool:
    """Whether 3.7 forbids it at the first position of a round close after a burst."""
    spec = problem.spec
    close = spec.burst is not None and spec.rest_s < problem.rules.walk_after_burst_s
    if not close or position != 1 or dosage(problem, person_id).rounds < 2:
        return False
    return _breaks_either_order(problem, problem.people[person_id], movements, mass_g) or any(
        m.demand(d) >= 1
        for m in movements
        for d in (Demand.ON_BACK, Demand.ON_FRONT, Demand.HEAD_LOW)
    )


def bursts_of(problem: Problem, person_id: str) -> int:
    """How many bursts the person does."""
    spec, rounds = problem.spec, dosage(problem, person_id).rounds
    if spec.burst is None:
        return 0
    if rounds == spec.rounds and spec.after_last_round is AfterLastRound.NOTHING:
        return rounds - 1
    return rounds
