"""``roundwright write-class``: a class in plain words is read back, and kept when it is plain."""

import sys
from dataclasses import asdict
from pathlib import Path
from typing import Annotated, Any

import typer

from roundwright.bootstrap.wiring import wired
from roundwright.cli.faults_shown import print_json, tell_error
from roundwright.cli.fit_command import AsJson, HallFolder
from roundwright.cli.tables_shown import say
from roundwright.foundation.errors import BadInputError, StoreError
from roundwright.foundation.identifiers import is_slug
from roundwright.goals.quick_entry.results import Outcome, QuickEntry
from roundwright.services.write_class import class_files, class_in_plain_words, faults_of

FROM_THE_KEYBOARD = Path("-")


def write_class(
    hall_folder: HallFolder,
    file: Annotated[
        Path, typer.Argument(metavar="[FILE]", help="A text file; - or none: what is typed in.")
    ] = FROM_THE_KEYBOARD,
    keep_as: Annotated[
        str | None,
        typer.Option(
            metavar="CLASS", help="Also keep it as classes/CLASS.toml of the hall, a new file."
        ),
    ] = None,
    as_json: AsJson = False,
) -> None:
    """Read a class in plain words, and say how it was understood."""
    if keep_as is not None and not is_slug(keep_as):
        expected = "2 to 41 of a-z, 0-9 and _, beginning with a letter"
        raise typer.BadParameter(f"expected {expected}", param_hint="--keep-as")
    adapters = wired()
    hall = adapters.hall(hall_folder)
    typed_in = file == FROM_THE_KEYBOARD
    text = sys.stdin.read() if typed_in else adapters.text(file)
    entry = class_in_plain_words(hall, text)
    if not as_json:
        _say(entry)
    faults = faults_of(entry, hall, "what was typed" if typed_in else str(file))
    if faults:
        more = {"read_back": entry.read_back, "lines": [[o.line, o.outcome] for o in entry.lines]}
        raise typer.Exit(tell_error(BadInputError(faults), as_json, more))
    kept = {}
    if keep_as is not None:
        kept = class_files(hall, adapters.catalogue(), [(keep_as, entry)])
        _write(kept, hall_folder)
    if as_json:
        print_json(_values(entry) | {"files": list(kept)})
        return
    for name in kept:
        say(f"Written: {hall_folder / name}")


def _write(files: dict[str, str], folder: Path) -> None:
    """Write new files, or none when one of that name is there."""
    for name in files:
        if (folder / name).exists():
            raise StoreError(f"{folder / name} is there already.", "Choose another name.")
    for name, text in files.items():
        wired().write_text(folder / name, text)


def _say(entry: QuickEntry) -> None:
    """Say how each piece was understood where it is not as written, then the class as a whole."""
    for reading in entry.readings:
        if reading.outcome is Outcome.UNDERSTOOD and "(" in reading.says:
            say(f"Line {reading.line}: {reading.words}: {reading.says}.")
    say("The class as it was understood:" if entry.wish else "Understood so far:")
    for line in entry.read_back:
        say(f"  {line}")


def _values(entry: QuickEntry) -> dict[str, Any]:
    wish = None if entry.wish is None else entry.wish.model_dump(mode="json", by_alias=True)
    return asdict(entry) | {"wish": wish}
