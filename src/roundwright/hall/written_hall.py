"""How a hall becomes files again, in one form only: reading and writing lose nothing.

Every value is written, also where it equals the default, so that a later
default never changes an old hall. Comments of the coach's own files are not kept.
"""

import csv
import io
from collections.abc import Mapping, Sequence
from datetime import date, time
from decimal import Decimal

from roundwright.goals.class_wish import ClassWish, Count
from roundwright.hall.hall import Hall
from roundwright.hall.hall_text import (
    CLASSES,
    HALL_FILE,
    KIT_FILE,
    LIMITATIONS_FILE,
    PEOPLE_FILE,
)
from roundwright.hall.people_text import LIMITATION_COLUMNS, PEOPLE_COLUMNS
from roundwright.hall.record_files import RECORDS, record_fields
from roundwright.kit.inventory import Dumbbells, Fixture, Inventory, KitItem, Room
from roundwright.library.vocabulary import StrengthFamily
from roundwright.people.limitation import Limitation
from roundwright.people.person import Person

Plain = str | int | float | bool | date | time | None | Mapping[str, "Plain"] | Sequence["Plain"]
Fields = Mapping[str, "Plain"]


def written_hall(hall: Hall) -> dict[str, bytes]:
    """Give every file of a hall by its name within the folder.

    `read_hall_texts` of these files gives an equal hall.
    """
    texts = {
        HALL_FILE: settings_text(hall),
        KIT_FILE: kit_text(hall.kit),
        PEOPLE_FILE: people_text(hall.people),
        LIMITATIONS_FILE: limitations_text(hall.limitations),
    }
    texts |= {f"{CLASSES}{slug}.toml": class_text(wish) for slug, wish in hall.classes.items()}
    for file, tables in RECORDS.items():
        lists = {
            key: [record_fields(one) for one in getattr(hall, field)]
            for key, (_, field) in tables.items()
        }
        if any(lists.values()):
            texts[file] = _toml(file.removesuffix(".toml"), {}, lists)
    texts |= hall.library_texts
    return {name: texts[name].encode() for name in sorted(texts)}


def settings_text(hall: Hall) -> str:
    """Write hall.toml."""
    s = hall.settings
    head = {
        "name": s.name,
        "time_zone": s.time_zone,
        "units": s.units.value,
        "locale": s.locale,
        "paper": s.paper.value,
    }
    return _toml("hall", head, {"room": [_room(room) for room in hall.rooms]})


def kit_text(kit: Inventory) -> str:
    """Write kit.toml."""
    return _toml(
        "kit",
        {},
        {
            "dumbbell": [_dumbbells(d) for d in kit.dumbbells],
            "item": [_item(i) for i in kit.items],
        },
    )


def people_text(people: Sequence[Person]) -> str:
    """Write people.csv."""
    return _table(PEOPLE_COLUMNS, [_person(p) for p in people])


def limitations_text(limitations: Sequence[Limitation]) -> str:
    """Write limitations.csv."""
    return _table(LIMITATION_COLUMNS, [_limitation(row) for row in limitations])


def class_text(wish: ClassWish) -> str:
    """Write one classes/<slug>.toml."""
    head: dict[str, Plain] = {
        "name": wish.name,
        "on": wish.on,
        "weekday": wish.weekday,
        "start": _local_time(wish.start),
        "slot": _duration(wish.slot_s),
        "room": wish.room,
        "people": wish.people if wish.people == "all" else list(wish.people),
        "goal": wish.goal,
        "format": wish.format.value,
        "groups": wish.groups,
        "coaches": wish.coaches,
        "lead": wish.lead,
        "rounds": wish.rounds,
        "rounds_choice": list(wish.rounds_choice),
        "places": wish.places,
        "pace": wish.pace.value,
        "work": _duration(wish.work_s),
        "work_rest": wish.work_rest.value,
        "change": _duration(wish.change_s),
        "side_change": _duration(wish.side_change_s),
        "partner_swap": _duration(wish.partner_swap_s),
        "rest": _duration(wish.rest_s),
        "after_last_round": wish.after_last_round.value,
        "warm_up": _duration(wish.warm_up_s),
        "demonstration": _duration(wish.demonstration_s),
        "cool_down": _duration(wish.cool_down_s),
        "reps_left": wish.reps_left,
        "order": wish.order,
        "ban": list(wish.ban),
        "chance_on_time_pct": wish.chance_on_time_pct,
    }
    if wish.burst is not None:
        head["burst"] = {
            "line": wish.burst.line,
            "length": _duration(wish.burst.length_s),
            "rate_a_min": wish.burst.rate_a_min,
        }
    exercises: list[Fields] = [
        {
            "exercise": entry.exercise,
            "position": entry.position,
            "count": _count(entry.count),
        }
        for entry in wish.exercise
    ]
    kept: list[Fields] = [
        {
            "person": cell.person,
            "position": cell.position,
            "version": cell.version,
            "mass": _mass(cell.mass_g),
            "rests": cell.rests or None,
            "instead": cell.instead,
        }
        for cell in wish.keep
    ]
    return _toml("class", head, {"exercise": exercises, "keep": kept})


def _local_time(at: time) -> str:
    return at.isoformat("auto" if at.second or at.microsecond else "minutes")


