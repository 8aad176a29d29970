"""The pointer file of a plan, `<plan_id>.revisions.json`: which revisions, and which is current.

It holds what was asked, health-classed like the plan files beside it; messages name
the file and the field only.
"""

from pathlib import Path

from roundwright.plan.changing.revisions import Revisions
from roundwright.store.json_files import (
    as_model,
    check_schema,
    json_bytes,
    read_values,
    write_whole,
)

REVISIONS_SCHEMA = "roundwright.revisions/1"
LARGEST_POINTER = 20_000_000
"""Bytes; a change makes about one thousand. Our choice."""
POINTER_END = ".revisions.json"


def pointer_path(folder: Path, plan_id: str) -> Path:
    """Give where the pointer of a plan is kept."""
    return folder / f"{plan_id}{POINTER_END}"


def read_pointer(folder: Path, plan_id: str) -> Revisions | None:
    """Read the revisions of a plan; None where it was never changed.

    Raises
    ------
    StoreError
        The file cannot be read.
    BadInputError
        It is no tree of revisions of this plan, or of a later schema.
    """
    path = pointer_path(folder, plan_id)
    if not path.exists():
        return None
    values = read_values(path, LARGEST_POINTER, "file of revisions")
    check_schema(path.name, values, REVISIONS_SCHEMA)
    del values["schema"]
    return as_model(path.name, values, Revisions)


def write_pointer(revisions: Revisions, folder: Path) -> None:
    """Write the revisions of a plan: old or new, never half.

    Raises
    ------
    OSError
        The file is as it was.
    """
    values = revisions.model_dump(mode="json", by_alias=True) | {"schema": REVISIONS_SCHEMA}
    write_whole(pointer_path(folder, revisions.plan_id), json_bytes(values))
