"""``roundwright print``: what a class needs on paper, or as a calendar file."""

from pathlib import Path
from typing import Annotated

import typer

from roundwright.bootstrap.printing import Printed, PrintWish, print_plan
from roundwright.bootstrap.wiring import wired
from roundwright.cli.check_command import PlanFile
from roundwright.cli.faults_shown import print_json
from roundwright.cli.fit_command import AsJson, SheetPaper
from roundwright.cli.tables_shown import say
from roundwright.documents.plan_pages_pdf import CardSize

PRINT_SCHEMA = "roundwright.print/1"


def print_(
    plan_file: PlanFile,
    hall_folder: Annotated[
        Path,
        typer.Option("--hall", metavar="HALL", help="The hall: names, units, and who is there."),
    ],
    out: Annotated[Path, typer.Option("--out", metavar="FOLDER", help="Where the files go.")],
    what: Annotated[
        list[Printed] | None,
        typer.Option("--what", help="What to print; may be given several times. All if left out."),
    ] = None,
    paper: SheetPaper = None,
    html: Annotated[
        bool, typer.Option("--html", help="Plain pages without script instead of PDF.")
    ] = False,
    card_size: Annotated[
        CardSize, typer.Option("--card-size", help="A station card on half a page or a whole one.")
    ] = CardSize.HALF,
    names: Annotated[
        bool, typer.Option("--names", help="Write who takes part into the calendar file.")
    ] = False,
    as_json: AsJson = False,
) -> None:
    """Print what a class needs: sheet, cards, personal sheets, room, script, calendar."""
    adapters = wired()
    document = adapters.plan(plan_file)
    hall = adapters.hall(hall_folder)
    size = (paper or hall.settings.paper).value
    wish = PrintWish(
        what=tuple(what or Printed),
        paper="letter" if size == "letter" else "a4",
        form="html" if html else "pdf",
        card_size=card_size,
        with_names=names,
    )
    written = print_plan(adapters, document, hall, wish, out)
    if as_json:
        print_json(
            {
                "schema": PRINT_SCHEMA,
                "plan_id": document.core.plan_id,
                "revision": document.core.revision,
                "digest": document.core.digest,
                "files": [str(path) for path in written],
            }
        )
        return
    for path in written:
        say(f"Printed: {path}")
