"""What of the plan before needs no reading again: cells whose ground did not move, and the price.

The gate stated the price of the plan before. Where a cell's person, count, exercise, kit and
rules are what they were, its points are still in that sum; everything else is taken out of it.
"""

from collections.abc import Mapping
from functools import cached_property

from roundwright.optimise.changing.makers import Makers
from roundwright.optimise.changing.mended_groups import old_offsets
from roundwright.optimise.changing.old_plan import OldPlan
from roundwright.optimise.choice_value import versions_price
from roundwright.optimise.class_price import class_price
from roundwright.optimise.instance import Alternative, Role, role_of
from roundwright.plan.changing.restate import Restated
from roundwright.plan.core import Cell, CellState, Core
from roundwright.plan.document import PlanDocument
from roundwright.plan.eased_in import eased_row, own_counts
from roundwright.plan.problem import ClassSpec, Problem
from roundwright.plan.recent import Recent

_READ_APART = {
    "slot_s": 0,
    "keep": (),
    "ban": (),
    "exercises": (),
    "change_s": 0,
    "rest_s": 0,
    "burst": None,
    "chance_on_time_bp": 0,
}
"""Fields of a class that are looked at place by place, or that no option depends on."""


class Ground:
    """The plan before and its problem beside today's.

    Parameters
    ----------
    before : PlanDocument
        The plan; its stated price is taken over.
    old : OldPlan
        The same plan, looked up by today's places.
    """

    def __init__(self, before: PlanDocument, old: OldPlan, makers: Makers) -> None:
        self._before = before.problem
        self._core = before.core
        self._stated = before.verdict.cost
        self._old = old
        self._now = old.asked.problem
        self._makers = makers.of(before.problem)
        same = {k: k for k in range(1, before.core.class_.positions + 1)}
        self._itself = OldPlan(before.core, Restated(before.problem, same), 0)
        self._prices: dict[tuple[str, int], int | None] = {}
        self._offsets = {
            person: offset
            for group, offset in zip(
                before.core.class_.groups, old_offsets(before.core), strict=True
            )
            for person in group
        }
        self._people: dict[str, bool] = {}

    @property
    def is_firm(self) -> bool:
        """Whether cells can be taken over at all: rules, rounds and masses are what they were."""
        if self._old.asked.counts_cut:
            return False
        settled = _settled(self._before.spec, self._core)
        before = self._before.model_copy(update={"spec": settled})
        return _rest_of(before) == _rest_of(self._now)

    def holds(self, person_id: str, at: int, role: Role) -> bool:
        """Say whether a person's cell at a place of today (from 0) needs no reading."""
        if not self._same_person(person_id):
            return False
        spec, was_spec = self._now.spec, self._before.spec
        if at == spec.positions:
            return spec.burst == was_spec.burst and not self._other_kit and not self._other_ban
        was = self._old.asked.came_from.get(at + 1)
        if was is None:
            return False
        one, other = spec.exercises[at], was_spec.exercises[was - 1]
        if (one.exercise_id, one.count) != (other.exercise_id, other.count):
            return False
        was_role = role_of(was - 1, self._offsets[person_id], spec.positions)
        if role[1] != was_role[1] or (self._hurried and role[0] != was_role[0]):
            return False
        if self._locks(self._now, person_id, at + 1) != self._locks(self._before, person_id, was):
            return False
        cells = self._cells_at.get((person_id, was), [])
        if not cells or any(self._is_touched(cell, len(cells) > 1) for cell in cells):
            return False
        return not self._other_ban or one.exercise_id not in self._banned_exercises

    def price_besides(self) -> int | None:
        """Give the stated price without shared terms and without those who are gone; None: unknown.

        What is read again is taken out with `old_price`.
        """
        problem, core = self._before, self._core
        costs = problem.costs
        price = self._stated - class_price(problem, core.class_.format)
        shown: dict[int, set[tuple[str, ...]]] = {}
        masses: dict[str, set[int]] = {}
        for cell in core.cells:
            if cell.state is CellState.DO:
                shown.setdefault(cell.position, set()).add(cell.signature)
            if cell.unit_mass_g:
                masses.setdefault(cell.person_id, set()).add(cell.unit_mass_g)
        for seen in shown.values():
            price -= versions_price(seen, costs, problem.rules.most_versions)
        price -= costs.third_mass * sum(max(0, len(m) - 2) for m in masses.values())
        if core.class_.format == "pairs":
            firsts = {p for p, known in problem.people.items() if known.classes == 0}
            crowded = sum(len(firsts.intersection(group)) > 1 for group in core.class_.groups)
            price -= costs.first_timer_pair * crowded
        gone = [d.person_id for d in core.people if d.person_id not in self._now.taking_part]
        everywhere = range(1, problem.spec.positions + 2)
        stays = {*self._old.asked.came_from.values(), problem.spec.positions + 1}
        for dose in core.people:
            is_gone = dose.person_id in gone
            for position in everywhere if is_gone else sorted(set(everywhere) - stays):
                one = self.old_price(dose.person_id, position)
                if one is None:
                    return None
                price -= one
        return price

    def old_price(self, person_id: str, position: int) -> int | None:
        """Give the points of an old cell; the position after the last is the burst."""
        key = (person_id, position)
        if key not in self._prices:
            self._prices[key] = self._old_price(person_id, position)
        return self._prices[key]

    def _old_price(self, person_id: str, position: int) -> int | None:
        spec, dose = self._before.spec, self._itself.dose(person_id)
        if dose is None:
            return None
        if position > spec.positions:
            if dose.burst is None:
                return 0
            role = (False, False)
        else:
            cells = self._cells_at.get((person_id, position), [])
            if cells and all(c.state is CellState.SIT_OUT for c in cells):
                return self._before.costs.sit_out
            role = role_of(position - 1, self._offsets[person_id], spec.positions)
        made = self._makers.maker(person_id).at(position - 1, role)
        return next((a.price for a in made if self._is_it(a, person_id, position)), None)

    def _is_it(self, alternative: Alternative, person_id: str, position: int) -> bool:
        rounds = self._itself.dose(person_id)
        done = rounds.rounds if rounds is not None else ()
        return not self._itself.differs(alternative.what, person_id, position, done)

    def _same_person(self, person_id: str) -> bool:
        if person_id not in self._people:
            now, was = self._now.people[person_id], self._before.people.get(person_id)
            same = (now is was or now == was) and self._old.dose(person_id) is not None
            if same and self._other_exercises and eased_row(now, self._now.rules) is not None:
                came_from = self._old.asked.came_from
                now_counts = own_counts(self._now, person_id)
                was_counts = own_counts(self._before, person_id)
                same = all(now_counts[k - 1] == was_counts[w - 1] for k, w in came_from.items())
            self._people[person_id] = same
        return self._people[person_id]

    @cached_property
    def _hurried(self) -> bool:
        """Whether it matters what stands first: a burst is followed by too little rest."""
        spec = self._now.spec
        return spec.burst is not None and spec.rest_s < self._now.rules.walk_after_burst_s

    @cached_property
    def _other_exercises(self) -> bool:
        return self._now.spec.exercises != self._before.spec.exercises

    @cached_property
    def _other_kit(self) -> bool:
        return self._now.kit is not self._before.kit and self._now.kit != self._before.kit

    @cached_property
    def _other_ban(self) -> bool:
        return self._now.spec.ban != self._before.spec.ban

    @cached_property
    def _banned_exercises(self) -> frozenset[str]:
        """Exercises with a version that is banned only now."""
        new = set(self._now.spec.ban) - set(self._before.spec.ban)
        library = self._now.library
        return frozenset(
            e.exercise_id
            for e in self._now.spec.exercises
            if any(
                line in new or new.intersection(library.lines[line].versions)
                for line in library.lines_of_exercise(e.exercise_id)
            )
        )

    @cached_property
    def _moved_kinds(self) -> frozenset[str]:
        """Ids of items of every kind of which something was lost or came back."""
        most = max(
            (n.units for m in self._now.library.movements.values() for n in m.other_kit), default=1
        )
        was = {i.id: min(i.count, most) for i in self._before.kit.items}
        moved = {i.kind for i in self._now.kit.items if min(i.count, most) != was.get(i.id)}
        return frozenset(i.id for i in self._now.kit.items if i.kind in moved)

    @cached_property
    def _cells_at(self) -> Mapping[tuple[str, int], list[Cell]]:
        found: dict[tuple[str, int], list[Cell]] = {}
        for cell in self._core.cells:
            found.setdefault((cell.person_id, cell.position), []).append(cell)
        return found

    def _is_touched(self, cell: Cell, by_round: bool) -> bool:
        """Say whether a cell hangs on kit or a ban that is another now."""
        if not self._other_kit and not self._other_ban:
            return False
        if by_round or cell.state is CellState.SUBSTITUTE:
            return self._other_ban or bool(self._moved_kinds)
        return any(k.item_id in self._moved_kinds for k in cell.kit)

    @staticmethod
    def _locks(problem: Problem, person_id: str, position: int) -> list[object]:
        mine = [k for k in problem.spec.keep if (k.person, k.position) == (person_id, position)]
        return [(k.version, k.mass_g, k.rests, k.instead) for k in mine]


def _rest_of(problem: Problem) -> tuple[object, ...]:
    """Give everything that all options depend on, and that is not looked at place by place."""
    spec = problem.spec
    hurried = spec.burst is not None and spec.rest_s < problem.rules.walk_after_burst_s
    masses = sorted(
        (d.unit_mass_g, d.flat_sided, min(d.count, 2)) for d in problem.kit.dumbbells if d.in_use
    )
    return (
        spec.model_copy(update=_READ_APART),
        (hurried, spec.burst is None, spec.burst and spec.burst.line),
        masses,
        [(i.id, i.in_use, i.room) for i in problem.kit.items],
        (problem.rules, problem.costs, problem.room, problem.substitutes),
        problem.recent if spec.chosen_by == "tool" else Recent(),
    )


def _settled(spec: ClassSpec, core: Core) -> ClassSpec:
    """Give the class as the plan holds it."""
    return spec.model_copy(update={"format": core.class_.format, "rounds": core.class_.rounds})
