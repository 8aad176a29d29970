"""Asks whether there is enough kit for everyone, in every window.

Why a coach cares: somebody stands idle, or two people pull at the same dumbbells.
"""

from collections import Counter
from collections.abc import Iterator

from roundwright.plan.gate.kit_use import Thing, stock, used_at, used_in_burst
from roundwright.plan.gate.reading import Reading, burst_rounds
from roundwright.plan.verdict import Finding, Grade

SHORT = "kit.short"
GRADES = {SHORT: Grade.STOP}


def find(reading: Reading) -> Iterator[Finding]:
    """Give each mass or item of which a window uses more than there are."""
    for number in range(1, reading.problem.spec.rounds + 1):
        for position in reading.positions():
            used = used_at(reading, position, number)
            yield from _short(reading, used, number, (position,))
        if number in burst_rounds(reading.problem):
            yield from _short(reading, used_in_burst(reading, number), number, ())


def _short(
    reading: Reading, used: Counter[Thing], number: int, positions: tuple[int, ...]
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
                rule=SHORT, grade=Grade.STOP, positions=positions, round=number, figures=figures
            )
