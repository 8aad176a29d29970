"""A rehearsal in a coach's words: does it end in time, what takes longer, who waits where."""

from collections.abc import Callable, Iterator
from itertools import pairwise

from roundwright.foundation import shown
from roundwright.foundation.words import in_sentence, say
from roundwright.plan.core import WindowKind
from roundwright.rehearsal.report import RehearsalReport, WindowReport
from roundwright.rehearsal.waiting import FinisherTask, TaskKind, Wait, WaitKind

Named = Callable[[str], str]
PlaceNamed = Callable[[int], str]
LONGER_THAN_PLANNED_S = 10
"""A change that typically takes so much longer than planned is told; our choice."""
TOLD_WAIT_S = 5
"""Waits shorter than this, each time, are not told; our choice."""
MOST_TOLD = 12


def lines_of(
    report: RehearsalReport, person: Named, place: PlaceNamed, movement: Named
) -> tuple[str, ...]:
    """Give the lines that are printed.

    Parameters
    ----------
    report : RehearsalReport
        What came of the rehearsal.
    person, movement : callable
        Give the shown name of a person's or a movement's id.
    place : callable
        Gives the name of the exercise at a position.

    Returns
    -------
    tuple of str
        Ending, slow changes, waits, misses; nothing about anybody's health.
    """
    return (
        *_ending(report),
        *_slow_changes(report, place),
        *_waits(report, person, place, movement),
        *_missed(report, person, place),
    )


def _ending(report: RehearsalReport) -> Iterator[str]:
    on_time = report.on_time
    yield say(
        "Ends within {slot} {often} ({share} of {plays} plays, seed {seed}).",
        slot=shown.clock(report.slot_s),
        often=shown.times_in_ten(on_time.chance_bp),
        share=shown.per_cent(on_time.chance_bp),
        plays=on_time.plays,
        seed=on_time.seed,
    )
    yield say(
        "Planned {planned}, typically {typical}; one class in ten takes longer than {late}.",
        planned=shown.clock(report.planned_s),
        typical=shown.clock(on_time.typical_s),
        late=shown.clock(on_time.late_s),
    )
    if on_time.chance_bp < report.wanted_bp:
        yield say(
            "The class asks for {wanted}: it is too full for its slot.",
            wanted=shown.per_cent(report.wanted_bp),
        )


def _slow_changes(report: RehearsalReport, place: PlaceNamed) -> Iterator[str]:
    """Tell each change that takes longer than planned, all its rounds on one line."""
    slow: dict[str, list[WindowReport]] = {}
    for change, following in pairwise(report.windows):
        late = change.typical_s - change.planned_s >= LONGER_THAN_PLANNED_S
        if change.kind is WindowKind.CHANGE and late:
            slow.setdefault(_where(following, place), []).append(change)
    for where, changes in slow.items():
        by_round = ", ".join(
            say("{s} s in round {round}", s=c.typical_s, round=c.round) for c in changes
        )
        yield say(
            "Change to {where}: planned {planned} s, typically {by_round}.",
            where=where,
            planned=changes[0].planned_s,
            by_round=by_round,
        )


def _where(window: WindowReport, place: PlaceNamed) -> str:
    if window.kind is WindowKind.BURST:
        return say("the burst")
    positions = sorted(set(window.positions))
    return place(positions[0]) if len(positions) == 1 else say("the next places")


def _waits(
    report: RehearsalReport, person: Named, place: PlaceNamed, movement: Named
) -> Iterator[str]:
    told = [w for one in report.people for w in one.waits if w.each_s >= TOLD_WAIT_S]
    told.sort(key=lambda w: (-w.each_s, w.person_id, w.position, w.kind))
    for wait in told[:MOST_TOLD]:
        yield _wait(wait, person, place, movement)
    if len(told) > MOST_TOLD:
        yield say("{n} more shorter waits are in the JSON.", n=len(told) - MOST_TOLD)


def _wait(wait: Wait, person: Named, place: PlaceNamed, movement: Named) -> str:
    where = place(wait.position) if wait.position else say("the burst")
    often = "" if wait.times == 1 else say(", {n} times", n=wait.times)
    told = {"who": person(wait.person_id), "s": wait.each_s, "where": where, "often": often}
    if wait.kind is WaitKind.RACK:
        return say("{who} queues about {s} s at the rack before {where}{often}.", **told)
    task = "" if wait.task is None else f" {_task(wait.task, movement)}"
    words = say("{who} is done about {s} s before the others at {where}{often}.", **told)
    return f"{words}{task}"


def _task(task: FinisherTask, movement: Named) -> str:
    if task.kind is TaskKind.MARCH and task.movement_id is not None:
        return say("Until then: {what}.", what=in_sentence(movement(task.movement_id)))
    return say("Until then: hold still and tall, hands empty.")


def _missed(report: RehearsalReport, person: Named, place: PlaceNamed) -> Iterator[str]:
    for one in report.people:
        for missed in one.missed:
            if missed.tenths >= 10:
                yield say(
                    "{who} misses about {n} of the expected reps at {where}: plan fewer.",
                    who=person(missed.person_id),
                    n=f"{missed.tenths / 10:.0f}",
                    where=place(missed.position),
                )
