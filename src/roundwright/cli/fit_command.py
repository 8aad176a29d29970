"""``roundwright fit``: fit a class, keep the plan, print who does what."""

from datetime import date, datetime
from enum import StrEnum
from pathlib import Path
from typing import Annotated

import typer

from roundwright.bootstrap.planning import class_search
from roundwright.bootstrap.wiring import wired
from roundwright.cli.faults_shown import print_json, tell_error
from roundwright.cli.kept_plan_shown import (
    SHEET_KINDS,
    draft_words,
    plan_values,
    print_kept_plan,
    write_sheet,
)
from roundwright.cli.outcome_words import no_plan_error, on_time_words
from roundwright.cli.tables_shown import say
from roundwright.foundation.seeds import DEFAULT_SEED
from roundwright.plan.outcome import Budget
from roundwright.services.check_plan import refusal_of
from roundwright.services.fit_class import FitRequest, fit_class
from roundwright.services.late_class import with_ways_on_time
from roundwright.services.names import names_of

FIT_SCHEMA = "roundwright.fit/1"


class Paper(StrEnum):
    """Paper of a printed sheet."""

    A4 = "a4"
    LETTER = "letter"


HallFolder = Annotated[Path, typer.Argument(metavar="HALL", help="The hall's folder.")]
ClassId = Annotated[
    str, typer.Argument(metavar="CLASS", help="The class: the name of its file in classes/.")
]
OnDay = Annotated[
    datetime | None,
    typer.Option(
        "--on",
        formats=["%Y-%m-%d"],
        metavar="DATE",
        help="Day, or the first day it may be, as 2026-03-03; today when left out.",
    ),
]
AsJson = Annotated[bool, typer.Option("--json", help="Print one JSON document instead of words.")]
Seed = Annotated[int, typer.Option(min=0, help="Equal seeds give equal plans.")]
SearchBudget = Annotated[Budget, typer.Option(help="How much work to search.")]
PlansFolder = Annotated[
    Path | None,
    typer.Option(metavar="FOLDER", help="Where the plan goes; HALL/plans when left out."),
]
SheetFile = Annotated[
    Path | None,
    typer.Option(metavar="FILE", help="Also write the class sheet, as .pdf or .html."),
]
SheetPaper = Annotated[
    Paper | None, typer.Option(help="Paper of the sheet; the hall's own when left out.")
]


def day_of(on: datetime | None) -> date | None:
    """Give the day that was typed."""
    return on.date() if on else None


def fit(
    hall_folder: HallFolder,
    class_id: ClassId,
    on: OnDay = None,
    seed: Seed = DEFAULT_SEED,
    budget: SearchBudget = Budget.NORMAL,
    out: PlansFolder = None,
    sheet: SheetFile = None,
    paper: SheetPaper = None,
    as_json: AsJson = False,
) -> None:
    """Fit a class to its people and kit, and keep the plan."""
    if sheet is not None and sheet.suffix.lower() not in SHEET_KINDS:
        raise typer.BadParameter("a sheet's name ends in .pdf or .html", param_hint="--sheet")
    adapters = wired()
    hall = adapters.hall(hall_folder)
    request = FitRequest(class_id, day_of(on), seed, budget)
    fitted = fit_class(
        hall,
        request,
        planner=adapters.planner,
        clock=adapters.clock,
        ids=adapters.ids,
        rehearse=adapters.rehearse,
    )
    names = names_of(fitted.problem, hall)
    if fitted.document is None:
        units = hall.settings.units
        error = no_plan_error(fitted.outcome, fitted.problem, names, units)
        more = {"outcome": fitted.outcome.model_dump(mode="json", by_alias=True)}
        raise typer.Exit(tell_error(error, as_json, more))
    document = with_ways_on_time(fitted.document, seed, class_search())
    path = adapters.keep(document, out or hall_folder / "plans")
    refusal = refusal_of(document)
    written = sheet if refusal is None else None
    if written is not None:
        write_sheet(adapters, document, hall, written, (paper or hall.settings.paper).value)
    if as_json:
        told = plan_values(document, path, refusal, FIT_SCHEMA)
        print_json(told if refusal is None else refusal.as_problem() | {"plan": told})
    else:
        print_kept_plan(document, names, hall, path, written)
        for line in on_time_words(document, names, hall.settings.units):
            say(line)
    if refusal is not None:
        if not as_json:
            tell_error(draft_words(), as_json)
        raise typer.Exit(refusal.exit_code)
