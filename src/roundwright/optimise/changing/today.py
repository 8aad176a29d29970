"""What everybody may do today, with what it takes from them, made only where it is asked for.

A cell whose ground did not move (person, count, exercise, kit, rules) stays allowed at its
price, so that nothing has to be worked out for people whom a change does not concern.
"""

from collections.abc import Sequence
from dataclasses import replace
from functools import cached_property

from roundwright.optimise.burst_options import BurstOption
from roundwright.optimise.changing.ground import Ground
from roundwright.optimise.changing.makers import Makers
from roundwright.optimise.changing.old_plan import Marked, OldPlan
from roundwright.optimise.class_price import class_price
from roundwright.optimise.dominance import undominated
from roundwright.optimise.instance import (
    Alternative,
    Instance,
    Role,
    Rotating,
    role_of,
    scarce_kit,
    with_only,
)
from roundwright.optimise.kit_choice import Rack
from roundwright.optimise.options import Doing, Option
from roundwright.plan.core import Cell, CellState
from roundwright.plan.counts_of_version import contacts_of, low_hops_of, passes_of, seconds_of
from roundwright.plan.eased_in import Dose, dose_of


class Today:
    """The question of a change: today's problem beside the plan before.

    Parameters
    ----------
    old : OldPlan
        The plan before, and what was asked.
    makers : Makers
        Make options, and remember them between changes.
    ground : Ground, optional
        What of the problem before still holds; none: nothing is taken over unread.
    """

    def __init__(self, old: OldPlan, makers: Makers, ground: Ground | None = None) -> None:
        self.old = old
        self.problem = old.asked.problem
        self.people = self.problem.taking_part
        self.positions = self.problem.spec.positions
        self.ground = ground
        self._makers = makers.of(self.problem)
        self._options: dict[tuple[int, int, Role], tuple[Marked, ...]] = {}
        self._stays: dict[tuple[int, int, Role], Marked | None] = {}
        self._unread_ones: dict[int, Marked] = {}

    @cached_property
    def doses(self) -> tuple[Dose, ...]:
        """What each person does of the class."""
        problem = self.problem
        return tuple(dose_of(problem.people[p], problem.spec, problem.rules) for p in self.people)

    @cached_property
    def rack(self) -> Rack:
        """The kit in use."""
        return Rack(self.problem.kit, self.problem.spec.room_id, self.problem.rules)

    @cached_property
    def class_price(self) -> int:
        """The points of the class as a whole."""
        return class_price(self.problem)

    def options(self, person: int, at: int, role: Role) -> tuple[Marked, ...]:
        """Give all that a person may do at a place, sitting out included; the last is the burst."""
        key = (person, at, (False, False) if at == self.positions else role)
        if key not in self._options:
            made: list[Alternative] = list(self._makers.maker(self.people[person]).at(at, role))
            if at < self.positions and all(a.works for a in made):
                made.append(self.sitting_out)
            rounds = self.doses[person].rounds
            self._options[key] = tuple(
                self.old.marked(a, self.people[person], at + 1, rounds) for a in made
            )
        return self._options[key]

    def stay(self, person: int, at: int, role: Role) -> Marked | None:
        """Give the old cell as an alternative, None where it is not allowed today or was none."""
        key = (person, at, (False, False) if at == self.positions else role)
        if key not in self._stays:
            self._stays[key] = self._stay(person, at, role)
        return self._stays[key]

    def is_unread(self, person: int, at: int, role: Role) -> bool:
        """Say whether the old cell is taken over at its old price, which is then not in it."""
        return self.ground is not None and self.ground.holds(self.people[person], at, role)

    def price_besides(self) -> int | None:
        """Give the points of cells that are taken over unread, all of them still in it.

        None where the price of somebody who is gone can't be read.
        """
        return 0 if self.ground is None else self.ground.price_besides()

    def with_landings(self, person: int, taken: Marked) -> Marked:
        """Give a burst that stays with its landings and hops, to be counted with what is chosen."""
        if id(taken) not in self._unread_ones:
            return taken
        what = taken.what
        for read in self.options(person, self.positions, (False, False)):
            if _same_burst(read.what, what):
                made = replace(taken, contacts=read.contacts, low_hops=read.low_hops)
                self._unread_ones[id(made)] = made
                return made
        return taken

    def points(self, person: int, at: int, taken: Marked | None) -> int:
        """Give the points of what somebody does at a place, read or not."""
        if taken is None:
            return 0
        if id(taken) in self._unread_ones and self.ground is not None:
            was = self._was(at)
            return self.ground.old_price(self.people[person], was) or 0 if was else 0
        return taken.price

    def points_still_in(self, person: int, at: int, taken: Marked | None) -> int | None:
        """Give the points of an old cell that is not taken over and whose price is still counted.

        None where that price can't be read.
        """
        was, person_id = self._was(at), self.people[person]
        if self.ground is None or was is None or self.old.dose(person_id) is None:
            return 0
        if taken is not None and id(taken) in self._unread_ones:
            return 0
        return self.ground.old_price(person_id, was)

    def _was(self, at: int) -> int | None:
        """Give the old position of a place of today; the burst stays the last."""
        return at + 1 if at == self.positions else self.old.asked.came_from.get(at + 1)

    def _stay(self, person: int, at: int, role: Role) -> Marked | None:
        person_id = self.people[person]
        if self.old.dose(person_id) is None:
            return None
        if self.is_unread(person, at, role):
            made = self._unread(person, at)
            self._unread_ones[id(made)] = made
            return made
        if at < self.positions and at + 1 not in self.old.asked.came_from:
            return None
        return next(
            (a for a in self.options(person, at, role) if self._is_old(a, person, at)), None
        )

    def _is_old(self, alternative: Marked, person: int, at: int) -> bool:
        """Say whether an alternative is what the person did, whether that is counted or not."""
        rounds, what = self.doses[person].rounds, alternative.what
        return not self.old.differs(what, self.people[person], at + 1, rounds)

    @cached_property
    def sitting_out(self) -> Alternative:
        """Nothing to do at a place."""
        option = Option(CellState.SIT_OUT, None, None, None, self.problem.costs.sit_out)
        return Alternative(option, option.price, 0, frozenset(), 0, 0, 0, 0, (), ())

    def _unread(self, person: int, at: int) -> Marked:
        """Read the old cell back without its price; it takes nothing from anybody."""
        person_id, old = self.people[person], self.old
        dose = old.dose(person_id)
        rounds = self.doses[person].rounds
        if at == self.positions:
            items = tuple((k.item_id, k.units) for k in dose.burst_kit) if dose else ()
            burst = BurstOption(dose.burst if dose else None, items, 0, 0, 0)
            kit = tuple(((0, item_id), units) for item_id, units in items)
            return Marked(burst, 0, 0, frozenset(), 0, 0, 0, 0, kit, kit, 0, 0)
        was = old.asked.came_from[at + 1]
        first, last = old.cell(person_id, was, rounds[0]), old.cell(person_id, was, rounds[-1])
        if first is None or first.state is CellState.SIT_OUT:
            option = Option(
                CellState.SIT_OUT, None, None, None, 0, first is not None and first.kept
            )
            return Marked(option, 0, 0, frozenset(), 0, 0, 0, 0, (), (), 0, 0)
        main = self._doing(first, person)
        tail = self._doing(last, person) if last is not None and last is not first else None
        option = Option(first.state, first.exercise_id, main, tail, 0, first.kept)
        ends = tail or main
        n = len(rounds)
        return Marked(
            what=option,
            price=0,
            mass_g=option.mass_g,
            signatures=option.signatures,
            contacts=main.contacts * (n - (tail is not None)) + (tail.contacts if tail else 0),
            low_hops=main.low_hops * (n - (tail is not None)) + (tail.low_hops if tail else 0),
            seconds=main.seconds,
            last_seconds=ends.seconds,
            main_kit=main.kit,
            last_kit=ends.kit,
            left_out=0,
            changed=0,
        )

    def _doing(self, cell: Cell, person: int) -> Doing:
        library, count = self.problem.library, cell.count
        exercise_id = cell.exercise_id or self.problem.spec.exercises[cell.position - 1].exercise_id
        combination = library.combinations.get(exercise_id)
        if count is None:
            raise ValueError("a cell that works has a count")
        passes = passes_of(count, cell.steps, library.movements, combination)
        return Doing(
            steps=cell.steps,
            count=count,
            signature=cell.signature,
            mass_g=cell.unit_mass_g,
            units=cell.units,
            items=tuple((k.item_id, k.units) for k in cell.kit),
            chance_bp=cell.chance_bp,
            limited_by=cell.limited_by,
            seconds=seconds_of(
                count,
                cell.steps,
                library.movements,
                combination,
                pace_bp=self.doses[person].pace_bp,
                side_change_s=self.problem.spec.side_change_s,
            ),
            contacts=contacts_of(cell.steps, passes, library.movements),
            low_hops=low_hops_of(cell.steps, passes, library.movements),
        )


