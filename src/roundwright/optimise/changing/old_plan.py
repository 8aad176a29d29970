"""What the plan before says of each person and place, and what of it an alternative changes (C2).

Counted here as section C2 of *How a plan is changed* says; `plan/changing/disturbed.py` counts
whole plans, the brute force of the tests counts on its own.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from roundwright.optimise.burst_options import BurstOption
from roundwright.optimise.choice_value import Choice, Groups, chosen, overrun_of, price_of
from roundwright.optimise.instance import Alternative, Instance
from roundwright.optimise.kit_choice import ItemUse
from roundwright.optimise.options import Doing, Option
from roundwright.plan.changing.change import Harm
from roundwright.plan.changing.restate import Restated
from roundwright.plan.core import Cell, CellState, Core, KitUnits, PersonDose
from roundwright.plan.timeline import total_s

Did = tuple[object, ...]
"""All of a cell that C2 compares."""


@dataclass(frozen=True, slots=True)
class Marked(Alternative):
    """An alternative with what it takes from the person: 0 or 1 each.

    `left_out`: newly without anything to do at a place. `changed`: a counted cell differs.
    """

    left_out: int
    changed: int


def left_out_of(alternative: Alternative) -> int:
    """Give 1 where an alternative newly leaves somebody without anything to do."""
    return alternative.left_out if isinstance(alternative, Marked) else 0


def changed_of(alternative: Alternative) -> int:
    """Give 1 where an alternative changes a counted cell."""
    return alternative.changed if isinstance(alternative, Marked) else 0


class OldPlan:
    """The plan before, looked up by person and place of the new problem.

    Parameters
    ----------
    before : Core
        The plan.
    asked : Restated
        The new problem, and where its places came from.
    overrun_s : int
        By how much the plan before was longer than its slot, s.
    """

    def __init__(self, before: Core, asked: Restated, overrun_s: int) -> None:
        self.core = before
        self.asked = asked
        self.overrun_s = overrun_s
        self._doses = {dose.person_id: dose for dose in before.people}
        self._cells: dict[tuple[str, int, int], Cell] = {}
        self._rests: set[tuple[str, int]] = set()
        self._done: dict[tuple[str, int, tuple[int, ...]], tuple[tuple[Did, bool], ...]] = {}
        for cell in before.cells:
            self._cells[cell.person_id, cell.position, cell.round] = cell
            if cell.state is CellState.SIT_OUT:
                self._rests.add((cell.person_id, cell.position))

    def dose(self, person_id: str) -> PersonDose | None:
        """Give what a person did, None for somebody who was not in it."""
        return self._doses.get(person_id)

    def cell(self, person_id: str, old_position: int, round_number: int) -> Cell | None:
        """Give a person's cell of a round."""
        cells = self._cells
        whole = cells.get((person_id, old_position, 0))
        return whole or cells.get((person_id, old_position, round_number))

    def masses(self, person_id: str) -> dict[int, int]:
        """Give the mass that a person held by old position, g."""
        return {
            position: cell.unit_mass_g
            for (person, position, _), cell in self._cells.items()
            if person == person_id and cell.unit_mass_g
        }

    def counts(self, person_id: str) -> bool:
        """Say whether a person's cells are counted: nobody's whom the change names."""
        return person_id in self._doses and person_id not in self.asked.persons

    def marked(
        self, alternative: Alternative, person_id: str, position: int, rounds: Sequence[int]
    ) -> Marked:
        """Say of an alternative what it takes from a person at a position.

        Parameters
        ----------
        position : int
            Of the new problem; the burst is the one after the last.
        rounds : sequence of int
            Rounds that the person does now.
        """
        what = alternative.what
        left_out = (
            isinstance(what, Option)
            and what.state is CellState.SIT_OUT
            and (person_id, self.asked.came_from.get(position)) not in self._rests
        )
        changed = self.counts(person_id) and self.differs(what, person_id, position, rounds)
        return Marked(
            what=what,
            price=alternative.price,
            mass_g=alternative.mass_g,
            signatures=alternative.signatures,
            contacts=alternative.contacts,
            low_hops=alternative.low_hops,
            seconds=alternative.seconds,
            last_seconds=alternative.last_seconds,
            main_kit=alternative.main_kit,
            last_kit=alternative.last_kit,
            left_out=int(left_out),
            changed=int(changed),
        )

    def differs(
        self, what: Option | BurstOption, person_id: str, position: int, rounds: Sequence[int]
    ) -> bool:
        """Say whether something differs from what was done, in any round done then and now."""
        if isinstance(what, BurstOption):
            return self._burst_differs(person_id, what)
        return self._cell_differs(person_id, position, what, rounds)

    def _burst_differs(self, person_id: str, burst: BurstOption) -> bool:
        old = self._doses.get(person_id)
        if old is None or old.burst is None or burst.movement_id is None:
            return False
        return (old.burst, _units(old.burst_kit)) != (burst.movement_id, sorted(burst.items))

    def _cell_differs(
        self, person_id: str, position: int, option: Option, rounds: Sequence[int]
    ) -> bool:
        key = (person_id, position, tuple(rounds))
        if key not in self._done:
            self._done[key] = self._was_done(person_id, position, rounds)
        done = self._done[key]
        if not done:
            return False
        main = self._does(option, option.main)
        last = main if option.tail is None else self._does(option, option.tail)
        return any(did != (last if is_last else main) for did, is_last in done)

    def _was_done(
        self, person_id: str, position: int, rounds: Sequence[int]
    ) -> tuple[tuple[Did, bool], ...]:
        """Give what was done in rounds done then and now, and whether it is the last one now."""
        old, old_position = self._doses.get(person_id), self.asked.came_from.get(position)
        if old is None or old_position is None:
            return ()
        last = self.asked.problem.spec.rounds
        found: list[tuple[Did, bool]] = []
        for was, now in self.rounds_in_common(old.rounds, rounds):
            done = (self._did(self.cell(person_id, old_position, was)), now == last)
            if done not in found:
                found.append(done)
        return tuple(found)

    def rounds_in_common(self, old: Sequence[int], new: Sequence[int]) -> list[tuple[int, int]]:
        """Pair rounds done before and after: from the last one where a round was dropped."""
        if self.asked.rounds_dropped:
            return list(zip(reversed(old), reversed(new), strict=False))
        return [(n, n) for n in new if n in old]

    def _did(self, cell: Cell | None) -> Did:
        if cell is None:
            return ()
        count = None if self.asked.counts_cut else cell.count
        kit = tuple(_units(cell.kit))
        return (cell.state, cell.exercise_id, cell.steps, count, cell.unit_mass_g, cell.units, kit)

    def _does(self, option: Option, doing: Doing | None) -> Did:
        if doing is None:
            return (option.state, None, (), None, 0, 0, ())
        count = None if self.asked.counts_cut else doing.count
        items = tuple(sorted(doing.items))
        return (
            *(option.state, option.exercise_id, doing.steps, count),
            *(doing.mass_g, doing.units, items),
        )


def _units(kit: Sequence[KitUnits]) -> list[ItemUse]:
    return sorted((k.item_id, k.units) for k in kit)


def overrun_before(core: Core, slot_s: int) -> int:
    """Give by how much a plan is longer than a slot, s."""
    return max(0, total_s(core.timeline) - slot_s)


def harm_of(
    instance: Instance,
    choice: Choice,
    groups: Groups,
    old: OldPlan,
    besides: int,
) -> Harm:
    """Count the harm of a choice, in integers from the choice itself.

    Parameters
    ----------
    besides : int
        Points that no choice changes.
    """
    taken = [
        [chosen(instance, choice, p, k) for k in range(instance.places)]
        for p in range(len(instance.people))
    ]
    cells = [sum(changed_of(a) for a in mine) for mine in taken]
    return Harm(
        overrun_s=max(0, overrun_of(instance, choice, groups) - old.overrun_s),
        left_out=sum(left_out_of(a) for mine in taken for a in mine),
        people=sum(n > 0 for n in cells),
        cells=sum(cells),
        price=price_of(instance, choice, groups) + besides,
    )
