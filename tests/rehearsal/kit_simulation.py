"""A class in which everybody really takes kit off a finite rack, and puts it back: who is blocked?

Barrier rule: a window's kit is put back in the change after it, and nobody takes kit of
the next window before everybody has.
"""

from collections.abc import Iterator

import simpy

from roundwright.goals.class_wish import ClassFormat
from roundwright.plan.core import Cell, CellState, Core, Window, WindowKind
from roundwright.plan.problem import Problem

Key = int | str


def stock_of(problem: Problem) -> dict[Key, int]:
    """Count what is in use in the class's room."""
    stock: dict[Key, int] = {}
    for d in problem.kit.dumbbells:
        if d.in_use:
            stock[d.unit_mass_g] = stock.get(d.unit_mass_g, 0) + d.count
    for item in problem.kit.items:
        if item.in_use and item.room in (None, problem.room.id):
            stock[item.id] = stock.get(item.id, 0) + item.count
    return stock


def wants_of(core: Core, window: Window) -> list[dict[Key, int]]:
    """Give what each place (a person; a pair) takes for one window; a pair the larger half."""
    doses = {d.person_id: d for d in core.people}
    if window.kind is WindowKind.BURST:
        return [
            {k.item_id: k.units for k in d.burst_kit}
            for d in core.people
            if d.burst and window.round in d.rounds
        ]
    if window.kind is not WindowKind.WORK:
        return []
    wants: list[dict[Key, int]] = []
    for group, position in zip(core.class_.groups, window.positions, strict=True):
        mine = {
            c.person_id: _kit(c)
            for c in core.cells
            if c.person_id in group
            and c.position == position
            and c.round in (0, window.round)
            and window.round in doses[c.person_id].rounds
            and c.state is not CellState.SIT_OUT
        }
        if core.class_.format is not ClassFormat.PAIRS:
            wants += mine.values()
            continue
        halves = [
            _added([mine[p] for p in half if p in mine]) for half in (group[0::2], group[1::2])
        ]
        wants.append({k: max(h.get(k, 0) for h in halves) for h in halves for k in h})
    return wants


def _kit(cell: Cell) -> dict[Key, int]:
    kit: dict[Key, int] = {cell.unit_mass_g: cell.units} if cell.units else {}
    return kit | {k.item_id: k.units for k in cell.kit}


def _added(parts: list[dict[Key, int]]) -> dict[Key, int]:
    return {k: sum(p.get(k, 0) for p in parts) for k in {k for p in parts for k in p}}


def most_used(core: Core) -> dict[Key, int]:
    """Give the most units of each kind that one window takes."""
    most: dict[Key, int] = {}
    for window in core.timeline:
        for key, units in _added(wants_of(core, window)).items():
            most[key] = max(most.get(key, 0), units)
    return most


def blocked(core: Core, stock: dict[Key, int]) -> int:
    """Run the class and count how often somebody finds the rack empty."""
    env = simpy.Environment()
    shelves = {
        key: simpy.Container(env, capacity=max(1, stock.get(key, 0)), init=stock.get(key, 0))
        for key in {*stock, *most_used(core)}
    }
    found = 0

    def place(want: dict[Key, int], length: float, got: list[bool]) -> Iterator[simpy.Event]:
        taken = []
        for key, units in sorted(want.items(), key=str):
            asked = shelves[key].get(units)
            yield asked | env.timeout(0)
            if not asked.triggered:
                asked.cancel()
                got.append(False)
            else:
                taken.append((key, units))
        yield env.timeout(length)
        for key, units in taken:
            yield shelves[key].put(units)

    def coach() -> Iterator[simpy.Event]:
        nonlocal found
        for window in core.timeline:
            got: list[bool] = []
            yield env.all_of(
                [env.process(place(w, window.length_s, got)) for w in wants_of(core, window)]
                + [env.timeout(window.length_s)]
            )
            found += len(got)

    env.process(coach())
    env.run()
    for key, shelf in shelves.items():
        assert shelf.level == stock.get(key, 0), "everything is back on the rack"
    return found
