"""``roundwright rehearse``: play a plan through, to see if it ends in time and who waits."""

import re
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path
from typing import Annotated

import typer

from roundwright.bootstrap.wiring import wired
from roundwright.cli.check_command import PlanFile
from roundwright.cli.faults_shown import print_json
from roundwright.cli.fit_command import AsJson
from roundwright.cli.plan_words import heading_words
from roundwright.cli.rehearsal_moment import moment_lines
from roundwright.cli.tables_shown import say
from roundwright.documents.pictures.class_timeline import class_timeline
from roundwright.documents.pictures.finishing_times import finishing_times
from roundwright.documents.pictures.ink import Picture
from roundwright.documents.pictures.picture_page import picture_page
from roundwright.documents.pictures.who_is_where import who_is_where
from roundwright.documents.plan_view import joined_names
from roundwright.foundation.errors import StoreError
from roundwright.foundation.seeds import DEFAULT_SEED
from roundwright.plan.document import PlanDocument
from roundwright.rehearsal.play import USUAL_PLAYS
from roundwright.rehearsal.rehearsal_words import lines_of
from roundwright.rehearsal.report import RehearsalReport
from roundwright.rehearsal.report import rehearse as rehearsed
from roundwright.services.names import Names, names_of

MOST_PLAYS = 100_000
_MOMENT = re.compile(r"^(\d{1,3}):([0-5]\d)$", re.ASCII)


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
    moment: Annotated[
        str | None,
        typer.Option(
            "--at", metavar="MIN:SEC", help="Also say who stands where with what at that time."
        ),
    ] = None,
    pictures: Annotated[
        Path | None,
        typer.Option(
            metavar="FOLDER", help="Also draw it: two pictures, and a page with their tables."
        ),
    ] = None,
    by_group: Annotated[
        bool, typer.Option("--by-group", help="Draw a line for each group, not each person.")
    ] = False,
    as_json: AsJson = False,
) -> None:
    """Play a plan through many times: does it end in time, who waits."""
    second = None if moment is None else _second_of(moment)
    adapters = wired()
    document = adapters.plan(plan_file)
    report = rehearsed(document.core, document.problem, seed=seed, plays=plays)
    hall = adapters.hall(hall_folder) if hall_folder else None
    names = names_of(document.problem, hall)
    lines = lines_of(report, names.person, names.exercise, names.movement)
    units = hall.settings.units if hall else "kg"
    written: tuple[Path, ...] = ()
    if pictures is not None:
        drawn = _drawn(document, report, names, units, by_group=by_group)
        title = heading_words(document.core, document.problem)
        written = _write(pictures, title, lines, drawn)
    if as_json:
        print_json(report.model_dump(mode="json", by_alias=True))
        return
    say(heading_words(document.core, document.problem))
    for line in lines:
        say(line)
    if second is not None and report.middle is not None:
        for line in moment_lines(document.core, report.middle, second, names, units):
            say(line)
    for path in written:
        say(f"Drawn: {path}")


def _second_of(moment: str) -> int:
    found = _MOMENT.match(moment)
    if found is None:
        raise typer.BadParameter("as 12:30, minutes and seconds of the class", param_hint="--at")
    return int(found[1]) * 60 + int(found[2])


def _drawn(
    document: PlanDocument, report: RehearsalReport, names: Names, units: str, *, by_group: bool
) -> tuple[Picture, ...]:
    """Draw a rehearsal: a line for each person or group, and how long the class takes."""
    people = joined_names(names.people)
    timeline = class_timeline(
        report,
        document.core,
        lambda person_id: people.get(person_id, person_id),
        names.exercise,
        by_group=by_group,
    )
    if report.middle is not None:
        where = who_is_where(document, report.middle, people, units)
        timeline = replace(timeline, tables=(*timeline.tables, where))
    return timeline, finishing_times(report)


def _write(
    folder: Path, title: str, lines: Sequence[str], drawn: Sequence[Picture]
) -> tuple[Path, ...]:
    texts = {f"{picture.name}.svg": picture.svg for picture in drawn}
    texts["rehearsal.html"] = picture_page(title, lines, drawn)
    try:
        folder.mkdir(parents=True, exist_ok=True)
        for name, text in texts.items():
            (folder / name).write_text(text, encoding="utf-8", newline="\n")
    except OSError as error:
        raise StoreError(
            f"The pictures could not be written to {folder}: {error.strerror}."
        ) from error
    return tuple(folder / name for name in texts)
