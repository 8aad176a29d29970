"""Which versions an exercise has for one person, with listing, count, passes and seconds.

From the definition page, section 2.
"""

from dataclasses import dataclass
from decimal import ROUND_HALF_EVEN, Decimal
from fractions import Fraction

from roundwright.body.anatomy import MIRRORED, Side
from roundwright.goals.class_wish import Count, CountUnit
from roundwright.library.movement import Movement
from roundwright.library.vocabulary import DoneAs, Laterality
from roundwright.plan.problem import Problem
from tests.brute_force.oracle_allowed import missing_side, movement_is_allowed
from tests.brute_force.oracle_people import PER_SIDE, dosage


@dataclass(frozen=True)
class OneStep:
    """A movement within a pass, with its side and how often."""

    movement: Movement
    side: Side
    times: int


@dataclass(frozen=True)
class Version:
    """One version for one person: hardness orders the versions of one exercise."""

    hardness: int
    steps: tuple[OneStep, ...]
    count: Count
    passes: int
    seconds: int
    cut_short: bool = False

    @property
    def signature(self) -> tuple[str, ...]:
        return tuple(s.movement.slug for s in self.steps)

    @property
    def contacts(self) -> int:
        return sum(self.passes * s.times * s.movement.contacts_a_rep for s in self.steps)

    @property
    def low_hops(self) -> int:
        return sum(self.passes * s.times * s.movement.low_hops_a_rep for s in self.steps)


def half_even(value: Fraction) -> int:
    """Round half to even."""
    return round(value)


def milli(seconds: float) -> int:
    return int((Decimal(str(seconds)) * 1000).quantize(Decimal(1), rounding=ROUND_HALF_EVEN))


