"""Asks whether the work pushes as it pulls, and bends hips as it bends knees.

Why a coach cares: shoulders and knees. Balance is judged over two weeks where those are
known; one class alone only hints. What is missing altogether is said by another rule.
"""

from collections import Counter
from collections.abc import Iterator

from roundwright.plan.gate.class_facts import (
    PATTERN_SETS,
    exercises_of,
    missing_patterns,
    number_of_each,
    recent_within,
)
from roundwright.plan.gate.found import of_class
from roundwright.plan.gate.reading import Reading
from roundwright.plan.gate.recount import A_SIDE, known_versions
from roundwright.plan.verdict import Finding, Grade

THIS_CLASS, TWO_WEEKS = "coverage", "coverage.two_weeks"
GRADES = {THIS_CLASS: Grade.ADVISE, TWO_WEEKS: Grade.ADVISE}
LOPSIDED = 3
"""More than so many times as much of one as of the other is worth a word (our choice)."""
FEW = 3
"""So few exercises of two weeks say nothing yet (our choice)."""
OPPOSITES = (("push", "pull"), ("knee", "hip"))


def find(reading: Reading) -> Iterator[Finding]:
    """Give pairs of patterns of which the two weeks, or this class alone, hold far more of one."""
    recent = recent_within(reading, reading.problem.rules.balance_days)
    if recent:
        lately = (*exercises_of(reading), *(r.exercise_id for r in recent))
        yield from _lopsided(TWO_WEEKS, number_of_each(reading.library, lately), FEW)
        return
    missing = missing_patterns(reading)
    for finding in _lopsided(THIS_CLASS, _reps_of_a_round(reading), 0):
        if not set(missing) & set(str(finding.figures["what"]).split("_")):
            yield finding


def _lopsided(rule: str, held: Counter[str], few: int) -> Iterator[Finding]:
    for one, other in OPPOSITES:
        least, most = sorted((held[one], held[other]))
        if most > max(few, LOPSIDED * least):
            figures = {"one": held[one], "other": held[other]}
            yield of_class(rule, Grade.ADVISE, what=f"{one}_{other}", **figures)


def _reps_of_a_round(reading: Reading) -> Counter[str]:
    """Count the reps of a round at full dose by the set their pattern is in."""
    library, reps = reading.library, Counter[str]()
    for place in reading.problem.spec.exercises:
        combination = library.combinations.get(place.exercise_id)
        parts = (
            [(p.line, p.times) for p in combination.parts]
            if combination
            else [(place.exercise_id, 1)]
        )
        units = place.count.value * (2 if place.count.unit in A_SIDE else 1)
        for line_id, times in parts:
            for movement in known_versions(library, line_id)[:1]:
                for name, patterns in PATTERN_SETS.items():
                    reps[name] += units * times * (movement.pattern in patterns)
    return reps
