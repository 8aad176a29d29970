"""How much of a class one person does: share, rounds, effort, limits, and own counts.

Implements section 1 of *How a class is fitted*. Allowed versions and loads are
left to `optimise`; what a count becomes for a version to `counts_of_version`.
"""

from collections.abc import Callable
from dataclasses import dataclass

from roundwright.foundation.quantities import BP
from roundwright.goals.class_wish import Count, CountUnit
from roundwright.library.catalogue import Catalogue
from roundwright.library.movement import Movement
from roundwright.library.vocabulary import Pattern
from roundwright.plan.counts_of_version import is_per_side
from roundwright.plan.problem import ClassSpec, Problem, ProblemPerson
from roundwright.plan.rule_table import EasedIn, RuleTable, limit_for


@dataclass(frozen=True, slots=True)
class Dose:
    """What one person may do of one class.

    `share_cap_bp` is the cap on share times rounds; limits are per class;
    `pace_bp` multiplies seconds a rep; `aim_bp` is the chance aimed at.
    """

    dose_bp: int
    rounds: tuple[int, ...]
    rir: int
    effort_ceiling: int
    contact_limit: int
    low_hop_limit: int
    pace_bp: int
    share_cap_bp: int
    aim_bp: int
    is_newcomer: bool
    is_first_timer: bool
    easiest_burst: bool

    @property
    def last_round(self) -> int:
        """The last round the person does."""
        return self.rounds[-1]


def eased_row(person: ProblemPerson, rules: RuleTable) -> EasedIn | None:
    """Give the row of the eased-in table for a person's coming class, or None."""
    return next((row for row in rules.eased_in if row.classes_done == person.classes), None)


def dose_of(person: ProblemPerson, spec: ClassSpec, rules: RuleTable) -> Dose:
    """Give a person's dose: share and rounds by the largest product within the cap.

    Ties go to more rounds; when nothing fits, the least share and one round. What the
    class asks to leave in reserve only ever raises what the person must leave.
    """
    row = eased_row(person, rules)
    cap, most_rounds = BP, spec.rounds
    if row is not None:
        cap, most_rounds = min(cap, row.share_bp), min(most_rounds, row.rounds)
    if person.days_since_last is not None and person.days_since_last >= rules.away_days:
        cap = min(cap, rules.away_share_bp)
    fitting = [
        (share * n, n, share)
        for share in rules.dose_steps_bp
        for n in range(1, most_rounds + 1)
        if share * n <= cap * spec.rounds
    ]
    _, rounds, share = max(fitting, default=(0, 1, min(rules.dose_steps_bp)))
    classes, moderate = person.classes, person.is_moderate_only
    newcomer = classes < rules.newcomer_classes
    rir = limit_for(rules.rir, classes, person.level)
    rir = max(rir, rules.moderate_rir) if moderate else rir
    efforts = [rules.usual_effort]
    efforts += [rules.newcomer_effort] if newcomer else []
    efforts += [rules.moderate_effort] if moderate else []
    efforts += [] if person.effort_cap is None else [person.effort_cap]
    return Dose(
        dose_bp=share,
        rounds=tuple(range(1, rounds + 1)),
        rir=max(rir, spec.reps_left or 0),
        effort_ceiling=min(efforts),
        contact_limit=0 if moderate else limit_for(rules.contacts, classes, person.level),
        low_hop_limit=limit_for(rules.low_hops, classes, person.level),
        pace_bp=_pace_bp(person, newcomer, rules),
        share_cap_bp=cap,
        aim_bp=(
            rules.first_chance_bp if classes < rules.first_chance_classes else rules.usual_chance_bp
        ),
        is_newcomer=newcomer,
        is_first_timer=classes == 0,
        easiest_burst=moderate or (row is not None and row.easiest_burst),
    )


def _pace_bp(person: ProblemPerson, newcomer: bool, rules: RuleTable) -> int:
    old = person.oldest_age is not None and person.oldest_age >= rules.old_age
    factors = [BP]
    factors += [rules.newcomer_pace_bp] if newcomer else []
    factors += [rules.old_pace_bp] if old else []
    return max(factors)


def own_counts(problem: Problem, person_id: str) -> tuple[Count, ...]:
    """Give a person's own count at each place, in order of position.

    Parameters
    ----------
    problem : Problem
        The class.
    person_id : str
        Somebody who takes part.

    Notes
    -----
    The caps on lunges and push-ups of the eased-in table are applied one after
    the other. Seconds are capped as if each second were a rep, the cautious side.
    """
    person, rules = problem.people[person_id], problem.rules
    dose = dose_of(person, problem.spec, rules)
    counts = [
        _with_value(planned.count, planned.count.value * dose.dose_bp // BP)
        for planned in problem.spec.exercises
    ]
    row = eased_row(person, rules)
    if row is None:
        return tuple(counts)
    for cap, concerns in ((row.lunges, _is_lunge), (row.push_ups, _is_push_up)):
        if cap is not None:
            counts = _capped(counts, problem, len(dose.rounds), cap, concerns)
    return tuple(counts)


def _with_value(count: Count, value: int) -> Count:
    if count.unit is CountUnit.REPS_ALTERNATING:
        return Count(value=max(2, value - value % 2), unit=count.unit)
    return Count(value=max(1, value), unit=count.unit)


def _is_lunge(movement: Movement) -> bool:
    return movement.pattern in (Pattern.LUNGE, Pattern.STEP)


def _is_push_up(movement: Movement) -> bool:
    return (
        movement.pattern is Pattern.HORIZONTAL_PUSH
        and bool(movement.lifted_share)
        and movement.dumbbells_lifted == 0
    )


def _capped(
    counts: list[Count],
    problem: Problem,
    rounds: int,
    cap: int,
    concerns: Callable[[Movement], bool],
) -> list[Count]:
    reps_a_unit = [
        _reps_a_unit(problem.library, planned.exercise_id, concerns)
        * (2 if is_per_side(planned.count) else 1)
        for planned in problem.spec.exercises
    ]
    total = rounds * sum(c.value * r for c, r in zip(counts, reps_a_unit, strict=True))
    if total <= cap:
        return counts
    return [
        _with_value(count, count.value * cap // total) if reps else count
        for count, reps in zip(counts, reps_a_unit, strict=True)
    ]


def _reps_a_unit(library: Catalogue, exercise_id: str, concerns: Callable[[Movement], bool]) -> int:
    if exercise_id not in library.combinations:
        return int(any(concerns(m) for m in library.versions(exercise_id)))
    return sum(
        part.times
        for part in library.combinations[exercise_id].parts
        if any(concerns(m) for m in library.versions(part.line))
    )
