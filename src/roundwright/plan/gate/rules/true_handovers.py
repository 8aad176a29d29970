"""Asks whether kit that is to change hands is where the plan says, and wanted where it goes.

Why a coach cares: a coach who calls out a handover of what nobody holds loses the room.
"""

from collections import Counter
from collections.abc import Iterator
from typing import NamedTuple

from roundwright.plan.core import Handover
from roundwright.plan.gate.kit_use import Thing, used_at_once
from roundwright.plan.gate.reading import Reading
from roundwright.plan.verdict import Finding, Grade

NOT_HELD, WRONG = "handovers.not_held", "handovers.wrong"
GRADES = {NOT_HELD: Grade.STOP, WRONG: Grade.ADVISE}


class _Share(NamedTuple):
    """What one person gives, or takes, of one thing in one change."""

    person_id: str
    thing: Thing
    round: int
    before: int
    after: int
    positions: tuple[int, int]


def find(reading: Reading) -> Iterator[Finding]:
    """Give handovers of what is not held, still needed by the giver, or not needed by the taker."""
    given, taken = Counter[_Share](), Counter[_Share]()
    for handover in reading.core.handovers:
        if not {handover.from_person, handover.to_person} <= reading.people.keys():
            continue
        positions = (handover.from_position, handover.to_position)
        if handover.units < 1 or not set(positions) <= set(reading.positions()):
            yield _found(WRONG, Grade.ADVISE, handover.from_person, handover.round, positions)
            continue
        giver, taker = _shares(reading, handover, positions)
        given[giver] += handover.units
        taken[taker] += handover.units
        if not _is_next(reading, giver):
            yield _found(WRONG, Grade.ADVISE, giver.person_id, giver.round, positions)
    for giver, units in given.items():
        held, kept = _used(reading, giver, giver.before), _used(reading, giver, giver.after)
        if units > held:
            yield _found(NOT_HELD, Grade.STOP, giver.person_id, giver.round, giver.positions)
        elif units > held - kept:
            yield _found(WRONG, Grade.ADVISE, giver.person_id, giver.round, giver.positions)
    for taker, units in taken.items():
        had, needed = _used(reading, taker, taker.before), _used(reading, taker, taker.after)
        if units > needed - had:
            yield _found(WRONG, Grade.ADVISE, taker.person_id, taker.round, taker.positions)


def _shares(
    reading: Reading, handover: Handover, positions: tuple[int, int]
) -> tuple[_Share, _Share]:
    """Give giver and taker; the first place is the giver's, the second the taker's."""
    thing: Thing = handover.item_id or handover.unit_mass_g
    before = reading.interval_of(handover.from_person, handover.from_position)
    after = reading.interval_of(handover.to_person, handover.to_position)
    change = (thing, handover.round, before, after, positions)
    return _Share(handover.from_person, *change), _Share(handover.to_person, *change)


def _is_next(reading: Reading, share: _Share) -> bool:
    """Say whether nobody works between the two intervals."""
    between = range(share.before + 1, share.after)
    return share.before < share.after and not any(
        reading.works_in(interval, share.round) for interval in between
    )


def _used(reading: Reading, share: _Share, interval: int) -> int:
    """Give the units that a person, or in pairs the person's group, uses in an interval."""
    mine = {share.person_id}
    if reading.in_pairs:
        mine.update(*(group for group in reading.groups if share.person_id in group))
    works = [w for w in reading.works_in(interval, share.round) if w.person_id in mine]
    return used_at_once(reading, works)[share.thing]


def _found(
    rule: str, grade: Grade, person_id: str, round_number: int, positions: tuple[int, int]
) -> Finding:
    return Finding(
        rule=rule, grade=grade, persons=(person_id,), positions=positions, round=round_number
    )
