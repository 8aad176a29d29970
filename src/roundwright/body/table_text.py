"""The body table as text: no spaces, one movement a line; read back with its faults."""

import json

from pydantic import ValidationError

from roundwright.body.body_table import SCHEMA, BodyTable
from roundwright.foundation.faults import Fault, shortened


def table_text(table: BodyTable) -> str:
    """Write a table; equal tables give equal text."""
    whole = table.model_dump(mode="json", by_alias=True)
    rows = whole.pop("movements")
    head = json.dumps(whole, sort_keys=True, separators=(",", ":"))
    lines = [
        f"{json.dumps(slug)}:{json.dumps(rows[slug], sort_keys=True, separators=(',', ':'))}"
        for slug in sorted(rows)
    ]
    return head[:-1] + ',"movements":{\n' + ",\n".join(lines) + "\n}}\n"


def read_table_text(file: str, text: str) -> tuple[BodyTable | None, tuple[Fault, ...]]:
    """Read a table's text.

    Parameters
    ----------
    file : str
        Name shown in faults.
    text : str
        What `table_text` wrote.
    """
    remedy = "Make the table of body figures anew."
    try:
        raw = json.loads(text)
    except json.JSONDecodeError as error:
        fault = Fault(
            code="file.syntax", file=file, line=error.lineno, expected="JSON", remedy=remedy
        )
        return None, (fault,)
    written = raw.get("schema") if isinstance(raw, dict) else None
    if written != SCHEMA:
        fault = Fault(
            code="file.schema", file=file, line=1, field="schema",
            value=shortened(written), expected=SCHEMA, remedy=remedy,
        )  # fmt: skip
        return None, (fault,)
    try:
        return BodyTable.model_validate(raw), ()
    except ValidationError as error:
        first = error.errors(include_url=False)[0]
        field = ".".join(str(step) for step in first["loc"])
        fault = Fault(
            code="field.value", file=file, field=field,
            value=shortened(first["input"]), expected=first["msg"], remedy=remedy,
        )  # fmt: skip
        return None, (fault,)
