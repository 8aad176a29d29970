"""What a coach types for kit, counts and lengths, as values; what can't be is a usage fault."""

import re

import typer

from roundwright.foundation.quantities import duration_s, mass_g
from roundwright.goals.class_wish import Count, CountUnit
from roundwright.kit.inventory import Inventory

_COUNT = re.compile(r"^(\d{1,3})\s*(reps?|a side|alternating|s|s a side)$")
_UNITS = {
    "rep": CountUnit.REPS,
    "reps": CountUnit.REPS,
    "a side": CountUnit.REPS_PER_SIDE,
    "alternating": CountUnit.REPS_ALTERNATING,
    "s": CountUnit.SECONDS,
    "s a side": CountUnit.SECONDS_PER_SIDE,
}


def count_of_text(text: str) -> Count:
    """Read a count as it is said: '8 reps', '12 a side', '16 alternating', '30 s a side'."""
    match = _COUNT.match(text.strip())
    if match is not None:
        try:
            return Count(value=int(match[1]), unit=_UNITS[match[2]])
        except ValueError as error:
            raise _wrong("a count from 1 to 600; alternating even", "--count") from error
    raise _wrong("as '8 reps', '12 a side', '16 alternating', '30 s'", "--count")


def seconds_of(text: str, hint: str, *, least: int, most: int) -> int:
    """Read a length such as '40 min' within limits, s."""
    try:
        length_s = duration_s(text)
    except ValueError as error:
        raise _wrong("as '40 min' or '90 s'", hint) from error
    if not least <= length_s <= most:
        raise _wrong(f"from {least} to {most} s", hint)
    return length_s


def kit_of(text: str, kit: Inventory) -> tuple[int, str | None]:
    """Read kit as the mass of one dumbbell in g (0 for an item), and an item's id."""
    if any(item.id == text for item in kit.items):
        return 0, text
    try:
        return mass_g(text), None
    except ValueError:
        return 0, text


def _wrong(expected: str, hint: str) -> typer.BadParameter:
    return typer.BadParameter(expected, param_hint=hint)
