"""Everything that is kept of one person, as one JSON document and as tables."""

import csv
import io
import json
from collections.abc import Iterable, Mapping, Sequence
from datetime import datetime

from roundwright.foundation.instants import written
from roundwright.hall.hall import Hall
from roundwright.plan.document import PlanDocument
from roundwright.services.keeping.hall_records import records_of
from roundwright.services.keeping.shelves import TrailEntry

PERSON_SCHEMA = "roundwright.person/1"
PERSON_FILE = "person.json"


def person_document(
    hall: Hall,
    person_id: str,
    plans: Iterable[PlanDocument],
    trail: Sequence[TrailEntry],
    made_at: datetime,
) -> dict[str, object]:
    """Put together what is kept of a person: it holds health, and goes to that person alone.

    Parameters
    ----------
    plans : iterable of PlanDocument
        Every revision of every plan of the hall.
    trail : sequence of TrailEntry
        The lines of the trail of this person.
    """
    records = {
        where.kind.value: dict(record.values)
        for where, record in records_of(hall).items()
        if record.person_id == person_id
    }
    classes = [
        {
            "class_id": slug,
            "name": wish.name,
            "by_name": wish.people != "all",
            "kept": [
                cell.model_dump(mode="json", by_alias=True)
                for cell in wish.keep
                if cell.person == person_id
            ],
        }
        for slug, wish in hall.classes.items()
        if wish.people == "all" or person_id in wish.people
    ]
    return {
        "schema": PERSON_SCHEMA,
        "made_at": written(made_at),
        "hall": hall.settings.name,
        "person_id": person_id,
        "records": records,
        "classes": classes,
        "plans": [found for one in plans if (found := _of_plan(one, person_id)) is not None],
        "trail": [
            {
                "at": written(one.at),
                "role": one.role,
                "what": one.what,
                "about": one.about,
            }
            for one in trail
        ],
    }


def person_files(document: Mapping[str, object]) -> dict[str, bytes]:
    """Give the document as files: the JSON, and a table each of what can be one."""
    text = json.dumps(document, ensure_ascii=False, sort_keys=True, indent=2)
    files = {PERSON_FILE: f"{text}\n".encode()}
    records = document["records"]
    assert isinstance(records, Mapping)
    rows = [
        {"record": kind, "field": name, "value": _cell(value)}
        for kind, values in records.items()
        for name, value in values.items()
    ]
    files["records.csv"] = _table(("record", "field", "value"), rows)
    files["classes.csv"] = _table(("class_id", "name", "by_name"), _rows(document["classes"]))
    cells = [
        {"plan_id": plan["plan_id"], "revision": plan["revision"], "on": plan["on"], **cell}
        for plan in _rows(document["plans"])
        for cell in _rows(plan["cells"])
    ]
    columns = ("plan_id", "revision", "on", "position", "round", "state", "exercise_id")
    more = ("unit_mass_g", "units", "count", "steps")
    files["plan_cells.csv"] = _table((*columns, *more), cells)
    files["trail.csv"] = _table(("at", "role", "what", "about"), _rows(document["trail"]))
    return files


def _of_plan(document: PlanDocument, person_id: str) -> dict[str, object] | None:
    core = document.core
    known = document.problem.people.get(person_id)
    cells = [one for one in core.cells if one.person_id == person_id]
    dose = [one for one in core.people if one.person_id == person_id]
    in_groups = any(person_id in group for group in core.class_.groups)
    if known is None and not cells and not dose and not in_groups:
        return None
    findings = [one for one in document.verdict.findings if person_id in one.persons]
    return {
        "plan_id": core.plan_id,
        "revision": core.revision,
        "class_id": core.class_.class_id,
        "on": core.class_.starts_on.isoformat(),
        "cells": [one.model_dump(mode="json") for one in cells],
        "dose": [one.model_dump(mode="json") for one in dose],
        "known": None if known is None else known.model_dump(mode="json"),
        "tired": [one.value for one in document.problem.recent.worked.get(person_id, ())],
        "totals": [
            one.model_dump(mode="json") for one in document.facts.people
            if one.person_id == person_id
        ],
        "findings": [
            {**one.model_dump(mode="json"), "persons": [person_id]} for one in findings
        ],
    }  # fmt: skip


def _rows(value: object) -> Sequence[Mapping[str, object]]:
    return value if isinstance(value, list) else []


def _cell(value: object) -> str:
    if value is None:
        return ""
    if isinstance(value, str):
        return value
    return json.dumps(value, ensure_ascii=False, sort_keys=True)


def _table(columns: Sequence[str], rows: Iterable[Mapping[str, object]]) -> bytes:
    text = io.StringIO(newline="")
    writer = csv.DictWriter(text, columns, extrasaction="ignore", lineterminator="\n")
    writer.writeheader()
    for row in rows:
        writer.writerow({name: _cell(row.get(name)) for name in columns})
    return text.getvalue().encode()
