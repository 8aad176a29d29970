"""``roundwright rehearse``: play a plan through, to see if it ends in time and who waits."""

from pathlib import Path
from typing import Annotated

import typer

from roundwright.bootstrap.wiring import wired
from roundwright.cli.check_command import PlanFile
from roundwright.cli.faults_shown import print_json
from roundwright.cli.fit_command import AsJson
from roundwright.cli.plan_words import heading_words
from roundwright.cli.tables_shown import say
from roundwright.foundation.seeds import DEFAULT_SEED
from roundwright.rehearsal.play import USUAL_PLAYS
from roundwright.rehearsal.rehearsal_words import lines_of
from roundwright.rehearsal.report import rehearse as rehearsed
from roundwright.services.names import names_of

MOST_PLAYS = 100_000


def rehearse(
    plan_file: PlanFile,
    hall_folder: Annotated[
        Path | None,
        typer.Option("--hall", metavar="HALL", help="A hall, for people's names."),
    ] = None,
    plays: Annotated[
        int, typer.Option("--plays", min=1, max=MOST_PLAYS, help="How often it is played.")
    ] = USUAL_PLAYS,
    seed: Annotated[
        int, typer.Option("--seed", min=0, help="Equal seeds give equal plays.")
    ] = DEFAULT_SEED,
    as_json: AsJson = False,
) -> None:
    """Play a plan through many times: does it end in time, who waits."""
    adapters = wired()
    document = adapters.plan(plan_file)
    report = rehearsed(document.core, document.problem, seed=seed, plays=plays)
    if as_json:
        print_json(report.model_dump(mode="json", by_alias=True))
        return
    hall = adapters.hall(hall_folder) if hall_folder else None
    names = names_of(document.problem, hall)
    say(heading_words(document.core, document.problem))
    for line in lines_of(report, names.person, names.exercise, names.movement):
        say(line)
