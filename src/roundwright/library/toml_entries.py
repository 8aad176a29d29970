"""Which tables a library file holds and where: reads TOML without letting one break hide another.

A file that the standard reader refuses is read again entry by entry, so that
every broken entry is named and every sound one is still checked.
"""

import re
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from roundwright.foundation.faults import Fault, shortened
from roundwright.foundation.identifiers import nearest_names
from roundwright.foundation.toml_lines import Path, line_of, lines_of

SCHEMA_KIND = "roundwright.library"
SCHEMA_NUMBER = 1
KINDS = ("movement", "line", "combination")
POSTURE = "posture"
"""Tables that stand in the same file and are read elsewhere: see `own_postures`."""

_HEADER = re.compile(r"^\s*(\[\[?)\s*([^\]]+?)\s*\]\]?\s*(?:#.*)?$")
_PLACE = re.compile(r"\s*\(at (?:line (\d+), column (\d+)|end of document)\)\s*$")


@dataclass(frozen=True, slots=True)
class Entry:
    """One authored table: what it is, where it stands, and its raw values."""

    kind: str
    slug: str
    table: Mapping[str, Any]
    file: str
    places: Mapping[Path, int]
    lines_before: int = 0

    def line(self, *path: str | int) -> int | None:
        """Give the line of a field of this entry, or of the nearest table around it."""
        found = line_of(dict(self.places), (self.kind, self.slug, *path))
        return None if found is None else found + self.lines_before

    def fault(self, code: str, path: tuple[str | int, ...] = (), **rest: Any) -> Fault:
        """Make a fault at a field of this entry; places in lists are shown from 1."""
        shown = [str(step + 1 if isinstance(step, int) else step) for step in path]
        field = ".".join([self.kind, self.slug, *shown])
        return Fault(code=code, file=self.file, line=self.line(*path), field=field, **rest)


@dataclass(frozen=True, slots=True)
class FileEntries:
    """What one file gave: its entries, names it declares even where broken, and faults."""

    entries: tuple[Entry, ...]
    declared: frozenset[tuple[str, str]]
    faults: tuple[Fault, ...]


def entries_of(file: str, text: str) -> FileEntries:
    """Read one library file into entries.

    Parameters
    ----------
    file : str
        Name shown in faults.
    text : str
        TOML with a schema line and tables [movement.x], [line.x], [combination.x].

    Returns
    -------
    FileEntries
        Entries are raw: their fields are not checked here.
    """
    text = text.removeprefix("\ufeff").replace("\r\n", "\n")
    try:
        blocks = [(0, text, _parsed(text))]
        broken: list[Fault] = []
    except tomllib.TOMLDecodeError as error:
        blocks, broken = _block_by_block(file, text)
        if not broken and not _repeated(blocks):
            broken = [_syntax_fault(file, text, error, 0)]
    faults = list(broken)
    header, is_readable = _schema_faults(file, text, blocks)
    faults += header
    entries: list[Entry] = []
    for before, block, document in blocks:
        places = lines_of(block)
        for kind, tables in document.items():
            if kind in ("schema", POSTURE):
                continue
            line = line_of(places, (kind,))
            found, bad = _of_kind(Entry(kind, "", {}, file, places, before), tables, line)
            entries += found
            faults += bad
    declared = {(p[0], p[1]) for p in lines_of(text) if len(p) > 1 and p[0] in KINDS}
    declared |= {(entry.kind, entry.slug) for entry in entries}
    names = frozenset((str(kind), str(slug)) for kind, slug in declared)
    if not is_readable:
        return FileEntries((), names, (*broken, *header))
    return FileEntries(tuple(entries), names, tuple(faults))


def _parsed(text: str) -> dict[str, Any]:
    try:
        return tomllib.loads(text)
    except RecursionError as error:
        raise tomllib.TOMLDecodeError("Lists nested too deeply (at end of document)") from error


def _block_by_block(
    file: str, text: str
) -> tuple[list[tuple[int, str, dict[str, Any]]], list[Fault]]:
    blocks: list[tuple[int, str, dict[str, Any]]] = []
    faults: list[Fault] = []
    for before, block in _cut(text):
        try:
            blocks.append((before, block, _parsed(block)))
        except tomllib.TOMLDecodeError as error:
            faults.append(_syntax_fault(file, block, error, before))
    return blocks, faults