def count_for(wish: Count, laterality: Laterality) -> Count:
    """The table of section 2."""
    v, unit = wish.value, wish.unit
    two, one = Laterality.BILATERAL, Laterality.UNILATERAL
    if unit is CountUnit.REPS:
        if laterality is two:
            return Count(value=v, unit=CountUnit.REPS)
        if laterality is one:
            return Count(value=max(1, v // 2), unit=CountUnit.REPS_PER_SIDE)
        return Count(value=max(2, v - v % 2), unit=CountUnit.REPS_ALTERNATING)
    if unit is CountUnit.REPS_PER_SIDE:
        if laterality is two:
            return Count(value=2 * v, unit=CountUnit.REPS)
        if laterality is one:
            return wish
        return Count(value=2 * v, unit=CountUnit.REPS_ALTERNATING)
    if unit is CountUnit.REPS_ALTERNATING:
        if laterality is two:
            return Count(value=v, unit=CountUnit.REPS)
        if laterality is one:
            return Count(value=v // 2, unit=CountUnit.REPS_PER_SIDE)
        return wish
    if unit is CountUnit.SECONDS:
        if laterality is one:
            return Count(value=max(1, v // 2), unit=CountUnit.SECONDS_PER_SIDE)
        return wish
    if laterality is one:
        return wish
    return Count(value=2 * v, unit=CountUnit.SECONDS)


def total_count(wish: Count) -> Count:
    """What a substitute takes over: the wish's total reps, or its total seconds."""
    value = wish.value * (2 if wish.unit in PER_SIDE else 1)
    return Count(value=value, unit=CountUnit.SECONDS if wish.is_timed else CountUnit.REPS)


def _finished(
    problem: Problem,
    person_id: str,
    hardness: int,
    steps: tuple[OneStep, ...],
    count: Count,
    link_ms_a_pass: int,
    link_ms_once: int,
) -> Version | None:
    """Work out passes and seconds, and cut landings; None where a timed count lands too often.

    Links are for one side; a per-side listing has two.
    """
    most_landings = problem.rules.most_landings_a_set
    landings = sum(s.times * s.movement.contacts_a_rep for s in steps)
    sides = 2 if count.unit in PER_SIDE else 1
    pass_ms = sum(s.times * milli(s.movement.seconds_a_rep) for s in steps)
    pass_ms += sides * link_ms_a_pass
    if count.is_timed:
        window_ms = 1000 * count.value
        one_window_pass = pass_ms // sides
        passes = window_ms // one_window_pass
        if passes * landings > most_landings:
            return None
        side_change = problem.spec.side_change_s if sides == 2 else 0
        seconds = sides * count.value + side_change
        return Version(hardness, steps, count, passes, seconds)
    reps_a_pass = 2 if count.unit is CountUnit.REPS_ALTERNATING else 1
    passes = whole_passes = count.value // reps_a_pass
    if passes * landings > most_landings:
        passes = max(1, most_landings // landings)
        count = Count(value=passes * reps_a_pass, unit=count.unit)
    all_ms = passes * pass_ms + sides * link_ms_once
    pace_bp = dosage(problem, person_id).pace_bp
    seconds = half_even(Fraction(all_ms * pace_bp, 10_000 * 1000))
    if count.unit is CountUnit.REPS_PER_SIDE:
        seconds += problem.spec.side_change_s
    share = Fraction(problem.rules.least_cut_share_bp, 10_000)
    cut_short = Fraction(passes, whole_passes) < share
    return Version(hardness, steps, count, passes, seconds, cut_short)


def _line_versions(problem: Problem, person_id: str, line_id: str, wish: Count) -> list[Version]:
    first = problem.people[person_id].first_side
    versions: list[Version | None] = []
    for hardness, movement in enumerate(problem.library.versions(line_id)):
        if not movement_is_allowed(problem, person_id, line_id, movement):
            continue
        if movement.laterality is Laterality.BILATERAL:
            steps: tuple[OneStep, ...] = (OneStep(movement, Side.BOTH, 1),)
        else:
            steps = (OneStep(movement, first, 1), OneStep(movement, MIRRORED[first], 1))
        count = count_for(wish, movement.laterality)
        gone = missing_side(problem.people[person_id], movement)
        if gone is not None:
            steps = tuple(s for s in steps if s.side is not gone)
            unit = CountUnit.SECONDS if wish.is_timed else CountUnit.REPS
            count = Count(value=count.value, unit=unit)
        versions.append(_finished(problem, person_id, hardness, steps, count, 0, 0))
    return [v for v in versions if v is not None]


def _mirrored(steps: tuple[OneStep, ...]) -> tuple[OneStep, ...]:
    return tuple(OneStep(s.movement, MIRRORED[s.side], s.times) for s in steps)


def _parts_at_level(
    problem: Problem, person_id: str, combination_id: str, level: int
) -> tuple[OneStep, ...] | None:
    combination = problem.library.combinations[combination_id]
    steps = []
    for part in combination.parts:
        hardest = None
        for movement in problem.library.versions(part.line):
            two_sided = movement.laterality is Laterality.BILATERAL
            if (
                movement.level <= level
                and movement_is_allowed(problem, person_id, part.line, movement)
                and (two_sided or part.side is not Side.BOTH)
                and (combination.load == "held" or movement.dumbbells_lifted == 0)
                and missing_side(problem.people[person_id], movement) is None
            ):
                hardest = movement
        if hardest is None:
            return None
        side = Side.BOTH if hardest.laterality is Laterality.BILATERAL else part.side
        steps.append(OneStep(hardest, side, part.times))
    return tuple(steps)


def _combination_versions(
    problem: Problem, person_id: str, combination_id: str, wish: Count
) -> list[Version]:
    combination = problem.library.combinations[combination_id]
    link_ms = (len(combination.parts) - 1) * milli(combination.link_s)
    is_complex = combination.done_as is DoneAs.COMPLEX
    versions: list[Version | None] = []
    seen: list[tuple[OneStep, ...]] = []
    for level in range(1, 6):
        parts = _parts_at_level(problem, person_id, combination_id, level)
        if parts is None or parts in seen:
            continue
        seen.append(parts)
        steps = parts + _mirrored(parts) if wish.unit in PER_SIDE else parts
        if problem.people[person_id].first_side is Side.RIGHT:
            steps = _mirrored(steps)
        versions.append(
            _finished(
                problem,
                person_id,
                level,
                steps,
                wish,
                0 if is_complex else link_ms,
                link_ms if is_complex else 0,
            )
        )
    return [v for v in versions if v is not None]


def versions_of(problem: Problem, person_id: str, exercise_id: str, wish: Count) -> list[Version]:
    """Every version that the person may do by rules 3.1 to 3.6, easy to hard."""
    if exercise_id in problem.library.combinations:
        return _combination_versions(problem, person_id, exercise_id, wish)
    return _line_versions(problem, person_id, exercise_id, wish)
