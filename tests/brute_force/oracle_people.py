"""What one person does of a class, read plainly from the definition page, sections 1 and 2.

Slow on purpose, and sharing nothing with the makers of plans but the typed models.
"""

from dataclasses import dataclass
from fractions import Fraction

from roundwright.goals.class_wish import Count, CountUnit
from roundwright.library.combination import Part
from roundwright.library.movement import Movement
from roundwright.library.vocabulary import Demand, Pattern
from roundwright.plan.problem import Problem, ProblemPerson
from roundwright.plan.rule_table import EasedIn, limit_for

PER_SIDE = (CountUnit.REPS_PER_SIDE, CountUnit.SECONDS_PER_SIDE)
MODERATE_CAPS = {
    Demand.IMPACT: 0,
    Demand.ONE_FOOT_LANDING: 0,
    Demand.VIGOROUS: 1,
    Demand.FAST_LEVEL_CHANGE: 1,
    Demand.HEAD_LOW: 1,
}


@dataclass(frozen=True)
class Dosage:
    """A person's dose: share of the counts, rounds 1..n, reserve, limits, pace."""

    dose_bp: int
    rounds: int
    rir: int
    contact_limit: int
    low_hop_limit: int
    pace_bp: int


def eased_row(problem: Problem, person: ProblemPerson) -> EasedIn | None:
    """The row of the eased-in table for exactly this many classes done."""
    rows = [row for row in problem.rules.eased_in if row.classes_done == person.classes]
    return rows[0] if rows else None


def is_newcomer(problem: Problem, person: ProblemPerson) -> bool:
    return person.classes < problem.rules.newcomer_classes


def level_of(problem: Problem, person: ProblemPerson, movement: Movement) -> int:
    """The person's level for a movement; moderate only: at most the moderate level."""
    level = person.level_for(movement.strength_family)
    return min(level, problem.rules.moderate_level) if person.is_moderate_only else level


def general_level(problem: Problem, person: ProblemPerson) -> int:
    if person.is_moderate_only:
        return min(person.level, problem.rules.moderate_level)
    return person.level


def cap_of(person: ProblemPerson, demand: Demand) -> int:
    cap = person.caps.get(demand, 3)
    if person.is_moderate_only:
        cap = min(cap, MODERATE_CAPS.get(demand, 3))
    return cap


def dosage(problem: Problem, person_id: str) -> Dosage:
    rules, person, all_rounds = problem.rules, problem.people[person_id], problem.spec.rounds
    row = eased_row(problem, person)
    cap = 10_000 if row is None else min(10_000, row.share_bp)
    if person.days_since_last is not None and person.days_since_last >= rules.away_days:
        cap = min(cap, rules.away_share_bp)
    most_rounds = all_rounds if row is None else min(all_rounds, row.rounds)
    fitting = [
        (step * n, n, step)
        for step in rules.dose_steps_bp
        for n in range(1, most_rounds + 1)
        if Fraction(step * n, all_rounds) <= cap
    ]
    _, rounds, dose_bp = max(fitting) if fitting else (0, 1, min(rules.dose_steps_bp))
    rir = limit_for(rules.rir, person.classes, person.level)
    if person.is_moderate_only:
        rir = max(rir, rules.moderate_rir)
    contacts = limit_for(rules.contacts, person.classes, person.level)
    pace = rules.newcomer_pace_bp if is_newcomer(problem, person) else 10_000
    if person.oldest_age is not None and person.oldest_age >= rules.old_age:
        pace = max(pace, rules.old_pace_bp)
    return Dosage(
        dose_bp=dose_bp,
        rounds=rounds,
        rir=rir if problem.spec.reps_left is None else max(rir, problem.spec.reps_left),
        contact_limit=0 if person.is_moderate_only else contacts,
        low_hop_limit=limit_for(rules.low_hops, person.classes, person.level),
        pace_bp=pace,
    )


def parts_of(problem: Problem, exercise_id: str) -> tuple[Part, ...]:
    """The parts of an exercise; a line is one part."""
    if exercise_id in problem.library.combinations:
        return problem.library.combinations[exercise_id].parts
    return (Part(line=exercise_id),)


def _is_lunge_line(problem: Problem, line_id: str) -> bool:
    return any(
        m.pattern in (Pattern.LUNGE, Pattern.STEP) for m in problem.library.versions(line_id)
    )


def _is_push_up_line(problem: Problem, line_id: str) -> bool:
    return any(
        m.pattern is Pattern.HORIZONTAL_PUSH
        and m.lifted_share is not None
        and m.lifted_share > 0
        and m.dumbbells_lifted == 0
        for m in problem.library.versions(line_id)
    )


def _even(value: int) -> int:
    return max(2, value - value % 2)


def _limited(value: int, unit: CountUnit) -> int:
    return _even(value) if unit is CountUnit.REPS_ALTERNATING else max(1, value)


def own_counts(problem: Problem, person_id: str) -> tuple[Count, ...]:
    """The person's own count at each place: dose first, then the caps of first classes."""
    dose, row = dosage(problem, person_id), eased_row(problem, problem.people[person_id])
    counts = [e.count for e in problem.spec.exercises]
    values = [_limited(c.value * dose.dose_bp // 10_000, c.unit) for c in counts]
    caps = [] if row is None else [(row.lunges, _is_lunge_line), (row.push_ups, _is_push_up_line)]
    for cap, concerns in caps:
        if cap is None:
            continue
        a_unit = [
            sum(p.times for p in parts_of(problem, e.exercise_id) if concerns(problem, p.line))
            * (2 if e.count.unit in PER_SIDE else 1)
            for e in problem.spec.exercises
        ]
        planned = dose.rounds * sum(v * n for v, n in zip(values, a_unit, strict=True))
        if planned > cap:
            values = [
                _limited(v * cap // planned, c.unit) if n else v
                for v, n, c in zip(values, a_unit, counts, strict=True)
            ]
    return tuple(Count(value=v, unit=c.unit) for v, c in zip(values, counts, strict=True))
