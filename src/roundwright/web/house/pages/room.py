"""Room and kit: the rack, what else there is, the rooms; each a record of its own."""

import re
from decimal import Decimal, InvalidOperation
from typing import Annotated

from fastapi import APIRouter, Depends
from starlette.responses import HTMLResponse, Response

from roundwright.accounts.account import May
from roundwright.documents.spoken import day_words
from roundwright.foundation.errors import BadInputError, ChangedMeanwhileError
from roundwright.foundation.quantities import mass_g
from roundwright.foundation.shown import mass as shown_mass
from roundwright.kit.care import KitKey, KitState, entry_of, out_of_use
from roundwright.kit.inventory import Dumbbells, Inventory, KitItem
from roundwright.library.vocabulary import KitKind
from roundwright.services.keeping.new_hall import free_slug, slug_of
from roundwright.services.keeping.records import KeptHall, Plain, RecordEdit, RecordKey, RecordKind
from roundwright.services.plan_class import week_of
from roundwright.web.house.answers import see
from roundwright.web.house.visit import FormSent, Needs, Sent, Visit
from roundwright.web.texts import say_again

router = APIRouter()
AT = "/at/{hall_id}/room"
SeeVisit = Annotated[Visit, Depends(Needs(May.SEE_PLANS))]
ChangeVisit = Annotated[Visit, Depends(Needs(May.CHANGE_HALL))]
BETWEEN_MASSES = re.compile(r"[;,]?\s+(?=\d)")
"""What stands between weights that are typed in one go."""
MOST_G = 100_000
"""The heaviest dumbbell; as for kit.toml."""
ITEM_KINDS = (KitKind.BENCH, KitKind.BOX, KitKind.MAT, KitKind.BAND, KitKind.ROPE, KitKind.CHAIR)


@router.get(AT)
def room(visit: SeeVisit) -> HTMLResponse:
    """Show rack, items and rooms."""
    return _page(visit, visit.kept_hall(), Sent(), {})


@router.post(AT + "/dumbbells")
def set_dumbbells(visit: ChangeVisit, sent: FormSent) -> Response:
    """Say how many dumbbells of each mass there are; none takes the mass off the rack."""
    kept, count = visit.kept_hall(), sent.text("count")
    typed = BETWEEN_MASSES.split(sent.text("mass"))
    masses = {_typed_g(visit, one): one for one in typed}
    if not all(g and 0 < g <= MOST_G for g in masses) or not count.isdecimal() or int(count) > 400:
        words = visit.say("A weight up to 100 kg, and a count of 0 to 400 single dumbbells.")
        return _page(visit, kept, sent, {"mass": words}, 422)
    edits = []
    for grams, text in masses.items():
        where = RecordKey(RecordKind.DUMBBELL, str(grams))
        values: Plain = {
            "mass": grams,
            "count": int(count),
            "flat_sided": sent.text("flat_sided") == "yes",
            "in_use": True,
            "label": _label(visit, text),
        }
        edits.append(RecordEdit(where, values if int(count) else None, kept.versions.get(where)))
    if not int(count):
        edits += _without_inspections(kept, *(g for g in masses if g))
    return _kept(visit, kept, edits, sent)


@router.post(AT + "/items")
def add_item(visit: ChangeVisit, sent: FormSent) -> Response:
    """Add an item, or change how many of it there are; none takes it off the list."""
    kept = visit.kept_hall()
    taken = [item.id for item in kept.hall.kit.items]
    kind, count = sent.text("kind"), sent.text("count")
    height = _decimal(sent.text("height"))
    strength = _typed_g(visit, sent.text("strength"))
    if kind not in [k.value for k in ITEM_KINDS] or not count.isdecimal() or int(count) > 400:
        words = visit.say("One of the list, and a count of 0 to 400.")
        return _page(visit, kept, sent, {"kind": words}, 422)
    item_id = sent.text("item_id") or free_slug(slug_of(sent.text("label") or kind, kind), taken)
    where = RecordKey(RecordKind.ITEM, item_id)
    was = next((i for i in kept.hall.kit.items if i.id == item_id), None)
    values: dict[str, object] = {} if was is None else was.model_dump(mode="json", by_alias=True)
    values |= {
        "id": item_id,
        "kind": kind,
        "count": int(count),
        "height": None if height is None else int(height * 10),
        "strength": strength,
        "stable": sent.text("stable") == "yes",
        "label": sent.text("label"),
    }
    version = sent.whole("version") if was is not None else None
    expected = version or kept.versions.get(where)
    edits = [RecordEdit(where, values if int(count) else None, expected)]
    if not int(count):
        edits += _without_inspections(kept, item_id)
    return _kept(visit, kept, edits, sent)


@router.post(AT + "/inspections")
def inspect(visit: ChangeVisit, sent: FormSent) -> Response:
    """Write down an inspection of an entry of the kit list, or of some of its pieces."""
    kept, say = visit.kept_hall(), visit.say
    where = RecordKey(RecordKind.CARE)
    rows = [row.model_dump(mode="json", by_alias=True) for row in kept.hall.inspections]
    counts = {_sent_as(entry_of(one)): one.count for one in _entries(kept.hall.kit)}
    entry, state, units = sent.text("entry"), sent.text("state"), sent.whole("units")
    faults: dict[str, str] = {}
    if state not in list(KitState):
        faults["state"] = say("Choose one of the list.")
    if entry not in counts:
        faults["entry"] = say("Choose one of the list.")
    elif sent.text("units") and (units is None or not 1 <= units <= counts[entry]):
        faults["units"] = say("1 to {most}, or nothing for all of them.", most=counts[entry])
    if faults:
        return _page(visit, kept, sent, faults, 422)
    is_mass = entry.startswith("m")
    rows.append(
        {
            "item": None if is_mass else entry[1:],
            "mass": int(entry[1:]) if is_mass else None,
            "units": units,
            "on": visit.today.isoformat(),
            "by": visit.account.shown_name,
            "state": state,
            "note": sent.text("note"),
        }
    )
    edit = RecordEdit(where, {"inspections": rows}, kept.versions.get(where))
    return _kept(visit, kept, [edit], sent)


