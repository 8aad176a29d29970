"""Movements: the library with drawings, by pattern, kit and what they ask; one movement whole."""

from collections.abc import Iterable, Iterator
from contextlib import suppress
from enum import StrEnum
from typing import Annotated

from fastapi import APIRouter, Depends
from markupsafe import Markup
from starlette.responses import HTMLResponse, JSONResponse, Response

from roundwright.accounts.account import May
from roundwright.body.anatomy import Muscle, Side
from roundwright.body.moving_sequence import MovingSequence
from roundwright.bootstrap.shipped_bodies import shipped_bodies
from roundwright.documents.sheet_parts import Move
from roundwright.foundation.errors import NotFoundError
from roundwright.hall.hall_text import LIBRARY
from roundwright.library.movement import Movement
from roundwright.library.spoken_library import spoken
from roundwright.library.vocabulary import Demand, KitKind, Pattern
from roundwright.services.compare_versions import compare_versions
from roundwright.services.keeping.person_form import EXPERIENCE
from roundwright.services.keeping.records import KeptHall
from roundwright.web.house.visit import Needs, Visit
from roundwright.web.moving_routes import moving_json

router = APIRouter()
AT = "/at/{hall_id}/movements"
SeeVisit = Annotated[Visit, Depends(Needs(May.SEE_PLANS))]
LOW = 1
"""The degree up to which a movement is listed as asking little of something."""
LASTING = {"cache-control": "private, max-age=3600"}


@router.get(AT)
def movements(
    visit: SeeVisit,
    pattern: str = "",
    kit: str = "",
    asks_little: str = "",
    muscle: str = "",
    line: str = "",
    find: str = "",
) -> HTMLResponse:
    """List movements, filtered by pattern, kit, muscle, line, what they ask little of, name."""
    written = visit.kept_hall().hall.catalogue
    catalogue = spoken(written)
    chosen = catalogue.lines.get(line)
    shown = [
        m
        for m in sorted(catalogue.movements.values(), key=lambda m: (m.pattern.value, m.level))
        if (not pattern or m.pattern.value == pattern)
        and (not kit or kit in {need.item.value for need in m.kit} or (kit == "none" and not m.kit))
        and (not asks_little or _degree(m, asks_little) <= LOW)
        and (not muscle or muscle in {one.value for one in m.prime_movers})
        and (chosen is None or m.slug in chosen.versions)
        and (
            find.lower() in m.name.lower() or find.lower() in written.movements[m.slug].name.lower()
        )
    ]
    if chosen is not None:
        shown.sort(key=lambda m: chosen.versions.index(m.slug))
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
        muscles=[
            ("", say("any")),
            *((m.value, say(m.value.replace("_", " "))) for m in Muscle),
        ],
        lines=[
            ("", say("any")),
            *sorted(
                ((one.slug, one.name) for one in catalogue.lines.values()), key=lambda one: one[1]
            ),
        ],
        taken={
            "pattern": pattern,
            "kit": kit,
            "asks_little": asks_little,
            "find": find,
            "muscle": muscle,
            "line": line,
        },
    )


@router.get(AT + "/{movement_id}")
def movement(visit: SeeVisit, movement_id: str) -> HTMLResponse:
    """Show one movement: what is said of it, its drawings, easier and harder ones."""
    kept = visit.kept_hall()
    one = _movement(kept, movement_id)
    catalogue = spoken(kept.hall.catalogue)
    lines = [
        (line, [catalogue.movements[v] for v in line.versions])
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
        muscles=[(_word(visit, m), _word(visit, s.role)) for m, s in one.muscles.items()],
        demands=[_word(visit, d) for d, n in one.demands.items() if n > LOW],
        own=_own_file(kept, movement_id),
        moves=bool(pictures),
    )


@router.get(AT + "/{movement_id}/moving.json")
def moving(visit: SeeVisit, movement_id: str) -> JSONResponse:
    """Give one rep of a movement as frames."""
    kept = visit.kept_hall()
    one = _movement(kept, movement_id)
    sequence = _moving(visit, kept, one)
    if sequence is None:
        raise NotFoundError("There is no moving figure of this movement.")
    return JSONResponse(moving_json(sequence, (Move(one.slug, one.name, "", "", _seconds(one)),)))


