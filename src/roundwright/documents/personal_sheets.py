"""What one person takes home or to their place: their versions, loads, counts, effort in words.

It says what to do ("no jumps"), never why. What only the coach needs stays away.
"""

from dataclasses import dataclass

from roundwright.documents.page_heading import Heading, heading_of, view_of
from roundwright.documents.people_lines import (
    actions_of,
    effort_words,
    only_words,
    people_lines,
    said_action,
)
from roundwright.documents.plan_view import PlanView
from roundwright.documents.sheet_parts import PersonLine
from roundwright.documents.spoken import count_words, length_words, rounds_words
from roundwright.documents.standing_words import CAUTIONS, STOP_SIGNS, STOP_SIGNS_SOURCE
from roundwright.documents.station_cards import Drawing, drawings_of, version_words
from roundwright.foundation.words import capital, one_or_more, say
from roundwright.hall.hall import Hall
from roundwright.people.person import Clearance
from roundwright.plan.core import Cell, CellState, PersonDose, WindowKind
from roundwright.plan.gate.checked_plan import CheckedPlan
from roundwright.services.ports import Pictures

TO_THE_COACH = ("ask ", "say each ", "show each ", "first class: brief")
"""How an action begins that is meant for the coach and not for the person."""
ASKED_TOO = ", ask before the start"
WANTS_TO_STOP = "the person asks to stop"
YOU_WANT = "you want to stop"
SPEAK_FIRST = "speak with the coach before you start"
EFFORT = (
    (2, "very easy: you could go on for an hour"),
    (4, "easy enough to speak in full sentences all the time"),
    (6, "somewhat hard: short sentences"),
    (8, "hard: a few words at a time"),
    (10, "very hard: a word at a time"),
)
"""What an effort of 10 feels like at most; common practice, no source."""


@dataclass(frozen=True, slots=True)
class SheetRow:
    """What a person does at one place; `rounds` only where rounds differ."""

    position: int
    exercise: str
    version: str
    load: str
    count: str
    rounds: str
    drawings: tuple[Drawing, ...]


@dataclass(frozen=True, slots=True)
class PersonalSheet:
    """One person's page."""

    name: str
    place: str
    partners: tuple[str, ...]
    rounds: str
    rows: tuple[SheetRow, ...]
    burst: str
    burst_length: str
    effort: tuple[str, ...]
    actions: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class PersonalContent:
    """The personal sheets of a class; cautions and stop signs stand on each."""

    heading: Heading
    sheets: tuple[PersonalSheet, ...]
    cautions: tuple[str, ...]
    stop_signs: str


def personal_of(
    checked: CheckedPlan, hall: Hall, printed_at: str, pictures: Pictures | None = None
) -> PersonalContent:
    """Put a page for everyone who takes part together.

    Parameters
    ----------
    checked : CheckedPlan
        A plan that the gate passed in this process; nothing else is printed.
    hall : Hall
        Its name, units and the shown names of its people.
    printed_at : str
        When, in words.
    pictures : Pictures, optional
        Who draws the movements; without, the sheets have none.

    Raises
    ------
    UnsafePlanError
        When given anything that the gate did not seal in this process.
    ChangedMeanwhileError
        When the plan is no longer what it was when the gate passed it.
    """
    view = view_of(checked, hall)
    return PersonalContent(
        heading=heading_of(view, hall, printed_at),
        sheets=tuple(
            _sheet(view, person_id, line, pictures)
            for person_id, line in zip(view.order, people_lines(view), strict=True)
        ),
        cautions=tuple(say(one) for one in CAUTIONS),
        stop_signs=f"{'; '.join(_own_stop_signs())}. {say(STOP_SIGNS_SOURCE)}",
    )


def effort_in_words(ceiling: int, left: int, *, by_time: bool = False) -> tuple[str, ...]:
    """Say how hard it may feel, and when a set ends.

    Parameters
    ----------
    ceiling : int
        Highest effort of 10, 0 to 10.
    left : int
        Reps that should be left at the end of a set, >= 0.
    by_time : bool
        Whether every set ends by the clock, so that the pace is chosen and not the end.

    Examples
    --------
    >>> effort_in_words(4, 4)[0]
    'At most 4 of 10: easy enough to speak in full sentences all the time.'
    """
    feels = next(words for most, words in EFFORT if ceiling <= most)
    if not left:
        stop = say("Go to the end of each set.")
    elif by_time:
        stop = one_or_more(
            left,
            "Choose a pace at which you could still do 1 more rep when time is up.",
            "Choose a pace at which you could still do {n} more reps when time is up.",
        )
    else:
        stop = one_or_more(
            left,
            "End each set while you could still do 1 more rep.",
            "End each set while you could still do {n} more reps.",
        )
    return (say("At most {n} of 10: {feels}.", n=ceiling, feels=say(feels)), stop)


