"""A class of a few fields, as a page asks for it; what has no field stays as it was."""

from collections.abc import Mapping, Sequence
from datetime import date, time

from pydantic import ValidationError

from roundwright.foundation.errors import BadInputError
from roundwright.foundation.faults import Fault, shortened
from roundwright.goals.class_wish import (
    MOST_GROUPS,
    MOST_REPS_LEFT,
    BurstWish,
    ClassFormat,
    ClassWish,
)
from roundwright.hall.hall import Hall
from roundwright.library.line import ProgressionLine
from roundwright.library.vocabulary import Pattern
from roundwright.plan.build_problem import WEEKDAYS

WHOLE = {
    "minutes": (1, 240),
    "rounds": (1, 10),
    "places": (1, 12),
    "rest": (0, 900),
    "coaches": (1, 10),
    "burst_length": (1, 600),
    "reps_left": (0, MOST_REPS_LEFT),
    "groups": (2, MOST_GROUPS),
}
"""Fields that are whole numbers, with their least and most."""
IN_GROUPS = (ClassFormat.STATIONS, ClassFormat.STAGGERED)
MAY_BE_EMPTY = ("burst_length", "reps_left", "groups")


def burst_lines(hall: Hall) -> tuple[ProgressionLine, ...]:
    """Give the lines of which a burst can be made: those that begin with a cardio movement."""
    catalogue = hall.catalogue
    return tuple(
        line
        for line in catalogue.lines.values()
        if catalogue.movements[line.versions[0]].pattern is Pattern.CARDIO
    )


def class_of_form(
    sent: Mapping[str, str], people: Sequence[str], hall: Hall, was: ClassWish | None = None
) -> ClassWish:
    """Read a class from the fields of a form.

    Parameters
    ----------
    sent : mapping
        `name`, `weekday` or `on`, `start`, `minutes`, `rounds`, `places`, `rest`, `format`,
        `room`, `coaches`, `lead`, `burst`, `burst_length`, `reps_left`, `groups`, `everybody`.
    people : sequence of str
        Ids of who usually comes, where it is not everybody.
    was : ClassWish, optional
        The class before: everything that has no field stays.

    Raises
    ------
    BadInputError
        With every fault, by field.
    """
    faults: list[Fault] = []
    sent = _few(hall) | dict(sent) if was is None else dict(sent)
    numbers = {name: _whole(name, sent, faults) for name in WHOLE if name not in MAY_BE_EMPTY}
    line = sent.get("burst", "")
    length = _whole("burst_length", sent, faults) if line else None
    left = _whole("reps_left", sent, faults) if sent.get("reps_left") else None
    groups = _whole("groups", sent, faults) if sent.get("groups") else None
    if groups is not None and sent.get("format") not in [f.value for f in IN_GROUPS]:
        faults.append(_fault("groups", str(groups), "nothing, or stations or staggered groups"))
    values: dict[str, object] = {} if was is None else was.model_dump(mode="json", by_alias=True)
    everybody = sent.get("everybody") == "yes" or not people
    values |= {
        "name": sent.get("name", ""),
        "on": _day(sent, faults),
        "weekday": None if sent.get("on") else _one_of("weekday", sent, WEEKDAYS, faults),
        "start": _start(sent, faults),
        "slot": (numbers["minutes"] or 1) * 60,
        "room": _one_of("room", sent, [room.id for room in hall.rooms], faults),
        "people": "all" if everybody else tuple(people),
        "format": _one_of("format", sent, [f.value for f in ClassFormat], faults),
        "rounds": numbers["rounds"] or 1,
        "places": _places(numbers["places"], was),
        "rest": numbers["rest"] or 0,
        "coaches": numbers["coaches"] or 1,
        "lead": _lead(sent, hall, was, faults),
        "burst": _burst(line, length, hall, was, faults),
        "reps_left": left,
        "groups": groups,
    }
    if was is None:
        values["order"] = "free"
    if not 1 <= len(sent.get("name", "")) <= 80:
        faults.append(_fault("name", "", "1 to 80 characters"))
    if faults:
        raise BadInputError(faults)
    try:
        return ClassWish.model_validate(values)
    except ValidationError as error:
        raise BadInputError(
            [_fault(str((*e["loc"], "name")[0]), "", e["msg"][:120]) for e in error.errors()]
        ) from error


