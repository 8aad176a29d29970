"""Strength by movement pattern with its uncertainty, as bars; assumed until it is measured."""

import math
from collections.abc import Sequence

from roundwright.documents.pictures.ink import (
    HAIR,
    SLANTED,
    SMALL,
    SOFT,
    Picture,
    Table,
    drawing,
    fitted,
    line,
    rect,
    words_at,
)
from roundwright.foundation.words import capital, say
from roundwright.people.capacity import Capacity, CapacitySource

NAME = "strength"
WIDTH, LEFT, RIGHT, TOP, ROW = 1100, 240, 150, 96, 30
LB_KG = 0.45359237
Z_9_IN_10 = 1.2816
"""Standard normal: eight in ten lie within this on both sides."""
WORDS = (
    "What they could probably lift once, both limbs together, their own body's part in it counted. "
    "Bar: eight in ten alike on paper; line: the middle."
)
STEPS = (5, 10, 20, 25, 50, 100)


def strength_bars(capacities: Sequence[Capacity], units: str) -> Picture:
    """Draw a bar for each family of movements.

    Parameters
    ----------
    capacities : sequence of Capacity
        Of one person.
    units : {'kg', 'lb'}
        How weights are shown.

    Returns
    -------
    Picture
        With a table of the middle and both ends.
    """
    per_unit = 1 / LB_KG if units == "lb" else 1.0
    rows = [(_name(one), *_ends(one, per_unit), one.source) for one in capacities]
    top_value = max((high for _, _, _, high, _ in rows), default=10.0)
    scale = (WIDTH - LEFT - RIGHT) / top_value
    bottom = TOP + ROW * len(rows)
    is_measured = any(source is not CapacitySource.PRIOR for *_, source in rows)
    title = (
        say("Strength, partly measured") if is_measured else say("Strength: assumed, not measured")
    )
    parts = [words_at(24, 34, title, size=22, weight=600), words_at(24, 58, say(WORDS), fill=SOFT)]
    step = next((s for s in STEPS if top_value / s <= 10), STEPS[-1])
    for tick in range(0, int(top_value) + 1, step):
        x = LEFT + tick * scale
        parts.append(rect(x - 0.5, TOP - 8, 1, bottom - TOP + 8, fill=HAIR))
        parts.append(words_at(x, TOP - 14, str(tick), size=SMALL, anchor="middle"))
    for n, (name, low, middle, high, _) in enumerate(rows):
        top = TOP + ROW * n
        said = say(
            "{name}: {low} to {high} {units}, middle {middle}",
            name=name,
            low=f"{low:.0f}",
            high=f"{high:.0f}",
            middle=f"{middle:.0f}",
            units=units,
        )
        parts += [
            words_at(LEFT - 12, top + 16, fitted(name, LEFT - 36), anchor="end", weight=500),
            rect(
                LEFT + low * scale, top + 3, (high - low) * scale, 18,
                fill=SLANTED.fill, line=1, more=said,
            ),
            line(LEFT + middle * scale, top, LEFT + middle * scale, top + 24, width=3),
            words_at(LEFT + high * scale + 10, top + 16, f"{low:.0f} – {high:.0f} {units}"),
        ]  # fmt: skip
    table = Table(
        say("Strength by kind of movement"),
        (
            say("Kind"),
            say("Low, {units}", units=units),
            say("Middle, {units}", units=units),
            say("High, {units}", units=units),
            say("Known from"),
        ),
        tuple(
            (name, f"{low:.0f}", f"{middle:.0f}", f"{high:.0f}", _source(source))
            for name, low, middle, high, source in rows
        ),
    )
    return Picture(
        NAME,
        title,
        say(WORDS),
        drawing(NAME, WIDTH, bottom + 20, title, say(WORDS), parts),
        (table,),
    )


def _ends(one: Capacity, per_unit: float) -> tuple[float, float, float]:
    low, middle, high = (
        math.exp(one.ln_1rm_mean + z * one.ln_1rm_sd) * per_unit
        for z in (-Z_9_IN_10, 0.0, Z_9_IN_10)
    )
    return low, middle, high


def _name(one: Capacity) -> str:
    return capital(say(one.key.replace("_", " ")))


def _source(source: CapacitySource) -> str:
    return say("assumed" if source is CapacitySource.PRIOR else source.value.replace("_", " "))
