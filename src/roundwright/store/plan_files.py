"""How plan documents are read from and written to their JSON files, losing nothing.

A plan file holds health-classed values (the problem): no message here says
more of it than its name and the field that is wrong.
"""

import json
import re
from collections.abc import Collection
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from roundwright.foundation.errors import (
    BadInputError,
    ChangedMeanwhileError,
    NotFoundError,
    StoreError,
)
from roundwright.foundation.faults import Fault
from roundwright.plan.document import PLAN_SCHEMA, PlanDocument
from roundwright.store.json_files import (
    as_model,
    check_schema,
    json_bytes,
    read_values,
    write_whole,
)
from roundwright.store.revision_pointer import pointer_path, read_pointer

LARGEST_PLAN = 50_000_000
"""Bytes; a class of 60 people makes about one million. Our choice."""

_FILE = re.compile(r"^([0-9a-f-]{36})\.r([0-9]{1,6})\.json$")


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
    values = read_values(path, LARGEST_PLAN, "plan file")
    check_schema(path.name, values, PLAN_SCHEMA)
    return as_model(path.name, values, PlanDocument)


@dataclass(frozen=True, slots=True)
class KeptPlans:
    """The plans of a folder in the order in which they were kept, and what could not be read."""

    plans: tuple[PlanDocument, ...]
    faults: tuple[Fault, ...] = ()


def read_plans(folder: Path, days: Collection[date] | None = None) -> KeptPlans:
    """Read every plan of a folder; a bad file is named as a fault and the others are given.

    Of a plan that was changed only the current revision is given, at the time of its last
    change, undo or redo.

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
        found = [(path, match) for path in folder.iterdir() if (match := _FILE.match(path.name))]
        faults: list[Fault] = []
        current = _current_revisions(folder, {match[1] for _, match in found}, faults)
        paths = sorted(
            (path for path, match in found if current.get(match[1], match[2]) == match[2]),
            key=lambda path: (_kept_at_ns(path), path.name),
        )
    except OSError as error:
        raise StoreError(f"The folder '{folder.name}' of plans cannot be read.") from error
    plans: list[PlanDocument] = []
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


def _current_revisions(
    folder: Path, plan_ids: Collection[str], faults: list[Fault]
) -> dict[str, str | None]:
    """Give the current revision of each plan that has a pointer; None where it cannot be read."""
    current: dict[str, str | None] = {}
    for plan_id in sorted(plan_ids):
        try:
            revisions = read_pointer(folder, plan_id)
        except (BadInputError, StoreError) as error:
            current[plan_id] = None
            name = pointer_path(folder, plan_id).name
            faults += (
                error.faults
                if isinstance(error, BadInputError)
                else [Fault(code="file.missing", file=name, expected=error.detail)]
            )
        else:
            if revisions is not None:
                current[plan_id] = str(revisions.current)
    return current


def _kept_at_ns(path: Path) -> int:
    """Give when a plan was kept, or last moved along its revisions."""
    match = _FILE.match(path.name)
    pointer = pointer_path(path.parent, match[1]) if match else path
    return (pointer if pointer.exists() else path).stat().st_mtime_ns


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
    return json_bytes(document.model_dump(mode="json", by_alias=True))


def plan_path(folder: Path, plan_id: str, revision: int) -> Path:
    """Give where a revision of a plan is kept."""
    return folder / f"{plan_id}.r{revision}.json"


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
    path = plan_path(folder, document.core.plan_id, document.core.revision)
    content = plan_bytes(document)
    try:
        folder.mkdir(parents=True, exist_ok=True)
        if path.exists() and read_plan(path).core.digest != document.core.digest:
            raise ChangedMeanwhileError(f"The plan file '{path.name}' holds another plan.")
        write_whole(path, content)
    except OSError as error:
        raise StoreError(f"The plan file '{path.name}' cannot be written.") from error
    return path
