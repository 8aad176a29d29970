"""A whole hall as one archive: taken out, looked at, taken in."""

from base64 import b64encode

from fastapi import APIRouter
from pydantic import Base64Bytes, BaseModel, Field

from roundwright.bootstrap.hall_archive import (
    MOST_PACKED,
    archive_of,
    backup_before,
    look_at_archive,
    take_archive_in,
)
from roundwright.services.keeping.new_hall import hall_id_of
from roundwright.services.keeping.records import RecordKind
from roundwright.store.database.hall_folders import BroughtIn
from roundwright.web.interface.problems import answers
from roundwright.web.interface.visits import BackupVisit, Identifier, Sent

router = APIRouter(tags=["halls"])
MOST_LETTERS = MOST_PACKED * 4 // 3 + 4
"""Characters of base64 that the largest archive takes."""


class ArchiveShown(BaseModel):
    """A hall with all its plans: a ZIP of its folder, as base64. It holds health."""

    hall_id: str
    version: int
    archive: str


class ArchiveSent(Sent):
    """A ZIP of a hall's folder, as base64."""

    archive: Base64Bytes = Field(max_length=MOST_LETTERS)


class ArchiveWished(ArchiveSent):
    """An archive, and the version of the hall that it takes the place of."""

    base_version: int = Field(ge=0, le=10**9)


class KindShown(BaseModel):
    """Of one kind of record: how many are new, changed, gone, and the same."""

    kind: RecordKind
    new: int
    changed: int
    gone: int
    same: int


class ArchiveLooked(BaseModel):
    """What an archive holds; `lost` are people of whom a clinician's word would fall away."""

    name: str
    plans: int
    refused: list[str]
    compared: list[KindShown]
    lost: list[str]


class TakenIn(BaseModel):
    """The hall that is kept now, its new plans, and those that the gate refuses."""

    hall_id: str
    version: int
    plans: int
    refused: list[str]


@router.get("/halls/{hall_id}/archive", responses=answers(), operation_id="take_hall_out")
def take_hall_out(visit: BackupVisit, hall_id: Identifier) -> ArchiveShown:
    """Give a hall with everything in it but accounts and the trail; equal halls, equal bytes."""
    kept = visit.kept_hall()
    packed = archive_of(visit.house.keeping, kept.hall_id, visit.by)
    return ArchiveShown(
        hall_id=kept.hall_id, version=kept.version, archive=b64encode(packed).decode("ascii")
    )


@router.post("/halls/{hall_id}/archive/look", responses=answers(), operation_id="look_at_hall")
def look_at_hall(visit: BackupVisit, hall_id: Identifier, sent: ArchiveSent) -> ArchiveLooked:
    """Say what an archive holds and what it would change of a hall; nothing is kept."""
    looked = look_at_archive(visit.house.keeping, sent.archive, visit.kept_hall().hall_id)
    return ArchiveLooked(
        name=looked.name,
        plans=looked.plans,
        refused=list(looked.refused),
        compared=[
            KindShown(kind=k.kind, new=k.new, changed=k.changed, gone=k.gone, same=k.same)
            for k in looked.compared
        ],
        lost=list(looked.lost),
    )


@router.put("/halls/{hall_id}/archive", responses=answers(409), operation_id="replace_hall")
def replace_hall(visit: BackupVisit, hall_id: Identifier, sent: ArchiveWished) -> TakenIn:
    """Keep the hall of an archive in the place of one, whole or not at all; plans stay."""
    keeping = visit.house.keeping
    kept = visit.kept_hall()
    backup = backup_before(keeping, visit.now)
    found = take_archive_in(
        keeping, sent.archive, kept.hall_id, visit.by, sent.base_version, backup
    )
    return _taken_in(kept.hall_id, found)


@router.post("/archives", status_code=201, responses=answers(409), operation_id="bring_hall_in")
def bring_hall_in(visit: BackupVisit, sent: ArchiveSent) -> TakenIn:
    """Keep the hall of an archive as a new one."""
    keeping = visit.house.keeping
    looked = look_at_archive(keeping, sent.archive, None)
    hall_id = hall_id_of(looked.name, [h.hall_id for h in keeping.halls.halls()])
    return _taken_in(hall_id, take_archive_in(keeping, sent.archive, hall_id, visit.by, None, None))


def _taken_in(hall_id: str, found: BroughtIn) -> TakenIn:
    return TakenIn(
        hall_id=hall_id,
        version=found.hall.version,
        plans=found.plans,
        refused=list(found.refused),
    )
