"""``roundwright keep people``, ``person`` and ``forget``: people of a hall in the database."""

from pathlib import Path
from typing import Annotated

import typer

from roundwright.bootstrap.house import door_of
from roundwright.bootstrap.wiring import wired
from roundwright.cli.faults_shown import print_json, tell_error
from roundwright.cli.fit_command import AsJson
from roundwright.cli.keep_desk import (
    DataDir,
    KeptHallId,
    KeptPerson,
    by_command,
    person_in,
    the_database,
)
from roundwright.cli.tables_shown import print_table, say
from roundwright.foundation.errors import BadInputError
from roundwright.services.keeping.people_import import PeoplePreview, preview_people

PEOPLE_SCHEMA = "roundwright.people_preview/1"
HOW = {
    "exact": "",
    "near": "nearest name",
    "chosen": "as you chose",
    "not_used": "not used",
    "not_allowed": "not allowed",
}


def bring_in_people(
    hall_id: KeptHallId,
    file: Annotated[Path, typer.Argument(metavar="LIST", help="People as CSV.")],
    column: Annotated[
        list[str] | None,
        typer.Option(
            metavar="HEADER=COLUMN", help="What a column of the list is; COLUMN empty: not used."
        ),
    ] = None,
    keep_it: Annotated[
        bool, typer.Option("--keep", help="Keep it; without this it is only shown.")
    ] = False,
    data_dir: DataDir = None,
    as_json: AsJson = False,
) -> None:
    """Show what a list of people would change, and keep it with --keep."""
    choice = dict(map(_choice, column or ()))
    content = wired().text(file).encode()
    with the_database(data_dir) as shelves:
        preview = preview_people(
            file.name,
            content,
            shelves.halls.opened(hall_id),
            shelves.halls.person_ids(hall_id),
            may_health=True,
            choice=choice,
        )
        if preview.faults:
            if not as_json:
                _say_columns(preview)
            raise typer.Exit(tell_error(BadInputError(preview.faults), as_json))
        if keep_it:
            shelves.halls.edit(hall_id, preview.edits, by_command())
    if as_json:
        print_json(_values(preview) | {"kept": keep_it})
        return
    _say_columns(preview)
    rows = [
        [str(row.line), row.shown_name, row.person_id, row.state, ", ".join(row.fields)]
        for row in preview.rows
    ]
    print_table(("Line", "Person", "Id", "", "Changed"), [rows])
    say("Kept." if keep_it else "Nothing was kept. Add --keep when it is right.")


def person(
    hall_id: KeptHallId,
    who: KeptPerson,
    folder: Annotated[
        Path, typer.Argument(metavar="FOLDER", help="A folder that is not there yet.")
    ],
    data_dir: DataDir = None,
) -> None:
    """Write everything that is kept of one person, for that person, to a new folder."""
    with the_database(data_dir) as shelves:
        person_id = person_in(shelves.halls.opened(hall_id).hall, who)
        shelves.people.take_out(hall_id, person_id, folder, by_command())
    say(f"Written: {folder}. It holds health: give it to {person_id} alone.")


def forget(
    hall_id: KeptHallId,
    who: KeptPerson,
    for_good: Annotated[
        bool, typer.Option("--for-good", help="Yes, delete: nothing brings it back.")
    ] = False,
    data_dir: DataDir = None,
) -> None:
    """Delete a person for good: records, health, places in classes, entries in plans."""
    with the_database(data_dir) as shelves:
        person_id = person_in(shelves.halls.opened(hall_id).hall, who)
        if not for_good:
            raise typer.BadParameter(
                f"{person_id} would be deleted for good; say --for-good to do it",
                param_hint="--for-good",
            )
        emptied = shelves.halls.forget_person(hall_id, person_id, by_command())
    say(f"{person_id} is deleted; kept plans that were emptied of their entries: {emptied}.")
    say("Backups and folders that were taken out before still hold them: delete those too.")


def _choice(text: str) -> tuple[str, str | None]:
    header, equals, column = text.rpartition("=")
    if not equals:
        raise typer.BadParameter("expected HEADER=COLUMN", param_hint="--column")
    return header, column or None


def _say_columns(preview: PeoplePreview) -> None:
    rows = [[one.header, one.column or "-", HOW[one.how]] for one in preview.columns]
    if rows:
        print_table(("In the list", "Taken for", ""), [rows])


def _values(preview: PeoplePreview) -> dict[str, object]:
    return {
        "schema": PEOPLE_SCHEMA,
        "columns": [
            {"header": c.header, "column": c.column, "how": c.how, "nearest": list(c.nearest)}
            for c in preview.columns
        ],
        "rows": [
            {"line": r.line, "person_id": r.person_id, "state": r.state, "fields": list(r.fields)}
            for r in preview.rows
        ],
    }


def new_password(
    name: Annotated[str, typer.Argument(metavar="NAME", help="The name to sign in with.")],
    password: Annotated[
        str,
        typer.Option(
            prompt="New password",
            hide_input=True,
            confirmation_prompt="Once more",
            help="Asked for when left out, which is best.",
        ),
    ],
    data_dir: DataDir = None,
) -> None:
    """Set a forgotten password anew; whoever has it must sign in again."""
    with the_database(data_dir) as shelves:
        kept = door_of(shelves).set_password(name.lower(), password, by_command())
    say(f"{kept.shown_name} signs in with the new password.")
