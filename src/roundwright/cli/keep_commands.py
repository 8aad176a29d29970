"""``roundwright keep``: halls in the database, brought in and taken out; backups; upkeep."""

from pathlib import Path
from typing import Annotated

import typer

from roundwright.bootstrap.keeping import restored
from roundwright.cli.faults_shown import print_json
from roundwright.cli.fit_command import AsJson, HallFolder
from roundwright.cli.keep_desk import (
    DataDir,
    KeptHallId,
    by_command,
    require_short_name,
    settings_of,
    the_database,
)
from roundwright.cli.keep_people_commands import bring_in_people, forget, new_password, person
from roundwright.cli.tables_shown import print_table, say
from roundwright.foundation.errors import StoreError

keep = typer.Typer(
    name="keep", no_args_is_help=True, help="Keep halls in the database; backups and upkeep."
)

HALLS_SCHEMA = "roundwright.halls/1"
BROUGHT_SCHEMA = "roundwright.brought_in/1"
UPKEEP_SCHEMA = "roundwright.upkeep/1"
NewFolder = Annotated[
    Path, typer.Argument(metavar="FOLDER", help="A folder that is not there yet.")
]


@keep.command("list")
def list_halls(data_dir: DataDir = None, as_json: AsJson = False) -> None:
    """List the halls that are kept."""
    with the_database(data_dir) as shelves:
        halls = shelves.halls.halls()
    if as_json:
        listed = [{"hall_id": h.hall_id, "name": h.name, "version": h.version} for h in halls]
        print_json({"schema": HALLS_SCHEMA, "halls": listed})
    elif halls:
        print_table(
            ("Hall", "Name", "Version"), [[[h.hall_id, h.name, str(h.version)] for h in halls]]
        )
    else:
        say("No hall is kept yet. Bring one in: roundwright keep bring-in FOLDER.")


@keep.command("bring-in")
def bring_in(
    folder: HallFolder,
    hall_id: Annotated[
        str | None,
        typer.Option("--as", metavar="HALL", help="Its name here; the folder's when left out."),
    ] = None,
    in_place: Annotated[
        bool, typer.Option("--in-place", help="Take the place of the hall of that name.")
    ] = False,
    data_dir: DataDir = None,
    as_json: AsJson = False,
) -> None:
    """Keep a hall's folder with its plans in the database."""
    name = hall_id or folder.resolve().name
    require_short_name(name, "--as")
    with the_database(data_dir) as shelves:
        version = shelves.halls.version(name) if in_place else None
        brought = shelves.folders.bring_in(folder, name, by_command(), version)
    if as_json:
        print_json(
            {
                "schema": BROUGHT_SCHEMA,
                "hall_id": name,
                "version": brought.hall.version,
                "plans": brought.plans,
                "refused": list(brought.refused),
            }
        )
        return
    plans = _many(brought.plans, "new plan")
    say(f"{brought.hall.hall.settings.name} is kept as {name}, with {plans}.")
    for plan_id in brought.refused:
        say(f"Not kept, as the gate refuses it: plan {plan_id}.")


@keep.command("take-out")
def take_out(hall_id: KeptHallId, folder: NewFolder, data_dir: DataDir = None) -> None:
    """Write a hall with all its plans to a new folder. It holds health: guard it."""
    with the_database(data_dir) as shelves:
        count = shelves.folders.take_out(hall_id, folder, by_command())
    say(f"Written: {folder}, with {_many(count, 'plan')}.")


@keep.command()
def backup(
    file: Annotated[Path, typer.Argument(metavar="FILE", help="Where the copy is written.")],
    data_dir: DataDir = None,
) -> None:
    """Copy the whole database, also while it is in use. It holds health: guard it."""
    with the_database(data_dir) as shelves:
        shelves.upkeep.backup(file)
    say(f"Written and checked: {file}")


@keep.command()
def restore(
    file: Annotated[Path, typer.Argument(metavar="FILE", help="A copy made by backup.")],
    data_dir: DataDir = None,
) -> None:
    """Put a backup in place of the database. Stop Roundwright everywhere else before."""
    aside = restored(settings_of(data_dir), file)
    say("The database is as it was when the backup was made.")
    if aside is not None:
        say(f"The one before is kept: {aside}")
        say("Delete it when you need it no more: it holds health.")


@keep.command("check")
def check_database(data_dir: DataDir = None, as_json: AsJson = False) -> None:
    """Bring the database to the form of this version, and look for damage."""
    with the_database(data_dir) as shelves:
        faults = shelves.upkeep.faults()
        halls = shelves.halls.halls()
        for one in halls:
            shelves.halls.opened(one.hall_id)
    if faults:
        raise StoreError(" ".join(faults), "Restore the last backup.")
    if as_json:
        print_json({"schema": UPKEEP_SCHEMA, "halls": len(halls), "faults": []})
    else:
        say(f"The database is sound; {_many(len(halls), 'hall')} read and checked.")


keep.command("people")(bring_in_people)
keep.command("person")(person)
keep.command("forget")(forget)
keep.command("new-password")(new_password)


def _many(number: int, word: str) -> str:
    return f"{number or 'no'} {word}{'s' * (number != 1)}"
