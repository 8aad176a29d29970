"""Which dumbbells and items can serve a version for a person (section 3, rule 8)."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import product

from roundwright.kit.inventory import Inventory, KitItem
from roundwright.library.vocabulary import KitKind, KitUse
from roundwright.optimise.movement_facts import MovementFacts
from roundwright.plan.rule_table import RuleTable

CARRIERS = frozenset({KitKind.BENCH, KitKind.BOX, KitKind.CHAIR})
CARRYING = frozenset({KitUse.STEP_ON, KitUse.JUMP_ON, KitUse.LIE_OR_SIT})

KitKey = tuple[int, str]
"""A thing that can be handed out: (mass in g, "") for dumbbells, (0, item id) for items."""

ItemUse = tuple[str, int]
"""An item id and how many units of it one person uses."""


@dataclass(frozen=True, slots=True)
class Mass:
    """All usable dumbbells of one mass."""

    mass_g: int
    count: int
    flat_sided: bool


@dataclass(frozen=True, slots=True)
class _Need:
    """What one kind of item must be able to do for one version."""

    kind: KitKind
    units: int
    min_height: int | None
    max_height: int | None
    uses: frozenset[KitUse]
    lifted_on_it: int


class Rack:
    """What is in use in the class's room."""

    def __init__(self, kit: Inventory, room_id: str, rules: RuleTable) -> None:
        by_mass: dict[int, list[tuple[int, bool]]] = {}
        for entry in kit.dumbbells:
            if entry.in_use:
                by_mass.setdefault(entry.unit_mass_g, []).append((entry.count, entry.flat_sided))
        self.masses = tuple(
            Mass(mass, sum(n for n, _ in entries), all(flat for _, flat in entries))
            for mass, entries in sorted(by_mass.items())
        )
        self._items = tuple(
            item
            for item in sorted(kit.items, key=lambda item: item.id)
            if item.in_use
            and item.room in (None, room_id)
            and item.kind not in (KitKind.DUMBBELL, KitKind.WALL)
        )
        self._jump_box_mm = rules.jump_box_mm
        self._needed: dict[tuple[str, ...], list[_Need]] = {}
        self.counts: dict[KitKey, int] = {(m.mass_g, ""): m.count for m in self.masses}
        self.counts |= {(0, item.id): item.count for item in self._items}

    def masses_for(self, units: int, under_hands: bool) -> tuple[int, ...]:
        """Give the masses, light to heavy, of which there are enough of the right form."""
        return tuple(
            m.mass_g for m in self.masses if m.count >= units and (m.flat_sided or not under_hands)
        )

    def item_choices(
        self, movements: Sequence[MovementFacts], body_mass_g: int, mass_g: int
    ) -> tuple[tuple[ItemUse, ...], ...]:
        """Give every way to serve the other kit of a listing; empty when there is none.

        Parameters
        ----------
        body_mass_g, mass_g : int
            The person, and one dumbbell of those held, g.

        Returns
        -------
        tuple of tuple of (item id, units)
            One empty way when nothing is needed.
        """
        served = [
            [
                (item.id, need.units)
                for item in self._items
                if self._serves(item, need, body_mass_g, mass_g)
            ]
            for need in self._needs(movements)
        ]
        return tuple(product(*served))

    def _needs(self, movements: Sequence[MovementFacts]) -> list[_Need]:
        key = tuple(movement.slug for movement in movements)
        if key not in self._needed:
            self._needed[key] = _needs(movements)
        return self._needed[key]

    def _serves(self, item: KitItem, need: _Need, body_mass_g: int, mass_g: int) -> bool:
        if item.kind is not need.kind or item.count < need.units:
            return False
        height = item.height
        if need.min_height is not None and (height is None or height < need.min_height):
            return False
        if need.max_height is not None and (height is None or height > need.max_height):
            return False
        carried = body_mass_g + mass_g * need.lifted_on_it
        if (
            need.kind in CARRIERS
            and need.uses & CARRYING
            and (item.strength is None or item.strength < carried)
        ):
            return False
        if KitUse.JUMP_ON in need.uses and not (
            item.kind is KitKind.BOX
            and item.stable
            and height is not None
            and height <= self._jump_box_mm
        ):
            return False
        return not (
            KitUse.STEP_ON in need.uses
            and (item.kind is KitKind.CHAIR or (item.kind is KitKind.BOX and not item.stable))
        )


def _needs(movements: Sequence[MovementFacts]) -> list[_Need]:
    """Merge the needs of a listing: of each kind the largest, for all its uses."""
    by_kind: dict[KitKind, _Need] = {}
    for movement in movements:
        for need in movement.other_kit:
            if need.item is KitKind.WALL:
                continue
            old = by_kind.get(need.item, _Need(need.item, 0, None, None, frozenset(), 0))
            lows = [h for h in (old.min_height, need.min_height) if h is not None]
            highs = [h for h in (old.max_height, need.max_height) if h is not None]
            carries = need.use in CARRYING
            by_kind[need.item] = _Need(
                kind=need.item,
                units=max(old.units, need.units),
                min_height=max(lows, default=None),
                max_height=min(highs, default=None),
                uses=old.uses | {need.use},
                lifted_on_it=max(old.lifted_on_it, movement.lifted if carries else 0),
            )
    return [by_kind[kind] for kind in sorted(by_kind)]
