"""``roundwright check``: have the gate judge a plan again, by itself or by the hall of today."""

from pathlib import Path
from typing import Annotated, Any

import typer

from roundwright.bootstrap.wiring import wired
from roundwright.cli.change_desk import PlanFile as KeptPlan
from roundwright.cli.faults_shown import print_json, tell_error
from roundwright.cli.fit_command import AsJson
from roundwright.cli.plan_words import finish_words, heading_words
from roundwright.cli.tables_shown import print_findings, say
from roundwright.foundation.errors import UnsafePlanError
from roundwright.plan.document import PlanDocument
from roundwright.plan.gate.words import words_of
from roundwright.services.changing.said_words import with_names
from roundwright.services.check_plan import PlanCheck, check_plan
from roundwright.services.names import Names, names_of
from roundwright.store.revision_pointer import POINTER_END

CHECK_SCHEMA = "roundwright.check/1"
PlanFile = Annotated[Path, typer.Argument(metavar="PLAN", help="The plan's file.")]


def check(
    plan_file: KeptPlan,
    hall_folder: Annotated[
        Path | None,
        typer.Option(
            "--hall",
            metavar="HALL",
            help="Judge by this hall as it is today, not by what the plan was made for.",
        ),
    ] = None,
    as_json: AsJson = False,
) -> None:
    """Check a plan: everything that the gate finds, in words."""
    adapters = wired()
    hall = adapters.hall(hall_folder) if hall_folder else None
    if hall is None and not plan_file.name.endswith(POINTER_END):
        document = adapters.plan(plan_file)
        checked = check_plan(document)
    else:
        opened = adapters.opened(plan_file)
        document = opened.document
        checked = check_plan(document, hall, adapters.steps(opened) if hall else ())
    names = names_of(checked.problem, hall)
    everyone = {p.person_id: p.shown_name for p in hall.people} if hall else {}
    if as_json:
        _tell_json(document, checked, names)
    else:
        _tell_words(document, checked, names, everyone)
    if checked.refusal is not None:
        raise typer.Exit(checked.refusal.exit_code)


def _tell_json(document: PlanDocument, checked: PlanCheck, names: Names) -> None:
    verdict = checked.verdict
    told: dict[str, Any] = {
        "schema": CHECK_SCHEMA,
        "plan_id": document.core.plan_id,
        "revision": document.core.revision,
        "digest": document.core.digest,
        "against": checked.against,
        "verdict": verdict.model_dump(mode="json", by_alias=True),
        "not_replayed": list(checked.not_replayed),
        "words": [words_of(f, names.people, names.exercises) for f in verdict.findings],
    }
    refusal = checked.refusal
    print_json(told if refusal is None else refusal.as_problem() | {"check": told})


def _tell_words(
    document: PlanDocument, checked: PlanCheck, names: Names, everyone: dict[str, str]
) -> None:
    say(heading_words(document.core, checked.problem))
    say(f"Class {finish_words(document.core, checked.verdict.total_s)}.")
    by = "the hall as it is now" if checked.against == "today" else "what it was made for"
    say(f"Judged by {by}.")
    for words in checked.not_replayed:
        say(with_names(words, everyone))
    print_findings(checked.verdict.findings, names)
    if checked.refusal is None:
        say("The gate lets it through.")
    else:
        tell_error(UnsafePlanError("What it found is listed above."), as_json=False)
