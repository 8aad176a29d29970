"""What the hall's rack and store hold; kit is qualified, not only counted."""

from typing import Annotated

from pydantic import Field

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

    @property
    def area_m2(self) -> float:
        """Floor area in m²."""
        return self.length * self.width / 1e6