def _cut(text: str) -> list[tuple[int, str]]:
    """Cut a text before each header that begins another entry."""
    blocks: list[tuple[int, list[str]]] = [(0, [])]
    here: list[str] = []
    for number, line in enumerate(text.split("\n")):
        if header := _HEADER.match(line):
            parts = [part.strip() for part in header[2].split(".")]
            begins_again = len(parts) <= 2 and header[1] == "["
            if parts[:2] != here or begins_again:
                here = parts[:2]
                blocks.append((number, []))
        blocks[-1][1].append(line)
    return [(before, "\n".join(lines)) for before, lines in blocks]


def _repeated(blocks: list[tuple[int, str, dict[str, Any]]]) -> bool:
    names = [
        (kind, slug)
        for _, _, document in blocks
        for kind, tables in document.items()
        if isinstance(tables, dict)
        for slug in tables
    ]
    return len(names) > len(set(names))


def _syntax_fault(file: str, text: str, error: tomllib.TOMLDecodeError, before: int) -> Fault:
    message = str(error)
    place = _PLACE.search(message)
    line, column = (place[1], place[2]) if place else (None, None)
    lines = text.split("\n")
    number = int(line) if line else len(lines)
    return Fault(
        code="file.syntax",
        file=file,
        line=number + before,
        column=int(column) if column else None,
        value=shortened(lines[number - 1]) if number <= len(lines) else "",
        expected=f"TOML ({_PLACE.sub('', message).lower()})",
    )


def _schema_faults(
    file: str, text: str, blocks: list[tuple[int, str, dict[str, Any]]]
) -> tuple[list[Fault], bool]:
    wanted = f'schema = "{SCHEMA_KIND}/{SCHEMA_NUMBER}"'
    first = blocks[0] if blocks and blocks[0][0] == 0 else None
    if first is None:  # the top itself is broken, and named as such
        return [], True
    written = first[2].get("schema")
    line = line_of(lines_of(text), ("schema",)) or 1
    if written is None:
        missing = Fault(
            code="file.schema",
            file=file,
            line=1,
            field="schema",
            expected=wanted,
            remedy=f"Write {wanted} as the first line.",
        )
        return [missing], True
    match = re.fullmatch(rf"{re.escape(SCHEMA_KIND)}/(\d{{1,6}})", str(written))
    number = int(match[1]) if match else 0
    if 1 <= number <= SCHEMA_NUMBER:
        return [], True
    newer = number > SCHEMA_NUMBER
    remedy = (
        f"This file was written for a newer program (form {number}; this one reads up to "
        f"{SCHEMA_NUMBER}). Update the program, or write the file in the older form."
        if newer
        else f"Write {wanted} as the first line."
    )
    fault = Fault(
        code="file.schema",
        file=file,
        line=line,
        field="schema",
        value=shortened(written),
        expected=wanted,
        remedy=remedy,
    )
    return [fault], not newer


def _of_kind(shape: Entry, tables: Any, line: int | None) -> tuple[list[Entry], list[Fault]]:
    kind, file, before = shape.kind, shape.file, shape.lines_before
    at = None if line is None else line + before
    if kind not in KINDS:
        unknown = Fault(
            code="field.unknown",
            file=file,
            line=at,
            field=kind,
            expected="tables " + ", ".join(f"[{name}.<short name>]" for name in KINDS),
            nearest=nearest_names(kind, KINDS),
        )
        return [], [unknown]
    if not isinstance(tables, dict):
        return [], [_not_a_table(file, at, kind, f"[{kind}.<short name>]")]
    entries: list[Entry] = []
    faults: list[Fault] = []
    for slug, table in tables.items():
        entry = Entry(kind, slug, table, file, shape.places, before)
        if isinstance(table, dict):
            entries.append(entry)
        else:
            where = entry.line()
            faults.append(
                _not_a_table(file, where, f"{kind}.{slug}", f"a table [{kind}.<short name>]")
            )
    return entries, faults


def _not_a_table(file: str, line: int | None, field: str, expected: str) -> Fault:
    return Fault(code="field.value", file=file, line=line, field=field, expected=expected)
