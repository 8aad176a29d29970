"""Asks whether two exercises in a row tire the same muscle first.

Why a coach cares: the second is cut short by the first. A round is a line, with the
burst as a neighbour of both its ends (floor page A5).
"""

from collections import Counter
from collections.abc import Iterator
from itertools import pairwise

from roundwright.body.anatomy import Muscle
from roundwright.plan.gate.reading import Reading
from roundwright.plan.gate.recount import known_versions
from roundwright.plan.verdict import Finding, Grade

SAME_MUSCLE = "neighbours.same_muscle"
GRADES = {SAME_MUSCLE: Grade.ADVISE}


def find(reading: Reading) -> Iterator[Finding]:
    """Give neighbours with the same main muscle."""
    spec = reading.problem.spec
    muscles = [main_muscle(reading, e.exercise_id) for e in spec.exercises]
    for k, (one, other) in enumerate(pairwise(muscles), start=1):
        if one is not None and one is other:
            yield _found((k, k + 1), one)
    if spec.burst is not None and muscles:
        burst = main_muscle(reading, spec.burst.line)
        ends = dict.fromkeys(((1, muscles[0]), (len(muscles), muscles[-1])))
        for position, muscle in ends:
            if burst is not None and muscle is burst:
                yield _found((position,), burst)


def _found(positions: tuple[int, ...], muscle: Muscle) -> Finding:
    return Finding(
        rule=SAME_MUSCLE,
        grade=Grade.ADVISE,
        positions=positions,
        figures={"muscle": muscle.value},
    )


def main_muscle(reading: Reading, exercise_id: str) -> Muscle | None:
    """Give the authored main muscle, or the one with most share and reps in the first versions."""
    library = reading.library
    combination = library.combinations.get(exercise_id)
    if combination is not None and combination.main_muscle is not None:
        return combination.main_muscle
    parts = [(p.line, p.times) for p in combination.parts] if combination else [(exercise_id, 1)]
    work: Counter[Muscle] = Counter()
    for line_id, times in parts:
        for movement in known_versions(library, line_id)[:1]:
            for muscle, share in movement.muscles.items():
                work[muscle] += round(share.share * 10_000) * times
    return max(work, key=lambda m: (work[m], -list(Muscle).index(m)), default=None)
