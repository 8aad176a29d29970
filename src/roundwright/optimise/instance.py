"""One class as a table: people, places, and what each alternative asks of what is shared.

Positions come first, the burst is the place after them. Together and in pairs
the table is the same for every grouping. In stations and staggered groups it
depends on where a person's group starts, for what may stand first and last of a
round does: `Rotating` holds the table of every start.
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from typing import TypeVar

from roundwright.optimise.burst_options import BurstOption, burst_options
from roundwright.optimise.dominance import undominated
from roundwright.optimise.kit_choice import KitKey, Rack
from roundwright.optimise.movement_facts import MovementFacts, facts_of_movement
from roundwright.optimise.options import Option, PersonOptions, Place, Shelf, in_class
from roundwright.optimise.person_limits import limits_of
from roundwright.plan.core import CellState
from roundwright.plan.eased_in import Dose, dose_of, own_counts
from roundwright.plan.problem import Problem

Use = tuple[tuple[KitKey, int], ...]
Signature = tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Alternative:
    """An option or a burst as the allotment sees it.

    `main_kit` and `last_kit` hold only kit that can run short; contacts and
    hops are of the whole class, seconds of one round.
    """

    what: Option | BurstOption
    price: int
    mass_g: int
    signatures: frozenset[Signature]
    contacts: int
    low_hops: int
    seconds: int
    last_seconds: int
    main_kit: Use
    last_kit: Use

    @property
    def works(self) -> bool:
        """Whether the person works here at all."""
        return isinstance(self.what, BurstOption) or self.what.state is not CellState.SIT_OUT

    def kit_in(self, last: bool) -> Use:
        """Give the kit in use, in the last round of the class or before."""
        return self.last_kit if last else self.main_kit

    def seconds_in(self, last: bool) -> int:
        """Give the seconds of work, in the last round of the class or before."""
        return self.last_seconds if last else self.seconds


A = TypeVar("A", bound=Alternative)

Table = tuple[tuple[tuple[Alternative, ...], ...], ...]
"""Alternatives by person index and place index."""


@dataclass(frozen=True, slots=True)
class Instance:
    """The question without its wording: everything that couples people and places."""

    problem: Problem
    people: tuple[str, ...]
    doses: tuple[Dose, ...]
    table: Table
    counts: Mapping[KitKey, int]
    offsets: tuple[int, ...] = ()
    """By person, how many positions ahead their group stands; empty: nobody's does."""

    @property
    def positions(self) -> int:
        """How many positions a round has; this is also the place index of the burst."""
        return self.problem.spec.positions

    @property
    def places(self) -> int:
        """How many places there are, the burst included."""
        return self.positions + 1

    def is_in(self, person: int, round_number: int) -> bool:
        """Say whether a person does a round."""
        return round_number in self.doses[person].rounds

    def offset(self, person: int) -> int:
        """Give how many positions ahead a person's group stands."""
        return self.offsets[person] if self.offsets else 0

    def place_in(self, person: int, interval: int) -> int:
        """Give the place that a person works in an interval of a round, both from 0."""
        return (interval + self.offset(person)) % self.positions

    def is_last(self, interval: int, round_number: int) -> bool:
        """Say whether an interval is the one where tails are done."""
        return interval == self.positions - 1 and round_number == self.problem.spec.rounds

    def is_last_at(self, person: int, place: int, round_number: int) -> bool:
        """Say whether a person does a place as their last of the last round."""
        return (
            place == self.place_in(person, self.positions - 1)
            and round_number == self.problem.spec.rounds
        )

    def least_price(self) -> int:
        """Give the sum of everyone's cheapest alternatives: a bound for every format."""
        return sum(min(a.price for a in options) for row in self.table for options in row)


Role = tuple[bool, bool]
"""Whether a group does a position first of a round, and whether last."""


def role_of(place: int, offset: int, positions: int) -> Role:
    """Give what a position is to a group that starts `offset` positions ahead."""
    return place == offset % positions, place == (offset - 1) % positions


