"""What the hall's rack and store hold; kit is qualified, not only counted."""

from enum import StrEnum
from typing import Annotated

from pydantic import Field, model_validator

from roundwright.foundation.authored_types import LengthMm, MassG
from roundwright.foundation.identifiers import Slug
from roundwright.foundation.model import Authored
from roundwright.library.vocabulary import KitKind


class Dumbbells(Authored):
    """All dumbbells of one mass; `count` is single dumbbells, a pair is two.

    `flat_sided` is required under hands; unknown counts as round.
    """

    unit_mass_g: MassG = Field(gt=0, le=100_000, alias="mass")
    count: int = Field(ge=0, le=400)
    flat_sided: bool = False
    in_use: bool = True
    label: str = Field(default="", max_length=20)


class KitItem(Authored):
    """One kind of item of the same make.

    `strength` is what a bench or box is rated for (person and load together);
    `stable` says that a box can neither slide nor tip; unknown counts as no.
    """

    id: Slug
    kind: KitKind
    count: int = Field(ge=0, le=400)
    height: LengthMm | None = Field(default=None, gt=0, le=3000)
    strength: MassG | None = Field(default=None, gt=0)
    stable: bool = False
    in_use: bool = True
    room: Slug | None = None
    label: str = Field(default="", max_length=40)


class Inventory(Authored):
    """Everything that may be handed out, one entry per mass and per item id."""

    dumbbells: tuple[Dumbbells, ...] = ()
    items: tuple[KitItem, ...] = ()

    @property
    def is_empty(self) -> bool:
        """Whether there is nothing at all that can be handed out."""
        return not any(d.count for d in self.dumbbells) and not any(i.count for i in self.items)


class Wall(StrEnum):
    """A wall, as seen by people who face the coach. The front is a long wall of the room."""

    FRONT = "front"
    BACK = "back"
    LEFT = "left"
    RIGHT = "right"


class FixtureKind(StrEnum):
    """What at a wall matters to whoever sets up the room."""

    DOOR = "door"
    EMERGENCY_EXIT = "emergency_exit"
    RACK = "rack"
    DEFIBRILLATOR = "defibrillator"


class Fixture(Authored):
    """A door, the rack or the like at a wall.

    `at` is where it begins: from the left end of the front and back walls,
    from the front end of the left and right walls.
    """

    kind: FixtureKind
    wall: Wall
    at: LengthMm = Field(ge=0, description="from the left end, or from the front end")
    width: LengthMm = Field(default=1000, gt=0, description="along the wall; 1 m when left out")


class Room(Authored):
    """A room: its floor in mm, and the floor area that each person should have, in m²."""

    id: Slug
    name: Annotated[str, Field(min_length=1, max_length=60)]
    length: LengthMm = Field(gt=0, le=200_000)
    width: LengthMm = Field(gt=0, le=200_000)
    height: LengthMm | None = Field(default=None, gt=0)
    space_a_person: float = Field(default=4.65, gt=0, le=50, description="m² a person")
    emergency: tuple[Annotated[str, Field(max_length=160)], ...] = Field(
        default=(), description="address, door, defibrillator's place, who calls"
    )
    fixture: tuple[Fixture, ...] = Field(default=(), max_length=20)

    @model_validator(mode="after")
    def _fixtures_are_at_their_walls(self) -> "Room":
        long, short = max(self.length, self.width), min(self.length, self.width)
        for one in self.fixture:
            wall = long if one.wall in (Wall.FRONT, Wall.BACK) else short
            if one.at + one.width > wall:
                raise ValueError(
                    f"a {one.kind.value} ends beyond the {one.wall.value} wall; the front and "
                    "back walls are the long ones"
                )
        return self

    @property
    def area_m2(self) -> float:
        """Floor area in m²."""
        return self.length * self.width / 1e6
