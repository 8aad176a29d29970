"""What hall.toml and kit.toml hold: settings and rooms, dumbbells and items."""

from collections.abc import Iterable

from roundwright.foundation.faults import Fault
from roundwright.foundation.toml_lines import Path
from roundwright.hall.file_text import TomlText, unknown_name
from roundwright.hall.hall import HallSettings
from roundwright.hall.model_faults import M, model_of
from roundwright.kit.inventory import Dumbbells, Inventory, KitItem, Room
from roundwright.library.vocabulary import KitKind

LONGEST_LABEL = 20


def read_settings(
    toml: TomlText,
) -> tuple[HallSettings | None, tuple[Room, ...], frozenset[str], list[Fault]]:
    """Read hall.toml: settings, rooms without faults, all room ids given, faults."""
    values = {key: value for key, value in toml.values.items() if key != "room"}
    settings, found = model_of(HallSettings, values, toml)
    faults = list(found)
    rooms, room_faults = _listed(toml, "room", Room)
    faults += room_faults
    if not toml.tables("room"):
        faults.append(toml.fault("field.missing", ("room",), expected="at least one [[room]]"))
    given = [(path, str(row.get("id", ""))) for path, row in _paths(toml, "room")]
    faults += _twice(toml, given, "id")
    return settings, rooms, frozenset(name for _, name in given), faults


def read_kit(toml: TomlText, rooms: frozenset[str] | None) -> tuple[Inventory, list[Fault]]:
    """Read kit.toml; `rooms` are the known room ids, None when they could not be read."""
    faults = [
        toml.fault("field.unknown", (key,), expected="[[dumbbell]] and [[item]]")
        for key in toml.values
        if key not in ("dumbbell", "item")
    ]
    for _, row in toml.tables("dumbbell"):
        _keep_wording(row)
    dumbbells, dumbbell_faults = _listed(toml, "dumbbell", Dumbbells)
    items, item_faults = _listed(toml, "item", KitItem)
    faults += [*dumbbell_faults, *item_faults]
    if not dumbbell_faults:
        masses = [(("dumbbell", n), str(d.unit_mass_g)) for n, d in enumerate(dumbbells)]
        faults += _twice(toml, masses, "mass")
    item_rows = _paths(toml, "item")
    faults += _twice(toml, [(path, str(row.get("id", ""))) for path, row in item_rows], "id")
    for path, row in item_rows:
        if rooms is not None and "room" in row and row["room"] not in rooms:
            faults.append(
                unknown_name(toml, (*path, "room"), row["room"], rooms, "a room of hall.toml")
            )
        if row.get("kind") == KitKind.DUMBBELL:
            faults.append(
                toml.fault("field.value", (*path, "kind"), "dumbbell", "a [[dumbbell]] entry")
            )
    kit = Inventory(dumbbells=dumbbells, items=items)
    if kit.is_empty and not faults:
        faults.append(Fault(code="hall.no_kit", file=toml.file, expected="a count above 0"))
    return kit, faults


def _keep_wording(row: dict[str, object]) -> None:
    """Keep a mass as the coach wrote it as its label, where no label is given."""
    mass = row.get("mass")
    if "label" not in row and isinstance(mass, str) and len(mass) <= LONGEST_LABEL:
        row["label"] = mass


def _paths(toml: TomlText, key: str) -> list[tuple[Path, dict[str, object]]]:
    return [((key, n), row) for n, row in toml.tables(key)]


def _listed(toml: TomlText, key: str, model: type[M]) -> tuple[tuple[M, ...], list[Fault]]:
    given = toml.values.get(key, [])
    if not isinstance(given, list) or any(not isinstance(row, dict) for row in given):
        return (), [toml.fault("field.value", (key,), expected=f"[[{key}]] tables")]
    made: list[M] = []
    faults: list[Fault] = []
    for path, row in _paths(toml, key):
        one, found = model_of(model, row, toml, path)
        faults += found
        if one is not None:
            made.append(one)
    return tuple(made), faults


def _twice(toml: TomlText, names: Iterable[tuple[Path, str]], field: str) -> list[Fault]:
    seen: set[str] = set()
    faults = []
    for path, name in names:
        if name and name in seen:
            shown = f"{int(name) / 1000:g} kg" if field == "mass" else name
            faults.append(toml.fault("name.duplicate", (*path, field), shown))
        seen.add(name)
    return faults
