"""How kit is inspected and taken out of use; out of use stays so until it is signed back."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from enum import StrEnum
from typing import Annotated, TypeVar

from pydantic import Field, model_validator

from roundwright.foundation.authored_types import MassG
from roundwright.foundation.identifiers import Slug
from roundwright.foundation.model import Authored
from roundwright.kit.inventory import Dumbbells, Inventory, KitItem

KitKey = str | int
"""An entry of the kit list: an item's id, or the mass in g of one dumbbell."""
E = TypeVar("E", Dumbbells, KitItem)


class KitState(StrEnum):
    """What an inspection found; only `ok`, by name, gives back what was quarantined."""

    OK = "ok"
    QUARANTINED = "quarantined"


class KitInspection(Authored):
    """One look at one entry of the kit list: who, when, what was found, when next.

    Either `item` or the `mass` of one dumbbell says which entry.
    """

    item: Slug | None = None
    mass_g: MassG | None = Field(
        default=None, gt=0, le=100_000, alias="mass", description="of one dumbbell"
    )
    units: int | None = Field(
        default=None, ge=1, le=400, description="how many pieces; empty: the whole entry"
    )
    on: date
    by: Annotated[str, Field(min_length=1, max_length=80)]
    state: KitState
    note: str = Field(default="", max_length=200)
    next_on: date | None = None

    @model_validator(mode="after")
    def _is_about_one_entry(self) -> "KitInspection":
        if (self.item is None) == (self.mass_g is None):
            raise ValueError("expected an item or a mass, not both")
        return self

    @property
    def entry(self) -> KitKey:
        """Which entry of the kit list it is about."""
        return self.item or self.mass_g or ""


@dataclass(frozen=True, slots=True)
class OutOfUse:
    """How many pieces of an entry are out of use, and since when."""

    units: int
    since: date


def out_of_use(
    kit: Inventory, inspections: Sequence[KitInspection], on: date
) -> dict[KitKey, OutOfUse]:
    """Give which entries are out of use on a date, how many pieces of each, since when.

    Notes
    -----
    Rows count in the order of their dates; on one day a quarantine outlasts an
    *ok*. A sign-back dated after `on` doesn't count yet; a quarantine always does.
    A sign-back gives back as many pieces as it names, all where it names none.
    Never are more pieces out than the entry has.
    """
    every: tuple[Dumbbells | KitItem, ...] = (*kit.dumbbells, *kit.items)
    counts = {entry_of(one): one.count for one in every}
    out: dict[KitKey, OutOfUse] = {}
    for row in sorted(inspections, key=lambda r: (r.on, r.state is KitState.QUARANTINED)):
        count = counts.get(row.entry)
        if count is None:
            continue
        named, before = row.units or count, out.get(row.entry)
        if row.state is KitState.QUARANTINED:
            already = before.units if before else 0
            since = before.since if before else row.on
            out[row.entry] = OutOfUse(min(count, already + named), since)
        elif before and row.on <= on:
            if before.units > named:
                out[row.entry] = OutOfUse(before.units - named, before.since)
            else:
                del out[row.entry]
    return out


def usable_kit(kit: Inventory, inspections: Sequence[KitInspection], on: date) -> Inventory:
    """Give the inventory without what is out of use; nothing comes into use by it.

    An entry of which some pieces are out has so many fewer; one of which all
    are out keeps its count and is not in use.
    """
    out = out_of_use(kit, inspections, on)
    return kit.model_copy(
        update={
            "dumbbells": tuple(_less(one, out.get(entry_of(one))) for one in kit.dumbbells),
            "items": tuple(_less(one, out.get(entry_of(one))) for one in kit.items),
        }
    )


def inspections_due(inspections: Sequence[KitInspection], on: date) -> tuple[KitKey, ...]:
    """Give the entries whose latest inspection by a date asked for the next by then."""
    latest: dict[KitKey, KitInspection] = {}
    for row in sorted(inspections, key=lambda r: r.on):
        if row.on <= on:
            latest[row.entry] = row
    due = (key for key, row in latest.items() if row.next_on is not None and row.next_on <= on)
    return tuple(sorted(due, key=lambda key: (isinstance(key, str), key)))


def entry_of(one: Dumbbells | KitItem) -> KitKey:
    """Give what an entry of the kit list is named by in an inspection."""
    return one.unit_mass_g if isinstance(one, Dumbbells) else one.id


def _less(one: E, out: OutOfUse | None) -> E:
    if out is None:
        return one
    if out.units >= one.count:
        return one.model_copy(update={"in_use": False})
    return one.model_copy(update={"count": one.count - out.units})
