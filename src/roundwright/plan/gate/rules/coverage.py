"""Asks whether this class alone pushes as it pulls, and bends hips as it bends knees.

Why a coach cares: shoulders and knees. Balance is judged over two weeks; one class only hints.
"""

from collections import Counter
from collections.abc import Iterator

from roundwright.library.vocabulary import HIP, KNEE, PULL, PUSH
from roundwright.plan.gate.found import of_class
from roundwright.plan.gate.reading import Reading
from roundwright.plan.gate.recount import A_SIDE, known_versions
from roundwright.plan.verdict import Finding, Grade

COVERAGE = "coverage"
GRADES = {COVERAGE: Grade.ADVISE}
LOPSIDED = 3
"""So many times as much of one as of the other is worth a word (our choice)."""
SIDES = {"push": PUSH, "pull": PULL, "knee": KNEE, "hip": HIP}


def find(reading: Reading) -> Iterator[Finding]:
    """Give pairs of patterns of which a round at full dose holds far more of one."""
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
                for side, patterns in SIDES.items():
                    reps[side] += units * times * (movement.pattern in patterns)
    for one, other in (("push", "pull"), ("knee", "hip")):
        if max(reps[one], reps[other]) > LOPSIDED * min(reps[one], reps[other]):
            yield of_class(
                COVERAGE, Grade.ADVISE, what=f"{one}_{other}", **_figures(reps, one, other)
            )


def _figures(reps: Counter[str], one: str, other: str) -> dict[str, int]:
    return {"one": reps[one], "other": reps[other]}
