"""One class as a table: people, places, and what each alternative asks of what is shared.

Positions come first, the burst is the place after them. The table is the same
for every format and every way to group the people.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from roundwright.optimise.burst_options import BurstOption, burst_options
from roundwright.optimise.dominance import undominated
from roundwright.optimise.kit_choice import KitKey, Rack
from roundwright.optimise.movement_facts import MovementFacts, facts_of_movement
from roundwright.optimise.options import Option, PersonOptions, in_class
from roundwright.optimise.person_limits import PersonLimits, limits_of
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

    def is_last(self, place: int, round_number: int) -> bool:
        """Say whether a window is the one where tails are done."""
        return place == self.positions - 1 and round_number == self.problem.spec.rounds

    def least_price(self) -> int:
        """Give the sum of everyone's cheapest alternatives: a bound for every format."""
        return sum(min(a.price for a in options) for row in self.table for options in row)


def make_instance(problem: Problem) -> Instance:
    """Make the table of a class."""
    facts = {slug: facts_of_movement(m) for slug, m in problem.library.movements.items()}
    rack = Rack(problem.kit, problem.spec.room_id, problem.rules)
    people = problem.taking_part
    doses = tuple(dose_of(problem.people[p], problem.spec, problem.rules) for p in people)
    raw = [
        _row(problem, person, dose, facts, rack) for person, dose in zip(people, doses, strict=True)
    ]
    scarce = _scarce(raw, rack.counts, problem.spec.positions + 1)
    costs = problem.costs
    table = tuple(
        tuple(
            undominated(
                [_only(alternative, scarce) for alternative in options],
                new_signature=costs.further_version + costs.crowded_version,
                new_mass=costs.third_mass,
            )
            for options in row
        )
        for row in raw
    )
    counts = {key: count for key, count in rack.counts.items() if key in scarce}
    return Instance(problem, people, doses, table, counts)


def _row(
    problem: Problem,
    person_id: str,
    dose: Dose,
    facts: Mapping[str, MovementFacts],
    rack: Rack,
) -> list[list[Alternative]]:
    limits: PersonLimits = limits_of(
        problem.people[person_id], dose, problem.rules, problem.spec.ban
    )
    maker = PersonOptions(problem, person_id, limits, facts, rack)
    wishes = own_counts(problem, person_id)
    rounds = len(dose.rounds)
    row = [
        [_of_option(option, rounds) for option in maker.at(position, wish)]
        for position, wish in enumerate(wishes, start=1)
    ]
    row.append([_of_burst(burst) for burst in burst_options(problem, limits, facts, rack)])
    return row


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


def _scarce(
    rows: Sequence[Sequence[Sequence[Alternative]]], counts: Mapping[KitKey, int], places: int
) -> frozenset[KitKey]:
    """Give the kit of which there is less than everyone could want at once somewhere."""
    scarce: set[KitKey] = set()
    for place in range(places):
        most: dict[KitKey, int] = {}
        for row in rows:
            mine: dict[KitKey, int] = {}
            for alternative in row[place]:
                for key, units in (*alternative.main_kit, *alternative.last_kit):
                    mine[key] = max(mine.get(key, 0), units)
            for key, units in mine.items():
                most[key] = most.get(key, 0) + units
        scarce |= {key for key, units in most.items() if units > counts[key]}
    return frozenset(scarce)


def _only(alternative: Alternative, scarce: frozenset[KitKey]) -> Alternative:
    return replace(
        alternative,
        main_kit=tuple(u for u in alternative.main_kit if u[0] in scarce),
        last_kit=tuple(u for u in alternative.last_kit if u[0] in scarce),
    )
