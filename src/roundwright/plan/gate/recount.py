"""How a count becomes a version's count, steps, passes and seconds: the gate's own reckoning."""

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from functools import cache

from roundwright.body.anatomy import MIRRORED, Side
from roundwright.foundation.quantities import BP, stored
from roundwright.goals.class_wish import Count, CountUnit
from roundwright.library.catalogue import Catalogue
from roundwright.library.combination import Combination
from roundwright.library.movement import Movement
from roundwright.library.version import Step
from roundwright.library.vocabulary import DoneAs, Laterality, Pattern
from roundwright.plan.gate.people_limits import eased_row
from roundwright.plan.problem import Problem, ProblemPerson

A_SIDE = frozenset({CountUnit.REPS_PER_SIDE, CountUnit.SECONDS_PER_SIDE})
LUNGES = frozenset({Pattern.LUNGE, Pattern.STEP})


@dataclass(frozen=True, slots=True)
class Listing:
    """One pass of a version: its steps with their movements, and how the parts hang together."""

    steps: tuple[Step, ...]
    movements: tuple[Movement, ...]
    combination: Combination | None = None

    @property
    def signature(self) -> tuple[str, ...]:
        """The movements of one pass, in order."""
        return tuple(step.movement_id for step in self.steps)


@cache
def milliseconds(seconds: float) -> int:
    """Give seconds as whole milliseconds."""
    return stored(Decimal(str(seconds)) * 1000)


def is_push_up(movement: Movement) -> bool:
    """Say whether a movement pushes body weight from the hands, as a push-up does."""
    return (
        movement.pattern is Pattern.HORIZONTAL_PUSH
        and bool(movement.lifted_share)
        and movement.dumbbells_lifted == 0
    )


def known_versions(library: Catalogue, line_id: str) -> tuple[Movement, ...]:
    """Give a line's movements, easy to hard; none where the library has no such line."""
    line = library.lines.get(line_id)
    if line is None:
        return ()
    return tuple(library.movements[m] for m in line.versions if m in library.movements)


def lines_of(library: Catalogue, exercise_id: str) -> tuple[str, ...]:
    """Give the lines an exercise is made of; none for an unknown exercise."""
    return library.lines_of_exercise(exercise_id) if library.has_exercise(exercise_id) else ()


def of_share(value: int, unit: CountUnit, share: Fraction) -> int:
    """Give the part of a value that a share leaves: at least one, and even where it alternates."""
    part = max(1, int(value * share))
    return max(2, part - part % 2) if unit is CountUnit.REPS_ALTERNATING else part


def _reps_a_unit(problem: Problem, exercise_id: str, unit: CountUnit, lunges: bool) -> int:
    """Give how many reps of lunges (or of push-ups) one unit of the count may hold."""
    library = problem.library
    combination = library.combinations.get(exercise_id)
    parts = (
        [(part.line, part.times) for part in combination.parts]
        if combination
        else [(exercise_id, 1)]
    )
    total = 0
    for line_id, times in parts:
        versions = known_versions(library, line_id)
        if any(v.pattern in LUNGES if lunges else is_push_up(v) for v in versions):
            total += times
    return total * (2 if unit in A_SIDE else 1)


def own_counts(
    problem: Problem, person: ProblemPerson, dose_bp: int, rounds_done: int
) -> dict[int, Count]:
    """Give a person's own count at each place of the round, in the unit of the wish."""
    values = {
        place.position: of_share(place.count.value, place.count.unit, Fraction(dose_bp, BP))
        for place in problem.spec.exercises
    }
    row = eased_row(person, problem.rules)
    caps = () if row is None else ((True, row.lunges), (False, row.push_ups))
    for lunges, cap in caps:
        if cap is None:
            continue
        held = {
            place.position: _reps_a_unit(problem, place.exercise_id, place.count.unit, lunges)
            for place in problem.spec.exercises
        }
        planned = rounds_done * sum(values[k] * n for k, n in held.items())
        if planned > cap:
            for place in problem.spec.exercises:
                if held[place.position]:
                    values[place.position] = of_share(
                        values[place.position], place.count.unit, Fraction(cap, planned)
                    )
    return {
        place.position: Count.model_construct(value=values[place.position], unit=place.count.unit)
        for place in problem.spec.exercises
    }


def whole(count: Count) -> Count:
    """Give a count without sides: total reps or total seconds, as a substitute takes it."""
    unit = CountUnit.SECONDS if count.is_timed else CountUnit.REPS
    return Count.model_construct(value=count.value * (2 if count.unit in A_SIDE else 1), unit=unit)


