"""How groups are read: who is in which, and where each starts in the round.

Offsets of staggered groups stand nowhere but in the timeline's work windows.
"""

from roundwright.goals.class_wish import ClassFormat
from roundwright.people.person import Clearance
from roundwright.plan.core import WindowKind
from roundwright.plan.gate.reading import Note, Reading

STAGGERED_GROUPS = (2, 3)
"""How many groups staggered work may have where the class does not say (P4)."""


def read_groups(reading: Reading) -> None:
    """Read groups and their offsets; what is wrong with them becomes a note."""
    reading.groups = reading.core.class_.groups
    members = [p for group in reading.groups for p in group]
    expected = [
        p for p, x in reading.problem.people.items() if x.clearance is not Clearance.NOT_CLEARED
    ]
    if sorted(members) != sorted(expected):
        reading.notes.append(Note("groups"))
    if reading.in_pairs:
        _check_pairs(reading, len(expected))
    if reading.rotates:
        _check_rotating(reading, len(expected))
    reading.offsets = _offsets(reading)


def _check_pairs(reading: Reading, people: int) -> None:
    sizes = sorted(len(group) for group in reading.groups)
    if people % 2 == 0:
        right = [2] * (people // 2)
    else:
        right = [2] * ((people - 3) // 2) + [3] if people > 1 else [1]
    if sizes != right:
        reading.notes.append(Note("group_sizes"))


def _check_rotating(reading: Reading, people: int) -> None:
    sizes = [len(group) for group in reading.groups]
    places = reading.problem.spec.positions
    wished = reading.problem.spec.groups
    if reading.core.class_.format is ClassFormat.STATIONS:
        is_right_number = len(sizes) == min(places, people) and wished in (None, len(sizes))
    else:
        numbers = STAGGERED_GROUPS if wished is None else (wished,)
        is_right_number = len(sizes) in numbers and len(sizes) <= places
    if not is_right_number or min(sizes, default=0) < 1 or max(sizes) - min(sizes) > 1:
        reading.notes.append(Note("uneven_groups"))


def _offsets(reading: Reading) -> tuple[int, ...]:
    """Give how far each group is ahead of the first, as the first readable window has it.

    The first group works the round in order, so its place is the number of the interval.
    """
    groups, places = len(reading.groups), reading.problem.spec.positions
    if not reading.rotates:
        return (0,) * groups
    found: dict[tuple[int, ...], None] = {}
    for window in reading.core.timeline:
        if window.kind is WindowKind.WORK:
            if len(window.positions) != groups or not set(window.positions) <= set(
                reading.positions()
            ):
                reading.notes.append(Note("offsets"))
            elif groups:
                found[tuple((p - window.positions[0]) % places for p in window.positions)] = None
    in_turn = tuple(range(groups))
    offsets = next(iter(found), in_turn)
    is_stations = reading.core.class_.format is ClassFormat.STATIONS
    if len(found) > 1 or len(set(offsets)) < groups or (is_stations and offsets != in_turn):
        reading.notes.append(Note("offsets"))
    return offsets
