"""``roundwright change undo``, ``redo`` and ``history``: along the revisions of a plan."""

from pathlib import Path
from typing import Any

import typer

from roundwright.bootstrap.wiring import wired
from roundwright.cli.change_desk import HallOption, PlanFile, hall_of
from roundwright.cli.faults_shown import print_json
from roundwright.cli.fit_command import AsJson
from roundwright.cli.tables_shown import say
from roundwright.foundation.errors import ChangedMeanwhileError
from roundwright.plan.changing.revisions import Revisions
from roundwright.services.changing.moves import Way, moved, named_error
from roundwright.services.changing.moves import history as history_of
from roundwright.services.changing.said_words import with_names
from roundwright.services.names import everyone_of
from roundwright.store.plan_files import plan_path

MOVED_SCHEMA = "roundwright.moved/1"
HISTORY_SCHEMA = "roundwright.history/1"
FIRST = "The first plan."


def undo(plan_file: PlanFile, hall_folder: HallOption = None, as_json: AsJson = False) -> None:
    """Go back to the plan before the last change."""
    _move("undo", plan_file, hall_folder, as_json)


def redo(plan_file: PlanFile, hall_folder: HallOption = None, as_json: AsJson = False) -> None:
    """Go on to the change that was undone last."""
    _move("redo", plan_file, hall_folder, as_json)


def history(plan_file: PlanFile, hall_folder: HallOption = None, as_json: AsJson = False) -> None:
    """Tell every revision of a plan, and which one is current."""
    adapters = wired()
    opened = adapters.opened(plan_file)
    lines = history_of(opened.revisions)
    if as_json:
        print_json(
            {
                "schema": HISTORY_SCHEMA,
                "plan_id": opened.revisions.plan_id,
                "current": opened.revisions.current,
                "revisions": [
                    {
                        "revision": one.revision,
                        "parent_revision": one.parent,
                        "digest": one.digest,
                        "sentence": one.sentence,
                        "is_current": one.is_current,
                        "leads_to_current": one.is_on_the_way,
                    }
                    for one in lines
                ],
            }
        )
        return
    names = everyone_of(
        opened.document, opened.revisions, adapters.hall(hall_of(plan_file, hall_folder))
    )
    for one in lines:
        mark = "*" if one.is_current else " " if one.is_on_the_way else "-"
        after = f" (on {one.parent})" if one.parent is not None else ""
        say(f"{mark} {one.revision}{after}  {with_names(one.sentence, names) or FIRST}")
    say("* is the current plan; - was undone, or is a branch that was left.")


def _move(way: Way, plan_file: Path, hall_folder: Path | None, as_json: bool) -> None:
    adapters = wired()
    opened = adapters.opened(plan_file)
    names = everyone_of(
        opened.document, opened.revisions, adapters.hall(hall_of(plan_file, hall_folder))
    )
    before = opened.revisions
    try:
        after = moved(before, way, opened.document.core.revision)
        document = adapters.move(after, before, opened.folder)
    except ChangedMeanwhileError as error:
        raise named_error(error, names) from error
    path = plan_path(opened.folder, after.plan_id, after.current)
    sentence = before.at(before.current if way == "undo" else after.current).sentence
    if as_json:
        print_json(_values(way, after, path, sentence, document.core.digest))
        return
    say(f"{'Undone' if way == 'undo' else 'Done again'}: {with_names(sentence, names)}")
    typer.echo(f"Plan: {path}")


def _values(way: Way, after: Revisions, path: Path, sentence: str, digest: str) -> dict[str, Any]:
    return {
        "schema": MOVED_SCHEMA,
        "way": way,
        "plan_id": after.plan_id,
        "revision": after.current,
        "digest": digest,
        "path": str(path),
        "sentence": sentence,
        "can_undo": after.can_undo,
        "can_redo": after.can_redo,
    }
