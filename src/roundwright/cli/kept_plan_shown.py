"""A plan that was kept: told in words or as one JSON document, and its sheet written."""

from collections.abc import Sequence
from pathlib import Path
from typing import Any

from roundwright.bootstrap.wiring import Adapters
from roundwright.cli.outcome_words import not_today_words
from roundwright.cli.tables_shown import print_findings, print_plan, say
from roundwright.foundation.errors import RoundwrightError, StoreError, UnsafePlanError
from roundwright.hall.hall import Hall
from roundwright.plan.document import PlanDocument
from roundwright.plan.outcome import Status
from roundwright.services.count_plan import count_plan
from roundwright.services.names import Names

SHEET_KINDS = (".pdf", ".html")


def draft_words() -> UnsafePlanError:
    """Give what is told of a plan that the gate stops."""
    return UnsafePlanError(
        "The plan is kept as a draft: it may not be printed or started as it is.",
        "Mend what stops it, then make it again.",
    )


def write_sheet(
    adapters: Adapters, document: PlanDocument, hall: Hall, path: Path, paper: str
) -> None:
    """Write the class sheet of a plan that the gate lets through.

    Raises
    ------
    StoreError
        It could not be written.
    """
    content = adapters.sheet(document, hall)
    if path.suffix.lower() == ".pdf":
        made = adapters.sheet_pdf(content, "letter" if paper == "letter" else "a4")
    else:
        html = adapters.sheet_html(content, "letter" if paper == "letter" else "a4")
        made = html.encode("utf-8")
    try:
        path.write_bytes(made)
    except OSError as error:
        raise StoreError(f"The sheet could not be written to {path}: {error.strerror}.") from error


def plan_values(
    document: PlanDocument, path: Path, refusal: RoundwrightError | None, schema: str
) -> dict[str, Any]:
    """Give a plan without its problem, which is health-classed and stays in the file."""
    return {
        "schema": schema,
        "path": str(path),
        "digest": document.core.digest,
        "is_draft": refusal is not None,
        "outcome": document.outcome.model_dump(mode="json", by_alias=True),
        "verdict": document.verdict.model_dump(mode="json", by_alias=True),
        "facts": document.facts.model_dump(mode="json", by_alias=True),
        "core": document.core.model_dump(mode="json", by_alias=True),
    }


def print_kept_plan(
    document: PlanDocument,
    names: Names,
    hall: Hall,
    path: Path,
    sheet: Path | None,
    why: Sequence[str] = (),
) -> None:
    """Print who does what, why this class, what the gate found, and where the plan is."""
    units = hall.settings.units
    print_plan(document.core, document.problem, count_plan(document), names, units)
    for line in why:
        say(line)
    if document.outcome.status is Status.FOUND:
        say("A better plan may exist; a larger budget searches on.")
    for line in not_today_words(document.outcome, names):
        say(line)
    print_findings(document.verdict.findings, names)
    say(f"Plan: {path}")
    if sheet is not None:
        say(f"Class sheet: {sheet}")
