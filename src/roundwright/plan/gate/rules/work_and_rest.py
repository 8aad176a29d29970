"""Asks whether work and rest fit the room that is there: a chosen pair, or the coach's own times.

Why a coach cares: 45 s of work and 15 s of rest is for people who have trained for long, and
newcomers and light to moderate work need at least as much rest as work. Of a coach's own times
no more than that is asked, and it is only advised.
"""

from collections.abc import Iterator

from roundwright.goals.class_wish import ClassFormat, Pace
from roundwright.plan.core import WindowKind
from roundwright.plan.gate.found import of_class
from roundwright.plan.gate.minutes import set_seconds
from roundwright.plan.gate.people_limits import is_newcomer
from roundwright.plan.gate.reading import Reading, Work
from roundwright.plan.gate.times import halves_in, timeline_of
from roundwright.plan.rule_table import WorkRest
from roundwright.plan.verdict import Finding, Grade

TOO_LITTLE, ROOM = "work_rest.too_little_rest", "work_rest.room"
SHORT_CHANGE, LONGER_WORK = "work_rest.short_change", "work_rest.longer_work"
OWN_SHORT = "work_rest.own_short"
GRADES = {
    TOO_LITTLE: Grade.STOP,
    ROOM: Grade.ADVISE,
    SHORT_CHANGE: Grade.ADVISE,
    LONGER_WORK: Grade.ADVISE,
    OWN_SHORT: Grade.ADVISE,
}

WORKING = (WindowKind.WORK, WindowKind.BURST)
"""What ends a rest."""


def find(reading: Reading) -> Iterator[Finding]:
    """Give what does not fit of the pair that the tool chose, or of the coach's own times."""
    spec, pair = reading.problem.spec, reading.problem.spec.work_rest
    if pair is None:
        if spec.pace is Pace.TIMED:
            yield from _own_times(reading)
        return
    others_s = _partner_s(reading, pair)
    rest_s = spec.change_s + others_s
    work_s, least_s = pair.work_s, min(pair.rest_s, rest_s)
    people = reading.problem.people
    eased = tuple(p for p in reading.problem.taking_part if people[p].is_moderate_only)
    if eased and least_s < work_s:
        figures: dict[str, int | str] = {"work_s": work_s, "rest_s": least_s}
        yield Finding(rule=TOO_LITTLE, grade=Grade.STOP, persons=eased, figures=figures)
    if pair not in _of_room(reading):
        yield of_class(ROOM, Grade.ADVISE, work_s=work_s, rest_s=pair.rest_s, what=room(reading))
    if rest_s < pair.rest_s:
        yield of_class(SHORT_CHANGE, Grade.ADVISE, rest_s=rest_s, least_s=pair.rest_s)
    longer = tuple(
        e.position
        for e in sorted(spec.exercises, key=lambda e: e.position)
        if set_seconds(reading, e) > work_s
    )
    if longer:
        yield Finding(
            rule=LONGER_WORK, grade=Grade.ADVISE, positions=longer, figures={"work_s": work_s}
        )


def _own_times(reading: Reading) -> Iterator[Finding]:
    """Give who needs at least as much rest as work, and where a coach's own class has less.

    A person who works for less than the window rests for what is left of it too.
    """
    rules = reading.problem.rules
    short = [
        (rest_s - work.seconds, work, rest_s)
        for work, rest_s in _rests(reading)
        if rest_s < work.seconds
        and (work.person.is_moderate_only or is_newcomer(work.person, rules))
    ]
    if not short:
        return
    _, worst, rest_s = min(short, key=lambda one: one[0])
    yield Finding(
        rule=OWN_SHORT,
        grade=Grade.ADVISE,
        persons=tuple(sorted({work.person_id for _, work, _ in short})),
        positions=tuple(sorted({work.position for _, work, _ in short})),
        figures={"work_s": worst.seconds, "rest_s": rest_s},
    )


def _rests(reading: Reading) -> Iterator[tuple[Work, int]]:
    """Give each set of the class that is followed by more work, with the rest before it, s."""
    line = timeline_of(reading)
    works_at = [k for k, stretch in enumerate(line) if stretch.kind is WindowKind.WORK]
    for number in range(1, reading.problem.spec.rounds + 1):
        mine = [k for k in works_at if line[k].round == number]
        held = [i for i in reading.positions() if any(halves_in(reading, i, number))]
        for k, interval in zip(mine, held, strict=True):
            after = next((n for n in range(k + 1, len(line)) if line[n].kind in WORKING), None)
            if after is None:
                continue
            until_s = line[after].at_s - line[k].at_s
            for work in reading.works_in(interval, number):
                yield work, until_s - work.seconds


def _partner_s(reading: Reading, pair: WorkRest) -> int:
    """Give the rest that the partner's turn gives, s; one person alone has no partner."""
    spec = reading.problem.spec
    in_pairs = reading.core.class_.format is ClassFormat.PAIRS
    if not in_pairs or len(reading.problem.taking_part) < 2:
        return 0
    return pair.work_s + spec.partner_swap_s


def room(reading: Reading) -> str:
    """Say who is there, as far as work and rest depend on it."""
    problem = reading.problem
    people = [problem.people[p] for p in problem.taking_part]
    if people and all(is_newcomer(p, problem.rules) for p in people):
        return "newcomers"
    if any(p.is_moderate_only or p.classes < problem.rules.trained_classes for p in people):
        return "mixed"
    return "trained"


def _of_room(reading: Reading) -> list[WorkRest]:
    here = {room(reading), "heavier"}
    return [pair for pair in reading.problem.rules.work_rests if pair.room in here]