def _same_burst(one: Option | BurstOption, other: Option | BurstOption) -> bool:
    return (
        isinstance(one, BurstOption)
        and isinstance(other, BurstOption)
        and one.movement_id == other.movement_id
    )


class FullTables:
    """The tables of everybody, as the exact models want them: only what can be needed."""

    def __init__(self, today: Today) -> None:
        self.today = today

    @cached_property
    def instance(self) -> Instance:
        """The table where everyone works the same position at once."""
        today = self.today
        places = range(today.positions + 1)
        raw = [
            [today.options(p, k, role_of(k, 0, today.positions)) for k in places]
            for p in range(len(today.people))
        ]
        scarce = scarce_kit([raw], today.rack.counts, [[k] for k in places])
        table = tuple(tuple(self._kept(options, scarce) for options in row) for row in raw)
        counts = {key: n for key, n in today.rack.counts.items() if key in scarce}
        return Instance(today.problem, today.people, today.doses, table, counts)

    @cached_property
    def rotating(self) -> Rotating:
        """The tables where groups stand at different positions."""
        today = self.today
        positions = today.positions
        roles = {role_of(k, 0, positions) for k in range(positions)} | {(False, False)}
        raw = {
            role: [
                [today.options(p, k, role) for k in range(positions + 1)]
                for p in range(len(today.people))
            ]
            for role in sorted(roles)
        }
        at_once = [list(range(positions)), [positions]]
        scarce = scarce_kit(list(raw.values()), today.rack.counts, at_once)
        return Rotating(
            problem=today.problem,
            people=today.people,
            doses=today.doses,
            by_role={
                role: tuple(tuple(self._kept(options, scarce) for options in row) for row in rows)
                for role, rows in raw.items()
            },
            counts={key: n for key, n in today.rack.counts.items() if key in scarce},
        )

    def _kept(self, options: Sequence[Marked], scarce: frozenset[object]) -> tuple[Marked, ...]:
        """Leave out what is never needed; what changes nothing is never left out."""
        costs = self.today.problem.costs
        told = [with_only(a, scarce) for a in options]  # type: ignore[arg-type]
        counted = any(a.changed for a in told)
        free = [a for a in told if a.changed or not counted]
        kept = undominated(
            free,
            new_signature=costs.further_version + costs.crowded_version,
            new_mass=costs.third_mass,
        )
        still = {id(a) for a in kept}
        return tuple(a for a in told if id(a) in still or (counted and not a.changed))
