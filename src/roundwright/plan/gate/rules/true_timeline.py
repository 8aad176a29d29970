"""Asks whether the plan's timeline says what the work in it takes.

Why a coach cares: the clock on the wall follows it to the second.
"""

from collections.abc import Iterator

from roundwright.plan.core import Window
from roundwright.plan.gate.found import of_class
from roundwright.plan.gate.reading import Reading
from roundwright.plan.gate.times import Stretch, timeline_of
from roundwright.plan.verdict import Finding, Grade

WRONG = "timeline.wrong"
GRADES = {WRONG: Grade.STOP}


def find(reading: Reading) -> Iterator[Finding]:
    """Give the first stretch at which the timeline differs from the one worked out here."""
    written = [w for w in reading.core.timeline if w.length_s]
    right = timeline_of(reading)
    for number, window in enumerate(written):
        if number >= len(right) or not _same(window, right[number]):
            yield of_class(WRONG, Grade.STOP, stretch=number + 1).model_copy(
                update={"window": number}
            )
            return
    if len(written) < len(right):
        yield of_class(WRONG, Grade.STOP, stretch=len(written) + 1)


def _same(window: Window, right: Stretch) -> bool:
    return (
        window.at_s == right.at_s
        and window.length_s == right.length_s
        and window.kind is right.kind
        and window.round == right.round
        and window.positions == right.positions
        and window.halves_s == right.halves_s
    )
