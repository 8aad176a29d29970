"""How figures are shown. Rounding is here and nowhere else, and never feeds back."""

from decimal import ROUND_HALF_EVEN, Decimal

from roundwright.foundation.quantities import BP, GRAMS_PER_LB


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
    return f"{value.normalize():f} {units}"


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
    """Show a probability or share to whole per cent.

    Examples
    --------
    >>> per_cent(6049)
    '60 %'
    """
    return f"{(Decimal(share_bp) * 100 / BP).quantize(Decimal(1), ROUND_HALF_EVEN)} %"
