"""``roundwright change finish-by``: what ends the class by a given time, and taking one."""

from datetime import datetime
from typing import Annotated, Any

import typer

from roundwright.cli.change_desk import ChangeDesk
from roundwright.cli.change_options import OpenDesk
from roundwright.cli.faults_shown import print_json
from roundwright.cli.tables_shown import say
from roundwright.foundation import shown
from roundwright.foundation.errors import NoPlanError
from roundwright.plan.core import Core
from roundwright.services.changing import finish_by as service
from roundwright.services.changing.class_clock import clock_at, seconds_until
from roundwright.services.changing.said_words import cut_words, people_changed_words, with_names

FINISH_BY_SCHEMA = "roundwright.finish_by/1"


def finish_by(
    open_desk: OpenDesk,
    at: Annotated[
        datetime, typer.Argument(metavar="TIME", formats=["%H:%M"], help="Local time, as 19:10.")
    ],
    take: Annotated[
        int | None, typer.Option(min=1, metavar="N", help="Keep the N-th choice, from 1.")
    ] = None,
) -> None:
    """Say what ends the class by a time, kindest first; nothing is kept without --take."""
    desk = open_desk()
    document = desk.opened.document
    by_s = seconds_until(document.core, at.time())
    with desk.naming():
        with desk.using() as using:
            found = service.finish_by(
                document, desk.opened.revisions, by_s, desk.base_revision, using=using
            )
        if take is not None:
            if take > len(found.choices):
                raise typer.BadParameter(
                    f"there are {len(found.choices)} choices", param_hint="--take"
                )
            desk.keep_and_tell(found.choices[take - 1].changed)
            return
    if desk.as_json:
        told = _values(found, document.core)
        error = None if found.choices or found.ends_now_s <= by_s else _nothing(found)
        print_json(told if error is None else error.as_problem() | {"finish_by": told})
        if error is not None:
            raise typer.Exit(error.exit_code)
        return
    _tell(found, desk)


def _tell(found: service.FinishBy, desk: ChangeDesk) -> None:
    core = desk.opened.document.core
    say(f"As planned the class ends at {clock_at(core, found.ends_now_s)}.")
    if found.ends_now_s <= found.by_s:
        say("Nothing needs to be cut.")
        return
    for number, choice in enumerate(found.choices, start=1):
        say(f"{number}. {_words(choice, desk)}")
    if not found.choices:
        if found.nearest is not None:
            say(f"The nearest: {_words(found.nearest, desk)}")
        raise _nothing(found)
    say("Keep one with --take N.")


def _words(choice: service.LateChoice, desk: ChangeDesk) -> str:
    changed, core = choice.changed, desk.opened.document.core
    words = cut_words(changed.said, changed.document.problem, desk.hall.settings.units.value)
    words = f"{words[:1].upper()}{words[1:]}: ends at {clock_at(core, choice.ends_s)}"
    if choice.late_s is not None:
        words += f", later than {clock_at(core, choice.late_s)} in one class of ten"
    return with_names(f"{words}; {people_changed_words(len(changed.disturbed))}.", {})


def _values(found: service.FinishBy, core: Core) -> dict[str, Any]:
    return {
        "schema": FINISH_BY_SCHEMA,
        "plan_id": core.plan_id,
        "revision": core.revision,
        "by_s": found.by_s,
        "ends_now_s": found.ends_now_s,
        "choices": [_choice(choice, core) for choice in found.choices],
        "nearest": None if found.nearest is None else _choice(found.nearest, core),
    }


def _choice(choice: service.LateChoice, core: Core) -> dict[str, Any]:
    changed = choice.changed
    return {
        "change": changed.change.model_dump(mode="json"),
        "sentence": changed.sentence,
        "ends_s": choice.ends_s,
        "ends_at_local": clock_at(core, choice.ends_s),
        "late_s": choice.late_s,
        "work_lost_s": choice.work_lost_s,
        "disturbed": len(changed.disturbed),
        "harm": changed.harm.model_dump(mode="json", by_alias=True),
        "digest": changed.document.core.digest,
    }


def _nothing(found: service.FinishBy) -> NoPlanError:
    over = "" if found.nearest is None else shown.clock(found.nearest.ends_s - found.by_s)
    nearest = f" The nearest ends {over} later." if over else ""
    return NoPlanError(
        f"Nothing ends the class by then without cutting what must not be cut.{nearest}",
        "Give a later time; warm-up, cool-down, rests and changes keep their least.",
    )