def count_of_version(count: Count, laterality: Laterality, unused: Side | None = None) -> Count:
    """Give the count of a line's version that keeps the total of the wish.

    With a side of its limb unused, what would be a count a side is plain.
    """
    if unused is not None and laterality is Laterality.UNILATERAL:
        a_side = count_of_version(count, laterality)
        unit = CountUnit.SECONDS if count.is_timed else CountUnit.REPS
        return Count.model_construct(value=a_side.value, unit=unit)
    value, unit = count.value, count.unit
    if count.is_timed:
        total = value * 2 if unit is CountUnit.SECONDS_PER_SIDE else value
        if laterality is Laterality.UNILATERAL:
            one_side = value if unit is CountUnit.SECONDS_PER_SIDE else max(1, value // 2)
            return Count.model_construct(value=one_side, unit=CountUnit.SECONDS_PER_SIDE)
        return Count.model_construct(value=total, unit=CountUnit.SECONDS)
    total = value * 2 if unit is CountUnit.REPS_PER_SIDE else value
    if laterality is Laterality.BILATERAL:
        return Count.model_construct(value=total, unit=CountUnit.REPS)
    if laterality is Laterality.UNILATERAL:
        return Count.model_construct(value=max(1, total // 2), unit=CountUnit.REPS_PER_SIDE)
    return Count.model_construct(value=max(2, total - total % 2), unit=CountUnit.REPS_ALTERNATING)


def contacts_a_pass(listing: Listing) -> int:
    """Give the foot contacts of one pass."""
    steps = zip(listing.steps, listing.movements, strict=True)
    return sum(step.times * movement.contacts_a_rep for step, movement in steps)


def within_landings(listing: Listing, count: Count, most: int) -> Count:
    """Cut a count of reps to the passes whose foot contacts one set may hold, at least one."""
    a_pass = contacts_a_pass(listing)
    if count.is_timed or not a_pass:
        return count
    passes = min(passes_of(listing, count), max(1, most // a_pass))
    doubled = count.unit is CountUnit.REPS_ALTERNATING
    return Count.model_construct(value=passes * (2 if doubled else 1), unit=count.unit)


def line_listing(movement: Movement, person: ProblemPerson) -> Listing:
    """Give one pass of a line's version: the person's first side first, or the only one."""
    if not movement.is_one_sided:
        return Listing((Step(movement_id=movement.slug, side=Side.BOTH),), (movement,))
    unused = person.unused_side_of(movement.limb)
    if unused is not None:
        return Listing((Step(movement_id=movement.slug, side=MIRRORED[unused]),), (movement,))
    first = person.first_side
    start = Side.RIGHT if first is Side.RIGHT else Side.LEFT
    steps = tuple(Step(movement_id=movement.slug, side=s) for s in (start, MIRRORED[start]))
    return Listing(steps, (movement, movement))


def combination_listing(
    combination: Combination, movements: Sequence[Movement], unit: CountUnit, first: Side
) -> Listing | None:
    """Give one pass of a combination with these movements, one a part; None if they do not fit."""
    steps: list[Step] = []
    for part, movement in zip(combination.parts, movements, strict=True):
        if part.side is Side.BOTH and movement.is_one_sided:
            return None
        side = part.side if movement.is_one_sided else Side.BOTH
        steps.append(Step(movement_id=movement.slug, side=side, times=part.times))
    held = tuple(movements)
    if unit in A_SIDE:
        steps += [_mirrored(step) for step in steps]
        held += held
    if first is Side.RIGHT:
        steps = [_mirrored(step) for step in steps]
    return Listing(tuple(steps), held, combination)


def _mirrored(step: Step) -> Step:
    return step.model_copy(update={"side": MIRRORED[step.side]})


def pass_milliseconds(listing: Listing, unit: CountUnit) -> int:
    """Give the milliseconds of one pass, or of one side of it with a per-side count of seconds."""
    steps = list(zip(listing.steps, listing.movements, strict=True))
    if unit is CountUnit.SECONDS_PER_SIDE:
        steps = steps[: len(steps) // 2]
    work = sum(step.times * milliseconds(m.seconds_a_rep) for step, m in steps)
    links = 0
    if listing.combination is not None:
        links = (len(steps) - 1) * milliseconds(listing.combination.link_s)
    return work + links


def passes_of(listing: Listing, count: Count) -> int:
    """Give how many passes a count holds; from seconds it is what is expected."""
    if count.is_timed:
        return count.value * 1000 // max(1, pass_milliseconds(listing, count.unit))
    if count.unit is CountUnit.REPS_ALTERNATING:
        return count.value // 2
    return count.value


def seconds_of(listing: Listing, count: Count, pace: Fraction, side_change_s: int) -> int:
    """Give the planned seconds of one set for a person of this pace."""
    change = side_change_s if count.unit in A_SIDE else 0
    if count.unit is CountUnit.SECONDS:
        return count.value
    if count.unit is CountUnit.SECONDS_PER_SIDE:
        return 2 * count.value + change
    passes = passes_of(listing, count)
    work_ms = passes * sum(
        step.times * milliseconds(m.seconds_a_rep)
        for step, m in zip(listing.steps, listing.movements, strict=True)
    )
    work_ms += _links_ms(listing, count, passes)
    return round(Fraction(work_ms, 1000) * pace) + change


def _links_ms(listing: Listing, count: Count, passes: int) -> int:
    combination = listing.combination
    if combination is None:
        return 0
    sides = 2 if count.unit in A_SIDE else 1
    once = (len(combination.parts) - 1) * milliseconds(combination.link_s) * sides
    return once if combination.done_as is DoneAs.COMPLEX else passes * once
