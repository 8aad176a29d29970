"""A list of people as CSV: previewed, with every fault at once, and then edits of a hall.

Nothing is ever erased by a list: an empty cell, or a column that is not there, leaves what is
known. Ids are given by the tool and never twice.
"""

import csv
import io
import re
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Literal

from roundwright.foundation.errors import BadInputError
from roundwright.foundation.faults import Fault
from roundwright.hall.file_text import text_of
from roundwright.hall.hall import Hall
from roundwright.hall.people_text import read_people
from roundwright.people.person import Clearance, Person
from roundwright.services.keeping.column_matching import ColumnMatch, matched_columns
from roundwright.services.keeping.hall_records import records_of
from roundwright.services.keeping.record_forms import CLEARANCE_FIELDS
from roundwright.services.keeping.records import (
    KeptHall,
    Plain,
    RecordEdit,
    RecordKey,
    RecordKind,
)

MOST_ROWS = 5_000
"""Rows of a list at most; our choice."""
LIFTED_BY = "not_cleared: a clinician's word by name lifts it, not a list"
_NUMBERED = re.compile(r"^p(\d{3,9})$")


@dataclass(frozen=True, slots=True)
class PreviewRow:
    """What a row of the list would do; `fields` are those of a person that would change."""

    line: int
    person_id: str
    shown_name: str
    state: Literal["new", "changed", "same"]
    fields: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class PeoplePreview:
    """What a list of people would do to a hall.

    `edits` is empty while there are faults: all of a list is brought in, or nothing.
    """

    columns: tuple[ColumnMatch, ...]
    rows: tuple[PreviewRow, ...]
    faults: tuple[Fault, ...]
    edits: tuple[RecordEdit, ...] = field(repr=False)


def preview_people(
    file: str,
    content: bytes,
    kept: KeptHall,
    ids_given: Collection[str],
    *,
    may_health: bool,
    choice: Mapping[str, str | None] | None = None,
) -> PeoplePreview:
    """Say what a list of people would do.

    Parameters
    ----------
    file : str
        What the list is called, for faults.
    content : bytes
        UTF-8; `,`, `;` or tab between cells.
    kept : KeptHall
        The hall that the list is for.
    ids_given : collection of str
        Ids that people of the hall have or ever had (`HallShelf.person_ids`).
    may_health : bool
        Whether whoever asks may change health: without it such columns are left out.
    choice : mapping, optional
        What the coach chose: header to column, or None for 'not used'.
    """
    text, faults = text_of(file, content)
    if text is None:
        return PeoplePreview((), (), tuple(faults), ())
    try:
        header, cells, separator = _cells_of(file, text)
    except BadInputError as error:
        return PeoplePreview((), (), tuple(error.faults), ())
    columns = matched_columns(header, choice or {}, may_health)
    return _Preview(file, columns, cells, separator, kept, ids_given).made()


