"""How kit is inspected and taken out of use; out of use stays so until it is signed back."""

from collections.abc import Sequence
from datetime import date
from enum import StrEnum
from typing import Annotated

from pydantic import Field

from roundwright.foundation.identifiers import Slug
from roundwright.foundation.model import Authored
from roundwright.kit.inventory import Inventory


class KitState(StrEnum):
    """What an inspection found; only `ok`, by name, gives a quarantined item back."""

    OK = "ok"
    QUARANTINED = "quarantined"


class KitInspection(Authored):
    """One look at one entry of the kit list: who, when, what was found, when next."""

    item: Slug
    on: date
    by: Annotated[str, Field(min_length=1, max_length=80)]
    state: KitState
    note: str = Field(default="", max_length=200)
    next_on: date | None = None


def quarantined(inspections: Sequence[KitInspection], on: date) -> frozenset[str]:
    """Give the items that are out of use on a date.

    Notes
    -----
    Rows count in the order of their dates; on one day a quarantine outlasts an
    *ok*. A sign-back dated after `on` doesn't count yet; a quarantine always does.
    """
    out: set[str] = set()
    for row in sorted(inspections, key=lambda r: (r.on, r.state is KitState.QUARANTINED)):
        if row.state is KitState.QUARANTINED:
            out.add(row.item)
        elif row.on <= on:
            out.discard(row.item)
    return frozenset(out)


def usable_kit(kit: Inventory, inspections: Sequence[KitInspection], on: date) -> Inventory:
    """Give the inventory with quarantined items out of use; nothing comes into use by it."""
    out = quarantined(inspections, on)
    items = tuple(
        item.model_copy(update={"in_use": False}) if item.id in out else item for item in kit.items
    )
    return kit.model_copy(update={"items": items})


def inspections_due(inspections: Sequence[KitInspection], on: date) -> tuple[str, ...]:
    """Give the items whose latest inspection by a date asked for the next by then."""
    latest: dict[str, KitInspection] = {}
    for row in sorted(inspections, key=lambda r: r.on):
        if row.on <= on:
            latest[row.item] = row
    return tuple(sorted(i for i, r in latest.items() if r.next_on is not None and r.next_on <= on))