@router.get("/at/{hall_id}/compare-movements")
def compare(visit: SeeVisit, one: str = "", other: str = "") -> HTMLResponse:
    """Show two versions beside each other: muscles, kit, what they ask, what they take."""
    kept = visit.kept_hall()
    known = spoken(kept.hall.catalogue).movements
    pair = (known.get(one), known.get(other))
    drawn, both, rows = [0, 0], None, []
    if pair[0] is not None and pair[1] is not None:
        pictures = visit.house.adapters.pictures_of(kept.hall)
        drawn = [len(pictures.key_pictures(slug)) for slug in (one, other)]
        rows = _rows(visit, pair[0], pair[1])
        with suppress(NotFoundError):
            bodies = shipped_bodies()
            both = compare_versions(
                spoken(kept.hall.catalogue), bodies.postures, bodies.table, one, other
            )
    return visit.page(
        "compare_movements.html",
        here="movements",
        one=pair[0],
        other=pair[1],
        movements=sorted(((m.slug, m.name) for m in known.values()), key=lambda m: m[1]),
        drawn=drawn,
        rows=rows,
        both=both,
    )


def _word(visit: Visit, one: StrEnum) -> str:
    """Say a word of the library's vocabulary."""
    return visit.say(one.value.replace("_", " "))


def _rows(visit: Visit, one: Movement, other: Movement) -> list[tuple[str, str, str]]:
    say = visit.say
    level = dict(EXPERIENCE)

    def of(m: Movement) -> tuple[str, ...]:
        demands = [
            f"{say(d.value.replace('_', ' '))} {n}" for d, n in sorted(m.demands.items()) if n
        ]
        return (
            say(m.pattern.value.replace("_", " ")),
            say(level[str(m.level)]),
            ", ".join(say(one.value.replace("_", " ")) for one in m.prime_movers),
            ", ".join(say(need.item.value) for need in m.kit) or say("no kit"),
            ", ".join(demands),
            f"{_seconds(m):g}",
            str(m.contacts_a_rep),
        )

    labels = (
        say("Kind of movement"),
        say("For whom at the earliest"),
        say("Prime movers"),
        say("Kit"),
        say("Asks (1 low to 3 high)"),
        say("Seconds a rep"),
        say("Landings a rep"),
    )
    return list(zip(labels, of(one), of(other), strict=True))


def _own_file(kept: KeptHall, movement_id: str) -> str:
    """Give the key of the hall's own file in which a movement stands; empty: it is shipped."""
    named = f"[movement.{movement_id}]"
    found = (name for name, text in kept.hall.library_texts.items() if named in text)
    return next(found, "").removeprefix(LIBRARY).removesuffix(".toml")


def _moving(visit: Visit, kept: KeptHall, one: Movement) -> MovingSequence | None:
    side = Side.LEFT if one.is_one_sided else Side.BOTH
    return visit.house.adapters.pictures_of(kept.hall).moving([(one.slug, side)])


def _seconds(one: Movement) -> float:
    return float(one.seconds_a_rep)


@router.get(AT + "/{movement_id}/{number}.svg")
def picture(visit: SeeVisit, movement_id: str, number: int) -> Response:
    """Give one drawing of a movement, counted from 1."""
    kept = visit.kept_hall()
    drawn = visit.house.adapters.pictures_of(kept.hall).key_pictures(movement_id)
    if not 1 <= number <= len(drawn):
        raise NotFoundError("There is no such drawing.")
    return Response(Markup(drawn[number - 1]), media_type="image/svg+xml", headers=LASTING)


def _movement(kept: KeptHall, movement_id: str) -> Movement:
    found = spoken(kept.hall.catalogue).movements.get(movement_id)
    if found is None:
        raise NotFoundError("There is no such movement in this hall's library.")
    return found


def _choices(visit: Visit, words: Iterable[StrEnum]) -> Iterator[tuple[str, str]]:
    return ((each.value, visit.say(each.value.replace("_", " "))) for each in words)


def _degree(one: Movement, demand: str) -> int:
    return one.demand(Demand(demand)) if demand in list(Demand) else 0