def _count(count: Count | None) -> Fields | None:
    return None if count is None else {"value": count.value, "unit": count.unit.value}


def _fixture(one: Fixture) -> Fields:
    return {
        "kind": one.kind.value,
        "wall": one.wall.value,
        "at": _length(one.at),
        "width": _length(one.width),
    }


def _room(room: Room) -> Fields:
    return {
        "id": room.id,
        "name": room.name,
        "length": _length(room.length),
        "width": _length(room.width),
        "height": _length(room.height),
        "space_a_person": room.space_a_person,
        "emergency": list(room.emergency),
        "fixture": [_fixture(one) for one in room.fixture] or None,
    }


def _dumbbells(d: Dumbbells) -> Fields:
    worded = d.label == _mass(d.unit_mass_g)
    bare = Decimal(d.unit_mass_g) / 1000
    return {
        "mass": float(bare) if not d.label else _mass(d.unit_mass_g),
        "count": d.count,
        "flat_sided": d.flat_sided,
        "in_use": d.in_use,
        "label": None if worded or not d.label else d.label,
    }


def _item(item: KitItem) -> Fields:
    return {
        "id": item.id,
        "kind": item.kind.value,
        "count": item.count,
        "height": _length(item.height),
        "strength": _mass(item.strength),
        "stable": item.stable,
        "in_use": item.in_use,
        "room": item.room,
        "label": item.label,
    }


def _person(p: Person) -> dict[str, str]:
    return {
        "person_id": p.person_id,
        "shown_name": p.shown_name,
        "birth_year": _cell(p.birth_year),
        "sex": p.sex.value,
        "body_mass_kg": _thousandth(p.body_mass_g, 1000),
        "height_cm": _thousandth(p.height_mm, 10),
        "level": _cell(p.level),
        **{f"level_{f.value}": _cell(p.level_by_family.get(f)) for f in StrengthFamily},
        "classes_done": _cell(p.classes_done),
        "last_class_on": _cell(p.last_class_on),
        "clearance": p.clearance.value,
        "effort_only": "yes" if p.effort_only else "no",
        "usual_chance_pct": _cell(p.usual_chance_pct),
        "own_kit": p.own_kit,
    }


def _limitation(row: Limitation) -> dict[str, str]:
    return {
        "person_id": row.person_id,
        "region_or_condition": row.concern.value,
        "side": row.side.value,
        "amount": row.amount.value,
        "from_on": _cell(row.from_on),
        "until_on": _cell(row.until_on),
        "weeks": _cell(row.weeks),
        "set_by": row.set_by.value,
        "override_demand": _cell(row.override_demand),
        "override_reason": row.override_reason or "",
        "override_by": _cell(row.override_by),
        "override_until_on": _cell(row.override_until_on),
    }


def _cell(value: object) -> str:
    return "" if value is None else str(value)


def _thousandth(value: int | None, grain: int) -> str:
    return "" if value is None else _decimal(Decimal(value) / grain)


def _decimal(value: Decimal) -> str:
    text = f"{value:f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def _mass(grams: int | None) -> str | None:
    return None if grams is None else f"{_decimal(Decimal(grams) / 1000)} kg"


def _length(mm: int | None) -> str | None:
    if mm is None:
        return None
    return f"{_decimal(Decimal(mm) / 10)} cm" if mm < 1000 else f"{_decimal(Decimal(mm) / 1000)} m"


def _duration(seconds: int | None) -> str | None:
    if seconds is None:
        return None
    minutes, rest = divmod(seconds, 60)
    return f"{minutes} min" if minutes and not rest else f"{seconds} s"


def _table(columns: Sequence[str], rows: Sequence[Mapping[str, str]]) -> str:
    text = io.StringIO(newline="")
    writer = csv.DictWriter(text, columns, lineterminator="\n")
    writer.writeheader()
    writer.writerows(rows)
    return text.getvalue()


def _toml(kind: str, head: Fields, lists: Mapping[str, Sequence[Fields]]) -> str:
    blocks = [_lines({"schema": f"roundwright.{kind}/1", **head})]
    blocks += [
        f"[[{name}]]\n{_lines(fields)}" for name, tables in lists.items() for fields in tables
    ]
    return "\n".join(blocks)


def _lines(fields: Fields) -> str:
    kept = {name: value for name, value in fields.items() if value is not None}
    return "".join(f"{name} = {_value(value)}\n" for name, value in kept.items())


def _value(value: Plain) -> str:
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, str):
        return _quoted(value)
    if isinstance(value, date | time):
        return value.isoformat()
    if isinstance(value, Mapping):
        kept = [f"{name} = {_value(v)}" for name, v in value.items() if v is not None]
        return "{ " + ", ".join(kept) + " }"
    if isinstance(value, Sequence):
        return "[" + ", ".join(_value(item) for item in value) + "]"
    return repr(value)


def _quoted(text: str) -> str:
    """Write a TOML basic string: quotes, backslashes and control characters escaped."""
    escaped = "".join(
        f"\\{c}" if c in '"\\' else c if c >= " " and c != "\x7f" else f"\\u{ord(c):04x}"
        for c in text
    )
    return f'"{escaped}"'
