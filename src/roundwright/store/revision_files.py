"""The revisions of one plan in a folder: read, grown by a change, moved along by undo and redo.

What is written is guarded by a lock on the folder and compared with what was read before, so
that of two that change the same plan at once one is told so. The pointer is written last: a
writer that is stopped leaves the plan as it was.
"""

import os
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

from roundwright.foundation.errors import ChangedMeanwhileError, NotFoundError, StoreError
from roundwright.plan.changing.revisions import Revisions, Step
from roundwright.plan.document import PlanDocument
from roundwright.store.plan_files import plan_path, read_plan, write_plan
from roundwright.store.revision_pointer import POINTER_END, read_pointer, write_pointer

if sys.platform != "win32":
    import fcntl


@dataclass(frozen=True, slots=True)
class OpenedPlan:
    """A plan that is to be changed: the named revision, all revisions, and where they are."""

    document: PlanDocument
    revisions: Revisions
    folder: Path

    @property
    def path(self) -> Path:
        """The file of the named revision."""
        return plan_path(self.folder, self.document.core.plan_id, self.document.core.revision)


def open_plan(path: Path) -> OpenedPlan:
    """Open a plan by the file of one of its revisions, or by its pointer for the current one.

    Raises
    ------
    NotFoundError
        There is no such file, or the plan has no such revision.
    StoreError
        A file cannot be read.
    BadInputError
        A file is no plan, or no tree of revisions.
    """
    if path.name.endswith(POINTER_END):
        plan_id = path.name.removesuffix(POINTER_END)
        pointed = read_pointer(path.parent, plan_id)
        if pointed is None:
            raise NotFoundError(f"There is no file of revisions '{path.name}'.")
        return OpenedPlan(
            read_revision(pointed, pointed.current, path.parent), pointed, path.parent
        )
    document = read_plan(path)
    core = document.core
    revisions = read_pointer(path.parent, core.plan_id)
    if revisions is None:
        revisions = Revisions.begun(core.plan_id, core.digest, core.revision)
    elif revisions.at(core.revision).digest != core.digest:
        raise ChangedMeanwhileError(f"The plan file '{path.name}' is not what was kept.")
    return OpenedPlan(document, revisions, path.parent)


def read_revision(revisions: Revisions, revision: int, folder: Path) -> PlanDocument:
    """Read one revision as it was kept.

    Raises
    ------
    NotFoundError
        The plan has no such revision, or its file is gone.
    ChangedMeanwhileError
        The file holds another plan than the one that was kept.
    """
    digest = revisions.at(revision).digest
    path = plan_path(folder, revisions.plan_id, revision)
    document = read_plan(path)
    if document.core.digest != digest:
        raise ChangedMeanwhileError(f"The plan file '{path.name}' is not what was kept.")
    return document


def read_steps(opened: OpenedPlan) -> tuple[Step, ...]:
    """Read every change from the first revision to the one that was opened, oldest first.

    Raises
    ------
    NotFoundError
        The file of a revision on the way is gone.
    ChangedMeanwhileError
        A file holds another plan than the one that was kept.
    """
    way = opened.revisions.way_to(opened.document.core.revision)
    kept = [read_revision(opened.revisions, one.revision, opened.folder) for one in way[:-1]]
    documents = [*kept, opened.document]
    return tuple(
        Step(before, one.change, after)
        for before, one, after in zip(documents, way[1:], documents[1:], strict=False)
        if one.change is not None
    )


def keep_change(document: PlanDocument, grown: Revisions, before: Revisions, folder: Path) -> Path:
    """Keep a change: the new revision, then the pointer to it.

    Parameters
    ----------
    document : PlanDocument
        The plan after the change.
    grown, before : Revisions
        With and without the change.

    Raises
    ------
    ChangedMeanwhileError
        The plan was changed, or moved along its revisions, since `before` was read.
    StoreError
        Nothing was changed.
    """
    with _locked(folder):
        _require_unmoved(before, folder)
        path = plan_path(folder, document.core.plan_id, document.core.revision)
        try:
            path.unlink(missing_ok=True)  # left by a writer that was stopped: never pointed to
        except OSError as error:
            raise StoreError(f"The plan file '{path.name}' cannot be written.") from error
        write_plan(document, folder)
        _point(grown, folder)
    return path


def move_pointer(moved: Revisions, before: Revisions, folder: Path) -> PlanDocument:
    """Point to another revision and give it, as it was kept.

    Raises
    ------
    ChangedMeanwhileError
        The plan was changed, or moved along its revisions, since `before` was read.
    StoreError
        Nothing was changed.
    """
    with _locked(folder):
        _require_unmoved(before, folder)
        document = read_revision(moved, moved.current, folder)
        _point(moved, folder)
    return document


def _require_unmoved(before: Revisions, folder: Path) -> None:
    now = read_pointer(folder, before.plan_id)
    if now is None and len(before.revisions) == 1:
        return
    if now is None:
        raise ChangedMeanwhileError("The plan's file of revisions is gone.")
    now.require_current(before.current)
    if now != before:
        raise ChangedMeanwhileError(
            "The plan was changed and changed back meanwhile.",
            "Look at the plan as it is now, then ask again.",
        )


def _point(revisions: Revisions, folder: Path) -> None:
    try:
        write_pointer(revisions, folder)
    except OSError as error:
        raise StoreError("The plan's file of revisions cannot be written.") from error


@contextmanager
def _locked(folder: Path) -> Iterator[None]:
    """Hold the folder for one writer at a time; a writer that dies lets go."""
    try:
        handle = os.open(folder, os.O_RDONLY)
    except OSError as error:
        raise StoreError(f"The folder '{folder.name}' of plans cannot be read.") from error
    try:
        if sys.platform != "win32":
            fcntl.flock(handle, fcntl.LOCK_EX)
        yield
    finally:
        os.close(handle)
