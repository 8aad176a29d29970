"""Which burst is the easiest that a person may do."""

from roundwright.plan.gate.kit_use import items_exist
from roundwright.plan.gate.people_limits import allowed_by_person, general_level
from roundwright.plan.gate.recount import known_versions
from roundwright.plan.problem import Problem, ProblemPerson


def easiest_burst(problem: Problem, person: ProblemPerson) -> str | None:
    """Give the first allowed version of the burst line without landings or rope skips."""
    wish = problem.spec.burst
    if wish is None:
        return None
    line = problem.library.lines.get(wish.line)
    for movement in known_versions(problem.library, wish.line):
        if (
            line is not None
            and not movement.contacts_a_rep
            and not movement.low_hops_a_rep
            and movement.level <= general_level(person, problem.rules)
            and person.classes >= line.min_classes_for(movement.slug)
            and allowed_by_person(person, movement, problem.rules, problem.spec.ban)
            and items_exist(problem, person, [movement], 0)
        ):
            return movement.slug
    return None
