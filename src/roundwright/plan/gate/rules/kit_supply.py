"""Asks whether there is enough kit for everyone, in every window.

Why a coach cares: somebody stands idle, or two people pull at the same dumbbells.
"""

from collections import Counter
from collections.abc import Iterator, Mapping

from roundwright.library.vocabulary import KitKind
from roundwright.plan.core import Piece
from roundwright.plan.gate.found import of_class
from roundwright.plan.gate.kit_use import (
    Thing,
    needs_by_kind,
    stock,
    used_at_once,
    used_by,
    used_in_burst,
)
from roundwright.plan.gate.reading import Reading, burst_rounds
from roundwright.plan.verdict import Finding, Grade

SHORT = "kit.short"
GRADES = {SHORT: Grade.STOP}


def find(reading: Reading) -> Iterator[Finding]:
    """Give each mass or item of which a window uses more than there are."""
    for number in range(1, reading.problem.spec.rounds + 1):
        for interval in reading.positions():
            where: dict[Thing, tuple[int, ...]] = {}
            works = reading.works_in(interval, number)
            for work in works:
                for thing in used_by(work):
                    where[thing] = tuple(sorted({*where.get(thing, ()), work.position}))
            yield from _short(reading, used_at_once(reading, works), number, where)
        if number in burst_rounds(reading.problem):
            yield from _short(reading, used_in_burst(reading, number), number, {})
    for piece in reading.core.pieces:
        yield from _short_in_piece(reading, piece)


def _short_in_piece(reading: Reading, piece: Piece) -> Iterator[Finding]:
    """Compare what everybody needs at once in a piece with what is there; no item is named."""
    needed = Counter[KitKind]()
    for version in piece.versions.values():
        if version in reading.library.movements:
            for kind, (units, _) in needs_by_kind([reading.library.movements[version]]).items():
                needed[kind] += units
    for kind, units in needed.items():
        there = sum(
            item.count
            for item in reading.problem.kit.items
            if item.kind is kind and item.in_use and item.room in (None, reading.problem.room.id)
        )
        if units > there:
            yield of_class(SHORT, Grade.STOP, needed=units, there=there, kind=kind.value)


def _short(
    reading: Reading, used: Counter[Thing], number: int, where: Mapping[Thing, tuple[int, ...]]
) -> Iterator[Finding]:
    held = stock(reading.problem)
    kinds = {i.id: i.kind.value for i in reading.problem.kit.items}
    for thing, needed in used.items():
        if thing in held and needed > held[thing]:
            figures: dict[str, int | str] = {"needed": needed, "there": held[thing]}
            if isinstance(thing, int):
                figures |= {"mass_g": thing}
            else:
                figures |= {"item": thing, "kind": kinds[thing]}
            yield Finding(
                rule=SHORT,
                grade=Grade.STOP,
                positions=where.get(thing, ()),
                round=number,
                figures=figures,
            )