@dataclass(frozen=True, slots=True)
class Rotating:
    """A class whose groups stand at different positions: the tables of every start."""

    problem: Problem
    people: tuple[str, ...]
    doses: tuple[Dose, ...]
    by_role: Mapping[Role, Table]
    counts: Mapping[KitKey, int]

    @property
    def positions(self) -> int:
        """How many positions a round has; this is also the place index of the burst."""
        return self.problem.spec.positions

    def row(self, person: int, offset: int) -> tuple[tuple[Alternative, ...], ...]:
        """Give a person's alternatives by place, when their group starts at an offset."""
        roles = [role_of(place, offset, self.positions) for place in range(self.positions)]
        return (
            *(self.by_role[role][person][place] for place, role in enumerate(roles)),
            self.by_role[roles[0]][person][self.positions],
        )

    def at(self, offsets: Sequence[int]) -> Instance:
        """Give the table when each person's group has an offset."""
        table = tuple(self.row(p, offset) for p, offset in enumerate(offsets))
        return Instance(self.problem, self.people, self.doses, table, self.counts, tuple(offsets))


def make_instance(problem: Problem, shelf: Shelf | None = None) -> Instance:
    """Make the table of a class in which everyone works the same position at once.

    Parameters
    ----------
    shelf : dict, optional
        Options that were made for classes of the same planning (`PersonOptions`).
    """
    makers = row_makers(problem, shelf)
    positions = problem.spec.positions
    raw = [maker.row(lambda place: role_of(place, 0, positions)) for maker in makers]
    rack = Rack(problem.kit, problem.spec.room_id, problem.rules)
    scarce = scarce_kit([raw], rack.counts, [[place] for place in range(len(raw[0]))])
    return Instance(
        problem=problem,
        people=problem.taking_part,
        doses=tuple(maker.dose for maker in makers),
        table=_kept(raw, scarce, problem),
        counts={key: count for key, count in rack.counts.items() if key in scarce},
    )


def make_rotating(problem: Problem, shelf: Shelf | None = None) -> Rotating:
    """Make the tables of a class in which groups stand at different positions.

    Parameters
    ----------
    shelf : dict, optional
        As for `make_instance`.
    """
    makers = row_makers(problem, shelf)
    positions = problem.spec.positions
    roles = sorted({role_of(place, 0, positions) for place in range(positions)} | {(False, False)})
    raw = {role: [maker.row(_always(role)) for maker in makers] for role in roles}
    rack = Rack(problem.kit, problem.spec.room_id, problem.rules)
    at_once = [list(range(positions)), [positions]]
    scarce = scarce_kit(list(raw.values()), rack.counts, at_once)
    return Rotating(
        problem=problem,
        people=problem.taking_part,
        doses=tuple(maker.dose for maker in makers),
        by_role={role: _kept(rows, scarce, problem) for role, rows in raw.items()},
        counts={key: count for key, count in rack.counts.items() if key in scarce},
    )


class RowMaker:
    """Makes one person's alternatives, each place as it is met once."""

    def __init__(
        self,
        problem: Problem,
        person_id: str,
        facts: Mapping[str, MovementFacts],
        rack: Rack,
        shelf: Shelf | None = None,
    ) -> None:
        person = problem.people[person_id]
        self.dose = dose_of(person, problem.spec, problem.rules)
        self.positions = problem.spec.positions
        limits = limits_of(person, self.dose, problem.rules, problem.spec.ban)
        self._options = PersonOptions(problem, person_id, limits, facts, rack, shelf)
        self.wishes = own_counts(problem, person_id)
        self._burst_parts = (problem, limits, facts, rack)
        self._made: dict[Place, list[Alternative]] = {}

    @cached_property
    def bursts(self) -> list[Alternative]:
        """The person's bursts."""
        return [_of_burst(b) for b in burst_options(*self._burst_parts)]

    def place(self, at: int, role: Role) -> Place:
        """Give a position (from 0) as the person meets it in a group with a role there."""
        is_first, is_last = role
        return self._options.place(at + 1, is_first=is_first, is_last=is_last)

    def at(self, at: int, role: Role) -> list[Alternative]:
        """Give the alternatives at a position (from 0); the place after the last is the burst."""
        if at == self.positions:
            return self.bursts
        place = self.place(at, role)
        if place not in self._made:
            self._made[place] = self._make(place, at)
        return self._made[place]

    def _make(self, place: Place, at: int) -> list[Alternative]:
        rounds = len(self.dose.rounds)
        return [_of_option(option, rounds) for option in self._options.at(place, self.wishes[at])]

    def row(self, role: Callable[[int], Role]) -> list[list[Alternative]]:
        """Give the alternatives by place, the burst last."""
        return [*(self.at(k, role(k)) for k in range(self.positions)), self.bursts]


