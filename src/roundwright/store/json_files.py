"""JSON files of the tool's own: read whole with faults in words, written whole or not at all."""

import json
import os
import re
import tempfile
from pathlib import Path
from typing import TypeVar

from pydantic import BaseModel, ValidationError

from roundwright.foundation.errors import BadInputError, NotFoundError, StoreError
from roundwright.foundation.faults import Fault
from roundwright.hall.file_text import too_large
from roundwright.store.hall_folder import sync_folder

M = TypeVar("M", bound=BaseModel)


def read_values(path: Path, largest: int, what: str) -> dict[str, object]:
    """Read a JSON object.

    Parameters
    ----------
    largest : int
        Bytes; a larger file is not read.
    what : str
        What kind of file it is, for words: 'plan file'.

    Raises
    ------
    NotFoundError
        There is no such file.
    StoreError
        The file cannot be read.
    BadInputError
        It is no JSON object, or too large.
    """
    if not path.is_file():
        raise NotFoundError(f"There is no {what} '{path.name}'.")
    try:
        size = path.stat().st_size
        content = b"" if size > largest else path.read_bytes()
    except OSError as error:
        raise StoreError(f"The {what} '{path.name}' cannot be read.") from error
    if size > largest:
        raise BadInputError([too_large(path.name, size)])
    return _values(path.name, content)


def check_schema(file: str, values: dict[str, object], known: str) -> None:
    """Refuse a file of another kind, or of a later number than `known`, such as 'x.plan/1'.

    Raises
    ------
    BadInputError
        In words; of a later number with the advice to use a newer program.
    """
    schema = values.get("schema")
    kind, _, number = known.rpartition("/")
    match = re.match(rf"^{re.escape(kind)}/(\d+)$", schema) if isinstance(schema, str) else None
    if match is not None and 1 <= int(match[1]) <= int(number):
        return
    newer = match is not None and int(match[1]) > int(number)
    raise BadInputError(
        [
            Fault(
                code="file.schema",
                file=file,
                field="schema",
                value=str(schema)[:40] if match else "",
                expected=known,
                remedy="It was written by a newer version of this program: use that one."
                if newer
                else "",
            )
        ]
    )


def as_model(file: str, values: dict[str, object], model: type[M]) -> M:
    """Give the values of a file as their model; faults name fields and never what stands there.

    Raises
    ------
    BadInputError
        With every field that is missing or wrong.
    """
    try:
        return model.model_validate(values)
    except ValidationError as error:
        faults = [
            Fault(
                code="field.missing" if detail["type"] == "missing" else "field.value",
                file=file,
                field=".".join(str(part) for part in detail["loc"]),
            )
            for detail in error.errors(include_url=False, include_input=False)
        ]
    raise BadInputError(faults)


def json_bytes(values: object) -> bytes:
    """Give values as JSON: keys sorted, two spaces, UTF-8, the same every time."""
    text = json.dumps(values, ensure_ascii=False, sort_keys=True, indent=2, allow_nan=False)
    return f"{text}\n".encode()


def write_whole(path: Path, content: bytes) -> None:
    """Write to a temporary file beside it, synced, then rename: old or new, never half.

    Raises
    ------
    OSError
        The file is as it was.
    """
    handle, name = tempfile.mkstemp(prefix=f".{path.name}.", dir=path.parent)
    fresh = Path(name)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
        fresh.replace(path)
        sync_folder(path.parent)
    finally:
        fresh.unlink(missing_ok=True)


def _values(file: str, content: bytes) -> dict[str, object]:
    try:
        values = json.loads(content.decode("utf-8-sig"))
    except UnicodeDecodeError:
        raise BadInputError([Fault(code="file.not_text", file=file)]) from None
    except json.JSONDecodeError as error:
        place = {"line": error.lineno, "column": error.colno}
        raise BadInputError(
            [Fault(code="file.syntax", file=file, expected="JSON", **place)]
        ) from None
    except (ValueError, RecursionError):
        raise BadInputError([Fault(code="file.syntax", file=file, expected="JSON")]) from None
    if not isinstance(values, dict):
        raise BadInputError([Fault(code="file.syntax", file=file, expected="a JSON object")])
    return values