def _own_stop_signs() -> tuple[str, ...]:
    return tuple(say(YOU_WANT if s == WANTS_TO_STOP else s) for s in STOP_SIGNS)


def _sheet(
    view: PlanView, person_id: str, line: PersonLine, pictures: Pictures | None
) -> PersonalSheet:
    dose = view.doses[person_id]
    bursts = view.windows(WindowKind.BURST)
    return PersonalSheet(
        name=line.name,
        place=_place(view, person_id, line),
        partners=line.partners,
        rounds=_rounds(view, dose),
        rows=_rows(view, person_id, pictures),
        burst=line.burst if bursts else "",
        burst_length=length_words(bursts[0].length_s) if bursts and line.burst else "",
        effort=effort_in_words(dose.effort_ceiling, dose.rir, by_time=_is_by_time(view)),
        actions=_actions(view, person_id, line),
    )


def _is_by_time(view: PlanView) -> bool:
    return all(exercise.count.is_timed for exercise in view.core.exercises)


def _place(view: PlanView, person_id: str, line: PersonLine) -> str:
    if not view.rotates:
        return say("place {n}", n=line.number)
    begins = next(
        (
            at
            for group, at in zip(view.core.class_.groups, view.begins_at, strict=False)
            if person_id in group
        ),
        None,
    )
    return say("begin at {n}", n=begins) if begins else ""


def _rounds(view: PlanView, dose: PersonDose) -> str:
    number = view.core.class_.rounds
    if len(dose.rounds) < number:
        return say("{rounds} of {n}", rounds=rounds_words(dose.rounds), n=number)
    if number <= 2:
        return say("the one round") if number == 1 else say("both rounds")
    return say("all {n} rounds", n=number)


def _actions(view: PlanView, person_id: str, line: PersonLine) -> tuple[str, ...]:
    """Leave out what is said elsewhere on the page or meant for the coach."""
    dose, person = view.doses[person_id], view.problem.people[person_id]
    actions = actions_of(view, person_id)
    elsewhere = {effort_words(dose.effort_ceiling, dose.rir)}
    if dose.rounds:
        elsewhere.add(only_words(dose.rounds))
    kept = [
        said_action(action.removesuffix(ASKED_TOO))
        for action in actions
        if not action.startswith(TO_THE_COACH)
    ]
    kept += [one for one in line.actions[len(actions) :] if one not in elsewhere]
    to_ask = any(a.startswith("ask ") or a.endswith(ASKED_TOO) for a in actions)
    if to_ask or person.classes_done == 0 or person.clearance is Clearance.UNKNOWN:
        kept.insert(0, say(SPEAK_FIRST))
    return (capital(kept[0]), *kept[1:]) if kept else ()


def _rows(view: PlanView, person_id: str, pictures: Pictures | None) -> tuple[SheetRow, ...]:
    rows = []
    for exercise in sorted(view.core.exercises, key=lambda e: e.position):
        kinds: dict[tuple[str, str, str], list[int]] = {}
        drawn: dict[tuple[str, str, str], tuple[Drawing, ...]] = {}
        for number, cell in sorted(view.cells_by_round(person_id, exercise.position).items()):
            key = _doing(view, cell)
            kinds.setdefault(key, []).append(number)
            if cell.state is not CellState.SIT_OUT:
                drawn.setdefault(key, drawings_of(view, cell.signature, pictures))
        for (version, load, count), rounds in kinds.items():
            rows.append(
                SheetRow(
                    position=exercise.position,
                    exercise=view.library.exercise_name(exercise.exercise_id),
                    version=version,
                    load=load,
                    count=count,
                    rounds=rounds_words(rounds) if len(kinds) > 1 else "",
                    drawings=drawn.get((version, load, count), ()),
                )
            )
    return tuple(rows)


def _doing(view: PlanView, cell: Cell) -> tuple[str, str, str]:
    if cell.state is CellState.SIT_OUT:
        return say("Rest here"), "", ""
    count = count_words(cell.count) if cell.count else ""
    return version_words(view, cell.signature), view.load(cell), count