def _always(role: Role) -> Callable[[int], Role]:
    return lambda _: role


def row_makers(problem: Problem, shelf: Shelf | None = None) -> list[RowMaker]:
    """Give the makers of everybody who takes part, in order."""
    facts = {slug: facts_of_movement(m) for slug, m in problem.library.movements.items()}
    rack = Rack(problem.kit, problem.spec.room_id, problem.rules)
    return [RowMaker(problem, person_id, facts, rack, shelf) for person_id in problem.taking_part]


def _kept(
    rows: Sequence[Sequence[Sequence[Alternative]]], scarce: frozenset[KitKey], problem: Problem
) -> Table:
    """Leave out what is never needed, with only the kit that can run short."""
    costs = problem.costs
    return tuple(
        tuple(
            undominated(
                [with_only(alternative, scarce) for alternative in options],
                new_signature=costs.further_version + costs.crowded_version,
                new_mass=costs.third_mass,
            )
            for options in row
        )
        for row in rows
    )


def _of_option(option: Option, rounds: int) -> Alternative:
    if option.main is None or option.last is None:
        return Alternative(option, option.price, 0, frozenset(), 0, 0, 0, 0, (), ())
    contacts, low_hops = in_class(option.main, option.tail, rounds)
    return Alternative(
        what=option,
        price=option.price,
        mass_g=option.mass_g,
        signatures=option.signatures,
        contacts=contacts,
        low_hops=low_hops,
        seconds=option.main.seconds,
        last_seconds=option.last.seconds,
        main_kit=option.main.kit,
        last_kit=option.last.kit,
    )


def _of_burst(burst: BurstOption) -> Alternative:
    kit = tuple(((0, item_id), units) for item_id, units in burst.items)
    return Alternative(
        burst, burst.price, 0, frozenset(), burst.contacts, burst.low_hops, 0, 0, kit, kit
    )


def scarce_kit(
    tables: Sequence[Sequence[Sequence[Sequence[Alternative]]]],
    counts: Mapping[KitKey, int],
    at_once: Sequence[Sequence[int]],
) -> frozenset[KitKey]:
    """Give the kit of which there is less than everyone could want at once somewhere.

    Parameters
    ----------
    at_once : sequence of sequences of int
        Places that may be worked at the same time.
    """
    scarce: set[KitKey] = set()
    for places in at_once:
        most: dict[KitKey, int] = {}
        for rows in zip(*tables, strict=True):
            mine: dict[KitKey, int] = {}
            for alternative in (a for row in rows for place in places for a in row[place]):
                for key, units in (*alternative.main_kit, *alternative.last_kit):
                    mine[key] = max(mine.get(key, 0), units)
            for key, units in mine.items():
                most[key] = most.get(key, 0) + units
        scarce |= {key for key, units in most.items() if units > counts[key]}
    return frozenset(scarce)


def with_only(alternative: A, scarce: frozenset[KitKey]) -> A:
    """Give an alternative that tells only of some kit."""
    main = tuple(u for u in alternative.main_kit if u[0] in scarce)
    last = tuple(u for u in alternative.last_kit if u[0] in scarce)
    if len(main) == len(alternative.main_kit) and len(last) == len(alternative.last_kit):
        return alternative
    return replace(alternative, main_kit=main, last_kit=last)
