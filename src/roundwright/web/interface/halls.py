"""Halls, and their records one by one."""

from typing import Annotated, Any

from fastapi import APIRouter, Query
from pydantic import BaseModel, Field

from roundwright.accounts.account import May
from roundwright.foundation.errors import NotAllowedError, NotFoundError
from roundwright.services.accounts.signing_in import require
from roundwright.services.keeping.hall_records import privacy_of, records_of
from roundwright.services.keeping.health_edits import health_edits
from roundwright.services.keeping.new_hall import NewHall, hall_id_of, new_hall
from roundwright.services.keeping.records import (
    KeptHall,
    Privacy,
    Record,
    RecordEdit,
    RecordKey,
    RecordKind,
)
from roundwright.web.house.visit import Visit
from roundwright.web.interface.problems import answers
from roundwright.web.interface.visits import HallVisit, Identifier, SeeVisit, Sent

router = APIRouter(tags=["halls"])
WHOLE = "-"
"""The key of a record of which there is one."""


class HallShown(BaseModel):
    """A hall: its id, name and version."""

    hall_id: str
    name: str
    version: int


class HallWished(Sent):
    """The first few things of a new hall."""

    name: str = Field(min_length=1, max_length=80)
    time_zone: str = Field(default="Europe/London", max_length=80)
    units: str = Field(default="kg", pattern="^(kg|lb)$")
    paper: str = Field(default="a4", pattern="^(a4|letter)$")
    room: str = Field(default="Main room", min_length=1, max_length=80)
    length_m: str = Field(max_length=12)
    width_m: str = Field(max_length=12)


class RecordShown(BaseModel):
    """One record: which, its version, and its values."""

    kind: RecordKind
    key: str
    version: int | None
    values: dict[str, Any] | None = None


class RecordWished(Sent):
    """A whole record, and the version it was written on; none for a new one."""

    values: dict[str, Any]
    base_version: int | None = Field(default=None, ge=0, le=10**9)
    clinician_says: bool = Field(
        default=False, description="a clinician has said that what they set has ended"
    )


BaseVersion = Annotated[int, Query(ge=0, le=10**9)]


@router.get("/halls", responses=answers(), operation_id="list_halls")
def list_halls(visit: SeeVisit) -> list[HallShown]:
    """List the halls."""
    entries = visit.house.keeping.halls.halls()
    return [HallShown(hall_id=h.hall_id, name=h.name, version=h.version) for h in entries]


@router.post("/halls", status_code=201, responses=answers(409), operation_id="begin_hall")
def begin_hall(visit: HallVisit, wished: HallWished) -> HallShown:
    """Begin a hall."""
    hall = new_hall(NewHall(**wished.model_dump()), visit.house.adapters.catalogue())
    shelf = visit.house.keeping.halls
    hall_id = hall_id_of(wished.name, [h.hall_id for h in shelf.halls()])
    kept = shelf.begin(hall_id, hall, visit.by)
    return HallShown(hall_id=hall_id, name=hall.settings.name, version=kept.version)


@router.get("/halls/{hall_id}/records", responses=answers(), operation_id="list_records")
def list_records(
    visit: SeeVisit, hall_id: Identifier, kind: RecordKind | None = None
) -> list[RecordShown]:
    """List the records of a hall that the caller may see, without their values."""
    kept = visit.kept_hall()
    return [
        _shown(kept, one)
        for where, one in records_of(kept.hall).items()
        if (kind is None or where.kind is kind) and _may_see(visit, one.privacy)
    ]


@router.get(
    "/halls/{hall_id}/records/{kind}/{key}", responses=answers(), operation_id="read_record"
)
def read_record(
    visit: SeeVisit, hall_id: Identifier, kind: RecordKind, key: Identifier
) -> RecordShown:
    """Read one record; `-` is the key of a kind of which there is one."""
    kept, where = visit.kept_hall(), _where(kind, key)
    require(visit.account, _SEEN[privacy_of(kind)])
    found = records_of(kept.hall).get(where)
    if privacy_of(kind) is Privacy.HEALTH:
        visit.note("health.seen", where.key)
    if found is None:
        raise NotFoundError("There is no such record in this hall.")
    return _shown(kept, found, with_values=True)


@router.put(
    "/halls/{hall_id}/records/{kind}/{key}", responses=answers(409), operation_id="write_record"
)
def write_record(
    visit: SeeVisit,
    hall_id: Identifier,
    kind: RecordKind,
    key: Identifier,
    wished: RecordWished,
) -> RecordShown:
    """Write one whole record; what a clinician set ends only with a clinician's word."""
    kept, where = visit.kept_hall(), _where(kind, key)
    require(visit.account, _CHANGED[privacy_of(kind)])
    edit = RecordEdit(where, wished.values, wished.base_version)
    edits = health_edits(kept, edit, visit.today, clinician_says=wished.clinician_says)
    later = visit.house.keeping.halls.edit(kept.hall_id, edits, visit.by)
    return RecordShown(kind=kind, key=key, version=later.versions.get(where))


@router.delete(
    "/halls/{hall_id}/records/{kind}/{key}",
    status_code=204,
    responses=answers(409),
    operation_id="remove_record",
)
def remove_record(
    visit: SeeVisit,
    hall_id: Identifier,
    kind: RecordKind,
    key: Identifier,
    base_version: BaseVersion,
) -> None:
    """Remove one record; a person is deleted with all that is theirs by `forget_person` alone."""
    kept, where = visit.kept_hall(), _where(kind, key)
    require(visit.account, _CHANGED[privacy_of(kind)])
    if kind is RecordKind.PERSON:
        raise NotAllowedError("A person is deleted whole.", "Use forget_person.")
    edit = RecordEdit(where, None, base_version)
    edits = health_edits(kept, edit, visit.today, clinician_says=False)
    visit.house.keeping.halls.edit(kept.hall_id, edits, visit.by)


_SEEN = {
    Privacy.HALL: May.SEE_PLANS,
    Privacy.PERSON: May.CHANGE_PEOPLE,
    Privacy.HEALTH: May.SEE_HEALTH,
}
_CHANGED = {
    Privacy.HALL: May.CHANGE_HALL,
    Privacy.PERSON: May.CHANGE_PEOPLE,
    Privacy.HEALTH: May.CHANGE_HEALTH,
}


def _may_see(visit: Visit, privacy: Privacy) -> bool:
    return visit.may(_SEEN[privacy])


def _where(kind: RecordKind, key: str) -> RecordKey:
    return RecordKey(kind, "" if key == WHOLE else key)


def _shown(kept: KeptHall, one: Record, *, with_values: bool = False) -> RecordShown:
    return RecordShown(
        kind=one.where.kind,
        key=one.where.key or WHOLE,
        version=kept.versions.get(one.where),
        values=dict(one.values) if with_values else None,
    )
