"""All plans of a folder with all their revisions: read with every fault, written alike."""

import re
from collections.abc import Iterable
from pathlib import Path

from roundwright.foundation.errors import BadInputError, StoreError
from roundwright.foundation.faults import Fault
from roundwright.plan.changing.revisions import Revision, Revisions
from roundwright.plan.document import PlanDocument
from roundwright.store.plan_files import plan_path, read_plan, write_plan
from roundwright.store.revision_pointer import pointer_path, read_pointer, write_pointer

PLANS = "plans"
"""The folder of plans within a hall's folder."""

_FILE = re.compile(r"^([0-9a-f-]{36})\.r([0-9]{1,6})\.json$")


def read_trees(folder: Path) -> tuple[tuple[Revisions, tuple[PlanDocument, ...]], ...]:
    """Read every plan with its revisions, in the order in which the plans were kept.

    Files of revisions that no pointer knows were left by a writer that was stopped; they are
    not read. A folder that is not there holds no plans.

    Raises
    ------
    StoreError
        The folder cannot be listed, or a file not be read.
    BadInputError
        With every fault of every file.
    """
    if not folder.is_dir():
        return ()
    try:
        found = [m for path in folder.iterdir() if (m := _FILE.match(path.name))]
        numbers: dict[str, list[int]] = {}
        for match in found:
            numbers.setdefault(match[1], []).append(int(match[2]))
        ordered = sorted(numbers, key=lambda plan_id: _kept_at(folder, plan_id, numbers[plan_id]))
    except OSError as error:
        raise StoreError(f"The folder '{folder.name}' of plans cannot be read.") from error
    faults: list[Fault] = []
    trees = [_tree(folder, plan_id, sorted(numbers[plan_id]), faults) for plan_id in ordered]
    if faults:
        raise BadInputError(faults)
    return tuple(tree for tree in trees if tree is not None)


def write_trees(trees: Iterable[tuple[Revisions, tuple[PlanDocument, ...]]], folder: Path) -> int:
    """Write plans in the order given, and give how many; a single revision has no pointer.

    Raises
    ------
    StoreError
        A file could not be written.
    """
    count = 0
    for revisions, documents in trees:
        for document in documents:
            write_plan(document, folder)
        if len(revisions.revisions) > 1:
            try:
                write_pointer(revisions, folder)
            except OSError as error:
                raise StoreError(f"The folder '{folder.name}' cannot be written.") from error
        count += 1
    return count


def _kept_at(folder: Path, plan_id: str, numbers: list[int]) -> tuple[int, str]:
    pointer = pointer_path(folder, plan_id)
    path = pointer if pointer.exists() else plan_path(folder, plan_id, max(numbers))
    return path.stat().st_mtime_ns, plan_id


def _tree(
    folder: Path, plan_id: str, numbers: list[int], faults: list[Fault]
) -> tuple[Revisions, tuple[PlanDocument, ...]] | None:
    try:
        pointed = read_pointer(folder, plan_id)
    except BadInputError as error:
        faults += error.faults
        return None
    wanted = [one.revision for one in pointed.revisions] if pointed else numbers
    documents: list[PlanDocument] = []
    before = len(faults)
    for number in wanted:
        name = plan_path(folder, plan_id, number).name
        if number not in numbers:
            faults.append(Fault(code="file.missing", file=name))
            continue
        try:
            document = read_plan(folder / name)
        except BadInputError as error:
            faults += error.faults
            continue
        if (document.core.plan_id, document.core.revision) != (plan_id, number):
            expected = "the plan and the revision of the file's name"
            faults.append(Fault(code="field.value", file=name, field="core", expected=expected))
        elif pointed and pointed.at(number).digest != document.core.digest:
            expected = "the plan that was kept"
            faults.append(Fault(code="field.value", file=name, field="core", expected=expected))
        documents.append(document)
    if len(faults) > before:
        return None
    return pointed or _begun(documents), tuple(documents)


def _begun(documents: list[PlanDocument]) -> Revisions:
    """Give revisions that no pointer tells of, each after the one before; the last is current."""
    row = tuple(
        Revision(
            revision=one.core.revision,
            parent=documents[n - 1].core.revision if n else None,
            digest=one.core.digest,
        )
        for n, one in enumerate(documents)
    )
    core = documents[-1].core
    return Revisions(plan_id=core.plan_id, revisions=row, current=core.revision)
