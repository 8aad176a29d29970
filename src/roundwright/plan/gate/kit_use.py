"""What kit a version needs, which piece is fit for it, and what a window uses in all."""

from collections import Counter
from collections.abc import Iterable, Sequence

from roundwright.kit.inventory import KitItem
from roundwright.library.movement import KitNeed, Movement
from roundwright.library.vocabulary import KitKind, KitUse
from roundwright.plan.core import KitUnits
from roundwright.plan.gate.reading import Reading, Work
from roundwright.plan.problem import Problem, ProblemPerson

CARRYING = frozenset({KitUse.STEP_ON, KitUse.JUMP_ON, KitUse.LIE_OR_SIT})
RATED = frozenset({KitKind.BENCH, KitKind.BOX, KitKind.CHAIR})
Thing = int | str
"""A dumbbell's mass in g, or an item's id."""


def needs_flat(movements: Iterable[Movement]) -> bool:
    """Say whether dumbbells stand under the hands in any step."""
    return any(
        need.item is KitKind.DUMBBELL and need.use is KitUse.UNDER_HANDS
        for m in movements
        for need in m.kit
    )


def mass_count(problem: Problem, mass_g: int, flat: bool) -> int:
    """Give how many dumbbells of a mass are in use, flat-sided ones only where that matters."""
    return sum(
        d.count
        for d in problem.kit.dumbbells
        if d.unit_mass_g == mass_g and d.in_use and (d.flat_sided or not flat)
    )


def rack(problem: Problem, units: int, flat: bool) -> tuple[int, ...]:
    """Give the masses, lightest first, of which there are enough for one person."""
    masses = sorted({d.unit_mass_g for d in problem.kit.dumbbells})
    return tuple(m for m in masses if mass_count(problem, m, flat) >= units)


def needs_by_kind(
    movements: Sequence[Movement],
) -> dict[KitKind, tuple[int, tuple[tuple[Movement, KitNeed], ...]]]:
    """Give for each kind of item the largest number of units, and what it is used for."""
    needs: dict[KitKind, list[tuple[Movement, KitNeed]]] = {}
    for movement in movements:
        for need in movement.other_kit:
            if need.item is not KitKind.WALL:
                needs.setdefault(need.item, []).append((movement, need))
    return {
        kind: (max(need.units for _, need in uses), tuple(uses)) for kind, uses in needs.items()
    }


def serves(
    problem: Problem,
    person: ProblemPerson,
    item: KitItem,
    uses: Iterable[tuple[Movement, KitNeed]],
    mass_g: int,
) -> bool:
    """Say whether an item is fit for every use one person makes of it."""
    if not item.in_use or item.room not in (None, problem.room.id):
        return False
    return all(_fits(problem, person, item, m, need, mass_g) for m, need in uses)


def _fits(
    problem: Problem,
    person: ProblemPerson,
    item: KitItem,
    movement: Movement,
    need: KitNeed,
    mass_g: int,
) -> bool:
    if item.kind is not need.item:
        return False
    if need.max_height is not None and (item.height is None or item.height > need.max_height):
        return False
    if need.min_height is not None and (item.height is None or item.height < need.min_height):
        return False
    if need.use in CARRYING and item.kind in RATED:
        load = person.body_mass_g + mass_g * movement.dumbbells_lifted
        if item.strength is None or item.strength < load:
            return False
    if need.use is KitUse.JUMP_ON:
        low = item.height is not None and item.height <= problem.rules.jump_box_mm
        return item.kind is KitKind.BOX and item.stable and low
    if need.use is KitUse.STEP_ON:
        return item.kind is not KitKind.CHAIR and (item.kind is not KitKind.BOX or item.stable)
    return True


def items_exist(
    problem: Problem, person: ProblemPerson, movements: Sequence[Movement], mass_g: int
) -> bool:
    """Say whether the store holds a fit item for every need of one person."""
    return all(
        any(
            i.count >= units and serves(problem, person, i, uses, mass_g) for i in problem.kit.items
        )
        for units, uses in needs_by_kind(movements).values()
    )


def unfit_kinds(
    problem: Problem,
    person: ProblemPerson,
    movements: Sequence[Movement],
    kit: Sequence[KitUnits],
    mass_g: int,
) -> list[KitKind]:
    """Give the kinds of item that a person needs and is not given a fit one of."""
    items = {i.id: i for i in problem.kit.items}
    given = [(items[k.item_id], k.units) for k in kit if k.item_id in items]
    return [
        kind
        for kind, (units, uses) in needs_by_kind(movements).items()
        if not any(n >= units and serves(problem, person, i, uses, mass_g) for i, n in given)
    ]


def unknown_things(problem: Problem, kit: Sequence[KitUnits], mass_g: int) -> list[Thing]:
    """Give masses and item ids that the hall does not have at all."""
    items = {i.id for i in problem.kit.items}
    masses = {d.unit_mass_g for d in problem.kit.dumbbells}
    things: list[Thing] = [mass_g] if mass_g and mass_g not in masses else []
    return things + [k.item_id for k in kit if k.item_id not in items]


def stock(problem: Problem) -> Counter[Thing]:
    """Give how many there are of each mass and item, in use or not."""
    held: Counter[Thing] = Counter()
    for dumbbells in problem.kit.dumbbells:
        held[dumbbells.unit_mass_g] += dumbbells.count
    for item in problem.kit.items:
        held[item.id] += item.count
    return held


def used_by(work: Work) -> Counter[Thing]:
    """Give the units that one person uses at one place."""
    used: Counter[Thing] = Counter()
    if work.cell.unit_mass_g:
        used[work.cell.unit_mass_g] += work.cell.units
    for kit in work.cell.kit:
        used[kit.item_id] += kit.units
    return used


def used_at_once(reading: Reading, works: Iterable[Work]) -> Counter[Thing]:
    """Give the units that works of one window use: all at once, in pairs by the larger halves."""
    halves: dict[tuple[int, bool], Counter[Thing]] = {}
    group_of = {p: n for n, group in enumerate(reading.groups) for p in group}
    for work in works:
        second = reading.in_pairs and reading.in_second_half(work.person_id)
        group = group_of.get(work.person_id, -1) if reading.in_pairs else 0
        halves.setdefault((group, second), Counter()).update(used_by(work))
    used: Counter[Thing] = Counter()
    for group in {g for g, _ in halves}:
        used.update(halves.get((group, False), Counter()) | halves.get((group, True), Counter()))
    return used


def used_in_burst(reading: Reading, round_number: int) -> Counter[Thing]:
    """Give the units used by everyone at once in one burst."""
    used: Counter[Thing] = Counter()
    for burst in reading.bursts:
        if round_number in burst.rounds:
            for kit in burst.kit:
                used[kit.item_id] += kit.units
    return used
