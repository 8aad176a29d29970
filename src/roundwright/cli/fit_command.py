"""``roundwright fit``: fit a class, keep the plan, print who does what."""

from datetime import date, datetime
from enum import StrEnum
from pathlib import Path
from typing import Annotated, Any

import typer

from roundwright.bootstrap.wiring import Adapters, wired
from roundwright.cli.faults_shown import print_json, tell_error
from roundwright.cli.outcome_words import not_today_words, outcome_words
from roundwright.cli.tables_shown import print_findings, print_plan, say
from roundwright.foundation.errors import (
    NoPlanError,
    RoundwrightError,
    StoreError,
    UndecidedError,
    UnsafePlanError,
)
from roundwright.foundation.seeds import DEFAULT_SEED
from roundwright.hall.hall import Hall
from roundwright.plan.document import PlanDocument
from roundwright.plan.outcome import Budget, Status
from roundwright.services.check_plan import refusal_of
from roundwright.services.count_plan import count_plan
from roundwright.services.fit_class import FitRequest, FittedClass, fit_class
from roundwright.services.names import Names, names_of

FIT_SCHEMA = "roundwright.fit/1"
SHEET_KINDS = (".pdf", ".html")


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


def day_of(on: datetime | None) -> date | None:
    """Give the day that was typed."""
    return on.date() if on else None


def fit(
    hall_folder: HallFolder,
    class_id: ClassId,
    on: OnDay = None,
    seed: Annotated[int, typer.Option(min=0, help="Equal seeds give equal plans.")] = DEFAULT_SEED,
    budget: Annotated[Budget, typer.Option(help="How much work to search.")] = Budget.NORMAL,
    out: Annotated[
        Path | None,
        typer.Option(metavar="FOLDER", help="Where the plan goes; HALL/plans when left out."),
    ] = None,
    sheet: Annotated[
        Path | None,
        typer.Option(metavar="FILE", help="Also write the class sheet, as .pdf or .html."),
    ] = None,
    paper: Annotated[
        Paper | None, typer.Option(help="Paper of the sheet; the hall's own when left out.")
    ] = None,
    as_json: AsJson = False,
) -> None:
    """Fit a class to its people and kit, and keep the plan."""
    if sheet is not None and sheet.suffix.lower() not in SHEET_KINDS:
        raise typer.BadParameter("a sheet's name ends in .pdf or .html", param_hint="--sheet")
    adapters = wired()
    hall = adapters.hall(hall_folder)
    request = FitRequest(class_id, day_of(on), seed, budget)
    fitted = fit_class(
        hall, request, planner=adapters.planner, clock=adapters.clock, ids=adapters.ids
    )
    names = names_of(fitted.problem, hall)
    if fitted.document is None:
        error = _no_plan(fitted, names, hall)
        more = {"outcome": fitted.outcome.model_dump(mode="json", by_alias=True)}
        raise typer.Exit(tell_error(error, as_json, more))
    document = fitted.document
    path = adapters.keep(document, out or hall_folder / "plans")
    refusal = refusal_of(document)
    if sheet is not None and refusal is None:
        _write_sheet(adapters, document, hall, sheet, paper or Paper(hall.settings.paper))
    if as_json:
        _tell_json(document, path, refusal)
    else:
        _tell_words(document, names, hall, path, sheet if refusal is None else None)
    if refusal is not None:
        if not as_json:
            tell_error(_draft_words(), as_json)
        raise typer.Exit(refusal.exit_code)


def _no_plan(fitted: FittedClass, names: Names, hall: Hall) -> RoundwrightError:
    units = hall.settings.units
    lines = "\n".join(outcome_words(fitted.outcome, fitted.problem, names, units))
    kind = NoPlanError if fitted.outcome.status is Status.IMPOSSIBLE else UndecidedError
    return kind(lines)


def _draft_words() -> UnsafePlanError:
    return UnsafePlanError(
        "The plan is kept as a draft: it may not be printed or started as it is.",
        "Mend what stops it, then fit it again.",
    )


def _write_sheet(
    adapters: Adapters, document: PlanDocument, hall: Hall, path: Path, paper: Paper
) -> None:
    content = adapters.sheet(document, hall)
    if path.suffix.lower() == ".pdf":
        made = adapters.sheet_pdf(content, paper.value)
    else:
        made = adapters.sheet_html(content, paper.value).encode("utf-8")
    try:
        path.write_bytes(made)
    except OSError as error:
        raise StoreError(f"The sheet could not be written to {path}: {error.strerror}.") from error


def _tell_json(document: PlanDocument, path: Path, refusal: UnsafePlanError | None) -> None:
    """Print the plan without its problem, which is health-classed and stays in the file."""
    told: dict[str, Any] = {
        "schema": FIT_SCHEMA,
        "path": str(path),
        "digest": document.core.digest,
        "is_draft": refusal is not None,
        "outcome": document.outcome.model_dump(mode="json", by_alias=True),
        "verdict": document.verdict.model_dump(mode="json", by_alias=True),
        "facts": document.facts.model_dump(mode="json", by_alias=True),
        "core": document.core.model_dump(mode="json", by_alias=True),
    }
    print_json(told if refusal is None else refusal.as_problem() | {"plan": told})


def _tell_words(
    document: PlanDocument, names: Names, hall: Hall, path: Path, sheet: Path | None
) -> None:
    units = hall.settings.units
    print_plan(document.core, document.problem, count_plan(document), names, units)
    if document.outcome.status is Status.FOUND:
        say("A better plan may exist; a larger budget searches on.")
    for line in not_today_words(document.outcome, names):
        say(line)
    print_findings(document.verdict.findings, names)
    say(f"Plan: {path}")
    if sheet is not None:
        say(f"Class sheet: {sheet}")
