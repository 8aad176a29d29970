"""Who waits, where and how long, and what they do meanwhile: a march or a hold, never more jumps.

Figures come from a rehearsal; sentences are made in `rehearsal_words`.
"""

from collections.abc import Iterator
from enum import StrEnum

import numpy as np
from pydantic import Field

from roundwright.foundation.identifiers import Slug
from roundwright.foundation.model import Stored
from roundwright.foundation.quantities import stored
from roundwright.library.movement import Movement
from roundwright.library.vocabulary import Demand
from roundwright.plan.core import Core
from roundwright.plan.problem import Problem
from roundwright.rehearsal.pace import Floats
from roundwright.rehearsal.play import Rehearsal

TASK_OVER_S = 20
"""Who waits longer than this gets a finisher's task; our choice."""
GENTLE = {Demand.IMPACT: 0, Demand.ONE_FOOT_LANDING: 0, Demand.VIGOROUS: 1}
"""The most that a finisher's task may ask of anybody; our choice."""


class WaitKind(StrEnum):
    """What somebody waits for."""

    OTHERS = "others"
    RACK = "rack"


class TaskKind(StrEnum):
    """What somebody does who has finished early (CP: march or hold, never more jumps)."""

    MARCH = "march"
    HOLD = "hold"


class FinisherTask(Stored):
    """What a person does until the others are done; a march names its movement."""

    kind: TaskKind
    movement_id: Slug | None = None


class Wait(Stored):
    """How long one person waits at one place of the round, for one reason.

    `each_s` is the mean of one time, `times` how often in a class, `in_all_s` the mean of
    the class. Waiting at the rack counts at the place they go to, 0 being the burst.
    """

    person_id: Slug
    position: int
    kind: WaitKind
    each_s: int
    times: int
    in_all_s: int
    task: FinisherTask | None = None


class Missed(Stored):
    """Expected reps of a timed exercise that do not fit, tenths of a rep a class, mean."""

    person_id: Slug
    position: int
    tenths: int


class PersonWaiting(Stored):
    """What one person waits in a class, and where; `late_s` is exceeded one time in ten."""

    person_id: Slug
    typical_s: int
    late_s: int
    waits: tuple[Wait, ...] = Field(description="longest first")
    missed: tuple[Missed, ...] = ()


def waiting_of(rehearsal: Rehearsal, core: Core, problem: Problem) -> tuple[PersonWaiting, ...]:
    """Say for each person where and how long they wait.

    Parameters
    ----------
    rehearsal : Rehearsal
        Of this core and problem.
    core : Core
        The plan: its bursts say what a person may do meanwhile.
    problem : Problem
        Its library and limits choose the finisher's task.

    Returns
    -------
    tuple of PersonWaiting
        Whoever waits longest first, then by id. Seconds are rounded to whole ones;
        waits that round to 0 are left out.

    Notes
    -----
    Waiting is time in a work window after one's own set (in pairs within one's own
    half; the partner's half is rest) and time queueing at the rack.
    """
    found = [
        PersonWaiting(
            person_id=person,
            typical_s=stored(float(np.median(rehearsal.waiting_s[:, p]))),
            late_s=stored(float(np.quantile(rehearsal.waiting_s[:, p], 0.9))),
            waits=tuple(
                sorted(
                    _waits(rehearsal, p, finisher_task(core, problem, person)),
                    key=lambda w: (-w.in_all_s, w.position, w.kind),
                )
            ),
            missed=tuple(_missed(rehearsal, p)),
        )
        for p, person in enumerate(rehearsal.people)
    ]
    return tuple(sorted(found, key=lambda w: (-w.typical_s, w.person_id)))


def finisher_task(core: Core, problem: Problem, person_id: str) -> FinisherTask:
    """Give what a person does while they wait for others.

    Parameters
    ----------
    core : Core
        Names the person's own burst.
    problem : Problem
        Library, limits and the burst's line.
    person_id : str
        Somebody who takes part.

    Returns
    -------
    FinisherTask
        A march: the person's own burst, else the easiest other version of the burst's line,
        if it needs no kit, has no landings and no hops and asks no more than `GENTLE` and
        the person's limits allow. Otherwise a hold: standing or sitting tall, hands empty.
    """
    library, burst = problem.library, problem.spec.burst
    own = next((dose.burst for dose in core.people if dose.person_id == person_id), None)
    line = library.lines.get(burst.line) if burst else None
    slugs = ([own] if own else []) + list(line.versions if line else ())
    for slug in slugs:
        if slug not in problem.spec.ban and _is_gentle(problem, person_id, library.movements[slug]):
            return FinisherTask(kind=TaskKind.MARCH, movement_id=slug)
    return FinisherTask(kind=TaskKind.HOLD)


def _is_gentle(problem: Problem, person_id: str, movement: Movement) -> bool:
    person = problem.people[person_id]
    if movement.kit or movement.contacts_a_rep or movement.low_hops_a_rep:
        return False
    level = person.level_for(movement.strength_family)
    if person.is_moderate_only:
        level = min(level, problem.rules.moderate_level)
    return movement.level <= level and all(
        degree <= min(person.caps.get(demand, 3), GENTLE.get(demand, 3))
        for demand, degree in movement.demands.items()
    )


def _waits(rehearsal: Rehearsal, p: int, task: FinisherTask) -> Iterator[Wait]:
    for kind, means in (
        (WaitKind.OTHERS, rehearsal.finished_wait_s),
        (WaitKind.RACK, rehearsal.rack_wait_s),
    ):
        for position, mine in _by_position(rehearsal, means, p):
            times = int(np.count_nonzero(mine))
            each_s = stored(float(mine.sum()) / times)
            if each_s:
                yield Wait(
                    person_id=rehearsal.people[p],
                    position=position,
                    kind=kind,
                    each_s=each_s,
                    times=times,
                    in_all_s=stored(float(mine.sum())),
                    task=task if kind is WaitKind.OTHERS and each_s > TASK_OVER_S else None,
                )


def _missed(rehearsal: Rehearsal, p: int) -> Iterator[Missed]:
    for position, mine in _by_position(rehearsal, rehearsal.missed_reps, p):
        tenths = stored(float(mine.sum()) * 10)
        if tenths:
            yield Missed(person_id=rehearsal.people[p], position=position, tenths=tenths)


def _by_position(rehearsal: Rehearsal, means: Floats, p: int) -> Iterator[tuple[int, Floats]]:
    """Give a person's means that are not 0, by position."""
    where = rehearsal.positions[p]
    for position in sorted({int(k) for k in where[means[p] > 0]}):
        mine = means[p][where == position]
        yield position, mine[mine > 0]
