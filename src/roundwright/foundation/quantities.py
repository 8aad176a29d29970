"""Masses, lengths, durations and shares: text to stored integers and back.

Stored integers carry their unit in the name: `_g`, `_mm`, `_s`, `_bp`
(1/10,000). Computation may use floats in SI and rounds once, half to even,
when a value is stored (`stored`). How values are *shown* is in `shown`.
"""

import re
from decimal import Decimal

BP = 10_000
GRAMS_PER_LB = Decimal("453.59237")
MM_PER_INCH = Decimal("25.4")
LARGEST = 1_000_000_000

_MASS = {"kg": Decimal(1000), "g": Decimal(1), "lb": GRAMS_PER_LB, "lbs": GRAMS_PER_LB}
_LENGTH = {
    "m": Decimal(1000),
    "cm": Decimal(10),
    "mm": Decimal(1),
    "in": MM_PER_INCH,
    "ft": MM_PER_INCH * 12,
}
_DURATION = {"s": Decimal(1), "min": Decimal(60), "h": Decimal(3600)}
_TEXT = re.compile(r"^\s*(-?\d+(?:[.,]\d+)?)\s*([a-z]*)\s*$")


def stored(value: float | Decimal) -> int:
    """Round once, half to even, to the integer that is stored."""
    return round(value)


def _parsed(text: str | float, units: dict[str, Decimal], bare: str) -> int:
    if isinstance(text, bool):
        raise ValueError(f"expected a number with a unit ({', '.join(units)})")
    if isinstance(text, int | float):
        if not abs(text) < LARGEST:
            raise ValueError("expected a number of everyday size")
        return stored(Decimal(str(text)) * units[bare])
    match = _TEXT.match(text.lower())
    if match is None or (match[2] or bare) not in units:
        raise ValueError(f"expected a number with a unit ({', '.join(units)})")
    number = Decimal(match[1].replace(",", "."))
    if not abs(number) < LARGEST:
        raise ValueError("expected a number of everyday size")
    return stored(number * units[match[2] or bare])


def mass_g(text: str | float, bare: str = "kg") -> int:
    """Read a mass: '8 kg', '20 lb', or a bare number of kilograms, or of another unit.

    Examples
    --------
    >>> mass_g("8 kg"), mass_g("20 lb"), mass_g(7.5), mass_g("20", "lb")
    (8000, 9072, 7500, 9072)
    """
    return _parsed(text, _MASS, bare)


def length_mm(text: str | float) -> int:
    """Read a length: '45 cm', '18 in', or a bare number of metres.

    Examples
    --------
    >>> length_mm("45 cm"), length_mm("18 in"), length_mm(2.5)
    (450, 457, 2500)
    """
    return _parsed(text, _LENGTH, "m")


def duration_s(text: str | float) -> int:
    """Read a duration: '45 min', '90 s', or a bare number of seconds.

    Examples
    --------
    >>> duration_s("45 min"), duration_s(90)
    (2700, 90)
    """
    return _parsed(text, _DURATION, "s")


def share_bp(share: float) -> int:
    """Turn a share of one into 1/10,000.

    Examples
    --------
    >>> share_bp(0.64)
    6400
    """
    return stored(Decimal(str(share)) * BP)
