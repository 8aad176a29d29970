"""Kit that is lost, or back: an inventory with more or fewer units in use."""

from roundwright.foundation.errors import BadInputError
from roundwright.foundation.faults import Fault
from roundwright.foundation.identifiers import nearest_names
from roundwright.kit.inventory import Inventory


def with_units(kit: Inventory, unit_mass_g: int, item_id: str | None, units: int) -> Inventory:
    """Give an inventory with `units` more (or, negative, fewer) of one mass or item.

    Dumbbells of one mass that are kept in several lots: taken from the last lots in use
    first, put back to the first lot.

    Raises
    ------
    BadInputError
        Kit that the hall does not have, or more units lost than there are.
    """
    if item_id is not None:
        return _items(kit, item_id, units)
    lots = [k for k, d in enumerate(kit.dumbbells) if d.unit_mass_g == unit_mass_g and d.in_use]
    if not lots:
        known = ", ".join(f"{d.unit_mass_g / 1000:g} kg" for d in kit.dumbbells) or "none"
        raise _fault("mass", f"{unit_mass_g / 1000:g} kg", f"one of the rack: {known}")
    there = sum(kit.dumbbells[k].count for k in lots)
    if there + units < 0:
        raise _fault("units", str(-units), f"at most {there}")
    changed = list(kit.dumbbells)
    left = units
    for k in lots[:1] if units > 0 else reversed(lots):
        step = max(left, -changed[k].count)
        changed[k] = changed[k].model_copy(update={"count": changed[k].count + step})
        left -= step
    return kit.model_copy(update={"dumbbells": tuple(changed)})


def _items(kit: Inventory, item_id: str, units: int) -> Inventory:
    found = next((i for i in kit.items if i.id == item_id), None)
    if found is None:
        near = nearest_names(item_id, tuple(i.id for i in kit.items))
        raise _fault("item", item_id, "an item of the hall", near)
    if found.count + units < 0:
        raise _fault("units", str(-units), f"at most {found.count}")
    items = tuple(
        i.model_copy(update={"count": i.count + units}) if i is found else i for i in kit.items
    )
    return kit.model_copy(update={"items": items})


def _fault(name: str, value: str, expected: str, nearest: tuple[str, ...] = ()) -> BadInputError:
    fault = Fault(
        code="field.value",
        file="change",
        field=name,
        value=value,
        expected=expected,
        nearest=nearest,
    )
    return BadInputError([fault])
