"""Parts joined by 'then': a combination of the library, or a new one of one's own."""

import hashlib
import re

from roundwright.body.anatomy import Side
from roundwright.foundation.toml_words import quoted
from roundwright.goals.quick_entry.names import Around, key_of
from roundwright.goals.quick_entry.plain_numbers import NUMBER, number_of
from roundwright.goals.quick_entry.results import Ask
from roundwright.library.catalogue import Catalogue
from roundwright.library.combination import Combination, Part
from roundwright.library.consistency import in_combination
from roundwright.library.vocabulary import DoneAs

IN_BLOCKS = " in blocks"
MOST_PARTS = 6
LINK_S = 0.7
"""Seconds from one part to the next; common practice, no source."""

_THEN = re.compile(r"\s*,?\s*\b(?:and )?then\b\s*,?\s*")
_PART = re.compile(
    r"(?P<name>.+?)"
    r"(?:\s(?:on the )?"
    r"(?P<side>left|right|each side|a side|per side|both sides|each leg|each arm))?"
    rf"(?:\s(?P<n>{NUMBER}) in a row)?"
)
_COUNTED = re.compile(rf"(?P<n>{NUMBER})\s*(?:(?:x|times)\b\s*)?(?P<name>.+)")

Named = tuple[str, Combination | None, str]
"""The exercise's short name, the combination where it is new, and what to add to the reading."""


def combination_named(text: str, around: Around, *, a_side: bool) -> Named | Ask | None:
    """Find or make the combination of some parts.

    Parameters
    ----------
    text : str
        Names joined by 'then', in small letters.
    around : Around
        The library.
    a_side : bool
        Whether it is counted a side: a part without a side is then done on the side of the pass.
    """
    blocks = text.endswith(IN_BLOCKS)
    names = _THEN.split(text.removesuffix(IN_BLOCKS) if blocks else text)
    if len(names) < 2 or not all(names):
        return None
    parts: list[Part] = []
    for name in names:
        found = _part(name, around, a_side)
        if isinstance(found, Ask):
            return found
        parts += found
    if len(parts) > MOST_PARTS:
        return Ask(f"at most {MOST_PARTS} parts; each side is a part of its own")
    catalogue = around.catalogue
    done_as = DoneAs.COMPLEX if blocks else DoneAs.COMBINATION
    there = same_parts(tuple(parts), done_as, catalogue)
    if len(there) > 1:
        return Ask("which of them", tuple(catalogue.combinations[slug].name for slug in there))
    if there:
        return there[0], None, ""
    return _new(tuple(parts), done_as, catalogue)


def same_parts(parts: tuple[Part, ...], done_as: DoneAs, catalogue: Catalogue) -> tuple[str, ...]:
    """Give the combinations of the library with exactly these parts."""
    return tuple(
        slug
        for slug, each in catalogue.combinations.items()
        if each.parts == parts and each.done_as is done_as
    )


def _part(text: str, around: Around, a_side: bool) -> list[Part] | Ask:
    catalogue = around.catalogue
    line, times, side = _line(text, around), 1, None
    if line is None:
        found = _PART.fullmatch(text)
        if found is not None:
            line = _line(found["name"], around)
            times = 1 if found["n"] is None else number_of(found["n"])
            side = found["side"]
    if line is None and (counted := _COUNTED.fullmatch(text)) is not None:
        one_pass = f"{counted['name']} {number_of(counted['n'])} in a row"
        return Ask("whether that is in each pass, or blocks of the same number", (one_pass,))
    if line is None:
        return Ask(f"what '{text[:40]}' is; a part is a progression line", around.nearest(text))
    if not 1 <= times <= 20:
        return Ask("how often a part is done in one pass, 1 to 20")
    name = catalogue.lines[line].name
    one_sided = any(v.is_one_sided for v in catalogue.versions(line))
    if not one_sided:
        if side is not None and side != "both sides":
            return Ask(f"no side with {name}: it has none", (name,))
        return [Part(line=line, times=times, side=Side.BOTH)]
    if side is None and a_side:
        return [Part(line=line, times=times, side=Side.LEFT)]
    if side is None:
        return Ask(f"which side of {name}", (f"{name} each side", f"{name} left"))
    if side in ("left", "right"):
        return [Part(line=line, times=times, side=Side(side))]
    return [Part(line=line, times=times, side=each) for each in (Side.LEFT, Side.RIGHT)]


def _line(text: str, around: Around) -> str | None:
    """Give the one progression line of that name, or of that version."""
    key = key_of(text)
    named = around.exercises.get(key, ())
    if named:
        return named[0] if len(named) == 1 and named[0] in around.catalogue.lines else None
    movements = around.versions.get(key, ())
    lines = {line for m in movements for line in around.lines_of_version.get(m, ())}
    return lines.pop() if len(lines) == 1 else None


def _new(parts: tuple[Part, ...], done_as: DoneAs, catalogue: Catalogue) -> Named | Ask:
    lines = [catalogue.lines[part.line] for part in parts]
    lifts = any(v.dumbbells_lifted for part in parts for v in catalogue.versions(part.line))
    short = "_".join(dict.fromkeys(part.line for part in parts))
    told = parts_words(parts, done_as, catalogue)
    digest = hashlib.sha256(told.encode()).hexdigest()[:6]
    name = told if len(told) <= 60 else f"{lines[0].name} and {len(parts) - 1} more ({digest})"
    made = Combination(
        slug=f"own_{short}"[:34] + f"_{digest}",
        name=name[:60],
        parts=parts,
        load="held" if lifts else "none",
        link_s=LINK_S,
        done_as=done_as,
    )
    for wrong in in_combination(made, catalogue.lines, catalogue.movements):
        return Ask(f"another combination; expected {wrong.expected}")
    load = "one load held throughout" if lifts else "no load"
    return made.slug, made, f" (new combination, {load}, {LINK_S} s from part to part, as usual)"


def parts_words(parts: tuple[Part, ...], done_as: DoneAs, catalogue: Catalogue) -> str:
    """Write parts joined by 'then', each with its side."""
    words = []
    for part in parts:
        side = "" if part.side is Side.BOTH else f" {part.side.value}"
        times = "" if part.times == 1 else f" {part.times} in a row"
        words.append(f"{catalogue.lines[part.line].name}{side}{times}")
    blocks = IN_BLOCKS if done_as is DoneAs.COMPLEX else ""
    return " then ".join(words) + blocks


def combination_words(made: Combination, catalogue: Catalogue) -> str:
    """Write a combination so that it is heard again: by its parts where they name it alone."""
    there = same_parts(made.parts, made.done_as, catalogue)
    if there in ((), (made.slug,)):
        return parts_words(made.parts, made.done_as, catalogue)
    return made.name


def library_text(made: tuple[Combination, ...]) -> str:
    """Write new combinations as a library file of one's own."""
    lines = ['schema = "roundwright.library/1"']
    for each in made:
        lines += ["", f"[combination.{each.slug}]", f"name = {quoted(each.name)}", "parts = ["]
        lines += [
            f"  {{ line = {quoted(p.line)}, times = {p.times}, side = {quoted(p.side.value)} }},"
            for p in each.parts
        ]
        lines += ["]", f"load = {quoted(each.load)}", f"link_s = {each.link_s}"]
        if each.done_as is DoneAs.COMPLEX:
            lines.append(f"done_as = {quoted(each.done_as.value)}")
    return "\n".join(lines) + "\n"
