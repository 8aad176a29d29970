"""Which kit can serve one pass for one person (3.8)."""

from itertools import product

from roundwright.kit.inventory import KitItem
from roundwright.library.movement import KitNeed
from roundwright.library.vocabulary import KitKind, KitUse
from roundwright.plan.problem import Problem, ProblemPerson
from tests.brute_force.oracle_versions import OneStep

CARRYING = (KitUse.STEP_ON, KitUse.JUMP_ON, KitUse.LIE_OR_SIT)
RATED = (KitKind.BENCH, KitKind.BOX, KitKind.CHAIR)

Items = tuple[tuple[str, int], ...]


def units_held(steps: tuple[OneStep, ...]) -> int:
    return max(s.movement.dumbbells_needed for s in steps)


def lifts(steps: tuple[OneStep, ...]) -> bool:
    return any(s.movement.dumbbells_lifted > 0 for s in steps)


def _needs_flat(steps: tuple[OneStep, ...]) -> bool:
    return any(
        need.item is KitKind.DUMBBELL and need.use is KitUse.UNDER_HANDS
        for s in steps
        for need in s.movement.kit
    )


def masses_on_rack(problem: Problem, steps: tuple[OneStep, ...]) -> list[int]:
    """The masses that are there in enough units; 0 alone where no dumbbell is needed."""
    units = units_held(steps)
    if units == 0:
        return [0]
    flat = _needs_flat(steps)
    return sorted(
        d.unit_mass_g
        for d in problem.kit.dumbbells
        if d.in_use and d.count >= units and (d.flat_sided or not flat)
    )


def _serves(
    problem: Problem, person: ProblemPerson, item: KitItem, need: KitNeed, external_g: int
) -> bool:
    if not item.in_use or item.kind is not need.item or item.kind is KitKind.DUMBBELL:
        return False
    if item.room is not None and item.room != problem.spec.room_id:
        return False
    if item.count < need.units:
        return False
    if need.min_height is not None and (item.height is None or item.height < need.min_height):
        return False
    if need.max_height is not None and (item.height is None or item.height > need.max_height):
        return False
    if need.use in CARRYING and item.kind in RATED:
        weight = person.body_mass_g + external_g
        if item.strength is None or item.strength < weight:
            return False
    if need.use is KitUse.JUMP_ON:
        low = item.height is not None and item.height <= problem.rules.jump_box_mm
        if not (item.kind is KitKind.BOX and item.stable and low):
            return False
    if need.use is KitUse.STEP_ON:
        if item.kind is KitKind.CHAIR:
            return False
        if item.kind is KitKind.BOX and not item.stable:
            return False
    return True


def item_choices(
    problem: Problem, person: ProblemPerson, steps: tuple[OneStep, ...], mass_g: int
) -> list[Items]:
    """Every way to serve what is needed besides dumbbells; empty when there is none."""
    needs: dict[KitKind, list[tuple[KitNeed, int]]] = {}
    for s in steps:
        for need in s.movement.other_kit:
            if need.item is not KitKind.WALL:
                external = mass_g * s.movement.dumbbells_lifted
                needs.setdefault(need.item, []).append((need, external))
    a_kind = [
        [
            (item.id, max(need.units for need, _ in asked))
            for item in problem.kit.items
            if all(_serves(problem, person, item, need, ext) for need, ext in asked)
        ]
        for asked in needs.values()
    ]
    return [tuple(sorted(choice)) for choice in product(*a_kind)]
