"""What is told of a rehearsal: the JSON of ``rehearse PLAN --json``, and the base of its words."""

import numpy as np
from pydantic import Field

from roundwright.foundation.model import Stored
from roundwright.foundation.quantities import stored
from roundwright.foundation.seeds import DEFAULT_SEED
from roundwright.plan.core import Core, WindowKind
from roundwright.plan.count import total_s
from roundwright.plan.document import ChanceOnTime
from roundwright.plan.problem import Problem
from roundwright.rehearsal.one_play import OnePlay, one_play
from roundwright.rehearsal.play import LATE_SHARE, USUAL_PLAYS, Rehearsal, play
from roundwright.rehearsal.waiting import PersonWaiting, waiting_of

REHEARSAL_SCHEMA = "roundwright.rehearsal/1"


class WindowReport(Stored):
    """One window as planned and as played: start and length, s, median and one in ten."""

    kind: WindowKind
    round: int
    positions: tuple[int, ...]
    planned_at_s: int
    planned_s: int
    typical_at_s: int
    typical_s: int
    late_s: int


class Finishes(Stored):
    """How many plays took longer than `from_s` and at most `to_s`."""

    from_s: int
    to_s: int
    plays: int


class RehearsalReport(Stored):
    """A rehearsal in whole seconds; ids only, names join where it is shown."""

    schema_: str = Field(default=REHEARSAL_SCHEMA, alias="schema")
    plan_id: str
    revision: int
    digest: str
    slot_s: int
    planned_s: int
    on_time: ChanceOnTime
    wanted_bp: int = Field(description="the chance on time that the class asks for, 1/10,000")
    windows: tuple[WindowReport, ...]
    people: tuple[PersonWaiting, ...]
    finishes: tuple[Finishes, ...] = Field(
        default=(), description="lengths of the class in steps of equal width, none left out"
    )
    middle: OnePlay | None = Field(default=None, description="the play of median length")


STEPS_S = (5, 10, 15, 30, 60, 120, 300, 600)
MOST_STEPS = 24
"""Into how many steps the lengths are sorted at most; our choice."""


def rehearse(
    core: Core, problem: Problem, *, seed: int = DEFAULT_SEED, plays: int = USUAL_PLAYS
) -> RehearsalReport:
    """Play a class through and tell what came of it.

    Parameters
    ----------
    core : Core
        The plan.
    problem : Problem
        What it answers to.
    seed : int
        0 or larger.
    plays : int
        1 or more.

    Returns
    -------
    RehearsalReport
        Chance on time, windows and people, rounded once to whole seconds.

    Raises
    ------
    BadInputError
        When the plan names what its problem does not hold.
    """
    rehearsal = play(core, problem, seed=seed, plays=plays)
    return RehearsalReport(
        plan_id=core.plan_id,
        revision=core.revision,
        digest=core.digest,
        slot_s=rehearsal.slot_s,
        planned_s=total_s(core),
        on_time=rehearsal.chance_on_time,
        wanted_bp=problem.spec.chance_on_time_bp,
        windows=_windows(rehearsal, core),
        people=waiting_of(rehearsal, core, problem),
        finishes=_finishes(rehearsal),
        middle=one_play(core, problem, seed=seed, number=rehearsal.middle_play),
    )


def _finishes(rehearsal: Rehearsal) -> tuple[Finishes, ...]:
    """Sort the lengths into steps of which the slot is an edge: a step is on time or it is not."""
    lengths, slot_s = rehearsal.class_s, rehearsal.slot_s
    least, most = float(lengths.min()), float(lengths.max())
    step_s = next((s for s in STEPS_S if (most - least) / s <= MOST_STEPS - 2), STEPS_S[-1])
    number = np.ceil((lengths - slot_s) / step_s).astype(int)
    return tuple(
        Finishes(
            from_s=slot_s + (n - 1) * step_s,
            to_s=slot_s + n * step_s,
            plays=int(np.count_nonzero(number == n)),
        )
        for n in range(int(number.min()), int(number.max()) + 1)
    )


def _windows(rehearsal: Rehearsal, core: Core) -> tuple[WindowReport, ...]:
    if not core.timeline:
        return ()
    starts = np.median(rehearsal.starts_s, axis=0)
    typical = np.median(rehearsal.lengths_s, axis=0)
    late = np.quantile(rehearsal.lengths_s, LATE_SHARE, axis=0)
    return tuple(
        WindowReport(
            kind=window.kind,
            round=window.round,
            positions=window.positions,
            planned_at_s=window.at_s,
            planned_s=window.length_s,
            typical_at_s=stored(float(starts[n])),
            typical_s=stored(float(typical[n])),
            late_s=stored(float(late[n])),
        )
        for n, window in enumerate(core.timeline)
    )
