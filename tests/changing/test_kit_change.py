"""Kit that is lost comes off the rack, and back onto it."""

from roundwright.kit.inventory import Dumbbells, Inventory
from roundwright.plan.changing.kit_change import with_units
from tests.support.builders import a_kit


def _counts(kit: Inventory) -> list[int]:
    return [d.count for d in kit.dumbbells]


def test_dumbbells_are_lost_and_come_back() -> None:
    kit = a_kit({4000: 4, 8000: 2})
    fewer = with_units(kit, 8000, None, -1)
    assert _counts(fewer) == [4, 1]
    assert with_units(fewer, 8000, None, 1) == kit


def test_lots_of_one_mass_are_emptied_from_the_last_and_what_is_out_of_use_is_left() -> None:
    lots = tuple(
        Dumbbells(unit_mass_g=6000, count=count, in_use=in_use)
        for count, in_use in ((2, True), (3, False), (2, True))
    )
    kit = Inventory(dumbbells=lots)
    assert _counts(with_units(kit, 6000, None, -3)) == [1, 3, 0]
    assert _counts(with_units(kit, 6000, None, 2)) == [4, 3, 2]


def test_items_are_counted_too() -> None:
    kit = Inventory.model_validate({"items": [{"id": "low_box", "kind": "box", "count": 3}]})
    assert with_units(kit, 0, "low_box", -2).items[0].count == 1
