"""The small class with groups that rotate: p001 in the first group, p002 in the second.

Planned seconds by place: 30, 30, 30, 30, 36. With the second group three places ahead it
goes 4, 5, 1, 2, 3 (so it ends with the row), and the intervals last 30, 36, 30, 30 and
36 s: 162 s a round, six more than together, so 1,482 + 12 = 1,494 s in all. Two places
ahead it would end with the press, too heavy to stand last.
"""

from collections.abc import Sequence
from typing import Any

from roundwright.goals.class_wish import ClassFormat
from roundwright.plan.core import Window
from roundwright.plan.problem import Problem
from tests.gate.small_class import Made, a_class, a_plan, a_timeline, with_core

INTERVALS = (30, 36, 30, 30, 36)
"""With offsets 0 and 3."""
STATION_INTERVALS = (30, 30, 30, 36, 36)
"""With offsets 0 and 1."""
TWO_GROUPS = (("p001",), ("p002",))


def turned(
    problem: Problem,
    intervals: Sequence[int],
    offsets: Sequence[int],
) -> tuple[Window, ...]:
    """Write the timeline of groups that are so many places ahead of the first."""
    places = problem.spec.positions
    flat = a_timeline(problem, dict.fromkeys(range(1, problem.spec.rounds + 1), intervals))
    return tuple(
        w.model_copy(
            update={"positions": tuple((w.positions[0] - 1 + o) % places + 1 for o in offsets)}
        )
        if w.positions
        else w
        for w in flat
    )


def staggered(offset: int = 3, intervals: Sequence[int] = INTERVALS, **spec: Any) -> Made:
    """Make the small class in two staggered groups."""
    problem = a_class(**({"format": ClassFormat.STAGGERED} | spec))
    return a_plan(
        problem,
        groups=TWO_GROUPS,
        timeline=turned(problem, intervals, (0, offset)),
        form=ClassFormat.STAGGERED,
    )


def stations() -> Made:
    """Make the small class at stations: two people, so two groups, one place apart."""
    problem = a_class(format=ClassFormat.STATIONS)
    return a_plan(
        problem,
        groups=TWO_GROUPS,
        timeline=turned(problem, STATION_INTERVALS, (0, 1)),
        form=ClassFormat.STATIONS,
    )


def with_offsets(made: Made, *offsets: int) -> Made:
    """Let the timeline send the groups round with other offsets, at the same lengths."""
    places = made.problem.spec.positions
    timeline = tuple(
        w.model_copy(
            update={"positions": tuple((w.positions[0] - 1 + o) % places + 1 for o in offsets)}
        )
        if w.positions
        else w
        for w in made.core.timeline
    )
    return with_core(made, timeline=timeline)
