"""How one file of a hall becomes text and TOML values, with a fault for whatever is wrong.

Knows nothing of what the values mean; that is for `model_faults` and the readers.
"""

import math
import re
import tomllib
from dataclasses import dataclass, field
from datetime import date, datetime, time

from roundwright.foundation.faults import Fault, shortened
from roundwright.foundation.identifiers import nearest_names
from roundwright.foundation.toml_lines import Path, line_of, lines_of

LARGEST_FILE = 5_000_000
"""Bytes; a hall's file is a few thousand. Our choice."""
LARGEST_NUMBER = 10**12

_PLACE = re.compile(r"\(at line (\d+), column (\d+)\)")
_SCHEMA = re.compile(r"^roundwright\.([a-z]+)/(\d+)$")
_LONG_NUMBER = re.compile(r"\d{13,}")


@dataclass
class TomlText:
    """One TOML file: its values without the schema line, and where each stands."""

    file: str
    values: dict[str, object]
    places: dict[Path, int] = field(repr=False)

    def fault(
        self,
        code: str,
        path: Path,
        value: object = "",
        expected: str = "",
        nearest: tuple[str, ...] = (),
        remedy: str = "",
    ) -> Fault:
        """Make a fault at a path of this file."""
        return Fault(
            code=code,
            file=self.file,
            line=line_of(self.places, path),
            field=path_in_words(path),
            value=shortened(value),
            expected=expected,
            remedy=remedy,
            nearest=nearest,
        )

    def tables(self, key: str) -> list[tuple[int, dict[str, object]]]:
        """Give the tables of a list by place; what is not a table is left to the model."""
        found = self.values.get(key, [])
        rows = found if isinstance(found, list) else []
        return [(n, row) for n, row in enumerate(rows) if isinstance(row, dict)]


def path_in_words(path: Path) -> str:
    """Write a path as a coach would say it: 'exercise 2: count.value'."""
    words = ""
    for part in path:
        if isinstance(part, int):
            words += f" {part + 1}: "
        else:
            words += part if not words or words.endswith(": ") else f".{part}"
    return words.removesuffix(": ")


def text_of(file: str, content: bytes) -> tuple[str | None, tuple[Fault, ...]]:
    """Give a file as text: UTF-8, with or without a byte order mark, of a sensible size."""
    if len(content) > LARGEST_FILE:
        return None, (too_large(file, len(content)),)
    try:
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = content[: error.start].count(b"\n") + 1
        return None, (Fault(code="file.not_text", file=file, line=line),)
    if "\0" in text:
        line = text[: text.index("\0")].count("\n") + 1
        return None, (Fault(code="file.not_text", file=file, line=line),)
    return text, ()


def too_large(file: str, size: int) -> Fault:
    """Make the fault of a file that is larger than any hall's file could be."""
    return Fault(
        code="file.too_large",
        file=file,
        value=f"{size / 1e6:.1f} MB",
        expected=f"at most {LARGEST_FILE / 1e6:.0f} MB",
    )


def toml_of(file: str, text: str, kind: str) -> tuple[TomlText | None, tuple[Fault, ...]]:
    """Read TOML text whose first key is `schema = "roundwright.<kind>/1"`."""
    try:
        values = tomllib.loads(text)
    except (ValueError, RecursionError) as error:
        place = _PLACE.search(str(error))
        fault = Fault(
            code="file.syntax",
            file=file,
            line=int(place[1]) if place else None,
            column=int(place[2]) if place else None,
            expected="TOML",
            remedy=f"{shortened(_PLACE.sub('', str(error)).strip())}: mend this line.",
        )
        return None, (fault,)
    toml = TomlText(file, values, lines_of(text))
    faults = (*_schema_faults(toml, kind), *_number_faults(toml, values, ()))
    values.pop("schema", None)
    return toml, faults


def _schema_faults(toml: TomlText, kind: str) -> list[Fault]:
    wanted = f'schema = "roundwright.{kind}/1"'
    if "schema" not in toml.values:
        return [toml.fault("field.missing", ("schema",), expected=wanted)]
    given = toml.values["schema"]
    match = _SCHEMA.match(given) if isinstance(given, str) else None
    if match is None or match[1] != kind or int(match[2]) < 1:
        return [toml.fault("file.schema", ("schema",), given, wanted)]
    if int(match[2]) > 1:
        newer = "It was written by a newer version of this program: use that one to read it."
        return [toml.fault("file.schema", ("schema",), given, wanted, remedy=newer)]
    return []


def _number_faults(toml: TomlText, value: object, path: Path) -> list[Fault]:
    """Find numbers that no quantity can be: endless, not a number, beyond any measure."""
    if isinstance(value, dict):
        return [f for k, v in value.items() for f in _number_faults(toml, v, (*path, k))]
    if isinstance(value, list):
        return [f for n, v in enumerate(value) for f in _number_faults(toml, v, (*path, n))]
    unusable = (
        (isinstance(value, float) and not math.isfinite(value))
        or (isinstance(value, int | float) and abs(value) > LARGEST_NUMBER)
        or (isinstance(value, str) and _LONG_NUMBER.search(value) is not None)
    )
    return [toml.fault("field.range", path, value, "an ordinary number")] if unusable else []


def as_json_values(value: object) -> object:
    """Give TOML values as JSON knows them: dates and times as ISO text."""
    if isinstance(value, dict):
        return {key: as_json_values(item) for key, item in value.items()}
    if isinstance(value, list):
        return [as_json_values(item) for item in value]
    if isinstance(value, date | datetime | time):
        return value.isoformat()
    return value


def unknown_name(
    toml: TomlText, path: Path, name: object, known: frozenset[str], expected: str
) -> Fault:
    """Make the fault of a name that is not there, with the nearest that are."""
    near = nearest_names(str(name), known)
    return toml.fault("name.unknown", path, name, expected, near)
