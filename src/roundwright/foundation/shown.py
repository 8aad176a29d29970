"""How figures are shown. Rounding is here and nowhere else, and never feeds back."""

from decimal import ROUND_FLOOR, ROUND_HALF_EVEN, Decimal

from roundwright.foundation.quantities import BP, GRAMS_PER_LB
from roundwright.foundation.words import say, say_number

NEARLY_ALWAYS_BP = 9900
"""From this chance on the words are 'nearly always', in 1/10,000; our choice."""


def mass(grams: int, units: str = "kg") -> str:
    """Show a mass to 0.1 kg or 0.5 lb, without needless zeros.

    Examples
    --------
    >>> mass(8000), mass(7500), mass(9072, "lb")
    ('8 kg', '7.5 kg', '20 lb')
    """
    if units == "lb":
        value = (Decimal(grams) / GRAMS_PER_LB * 2).quantize(Decimal(1), ROUND_HALF_EVEN) / 2
    else:
        value = (Decimal(grams) / 1000).quantize(Decimal("0.1"), ROUND_HALF_EVEN)
    return f"{say_number(f'{value.normalize():f}')} {units}"


def clock(seconds: int) -> str:
    """Show a duration as m:ss.

    Examples
    --------
    >>> clock(2505)
    '41:45'
    """
    sign = "-" if seconds < 0 else ""
    minutes, rest = divmod(abs(seconds), 60)
    return f"{sign}{minutes}:{rest:02d}"


def per_cent(share_bp: int) -> str:
    """Show a probability or share to whole per cent, rounded down as `times_in_ten` is.

    Examples
    --------
    >>> per_cent(6049), per_cent(8996)
    ('60 %', '89 %')
    """
    return f"{(Decimal(share_bp) * 100 / BP).quantize(Decimal(1), ROUND_FLOOR)} %"


def times_in_ten(chance_bp: int) -> str:
    """Say a chance in 1/10,000 as people say it, never more than it is.

    Examples
    --------
    >>> times_in_ten(8996), times_in_ten(9900), times_in_ten(1000), times_in_ten(999)
    ('8 times in 10', 'nearly always', 'once in 10', 'less than once in 10')
    """
    if chance_bp >= NEARLY_ALWAYS_BP:
        return say("nearly always")
    tenths = chance_bp * 10 // BP
    if tenths == 0:
        return say("less than once in 10")
    return say("once in 10") if tenths == 1 else say("{n} times in 10", n=tenths)
