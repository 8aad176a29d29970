"""The whole hall in one file: saved, and one taken in after it was looked at."""

from typing import Annotated

from fastapi import APIRouter, Depends
from starlette.responses import HTMLResponse, Response

from roundwright.accounts.account import May
from roundwright.bootstrap.hall_archive import (
    ArchiveLook,
    archive_of,
    backup_before,
    look_at_archive,
    take_archive_in,
)
from roundwright.foundation.errors import BadInputError, ChangedMeanwhileError, RoundwrightError
from roundwright.foundation.fault_codes import entry_of
from roundwright.foundation.faults import Fault
from roundwright.services.keeping.new_hall import hall_id_of
from roundwright.web.house.answers import see
from roundwright.web.house.held_archive import HeldArchive, hold, taken
from roundwright.web.house.visit import FormSent, LargeFormSent, Needs, Visit
from roundwright.web.texts import say_again

router = APIRouter()
AT = "/at/{hall_id}/whole-hall"
OwnerVisit = Annotated[Visit, Depends(Needs(May.MANAGE_BACKUPS))]
MOST_FAULTS = 200
"""Faults that are shown of an archive; our choice."""


@router.get(AT)
def whole_hall(visit: OwnerVisit) -> HTMLResponse:
    """Show what can be saved and taken in."""
    return _page(visit)


@router.post(AT + "/save")
def save(visit: OwnerVisit) -> Response:
    """Give the hall with everything in it but accounts and the trail, as an archive."""
    packed = archive_of(visit.house.keeping, visit.hall_id or "", visit.by)
    name = f"{visit.hall_id}-{visit.today.isoformat()}.zip"
    headers = {"content-disposition": f'attachment; filename="{name}"'}
    return Response(packed, media_type="application/zip", headers=headers)


@router.post(AT + "/look")
def look(visit: OwnerVisit, sent: LargeFormSent) -> HTMLResponse:
    """Say what an archive holds and what would be other; nothing is kept yet."""
    kept, packed = visit.kept_hall(), sent.files.get("archive", b"")
    if not packed:
        return _page(visit, 422, faults=(visit.say("Choose a file."),))
    try:
        looked = look_at_archive(visit.house.keeping, packed, kept.hall_id)
    except BadInputError as error:
        return _page(visit, 422, faults=tuple(_fault_words(one) for one in error.faults))
    held = HeldArchive(packed, visit.now, kept.hall_id, kept.version)
    hold(visit.house.held, visit.account.account_id, held)
    return _page(visit, looked=looked)


@router.post(AT + "/take-in")
def take_in(visit: OwnerVisit, sent: FormSent) -> Response:
    """Keep what was looked at: in the place of this hall, or as another one."""
    hall_id = visit.hall_id or ""
    one = taken(visit.house.held, visit.account.account_id, hall_id, visit.now)
    if one is None:
        return _page(
            visit, 409, faults=(visit.say("Choose the file again, and look at it first."),)
        )
    keeping, is_new = visit.house.keeping, sent.text("place") == "another"
    try:
        if is_new:
            looked = look_at_archive(keeping, one.packed, None)
            hall_id = hall_id_of(looked.name, [h.hall_id for h in keeping.halls.halls()])
        backup = None if is_new else backup_before(keeping, visit.now)
        version = None if is_new else one.version
        take_archive_in(keeping, one.packed, hall_id, visit.by, version, backup)
    except BadInputError as error:
        return _page(visit, 422, faults=tuple(_fault_words(fault) for fault in error.faults))
    except RoundwrightError as error:
        status = 409 if isinstance(error, ChangedMeanwhileError) else 422
        told = f"{say_again(error.detail)} {say_again(error.next_step)}"
        return _page(visit, status, faults=(told,))
    return see(f"/at/{hall_id}/week")


def _fault_words(fault: Fault) -> str:
    """Say a fault: where, what, what to do."""
    where = f"{fault.file}, {fault.line}" if fault.line else fault.file
    entry = entry_of(fault.code)
    field = f" ({fault.field})" if fault.field else ""
    value = f" – {fault.value}" if fault.value else ""
    told = f"{where}: {say_again(entry.title)}{field}{value}."
    return f"{told} {say_again(fault.remedy or entry.remedy)}"


def _page(
    visit: Visit,
    status: int = 200,
    looked: ArchiveLook | None = None,
    faults: tuple[str, ...] = (),
) -> HTMLResponse:
    return visit.page(
        "whole_hall.html",
        status,
        here="settings",
        looked=looked,
        kinds=() if looked is None else [(_kind(visit, k.kind.value), k) for k in looked.compared],
        faults=faults[:MOST_FAULTS],
        more=max(0, len(faults) - MOST_FAULTS),
        has_backup=visit.house.keeping.database.file is not None,
    )


def _kind(visit: Visit, kind: str) -> str:
    return visit.say(kind.replace("_", " "))
