"""A changed plan, told in words or as one JSON document; the problem is left out of both."""

from collections.abc import Mapping
from pathlib import Path
from typing import Any

from roundwright.cli.kept_plan_shown import plan_values
from roundwright.cli.tables_shown import say
from roundwright.foundation.errors import RoundwrightError
from roundwright.plan.changing.answer import StillSought
from roundwright.plan.gate.words import words_of
from roundwright.plan.outcome import Status
from roundwright.plan.verdict import Finding
from roundwright.services.changing.change_plan import ChangedPlan
from roundwright.services.changing.said_words import (
    effect_lines,
    left_out_words,
    unheld_words,
    with_names,
)
from roundwright.services.names import Names

CHANGED_SCHEMA = "roundwright.changed/1"


def changed_values(
    changed: ChangedPlan, path: Path | None, refusal: RoundwrightError | None
) -> dict[str, Any]:
    """Give an answer as plain values; people stand as ids, in the sentence as `{p001}`."""
    core = changed.document.core
    return plan_values(changed.document, path or Path(), refusal, CHANGED_SCHEMA) | {
        "path": None if path is None else str(path),
        "plan_id": core.plan_id,
        "revision": core.revision,
        "parent_revision": core.parent_revision,
        "sentence": changed.sentence,
        "said": changed.said.model_dump(mode="json", by_alias=True),
        "tier": changed.tier,
        "harm": changed.harm.model_dump(mode="json", by_alias=True),
        "least_harm": changed.least.model_dump(mode="json", by_alias=True),
        "still_sought": changed.still_sought,
        "disturbed": _places(changed.disturbed),
        "left_out": _places(changed.left_out),
        "not_kept": _places(changed.unheld),
        "new_findings": _findings(changed.new),
        "gone_findings": _findings(changed.gone),
        "before": changed.before.model_dump(mode="json", by_alias=True),
        "after": changed.after.model_dump(mode="json", by_alias=True),
    }


def print_changed(changed: ChangedPlan, names: Names, everyone: Mapping[str, str]) -> None:
    """Print the sentence, what it does to the class, and what the gate now finds."""
    problem = changed.document.problem
    say(with_names(changed.sentence, everyone))
    for line in (
        *unheld_words(changed.unheld, problem),
        *left_out_words(
            {p: k for p, k in changed.left_out.items() if p not in changed.unheld}, problem
        ),
    ):
        say(with_names(line, everyone))
    for line in effect_lines(changed.before, changed.after):
        say(f"  {line}")
    _print_findings("New", changed.new, names, everyone)
    _print_findings("Gone", changed.gone, names, everyone)
    if changed.document.outcome.status is Status.FOUND:
        say(still_words(changed))
    if changed.ended:
        say(f"{changed.ended} This is the best so far.")


def still_words(changed: ChangedPlan) -> str:
    """Say what a better answer would have, where one may exist."""
    better = {
        StillSought.LEFT_OUT: "one that leaves fewer without anything to do",
        StillSought.OVERRUN: "one that ends earlier",
        StillSought.PEOPLE: "one that disturbs fewer people",
        StillSought.CELLS: "one that changes fewer places",
        StillSought.PRICE: "one that suits people better",
    }
    sought = changed.still_sought
    which = "a better answer" if sought is None else better[sought]
    return f"There may be {which}; a larger budget searches on."


def _print_findings(
    heading: str, findings: tuple[Finding, ...], names: Names, everyone: Mapping[str, str]
) -> None:
    if findings:
        say(f"{heading}:")
    for finding in findings:
        say(f"  {words_of(finding, everyone, names.exercises)}")


def _places(persons: Mapping[str, tuple[int, ...]]) -> dict[str, list[int]]:
    return {person: list(positions) for person, positions in persons.items()}


def _findings(findings: tuple[Finding, ...]) -> list[dict[str, Any]]:
    return [f.model_dump(mode="json", by_alias=True) for f in findings]
