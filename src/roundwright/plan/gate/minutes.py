"""What the minutes left of the slot cost, where the tool chose the lengths (P8): the gate's sum.

Counted by what each exercise usually takes, not by the versions that people do.
"""

from collections import Counter
from fractions import Fraction

from roundwright.goals.class_wish import AfterLastRound
from roundwright.library.vocabulary import DoneAs
from roundwright.plan.gate.class_facts import reference_versions
from roundwright.plan.gate.reading import Reading, burst_rounds
from roundwright.plan.gate.recount import A_SIDE, milliseconds
from roundwright.plan.problem import PlannedExercise

A_MINUTE_S = 60


def price_minutes(reading: Reading, points: Counter[str]) -> None:
    """Add the points of unused minutes, or of minutes missing to register and clear up."""
    spec, rules, costs = reading.problem.spec, reading.problem.rules, reading.problem.costs
    if spec.length_by != "tool":
        return
    left_s = spec.slot_s - usual_length_s(reading) - rules.register_and_clear_s
    if left_s > rules.spare_s:
        points["unused_minutes"] += costs.unused_minutes * ((left_s - rules.spare_s) // A_MINUTE_S)
    if left_s < 0:
        begun = (A_MINUTE_S - 1 - left_s) // A_MINUTE_S
        points["hurried_minutes"] += costs.hurried_minutes * begun


def usual_length_s(reading: Reading) -> int:
    """Give what the class usually takes, whoever comes, s."""
    spec = reading.problem.spec
    a_round_s = sum(_at_a_place(reading, exercise) for exercise in spec.exercises)
    rests = spec.rounds - (spec.after_last_round is not AfterLastRound.BURST_AND_REST)
    burst_s = spec.burst.length_s * len(burst_rounds(reading.problem)) if spec.burst else 0
    ends_s = spec.warm_up_s + spec.demonstration_s + spec.cool_down_s
    return ends_s + spec.rounds * a_round_s + burst_s + rests * spec.rest_s


def _at_a_place(reading: Reading, exercise: PlannedExercise) -> int:
    spec, work_s = reading.problem.spec, set_seconds(reading, exercise)
    if not reading.in_pairs:
        return work_s + spec.change_s
    turns = min(2, len(reading.problem.taking_part))
    return turns * work_s + spec.partner_swap_s + spec.change_s


def set_seconds(reading: Reading, exercise: PlannedExercise) -> int:
    """Give the usual seconds of one set at full dose."""
    count = exercise.count
    sides = 2 if count.unit in A_SIDE else 1
    if count.is_timed:
        return count.value * sides
    side_change_s = reading.problem.spec.side_change_s if sides == 2 else 0
    set_ms = _set_ms(reading, exercise.exercise_id, count.value)
    return round(Fraction(sides * set_ms, 1000)) + side_change_s


def _set_ms(reading: Reading, exercise_id: str, passes: int) -> int:
    """Give one side of a set, ms; nothing for what the library does not know."""
    library = reading.library
    combination = library.combinations.get(exercise_id)
    parts = [(p.line, p.times) for p in combination.parts] if combination else [(exercise_id, 1)]
    work_ms = sum(
        times * milliseconds(movement.seconds_a_rep)
        for line, times in parts
        for movement in reference_versions(library, line)
    )
    if combination is None:
        return passes * work_ms
    links_ms = milliseconds(combination.link_s) * (len(combination.parts) - 1)
    if combination.done_as is DoneAs.COMPLEX:
        return passes * work_ms + links_ms
    return passes * (work_ms + links_ms)
