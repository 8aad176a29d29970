"""Pictures of movements and combinations as files, and postures of one's own as far as they go."""

import re
from collections.abc import Callable, Mapping

from roundwright.body.body_table import gate_faults
from roundwright.body.build import bodies_of
from roundwright.body.drawing.contact_sheet import contact_sheet
from roundwright.body.drawing.joined import side_by_side
from roundwright.body.drawing.picture import strip
from roundwright.body.posture import Posture
from roundwright.body.posture_text import read_postures
from roundwright.body.solved import REFERENCE, SolvedPosture, solve_posture
from roundwright.foundation.errors import NotFoundError
from roundwright.foundation.faults import Fault
from roundwright.foundation.identifiers import nearest_names
from roundwright.library.catalogue import Catalogue

_LIBRARY = re.compile(r"^\s*schema\s*=\s*.roundwright\.library/", re.MULTILINE)

Solved = Callable[[str], SolvedPosture]
"""Gives a movement's solved posture by short name."""


def drawings(
    catalogue: Catalogue, postures: Mapping[str, Posture], solved: Solved, slug: str
) -> dict[str, str]:
    """Give the picture files of one movement or combination: name to SVG text.

    A movement has one file a key position and one strip; a combination has one strip, of the
    hardest version of each part.

    Raises
    ------
    NotFoundError
        When nothing of that name has pictures; the nearest names are told.
    """
    if slug in catalogue.combinations:
        parts = [
            catalogue.lines[part.line].versions[-1] for part in catalogue.combinations[slug].parts
        ]
        if all(part in postures for part in parts):
            pictures = [svg for part in parts for svg in strip(solved(part))]
            return {f"{slug}.svg": side_by_side(pictures, catalogue.combinations[slug].name)}
    if slug not in postures:
        near = nearest_names(slug, [*postures, *catalogue.combinations])
        hint = f"Nearest: {', '.join(near)}." if near else "See: roundwright library list."
        raise NotFoundError(f"There are no pictures of '{slug}'.", hint)
    name = catalogue.movements[slug].name if slug in catalogue.movements else slug
    return drawn_files(slug, name, solved(slug))


def drawn_files(slug: str, name: str, solved: SolvedPosture) -> dict[str, str]:
    """Give one file a key position and the strip of all."""
    pictures = strip(solved)
    out = {f"{slug}.svg": side_by_side(pictures, name)}
    for place, (key, svg) in enumerate(zip(solved.keys, pictures, strict=True), start=1):
        word = "".join(c if c.isalnum() else "_" for c in key.pose.name.casefold())
        out[f"{slug}-{place}-{word}.svg"] = svg
    return out


def whole_sheet(catalogue: Catalogue, postures: Mapping[str, Posture], solved: Solved) -> str:
    """Give one page (HTML) with every picture of the library, by pattern and name."""
    movements = sorted(
        (m for slug, m in catalogue.movements.items() if slug in postures),
        key=lambda m: (m.pattern.value, m.level, m.name),
    )
    named = {f"{m.name} ({m.pattern.value.replace('_', ' ')})": solved(m.slug) for m in movements}
    return contact_sheet(named)


def own_drawings(
    texts: Mapping[str, str], base: Mapping[str, Posture]
) -> tuple[dict[str, str], tuple[Fault, ...]]:
    """Solve and draw the postures of one's own files, with every fault of words and gates.

    Parameters
    ----------
    texts : mapping
        File name to TOML text: files of postures, or library files that hold some.
    base : mapping
        The shipped postures, which `like` may name.

    Returns
    -------
    files : dict
        Name to SVG text of all postures that could be solved, the faulty ones too: what is
        wrong is seen soonest in the picture.
    faults : tuple of Fault
        Faults of the files, then the gates that fail.
    """
    library = {file: text for file, text in texts.items() if _LIBRARY.search(text)}
    others = {file: text for file, text in texts.items() if file not in library}
    postures, found = read_postures(others, base)
    within, bad = read_postures(library, base, among_others=True)
    postures |= within
    faults, files = [*found, *bad], {}
    for slug, posture in postures.items():
        solved = solve_posture(posture, bodies_of([REFERENCE]))
        faults += gate_faults(posture, solved, ", ".join(texts), words=True)
        files.update(drawn_files(slug, slug, solved))
    return files, tuple(faults)