class _Preview:
    """One reading of a list against one hall."""

    def __init__(
        self,
        file: str,
        columns: tuple[ColumnMatch, ...],
        cells: Sequence[tuple[int, list[str]]],
        separator: str,
        kept: KeptHall,
        ids_given: Collection[str],
    ) -> None:
        self.file, self.columns, self.cells, self.separator = file, columns, cells, separator
        self.kept, self.hall = kept, kept.hall
        self.places = {one.column: one.place for one in columns if one.column}
        self.faults: list[Fault] = []
        numbers = [int(m[1]) for one in ids_given if (m := _NUMBERED.match(one))]
        self._next = max(numbers, default=0) + 1

    def made(self) -> PeoplePreview:
        if "shown_name" not in self.places:
            expected = "a column with the name that is shown"
            self._fault("table.header", 1, "shown_name", expected)
            return PeoplePreview(self.columns, (), tuple(self.faults), ())
        ids = self._ids()
        people = self._read(ids)
        rows: list[PreviewRow] = []
        edits: list[RecordEdit] = []
        for (line, cells), person_id in zip(self.cells, ids, strict=True):
            person = people.get(person_id)
            if person is None:
                continue
            row, wished = self._row(line, cells, person)
            rows.append(row)
            edits += wished
        faults = tuple(sorted(self.faults, key=lambda one: (one.line or 0, one.column or 0)))
        return PeoplePreview(self.columns, tuple(rows), faults, () if faults else tuple(edits))

    def _ids(self) -> list[str]:
        """Say who each row is: by id, else by a name that only one person has, else new."""
        by_name: dict[str, list[str]] = {}
        for person in self.hall.people:
            by_name.setdefault(_plain(person.shown_name), []).append(person.person_id)
        ids: list[str] = []
        names: set[str] = set()
        for line, cells in self.cells:
            given, name = self._cell(cells, "person_id"), _plain(self._cell(cells, "shown_name"))
            known = by_name.get(name, [])
            if not given and name and name in names:
                self._fault("table.duplicate", line, "shown_name", "each name once, or a person_id")
            elif not given and len(known) > 1:
                expected = f"a person_id: {len(known)} people have this name"
                self._fault("table.duplicate", line, "shown_name", expected)
            names.add(name)
            if given and self.hall.person(given) is None:
                expected = "a person_id of this hall, or none for somebody new"
                self._fault("name.unknown", line, "person_id", expected)
            ids.append(given or (known[0] if known else self._new_id()))
        return ids

    def _new_id(self) -> str:
        self._next += 1
        return f"p{self._next - 1:03d}"

    def _read(self, ids: Sequence[str]) -> dict[str, Person]:
        """Read the rows as people.csv is read; each keeps its line."""
        text = io.StringIO(newline="")
        # With a semicolon a decimal comma is understood, as lists with tabs have it too.
        separator = "," if self.separator == "," else ";"
        writer = csv.writer(text, delimiter=separator, lineterminator="\n")
        wanted = [column for column in self.places if column != "person_id"]
        writer.writerow(["person_id", *wanted])
        at = 2
        for (line, cells), person_id in zip(self.cells, ids, strict=True):
            text.write("\n" * (line - at))
            one_line = [" ".join(self._cell(cells, column).split("\n")) for column in wanted]
            writer.writerow([person_id, *one_line])
            at = line + 1
        people, _, faults = read_people(self.file, text.getvalue())
        for fault in faults:
            place = self.places.get(fault.field)
            column = None if place is None else place + 1
            self.faults.append(fault.model_copy(update={"column": column}))
        return {person.person_id: person for person in people}

    def _row(
        self, line: int, cells: Sequence[str], person: Person
    ) -> tuple[PreviewRow, list[RecordEdit]]:
        stated = self._stated(cells, person)
        before = self.hall.person(person.person_id)
        if before is None:
            after = Person.model_validate(
                {"person_id": person.person_id, "shown_name": person.shown_name, **stated}
            )
        else:
            after = before.model_copy(update=stated)
        if before is not None and _is_lifted(before, after):
            self._fault("field.value", line, "clearance", LIFTED_BY)
        changed = tuple(
            name
            for name in Person.model_fields
            if before is None or getattr(before, name) != getattr(after, name)
        )
        state: Literal["new", "changed", "same"] = "changed" if changed else "same"
        row = PreviewRow(
            line,
            person.person_id,
            after.shown_name,
            "new" if before is None else state,
            () if before is None else changed,
        )
        return row, self._edits(before, after)

    def _stated(self, cells: Sequence[str], person: Person) -> dict[str, object]:
        """Give the fields of a person that the row says something of."""
        stated: dict[str, object] = {}
        families = dict(person.level_by_family)
        for column in self.places:
            if column == "person_id" or not self._cell(cells, column):
                continue
            if column.startswith("level_"):
                before = self.hall.person(person.person_id)
                known = before.level_by_family if before else {}
                stated["level_by_family"] = {**known, **families}
            else:
                name = _FIELDS.get(column, column)
                stated[name] = getattr(person, name)
        return stated

    def _edits(self, before: Person | None, after: Person) -> list[RecordEdit]:
        now = _records(self.hall, before)
        then = _records(self.hall, after)
        edits: list[RecordEdit] = []
        for where, values in then.items():
            if where.kind is RecordKind.CLEARANCE and before is None and not self._says_health():
                continue
            if now.get(where) != values:
                edits.append(RecordEdit(where, values, self.kept.versions.get(where)))
        return edits

    def _says_health(self) -> bool:
        return any(column in self.places for column in CLEARANCE_FIELDS)

    def _cell(self, cells: Sequence[str], column: str) -> str:
        place = self.places.get(column)
        return cells[place] if place is not None and place < len(cells) else ""

    def _fault(self, code: str, line: int, column: str, expected: str) -> None:
        place = self.places.get(column)
        self.faults.append(
            Fault(
                code=code,
                file=self.file,
                line=line,
                column=None if place is None else place + 1,
                field=column,
                expected=expected,
            )
        )


_FIELDS = {"body_mass_kg": "body_mass_g", "height_cm": "height_mm"}


def _is_lifted(before: Person, after: Person) -> bool:
    """Say whether a list would let somebody train whom nobody has cleared by name."""
    held = Clearance.NOT_CLEARED
    return before.clearance is held and after.clearance is not held


def _records(hall: Hall, person: Person | None) -> dict[RecordKey, Plain]:
    if person is None:
        return {}
    alone = hall.model_copy(update={"people": (person,), "limitations": ()})
    kinds = (RecordKind.PERSON, RecordKind.CLEARANCE)
    return {w: one.values for w, one in records_of(alone).items() if w.kind in kinds}


def _plain(name: str) -> str:
    return " ".join(name.casefold().split())


def _cells_of(file: str, text: str) -> tuple[list[str], list[tuple[int, list[str]]], str]:
    """Give the header, the rows with the line on which each begins, and what separates cells.

    Raises
    ------
    BadInputError
        It is no table.
    """
    head = text.split("\n", 1)[0]
    separator = max((",", ";", "\t"), key=head.count)
    rows: list[tuple[int, list[str]]] = []
    faults: list[Fault] = []
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=separator, strict=True)
    start = 1
    try:
        for cells in reader:
            line, start = start, reader.line_num + 1
            stripped = [cell.strip() for cell in cells]
            if any(stripped):
                rows.append((line, stripped))
    except csv.Error:
        expected = "cells with quotes closed, each row ended"
        faults.append(Fault(code="file.syntax", file=file, line=start, expected=expected))
    if not rows and not faults:
        faults.append(Fault(code="table.header", file=file, line=1, expected="names of columns"))
    if len(rows) > MOST_ROWS:
        expected = f"at most {MOST_ROWS} rows"
        faults.append(Fault(code="field.range", file=file, expected=expected))
    header = rows[0][1] if rows else []
    faults += [
        Fault(
            code="table.width",
            file=file,
            line=line,
            value=f"{len(cells)} cells",
            expected=f"{len(header)} cells as in the header",
        )
        for line, cells in rows[1:]
        if len(cells) != len(header)
    ]
    if faults:
        raise BadInputError(faults)
    return header, rows[1:], separator
