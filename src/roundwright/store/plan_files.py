"""How plan documents are read from and written to their JSON files, losing nothing.

A plan file holds health-classed values (the problem): no message here says
more of it than its name and the field that is wrong.
"""

import json
import os
import re
import tempfile
from collections.abc import Collection
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from pydantic import ValidationError

from roundwright.foundation.errors import (
    BadInputError,
    ChangedMeanwhileError,
    NotFoundError,
    StoreError,
)
from roundwright.foundation.faults import Fault
from roundwright.hall.file_text import too_large
from roundwright.plan.document import PLAN_SCHEMA, PlanDocument
from roundwright.store.hall_folder import sync_folder

LARGEST_PLAN = 50_000_000
"""Bytes; a class of 60 people makes about one million. Our choice."""

_FILE = re.compile(r"^[0-9a-f-]{36}\.r[0-9]{1,6}\.json$")
_SCHEMA = re.compile(r"^roundwright\.plan/(\d+)$")


def read_plan(path: Path) -> PlanDocument:
    """Read a plan file; fields that this version does not know are kept.

    Raises
    ------
    NotFoundError
        There is no such file.
    StoreError
        The file cannot be read.
    BadInputError
        It is no plan, or of a later schema than this version reads.
    """
    if not path.is_file():
        raise NotFoundError(f"There is no plan file '{path.name}'.")
    try:
        size = path.stat().st_size
        content = b"" if size > LARGEST_PLAN else path.read_bytes()
    except OSError as error:
        raise StoreError(f"The plan file '{path.name}' cannot be read.") from error
    if size > LARGEST_PLAN:
        raise BadInputError([too_large(path.name, size)])
    values = _values(path.name, content)
    _check_schema(path.name, values.get("schema"))
    try:
        return PlanDocument.model_validate(values)
    except ValidationError as error:
        faults = [
            Fault(
                code="field.missing" if detail["type"] == "missing" else "field.value",
                file=path.name,
                field=".".join(str(part) for part in detail["loc"]),
            )
            for detail in error.errors(include_url=False, include_input=False)
        ]
    raise BadInputError(faults)


@dataclass(frozen=True, slots=True)
class KeptPlans:
    """The plans of a folder in the order in which they were kept, and what could not be read."""

    plans: tuple[PlanDocument, ...]
    faults: tuple[Fault, ...] = ()


def read_plans(folder: Path, days: Collection[date] | None = None) -> KeptPlans:
    """Read every plan of a folder; a bad file is named as a fault and the others are given.

    Parameters
    ----------
    folder : Path
        Where plans are kept; one that is not there holds none.
    days : collection of date, optional
        Only plans of classes on these days are given; all when left out.

    Raises
    ------
    StoreError
        The folder cannot be listed.
    """
    if not folder.is_dir():
        return KeptPlans(())
    try:
        paths = sorted(
            (path for path in folder.iterdir() if _FILE.match(path.name)),
            key=lambda path: (path.stat().st_mtime_ns, path.name),
        )
    except OSError as error:
        raise StoreError(f"The folder '{folder.name}' of plans cannot be read.") from error
    plans: list[PlanDocument] = []
    faults: list[Fault] = []
    for path in paths:
        try:
            document = None if _is_of_another_day(path, days) else read_plan(path)
        except BadInputError as error:
            faults += error.faults
        except (StoreError, NotFoundError) as error:
            faults.append(Fault(code="file.missing", file=path.name, expected=error.detail))
        else:
            plans += [] if document is None else [document]
    return KeptPlans(tuple(plans), tuple(faults))


def _is_of_another_day(path: Path, days: Collection[date] | None) -> bool:
    """Look at a plan's day before all of it is checked; what cannot be seen is read whole."""
    if days is None:
        return False
    try:
        if path.stat().st_size > LARGEST_PLAN:
            return False
        booked = json.loads(path.read_bytes())["core"]["class"]
        return date.fromisoformat(booked["starts_on"]) not in days
    except (OSError, ValueError, TypeError, LookupError, RecursionError):
        return False


def plan_bytes(document: PlanDocument) -> bytes:
    """Give a plan document as JSON: keys sorted, two spaces, UTF-8, the same every time."""
    values = document.model_dump(mode="json", by_alias=True)
    text = json.dumps(values, ensure_ascii=False, sort_keys=True, indent=2, allow_nan=False)
    return f"{text}\n".encode()


def write_plan(document: PlanDocument, folder: Path) -> Path:
    """Write a plan to `<plan_id>.r<revision>.json` and give its path.

    Revisions are immutable: another core under an existing name is refused; verdict and
    outcome of the same core may be written anew.

    Raises
    ------
    ChangedMeanwhileError
        The revision is there already with another core.
    StoreError
        Nothing was changed.
    """
    path = folder / f"{document.core.plan_id}.r{document.core.revision}.json"
    content = plan_bytes(document)
    try:
        folder.mkdir(parents=True, exist_ok=True)
        if path.exists() and read_plan(path).core.digest != document.core.digest:
            raise ChangedMeanwhileError(f"The plan file '{path.name}' holds another plan.")
        _write_whole(path, content)
    except OSError as error:
        raise StoreError(f"The plan file '{path.name}' cannot be written.") from error
    return path


def _write_whole(path: Path, content: bytes) -> None:
    """Write to a temporary file beside it, synced, then rename."""
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


def _check_schema(file: str, schema: object) -> None:
    match = _SCHEMA.match(schema) if isinstance(schema, str) else None
    if match is not None and int(match[1]) == 1:
        return
    newer = match is not None and int(match[1]) > 1
    raise BadInputError(
        [
            Fault(
                code="file.schema",
                file=file,
                field="schema",
                value=str(schema)[:40] if match else "",
                expected=PLAN_SCHEMA,
                remedy="It was written by a newer version of this program: use that one."
                if newer
                else "",
            )
        ]
    )
