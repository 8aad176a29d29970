"""Which kit serves a piece of warm-up or cool-down, and for how many at once (sections 3.8 and 9).

Everybody does a piece at the same time, so what one uses is gone for the others.
"""

from collections.abc import Iterable, Mapping

from roundwright.kit.inventory import KitItem
from roundwright.library.movement import KitNeed, Movement
from roundwright.library.vocabulary import KitKind, KitUse
from roundwright.plan.problem import Problem

CARRIERS = frozenset({KitKind.BENCH, KitKind.BOX, KitKind.CHAIR})
CARRYING = frozenset({KitUse.STEP_ON, KitUse.LIE_OR_SIT})


class PieceKit:
    """What is left of the room's kit while one piece is shared out."""

    def __init__(self, problem: Problem) -> None:
        self._items = tuple(
            item
            for item in sorted(problem.kit.items, key=lambda item: item.id)
            if item.in_use and item.room in (None, problem.spec.room_id)
        )
        self._of_kind: dict[KitKind, list[KitItem]] = {}
        for item in self._items:
            self._of_kind.setdefault(item.kind, []).append(item)
        self._all = {item.id: item.count for item in self._items}
        self._left = dict(self._all)

    def could_serve(self, movement: Movement, body_mass_g: int) -> bool:
        """Say whether the room has fit kit for a movement, were nobody else there."""
        return self._served(movement, body_mass_g, self._all) is not None

    def take(self, movement: Movement, body_mass_g: int) -> bool:
        """Take kit for one person; False, and nothing taken, when what is left does not serve.

        Parameters
        ----------
        movement : Movement
            A version without dumbbells.
        body_mass_g : int
            Who sits or steps on it, g.
        """
        served = self._served(movement, body_mass_g, self._left)
        if served is None:
            return False
        for item_id, units in served:
            self._left[item_id] -= units
        return True

    def _served(
        self, movement: Movement, body_mass_g: int, left: Mapping[str, int]
    ) -> list[tuple[str, int]] | None:
        if movement.dumbbells_needed:
            return None
        taken: list[tuple[str, int]] = []
        if not movement.other_kit:
            return taken
        for kind in sorted({n.item for n in movement.other_kit} - {KitKind.WALL}):
            needs = [n for n in movement.other_kit if n.item is kind]
            units = max(n.units for n in needs)
            item = next(
                (
                    i
                    for i in self._of_kind.get(kind, ())
                    if left[i.id] >= units and _fits(i, needs, body_mass_g)
                ),
                None,
            )
            if item is None:
                return None
            taken.append((item.id, units))
        return taken


def _fits(item: KitItem, needs: Iterable[KitNeed], body_mass_g: int) -> bool:
    return all(_fits_need(item, need, body_mass_g) for need in needs)


def _fits_need(item: KitItem, need: KitNeed, body_mass_g: int) -> bool:
    if item.kind is not need.item or need.use is KitUse.JUMP_ON:
        return False
    height = item.height
    if need.min_height is not None and (height is None or height < need.min_height):
        return False
    if need.max_height is not None and (height is None or height > need.max_height):
        return False
    carries = item.kind in CARRIERS and need.use in CARRYING
    if carries and (item.strength is None or item.strength < body_mass_g):
        return False
    stands = item.kind is not KitKind.CHAIR and (item.kind is not KitKind.BOX or item.stable)
    return need.use is not KitUse.STEP_ON or stands