@router.post(AT + "/rooms")
def set_room(visit: ChangeVisit, sent: FormSent) -> Response:
    """Add a room, or change its name, size and what to do in an emergency."""
    kept = visit.kept_hall()
    length, width = _decimal(sent.text("length")), _decimal(sent.text("width"))
    if length is None or width is None or not (2 <= length <= 100 and 2 <= width <= 100):
        words = visit.say("Expected: {what}.", what=visit.say("2 to 100 metres"))
        return _page(visit, kept, sent, {"length": words}, 422)
    taken = [one.id for one in kept.hall.rooms]
    room_id = sent.text("room_id") or free_slug(slug_of(sent.text("name"), "room"), taken)
    where = RecordKey(RecordKind.ROOM, room_id)
    was = kept.hall.room(room_id)
    values: dict[str, object] = {} if was is None else was.model_dump(mode="json", by_alias=True)
    values |= {
        "id": room_id,
        "name": sent.text("name"),
        "length": int(length * 1000),
        "width": int(width * 1000),
        "emergency": [line for line in sent.text("emergency").splitlines() if line.strip()],
    }
    return _kept(visit, kept, [RecordEdit(where, values, kept.versions.get(where))], sent)


def _typed_g(visit: Visit, text: str) -> int | None:
    """Read a mass as it was typed: with its unit, or bare in the units of who asks."""
    try:
        return mass_g(text, visit.account.units) if text else None
    except ValueError:
        return None


def _label(visit: Visit, typed: str) -> str:
    """Give what stands on dumbbells that are not marked in kg."""
    bare = typed.strip().lower()
    if bare.endswith(("lb", "lbs")):
        return typed.strip()
    return f"{bare} lb" if visit.account.units == "lb" and not bare.endswith("g") else ""


def _without_inspections(kept: KeptHall, *entries: KitKey) -> list[RecordEdit]:
    """Give the edit by which entries that leave the kit list take their inspections along."""
    left = [row for row in kept.hall.inspections if row.entry not in entries]
    if len(left) == len(kept.hall.inspections):
        return []
    where = RecordKey(RecordKind.CARE)
    rows = [row.model_dump(mode="json", by_alias=True) for row in left]
    return [RecordEdit(where, {"inspections": rows} if rows else None, kept.versions.get(where))]


def _entries(kit: Inventory) -> list[Dumbbells | KitItem]:
    return [*sorted(kit.dumbbells, key=lambda d: d.unit_mass_g), *kit.items]


def _sent_as(entry: KitKey) -> str:
    return f"m{entry}" if isinstance(entry, int) else f"i{entry}"


def _kept(visit: Visit, kept: KeptHall, edits: list[RecordEdit], sent: Sent) -> Response:
    try:
        visit.house.keeping.halls.edit(kept.hall_id, edits, visit.by)
    except ChangedMeanwhileError as error:
        words = {"changed": f"{say_again(error.detail)} {say_again(error.next_step)}"}
        return _page(visit, visit.kept_hall(), sent, words, 409)
    except BadInputError as error:
        words = {"changed": visit.say("That cannot be kept: {why}", why=say_again(error.detail))}
        return _page(visit, kept, sent, words, 422)
    return see(f"{visit.at}/room")


def _page(
    visit: Visit, kept: KeptHall, sent: Sent, faults: dict[str, str], status: int = 200
) -> HTMLResponse:
    units, say = visit.account.units, visit.say
    out = out_of_use(kept.hall.kit, kept.hall.inspections, visit.today)
    names = {
        entry_of(one): say(
            "dumbbells of {mass}", mass=one.label or shown_mass(one.unit_mass_g, units)
        )
        if isinstance(one, Dumbbells)
        else one.label or say(one.kind.value)
        for one in _entries(kept.hall.kit)
    }
    rack = [
        (one.label or shown_mass(one.unit_mass_g, units), one)
        for one in _entries(kept.hall.kit)
        if isinstance(one, Dumbbells)
    ]
    return visit.page(
        "room.html",
        status,
        here="room",
        sent=sent,
        faults=faults,
        rack=rack,
        items=kept.hall.kit.items,
        carries={i.id: shown_mass(i.strength, units) for i in kept.hall.kit.items if i.strength},
        away=out,
        coming=[
            (
                kept.hall.classes[class_id].name,
                day_words(on),
                f"{visit.at}/class/{class_id}/{on.isoformat()}/",
            )
            for class_id, on in week_of(kept.hall, visit.today)
        ],
        versions={
            i.id: kept.versions.get(RecordKey(RecordKind.ITEM, i.id)) for i in kept.hall.kit.items
        },
        rooms=kept.hall.rooms,
        kinds=[(k.value, visit.say(k.value)) for k in ITEM_KINDS],
        states=[(s.value, visit.say(s.value)) for s in KitState],
        entries=[(_sent_as(key), name) for key, name in names.items()],
        inspections=[(row, names[row.entry]) for row in reversed(kept.hall.inspections)],
    )


def _decimal(text: str) -> Decimal | None:
    try:
        value = Decimal(text.replace(",", ".")) if text else None
    except InvalidOperation:
        return None
    return value if value is not None and value.is_finite() else None
