"""Who is disturbed by an answer to a change: section C2 of *How a plan is changed*.

Read by the search and by the services; the brute force of the tests counts on its own.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from roundwright.plan.changing.restate import Restated
from roundwright.plan.core import Cell, CellState, Core, KitUnits

BURST = 0
"""The position under which a person's burst is counted as a cell."""

Doing = tuple[object, ...]
ByPlace = Mapping[tuple[str, int], Sequence[Cell]]


@dataclass(frozen=True, slots=True)
class Disturbance:
    """Cells that differ, by person, without those that the change names; and who is left out."""

    cells: Mapping[str, frozenset[int]]
    left_out: frozenset[tuple[str, int]]

    @property
    def people(self) -> tuple[str, ...]:
        """Give who is disturbed, in order."""
        return tuple(sorted(self.cells))

    @property
    def cell_count(self) -> int:
        """Give how many cells changed."""
        return sum(len(positions) for positions in self.cells.values())


def disturbance(before: Core, after: Core, asked: Restated) -> Disturbance:
    """Compare two plans of which the second answers a change of the first.

    A cell is counted once, in whichever round it differs. Rounds are compared from the
    first; when a round was dropped, from the last.
    """
    cells: dict[str, frozenset[int]] = {}
    left_out: set[tuple[str, int]] = set()
    old_people = {p.person_id: p for p in before.people}
    with_count = not asked.counts_cut
    old_cells, new_cells = _by_place(before), _by_place(after)
    for new in after.people:
        person = new.person_id
        old = old_people.get(person)
        if old is None:
            left_out |= {(person, c.position) for c in _resting(after, person)}
            continue
        rounds = _rounds_in_common(old.rounds, new.rounds, asked.rounds_dropped)
        changed = set()
        for position, came_from in asked.came_from.items():
            was = [_doing(_cell(old_cells, person, came_from, r), with_count) for r, _ in rounds]
            now = [_doing(_cell(new_cells, person, position, r), with_count) for _, r in rounds]
            if was != now:
                changed.add(position)
        both = old.burst is not None and new.burst is not None
        if both and (old.burst, old.burst_kit) != (new.burst, new.burst_kit):
            changed.add(BURST)
        rested = {c.position for c in _resting(before, person)}
        for cell in _resting(after, person):
            if asked.came_from.get(cell.position) not in rested:
                left_out.add((person, cell.position))
        if changed and person not in asked.persons:
            cells[person] = frozenset(changed)
    return Disturbance(cells, frozenset(left_out))


def _rounds_in_common(
    old: tuple[int, ...], new: tuple[int, ...], dropped: int
) -> list[tuple[int, int]]:
    """Pair the rounds that a person does before and after."""
    if dropped:
        return list(zip(reversed(old), reversed(new), strict=False))
    return [(r, r) for r in new if r in old]


def _by_place(core: Core) -> ByPlace:
    """Give the cells of each person and position, looked up once."""
    found: dict[tuple[str, int], list[Cell]] = {}
    for cell in core.cells:
        found.setdefault((cell.person_id, cell.position), []).append(cell)
    return found


def _cell(cells: ByPlace, person: str, position: int, round_number: int) -> Cell | None:
    for cell in cells.get((person, position), ()):
        if cell.round in (0, round_number):
            return cell
    return None


def _resting(core: Core, person: str) -> list[Cell]:
    return [c for c in core.cells if c.person_id == person and c.state is CellState.SIT_OUT]


def _doing(cell: Cell | None, with_count: bool) -> Doing:
    if cell is None:
        return ()
    kit: tuple[KitUnits, ...] = tuple(sorted(cell.kit, key=lambda k: k.item_id))
    count = cell.count if with_count else None
    return (cell.state, cell.exercise_id, cell.steps, count, cell.unit_mass_g, cell.units, kit)