def fields_of(wish: ClassWish) -> dict[str, str]:
    """Give the fields of a form that would say a class as it is."""
    return {
        "name": wish.name,
        "weekday": wish.weekday or "",
        "on": wish.on.isoformat() if wish.on else "",
        "start": f"{wish.start:%H:%M}",
        "minutes": str(wish.slot_s // 60),
        "rounds": str(wish.rounds),
        "places": str(wish.places or max(1, len(wish.exercise))),
        "rest": str(wish.rest_s),
        "format": wish.format.value,
        "room": wish.room,
        "coaches": str(wish.coaches),
        "lead": wish.lead or "",
        "burst": wish.burst.line if wish.burst else "",
        "burst_length": str(wish.burst.length_s) if wish.burst else "30",
        "reps_left": "" if wish.reps_left is None else str(wish.reps_left),
        "groups": "" if wish.groups is None else str(wish.groups),
        "everybody": "yes" if wish.people == "all" else "",
    }


def _lead(
    sent: Mapping[str, str], hall: Hall, was: ClassWish | None, faults: list[Fault]
) -> str | None:
    """Read who leads; a form without the field leaves it, and whoever left the staff may stay."""
    if "lead" not in sent:
        return None if was is None else was.lead
    if was is not None and sent["lead"] == was.lead:
        return was.lead
    return _one_of("lead", sent, ["", *(m.id for m in hall.staff)], faults) or None


def _few(hall: Hall) -> dict[str, str]:
    """Give what a shorter form leaves out."""
    room = hall.rooms[0].id if hall.rooms else ""
    return {"rest": "60", "coaches": "1", "room": room, "format": ClassFormat.TOGETHER.value}


def _places(wanted: int | None, was: ClassWish | None) -> int | None:
    """Give the places to fill: none where the class is written out whole already."""
    if was is not None and was.places is None and wanted == len(was.exercise):
        return None
    return wanted or 1


def _burst(
    line: str, length: int | None, hall: Hall, was: ClassWish | None, faults: list[Fault]
) -> dict[str, object] | None:
    if not line:
        return None
    known = {each.slug for each in burst_lines(hall)}
    kept = was.burst if was is not None else None
    if line not in known and (kept is None or kept.line != line):
        faults.append(_fault("burst", line, "one of the list"))
        return None
    rate = kept.rate_a_min if kept is not None and kept.line == line else None
    burst = BurstWish.model_validate({"line": line, "length": length or 1, "rate_a_min": rate})
    return burst.model_dump(mode="json", by_alias=True)


def _whole(name: str, sent: Mapping[str, str], faults: list[Fault]) -> int | None:
    text = sent.get(name, "")
    least, most = WHOLE[name]
    if text.isascii() and text.isdigit() and len(text) < 6 and least <= int(text) <= most:
        return int(text)
    faults.append(_fault(name, text, f"{least} to {most}"))
    return None


def _day(sent: Mapping[str, str], faults: list[Fault]) -> str | None:
    text = sent.get("on", "")
    if not text:
        return None
    try:
        return date.fromisoformat(text).isoformat()
    except ValueError:
        faults.append(_fault("on", text, "a day such as 2026-03-03"))
        return None


def _start(sent: Mapping[str, str], faults: list[Fault]) -> str:
    text = sent.get("start", "")
    try:
        read = time.fromisoformat(text)
        if read.tzinfo is None:
            return read.isoformat(timespec="minutes")
    except ValueError:
        pass
    faults.append(_fault("start", text, "a time such as 18:30"))
    return "00:00"


def _one_of(name: str, sent: Mapping[str, str], known: Sequence[str], faults: list[Fault]) -> str:
    text = sent.get(name, "")
    if text in known:
        return text
    faults.append(_fault(name, text, "one of the list"))
    return known[0] if known else ""


def _fault(name: str, value: str, expected: str) -> Fault:
    return Fault(
        code="field.value", file="form", field=name, value=shortened(value), expected=expected
    )
