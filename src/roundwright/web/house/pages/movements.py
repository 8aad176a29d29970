"""Movements: the library with drawings, by pattern, kit and what they ask; one movement whole."""

from collections.abc import Iterable, Iterator
from enum import StrEnum
from typing import Annotated

from fastapi import APIRouter, Depends
from markupsafe import Markup
from starlette.responses import HTMLResponse, Response

from roundwright.accounts.account import May
from roundwright.foundation.errors import NotFoundError
from roundwright.library.movement import Movement
from roundwright.library.vocabulary import Demand, KitKind, Pattern
from roundwright.services.keeping.records import KeptHall
from roundwright.web.house.visit import Needs, Visit

router = APIRouter()
AT = "/at/{hall_id}/movements"
SeeVisit = Annotated[Visit, Depends(Needs(May.SEE_PLANS))]
LOW = 1
"""The degree up to which a movement is listed as asking little of something."""
LASTING = {"cache-control": "private, max-age=3600"}


@router.get(AT)
def movements(
    visit: SeeVisit, pattern: str = "", kit: str = "", asks_little: str = "", find: str = ""
) -> HTMLResponse:
    """List movements, filtered by pattern, kit, what they ask little of, and name."""
    catalogue = visit.kept_hall().hall.catalogue
    shown = [
        m
        for m in sorted(catalogue.movements.values(), key=lambda m: (m.pattern.value, m.level))
        if (not pattern or m.pattern.value == pattern)
        and (not kit or kit in {need.item.value for need in m.kit} or (kit == "none" and not m.kit))
        and (not asks_little or _degree(m, asks_little) <= LOW)
        and find.lower() in m.name.lower()
    ]
    say = visit.say
    return visit.page(
        "movements.html",
        here="movements",
        movements=shown,
        everything=len(catalogue.movements),
        patterns=[("", say("any")), *((p.value, say(p.value.replace("_", " "))) for p in Pattern)],
        kits=[
            ("", say("any")),
            ("none", say("no kit")),
            *((k.value, say(k.value)) for k in KitKind),
        ],
        demands=[
            ("", say("anything")),
            *((d.value, say(d.value.replace("_", " "))) for d in Demand),
        ],
        taken={"pattern": pattern, "kit": kit, "asks_little": asks_little, "find": find},
    )


@router.get(AT + "/{movement_id}")
def movement(visit: SeeVisit, movement_id: str) -> HTMLResponse:
    """Show one movement: what is said of it, its drawings, easier and harder ones."""
    kept = visit.kept_hall()
    one = _movement(kept, movement_id)
    catalogue = kept.hall.catalogue
    lines = [
        (line.name, [catalogue.movements[v] for v in line.versions])
        for line in catalogue.lines.values()
        if movement_id in line.versions
    ]
    pictures = visit.house.adapters.pictures_of(kept.hall).key_pictures(movement_id)
    return visit.page(
        "movement.html",
        here="movements",
        one=one,
        lines=lines,
        pictures=range(1, len(pictures) + 1),
        muscles=[(m.value.replace("_", " "), s) for m, s in one.muscles.items()],
        demands=[(d.value.replace("_", " "), n) for d, n in one.demands.items() if n > LOW],
    )


@router.get(AT + "/{movement_id}/{number}.svg")
def picture(visit: SeeVisit, movement_id: str, number: int) -> Response:
    """Give one drawing of a movement, counted from 1."""
    kept = visit.kept_hall()
    drawn = visit.house.adapters.pictures_of(kept.hall).key_pictures(movement_id)
    if not 1 <= number <= len(drawn):
        raise NotFoundError("There is no such drawing.")
    return Response(Markup(drawn[number - 1]), media_type="image/svg+xml", headers=LASTING)


def _movement(kept: KeptHall, movement_id: str) -> Movement:
    found = kept.hall.catalogue.movements.get(movement_id)
    if found is None:
        raise NotFoundError("There is no such movement in this hall's library.")
    return found


def _choices(visit: Visit, words: Iterable[StrEnum]) -> Iterator[tuple[str, str]]:
    return ((each.value, visit.say(each.value.replace("_", " "))) for each in words)


def _degree(one: Movement, demand: str) -> int:
    return one.demand(Demand(demand)) if demand in list(Demand) else 0
