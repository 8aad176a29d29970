"""The library of a hall: its movements, and where they are drawn."""

from typing import Annotated

from fastapi import APIRouter, Query
from pydantic import BaseModel, Field

from roundwright.foundation.errors import NotFoundError
from roundwright.library.movement import Movement
from roundwright.library.vocabulary import Pattern
from roundwright.web.interface.problems import answers
from roundwright.web.interface.visits import Identifier, SeeVisit

router = APIRouter(tags=["movements"])


class MovementEntry(BaseModel):
    """A movement in the list."""

    slug: str
    name: str
    pattern: Pattern


class MovementShown(BaseModel):
    """One movement whole, the lines in which it stands, and where its drawings are."""

    movement: Movement
    lines: list[str]
    drawings: list[str] = Field(description="addresses of SVG pictures")


@router.get("/halls/{hall_id}/movements", responses=answers(), operation_id="list_movements")
def list_movements(
    visit: SeeVisit,
    hall_id: Identifier,
    pattern: Pattern | None = None,
    find: Annotated[str, Query(max_length=80)] = "",
) -> list[MovementEntry]:
    """List the movements of a hall, by pattern and name."""
    catalogue = visit.kept_hall().hall.catalogue
    return [
        MovementEntry(slug=m.slug, name=m.name, pattern=m.pattern)
        for m in catalogue.movements.values()
        if (pattern is None or m.pattern is pattern) and find.lower() in m.name.lower()
    ]


@router.get("/halls/{hall_id}/movements/{slug}", responses=answers(), operation_id="read_movement")
def read_movement(visit: SeeVisit, hall_id: Identifier, slug: Identifier) -> MovementShown:
    """Read one movement."""
    hall = visit.kept_hall().hall
    found = hall.catalogue.movements.get(slug)
    if found is None:
        raise NotFoundError("There is no such movement in this hall's library.")
    drawn = visit.house.adapters.pictures_of(hall).key_pictures(slug)
    at = f"/at/{hall_id}/movements/{slug}"
    return MovementShown(
        movement=found,
        lines=[line.slug for line in hall.catalogue.lines.values() if slug in line.versions],
        drawings=[f"{at}/{n}.svg" for n in range(1, len(drawn) + 1)],
    )
