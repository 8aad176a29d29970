"""How a CSV file of a hall becomes rows of cells by column name.

UTF-8; `,` or `;` throughout (with `;` a decimal comma is accepted); exact
column names in any order; an empty cell is unknown.
"""

import csv
import io
import re
import unicodedata
from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import date
from decimal import Decimal

from roundwright.foundation.faults import HIDDEN, Fault, shortened
from roundwright.foundation.identifiers import nearest_names

_NUMBER = re.compile(r"^-?\d{1,12}(\.\d{1,9})?$")
_WHOLE = re.compile(r"^-?\d{1,9}$")
_DATE = re.compile(r"^\d{4}-\d{2}-\d{2}$")


@dataclass(frozen=True)
class TableForm:
    """Which columns a table has, which must be there, and which values never show."""

    columns: tuple[str, ...]
    required: frozenset[str]
    hidden: frozenset[str]


@dataclass
class TableRow:
    """One row: its cells by column, its line, and the faults found while reading them."""

    file: str
    line: int
    form: TableForm
    cells: dict[str, str] = field(repr=False)
    places: dict[str, int]
    decimal_comma: bool
    faults: list[Fault] = field(default_factory=list)

    def fault(
        self, code: str, column: str, expected: str = "", nearest: tuple[str, ...] = ()
    ) -> None:
        """Note a fault in one cell; a hidden column's value is not shown."""
        value = shortened(self.cells.get(column, ""))
        self.faults.append(
            Fault(
                code=code,
                file=self.file,
                line=self.line,
                column=self.places.get(column),
                field=column,
                value=HIDDEN if value and column in self.form.hidden else value,
                expected=expected,
                nearest=nearest,
            )
        )

    def text(self, column: str) -> str | None:
        """Give a cell's text, or None when it is empty."""
        cell = self.cells.get(column, "")
        if any(unicodedata.category(c) in ("Cc", "Zl", "Zp") for c in cell):
            self.fault("field.value", column, "plain text on one line")
            return None
        return cell or None

    def needed(self, column: str) -> str | None:
        """Give a cell that may not be empty."""
        if not self.cells.get(column):
            self.fault("field.missing", column)
            return None
        return self.text(column)

    def one_of(self, column: str, allowed: Sequence[str]) -> str | None:
        """Give a cell that holds one of some words, or None when it is empty."""
        cell = self.text(column)
        if cell is None or cell in allowed:
            return cell
        hidden = column in self.form.hidden
        near = () if hidden else nearest_names(cell, allowed)
        self.fault("field.value", column, f"one of {', '.join(allowed)}", near)
        return None

    def whole(self, column: str, least: int, most: int) -> int | None:
        """Give a whole number within a range, or None when the cell is empty."""
        cell = self.text(column)
        if cell is None:
            return None
        if not _WHOLE.match(cell):
            self.fault("field.value", column, f"a whole number from {least} to {most}")
            return None
        if not least <= int(cell) <= most:
            self.fault("field.range", column, f"{least} to {most}")
            return None
        return int(cell)

    def number(self, column: str, least: int, most: int) -> Decimal | None:
        """Give a number within a range, or None when the cell is empty."""
        cell = self.text(column)
        if cell is None:
            return None
        plain = cell.replace(",", ".") if self.decimal_comma else cell
        if not _NUMBER.match(plain):
            self.fault("field.value", column, f"a number from {least} to {most}")
            return None
        if not least <= Decimal(plain) <= most:
            self.fault("field.range", column, f"{least} to {most}")
            return None
        return Decimal(plain)

    def day(self, column: str) -> date | None:
        """Give a date written as 2026-03-31, or None when the cell is empty."""
        cell = self.text(column)
        if cell is None:
            return None
        try:
            if _DATE.match(cell):
                return date.fromisoformat(cell)
        except ValueError:
            pass  # such a day does not exist: the same fault as another form
        self.fault("field.value", column, "a date such as 2026-03-31")
        return None


def rows_of(file: str, text: str, form: TableForm) -> tuple[list[TableRow], list[Fault]]:
    """Read a table; rows with the wrong number of cells are faults and left out."""
    head_line = text.split("\n", 1)[0]
    if "," in head_line and ";" in head_line:
        return [], [Fault(code="table.separator", file=file, line=1)]
    separator = ";" if ";" in head_line else ","
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=separator, strict=True)
    rows: list[TableRow] = []
    faults: list[Fault] = []
    header: list[str] = []
    start = 1
    try:
        for cells in reader:
            line, start = start, reader.line_num + 1
            stripped = [cell.strip() for cell in cells]
            if line == 1:
                header = stripped
                faults += _header_faults(file, header, form)
            elif not stripped:
                continue
            elif len(stripped) != len(header):
                faults.append(_width_fault(file, line, stripped, header, separator))
            else:
                rows.append(
                    TableRow(
                        file=file,
                        line=line,
                        form=form,
                        cells=dict(zip(header, stripped, strict=True)),
                        places={name: n for n, name in enumerate(header, start=1)},
                        decimal_comma=separator == ";",
                    )
                )
    except csv.Error:
        expected = "cells with quotes closed, each row ended"
        faults.append(Fault(code="file.syntax", file=file, line=start, expected=expected))
    if not header:
        return [], [Fault(code="table.header", file=file, line=1, expected=_named(form.columns))]
    if any(fault.code in ("table.header", "field.unknown") for fault in faults):
        return [], faults
    return rows, faults


def _named(columns: Sequence[str]) -> str:
    return ", ".join(columns)


def _header_faults(file: str, header: list[str], form: TableForm) -> list[Fault]:
    faults = []
    for place, name in enumerate(header, start=1):
        known = name in form.columns
        if known and name not in header[: place - 1]:
            continue
        near = () if known else nearest_names(name, form.columns)
        faults.append(
            Fault(
                code="table.header",
                file=file,
                line=1,
                column=place,
                field="header",
                value=shortened(name) if known or near else HIDDEN,
                expected="each column once" if known else _named(form.columns),
                nearest=near,
            )
        )
    faults += [
        Fault(code="table.header", file=file, line=1, field=name, expected=f"a column {name}")
        for name in form.columns
        if name in form.required and name not in header
    ]
    return faults


def _width_fault(
    file: str, line: int, cells: list[str], header: list[str], separator: str
) -> Fault:
    other = "," if separator == ";" else ";"
    text = separator.join(cells)
    if text.count(other) + len(cells) >= len(header) and len(cells) < len(header):
        return Fault(
            code="table.separator", file=file, line=line, expected=f"'{separator}' as in line 1"
        )
    return Fault(
        code="table.width",
        file=file,
        line=line,
        value=f"{len(cells)} cells",
        expected=f"{len(header)} cells as in the header",
    )
