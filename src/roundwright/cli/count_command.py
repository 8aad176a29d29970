"""``roundwright count``: what a plan comes to, by person and movement."""

from pathlib import Path
from typing import Annotated

import typer

from roundwright.bootstrap.wiring import wired
from roundwright.cli.check_command import PlanFile
from roundwright.cli.faults_shown import print_json
from roundwright.cli.fit_command import AsJson
from roundwright.cli.tables_shown import print_count
from roundwright.services.count_plan import count_plan
from roundwright.services.names import names_of


def count(
    plan_file: PlanFile,
    hall_folder: Annotated[
        Path | None,
        typer.Option("--hall", metavar="HALL", help="A hall, for people's names and its units."),
    ] = None,
    as_json: AsJson = False,
) -> None:
    """Count a plan: reps by movement and side, contacts, weight lifted, sets, times."""
    adapters = wired()
    document = adapters.plan(plan_file)
    counted = count_plan(document)
    if as_json:
        print_json(counted.model_dump(mode="json", by_alias=True))
        return
    hall = adapters.hall(hall_folder) if hall_folder else None
    units = hall.settings.units if hall else "kg"
    print_count(counted, document.problem, names_of(document.problem, hall), units)
