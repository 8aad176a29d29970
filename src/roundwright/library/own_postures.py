"""Postures that stand in library files of one's own, beside the movements they belong to."""

import re
from collections.abc import Iterator, Mapping

from roundwright.body.posture import Posture
from roundwright.body.posture_text import read_postures
from roundwright.foundation.faults import Fault
from roundwright.foundation.toml_lines import line_of, lines_of
from roundwright.library.movement import Movement
from roundwright.library.posture_rules import disagreements

_TABLE = re.compile(r"^\s*\[*\s*[\"']?posture\b", re.MULTILINE)


def has_postures(texts: Mapping[str, str]) -> bool:
    """Say whether any file may hold a posture, without reading it whole."""
    return any(_TABLE.search(text) for text in texts.values())


def read_own_postures(
    texts: Mapping[str, str],
    movements: Mapping[str, Movement] | None,
    base: Mapping[str, Posture],
) -> tuple[dict[str, Posture], tuple[Fault, ...]]:
    """Read the postures of library files, by the rules of the shipped ones.

    Parameters
    ----------
    texts : mapping
        File name to TOML text with `[posture.<short name>]` beside other tables.
    movements : mapping or None
        All movements, the files' own included; None where they have faults of their own, and
        nothing is laid beside them yet.
    base : mapping
        The shipped postures: `like` may name them, and none may be written anew.

    Returns
    -------
    postures : dict
        The postures that are sound and agree with their movement.
    faults : tuple of Fault
        What is wrong with the words, a posture of no movement or of a shipped one, and where
        movement and posture disagree; ordered by file and line. Whether a body can take the
        positions is judged when they are solved (`body_table.gate_faults`).
    """
    found, faults = read_postures(texts, base, among_others=True)
    all_faults = list(faults)
    places = place_of_postures(texts)
    for slug in [slug for slug in found if slug in base]:
        file, line = places.get(slug, ("", None))
        expected = "a posture of your own movement; the shipped ones have theirs"
        all_faults.append(
            Fault(
                code="name.duplicate", file=file, line=line, field=f"posture.{slug}", value=slug,
                expected=expected,
            )
        )  # fmt: skip
        del found[slug]
    for fault in disagreements(movements, found) if movements is not None else ():
        slug = fault.field.split(".")[1]
        file, line = places.get(slug, ("", None))
        all_faults.append(fault.model_copy(update={"file": file, "line": line}))
    bad = {fault.field.split(".")[1] for fault in all_faults if "." in fault.field}
    all_faults.sort(key=lambda f: (f.file, f.line or 0, f.field))
    sound = {slug: posture for slug, posture in found.items() if slug not in bad}
    return sound, tuple(all_faults)


def place_of_postures(texts: Mapping[str, str]) -> dict[str, tuple[str, int | None]]:
    """Give file and line of each posture, by the short name of its movement."""
    return dict(_places(texts))


def _places(texts: Mapping[str, str]) -> Iterator[tuple[str, tuple[str, int | None]]]:
    for file, text in texts.items():
        lines = lines_of(text.removeprefix("\ufeff").replace("\r\n", "\n"))
        for path in lines:
            if len(path) == 2 and path[0] == "posture":
                yield str(path[1]), (file, line_of(lines, path))
