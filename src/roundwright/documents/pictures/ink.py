"""What every picture is made of: ink, hatches that need no colour, words, and its table."""

from dataclasses import dataclass
from xml.sax.saxutils import escape, quoteattr

INK, SOFT, HAIR, PAPER = "#1c1b19", "#55514a", "#cfc8ba", "#f8f5ee"
FONT = "Barlow, 'Helvetica Neue', Arial, sans-serif"
WORDS = 15
"""Height of ordinary words in a picture, units of its own."""
SMALL = 13
NARROW = 0.52
"""Mean width of a letter as a share of its height, for room beside words; our choice."""


@dataclass(frozen=True, slots=True)
class Table:
    """The figures of a picture: a caption, the heads of its columns, and rows of words."""

    caption: str
    heads: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]


@dataclass(frozen=True, slots=True)
class Picture:
    """A drawing with its title, what it shows in words, and its tables."""

    name: str
    title: str
    words: str
    svg: str
    tables: tuple[Table, ...]


@dataclass(frozen=True, slots=True)
class Hatch:
    """A filling that is told apart in black and white: a tile of marks on white."""

    name: str
    size: int
    marks: str

    @property
    def fill(self) -> str:
        """What a shape is filled with."""
        return f"url(#{self.name})"

    @property
    def pattern(self) -> str:
        """The tile itself."""
        return (
            f'<pattern id="{self.name}" width="{self.size}" height="{self.size}" '
            f'patternUnits="userSpaceOnUse"><rect width="{self.size}" height="{self.size}" '
            f'fill="#ffffff"/>{self.marks}</pattern>'
        )


def strokes(path: str, width: float) -> str:
    """Draw lines of a tile."""
    return f'<path d="{path}" fill="none" stroke="{INK}" stroke-width="{width}"/>'


SLANTED = Hatch("slanted", 6, strokes("M-1.5 1.5l3 -3M0 6l6 -6M4.5 7.5l3 -3", 1.3))
CROSSED = Hatch("crossed", 5, strokes("M0 0l5 5M0 5l5 -5", 1.1))
LEVEL = Hatch("level", 5, strokes("M0 2.5h5", 0.9))
DOTTED = Hatch("dotted", 4, f'<circle cx="2" cy="2" r="0.8" fill="{INK}"/>')
HATCHES = (SLANTED, CROSSED, LEVEL, DOTTED)


def drawing(name: str, width: int, height: int, title: str, words: str, parts: list[str]) -> str:
    """Put a picture together: its title and words are what is read out instead of it.

    Its name goes before those of its tiles, so that several pictures may stand on one page.
    """
    tiles, body = "".join(hatch.pattern for hatch in HATCHES), "".join(parts)
    for hatch in HATCHES:
        tiles = tiles.replace(f'id="{hatch.name}"', f'id="{name}-{hatch.name}"')
        body = body.replace(f'fill="{hatch.fill}"', f'fill="url(#{name}-{hatch.name})"')
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {width} {height}" role="img" '
        f"aria-label={quoteattr(title)} font-family={quoteattr(FONT)} fill={quoteattr(INK)}>"
        f"<title>{escape(title)}</title><desc>{escape(words)}</desc><defs>{tiles}</defs>"
        f'<rect width="{width}" height="{height}" fill="{PAPER}"/>{body}</svg>'
    )


def number(value: float) -> str:
    """Write a coordinate to a tenth of a unit, as short as may be."""
    return f"{value:.1f}".removesuffix(".0")


def rect(
    x: float, y: float, width: float, height: float, *, fill: str, line: float = 0, more: str = ""
) -> str:
    """Draw a rectangle."""
    edge = f' stroke="{INK}" stroke-width="{line}"' if line else ""
    place = f'x="{number(x)}" y="{number(y)}" width="{number(width)}" height="{number(height)}"'
    return (
        f'<rect {place} fill="{fill}"{edge}/>'
        if not more
        else (f'<rect {place} fill="{fill}"{edge}><title>{escape(more)}</title></rect>')
    )


def line(x1: float, y1: float, x2: float, y2: float, *, width: float = 1, more: str = "") -> str:
    """Draw a straight line."""
    return (
        f'<path d="M{number(x1)} {number(y1)}L{number(x2)} {number(y2)}" fill="none" '
        f'stroke="{INK}" stroke-width="{width}"{more}/>'
    )


def words_at(
    x: float,
    y: float,
    words: str,
    *,
    size: int = WORDS,
    anchor: str = "start",
    weight: int = 400,
    fill: str = INK,
) -> str:
    """Write words: `y` is the line that they stand on."""
    return (
        f'<text x="{number(x)}" y="{number(y)}" font-size="{size}" font-weight="{weight}" '
        f'text-anchor="{anchor}" fill="{fill}">{escape(words)}</text>'
    )


def room_for(words: str, size: int = WORDS) -> float:
    """Give about how wide words are."""
    return len(words) * size * NARROW


def fitted(words: str, width: float, size: int = WORDS) -> str:
    """Shorten words to a width, the rest as three dots."""
    if room_for(words, size) <= width:
        return words
    return words[: max(1, int(width / (size * NARROW)) - 1)].rstrip(" ,+") + "…"
