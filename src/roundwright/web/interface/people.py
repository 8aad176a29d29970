"""People: lists brought in, everything that is kept of one, deletion for good."""

from typing import Any

from fastapi import APIRouter
from pydantic import BaseModel, Field

from roundwright.accounts.account import May
from roundwright.foundation.errors import BadInputError, ChangedMeanwhileError, NotFoundError
from roundwright.foundation.faults import Fault
from roundwright.services.keeping.people_import import preview_people
from roundwright.web.interface.problems import answers
from roundwright.web.interface.visits import (
    ChangePeopleVisit,
    DeleteVisit,
    Identifier,
    PeopleVisit,
    Sent,
    TakeOutVisit,
)

router = APIRouter(tags=["people"])
MOST_CHARACTERS = 2_000_000


class PersonShown(BaseModel):
    """Somebody of a hall, without anything about health."""

    person_id: str
    shown_name: str
    classes_done: int | None


class ListWished(Sent):
    """A list of people as CSV, which column is which, and whether to keep it."""

    text: str = Field(max_length=MOST_CHARACTERS)
    columns: dict[str, str | None] = Field(default={}, max_length=200)
    keep: bool = False
    base_version: int | None = Field(default=None, ge=0, le=10**9)


class ListRow(BaseModel):
    """What one row of a list does."""

    line: int
    person_id: str
    shown_name: str
    state: str
    fields: list[str]


class ListColumn(BaseModel):
    """What one column is taken for."""

    header: str
    column: str | None
    how: str
    nearest: list[str]


class ListShown(BaseModel):
    """What a list would do, or did."""

    kept: bool
    columns: list[ListColumn]
    rows: list[ListRow]
    faults: list[Fault]


@router.get("/halls/{hall_id}/people", responses=answers(), operation_id="list_people")
def list_people(visit: PeopleVisit, hall_id: Identifier) -> list[PersonShown]:
    """List the people of a hall by name."""
    people = visit.kept_hall().hall.people
    return [
        PersonShown(person_id=p.person_id, shown_name=p.shown_name, classes_done=p.classes_done)
        for p in people
    ]


@router.post("/halls/{hall_id}/people-list", responses=answers(409), operation_id="bring_in_people")
def bring_in_people(visit: ChangePeopleVisit, hall_id: Identifier, wished: ListWished) -> ListShown:
    """Say what a list of people would do; with `keep` and the hall's version, do it."""
    kept = visit.kept_hall()
    preview = preview_people(
        "the list",
        wished.text.encode(errors="replace"),
        kept,
        visit.house.keeping.halls.person_ids(kept.hall_id),
        may_health=visit.may(May.CHANGE_HEALTH),
        choice=wished.columns,
    )
    if wished.keep and preview.faults:
        raise BadInputError(preview.faults)
    if wished.keep:
        if wished.base_version != kept.version:
            raise ChangedMeanwhileError(
                f"The hall is at version {kept.version} now.", "Look at the list once more."
            )
        visit.house.keeping.halls.edit(kept.hall_id, preview.edits, visit.by)
    return ListShown(
        kept=wished.keep,
        columns=[
            ListColumn(header=c.header, column=c.column, how=c.how, nearest=list(c.nearest))
            for c in preview.columns
        ],
        rows=[
            ListRow(
                line=r.line,
                person_id=r.person_id,
                shown_name=r.shown_name,
                state=r.state,
                fields=list(r.fields),
            )
            for r in preview.rows
        ],
        faults=list(preview.faults),
    )


@router.get(
    "/halls/{hall_id}/people/{person_id}/everything",
    responses=answers(),
    operation_id="everything_of_person",
)
def everything_of_person(
    visit: TakeOutVisit, hall_id: Identifier, person_id: Identifier
) -> dict[str, Any]:
    """Give everything that is kept of a person, health too; it goes to that person alone."""
    _require(visit, person_id)
    return visit.house.keeping.people.document(hall_id, person_id, visit.by)


@router.delete(
    "/halls/{hall_id}/people/{person_id}",
    responses=answers(),
    operation_id="forget_person",
)
def forget_person(visit: DeleteVisit, hall_id: Identifier, person_id: Identifier) -> dict[str, int]:
    """Delete a person for good; gives how many kept plans were emptied of their entries."""
    _require(visit, person_id)
    emptied = visit.house.keeping.halls.forget_person(hall_id, person_id, visit.by)
    return {"plans_emptied": emptied}


def _require(visit: PeopleVisit, person_id: str) -> None:
    if visit.kept_hall().hall.person(person_id) is None:
        raise NotFoundError("There is no such person in this hall.")
