"""Asks whether two exercises in a row tire the same muscle first.

Why a coach cares: the second is cut short by the first. A round is a line, with the
burst as a neighbour of both its ends (floor page A5); where groups rotate, the round
also closes, and every group has ends of its own.
"""

from collections.abc import Iterator

from roundwright.body.anatomy import Muscle
from roundwright.plan.gate.class_facts import exercises_of, main_muscle, neighbour_places
from roundwright.plan.gate.reading import Reading
from roundwright.plan.verdict import Finding, Grade

SAME_MUSCLE = "neighbours.same_muscle"
GRADES = {SAME_MUSCLE: Grade.ADVISE}


def find(reading: Reading) -> Iterator[Finding]:
    """Give neighbours with the same main muscle."""
    spec, library = reading.problem.spec, reading.library
    muscles = dict(
        zip(
            reading.positions(),
            (main_muscle(library, e) for e in exercises_of(reading)),
            strict=True,
        )
    )
    for one, other in neighbour_places(reading):
        muscle = muscles[one]
        if muscle is not None and muscle is muscles[other]:
            yield _found((one, other), muscle)
    if spec.burst is not None:
        burst = main_muscle(library, spec.burst.line)
        for position in _ends(reading):
            if burst is not None and muscles[position] is burst:
                yield _found((position,), burst)


def _ends(reading: Reading) -> list[int]:
    """Give every place that some group does first or last of a round."""
    places = reading.positions()
    if not places:
        return []
    return sorted({*reading.positions_in(places[0]), *reading.positions_in(places[-1])})


def _found(positions: tuple[int, ...], muscle: Muscle) -> Finding:
    return Finding(
        rule=SAME_MUSCLE,
        grade=Grade.ADVISE,
        positions=positions,
        figures={"muscle": muscle.value},
    )
