"""The least harm of a change, by every way of everyone: sections C2 and C3 read plainly.

What each person may do comes from the brute force of a fit; harm is counted here on its own.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import product

from roundwright.goals.class_wish import ClassFormat, Count
from roundwright.plan.changing.restate import Restated
from roundwright.plan.core import Cell, CellState, Core
from roundwright.plan.problem import Problem
from tests.brute_force.oracle_allowed import bursts_of
from tests.brute_force.oracle_kit import units_held
from tests.brute_force.oracle_options import (
    Burst,
    Doing,
    Option,
    burst_options,
    lifted_masses,
    place_options,
)
from tests.brute_force.oracle_people import dosage
from tests.planning_brute_force.oracle_arrangements import Arrangement, arrangements
from tests.planning_brute_force.oracle_class_price import class_price
from tests.planning_brute_force.oracle_fit import (
    Way,
    class_seconds,
    kit_is_enough,
    pairs_price,
    turned,
    versions_price,
)

Harm = tuple[int, int, int, int, int]
"""Left out, overrun beyond the one before, people, cells, price."""


@dataclass(frozen=True)
class HarmWay(Way):
    """All that one person does, with what it takes from them."""

    left: int = 0
    cells: int = 0

    @property
    def rank(self) -> tuple[int, int, int]:
        """What one of two ways with the same kit and seconds is better by."""
        return (self.left, self.cells, self.price)


class Before:
    """The plan before a change, as the change reads it."""

    def __init__(self, core: Core, slot_s: int, asked: Restated) -> None:
        self.asked = asked
        self.overrun_s = max(0, sum(w.length_s for w in core.timeline) - slot_s)
        self.rounds = {p.person_id: p.rounds for p in core.people}
        self.bursts = {
            p.person_id: (p.burst, {k.item_id: k.units for k in p.burst_kit}) for p in core.people
        }
        self.cells: dict[tuple[str, int, int], Cell] = {}
        for cell in core.cells:
            rounds = self.rounds[cell.person_id] if cell.round == 0 else (cell.round,)
            self.cells |= {(cell.person_id, cell.position, n): cell for n in rounds}

    def rested(self, person_id: str, position: int) -> bool:
        """Whether the person had nothing to do in some round where this place was before."""
        was = self.asked.came_from.get(position)
        return any(
            cell.state is CellState.SIT_OUT
            for (p, k, _), cell in self.cells.items()
            if (p, k) == (person_id, was)
        )

    def is_counted(self, person_id: str) -> bool:
        return person_id in self.rounds and person_id not in self.asked.persons

    def differs(self, problem: Problem, person_id: str, position: int, option: Option) -> bool:
        """Whether a counted cell is another one in some round done before and now."""
        was = self.asked.came_from.get(position)
        if was is None or not self.is_counted(person_id):
            return False
        now = list(range(1, dosage(problem, person_id).rounds + 1))
        before = list(self.rounds[person_id])
        if self.asked.rounds_dropped:
            pairs = list(zip(reversed(before), reversed(now), strict=False))
        else:
            pairs = [(n, n) for n in now if n in before]
        return any(
            not self._same(
                self.cells[person_id, was, old],
                option.in_round(new, problem.spec.rounds),
                option.state,
            )
            for old, new in pairs
        )

    def _same(self, cell: Cell, doing: Doing | None, state: CellState) -> bool:
        if cell.state is not state:
            return False
        if doing is None:
            return True
        steps = [(s.movement.slug, s.side, s.times) for s in doing.version.steps]
        return (
            [(s.movement_id, s.side, s.times) for s in cell.steps] == steps
            and (self.asked.counts_cut or cell.count == _count(doing))
            and (cell.unit_mass_g, cell.units) == (doing.mass_g, units_held(doing.version.steps))
            and {k.item_id: k.units for k in cell.kit} == dict(doing.items)
        )

    def other_burst(self, person_id: str, burst: Burst) -> bool:
        if not self.is_counted(person_id):
            return False
        movement, items = self.bursts[person_id]
        if movement is None or burst.movement_id is None:
            return False
        return (movement, items) != (burst.movement_id, dict(burst.items))


def _count(doing: Doing) -> Count:
    return doing.version.count


def ways_of(problem: Problem, before: Before, person_id: str, offset: int) -> list[HarmWay]:
    """Everything that a person may do: sitting out is legal at every place of a change."""
    mine, spec = turned(problem, offset), problem.spec
    dose, places = dosage(problem, person_id), spec.positions
    rest = Option(CellState.SIT_OUT, None, None, problem.costs.sit_out)
    by_interval = []
    for t in range(1, places + 1):
        options = place_options(mine, person_id, t)
        if not any(o.state is CellState.SIT_OUT for o in options):
            options = [*options, rest]
        position = (t - 1 + offset) % places + 1
        by_interval.append(
            [
                (
                    o,
                    o.state is CellState.SIT_OUT and not before.rested(person_id, position),
                    before.differs(problem, person_id, position, o),
                )
                for o in options
            ]
        )
    best: dict[object, HarmWay] = {}
    for picks in product(*by_interval):
        options = tuple(o for o, _, _ in picks)
        for burst in burst_options(mine, person_id):
            way = _way(mine, person_id, offset, options, burst)
            if way is None:
                continue
            made = HarmWay(
                **{name: getattr(way, name) for name in Way.__dataclass_fields__},
                left=sum(left for _, left, _ in picks),
                cells=sum(other for _, _, other in picks) + before.other_burst(person_id, burst),
            )
            if made.key not in best or made.rank < best[made.key].rank:
                best[made.key] = made
    assert dose.rounds >= 1
    return sorted(best.values(), key=lambda w: w.rank)


def _way(
    mine: Problem, person_id: str, offset: int, options: tuple[Option, ...], burst: Burst
) -> Way | None:
    """Put one person's choices together; None where landings or low hops are too many."""
    dose, spec, costs = dosage(mine, person_id), mine.spec, mine.costs
    contacts, low_hops = burst.contacts, burst.low_hops
    seconds: dict[tuple[int, int], int] = {}
    uses: dict[tuple[int, int], dict[str, int]] = {}
    listings: list[frozenset[tuple[str, ...]]] = [frozenset()] * spec.positions
    for t, option in enumerate(options, start=1):
        if option.state is CellState.DO:
            listings[(t - 1 + offset) % spec.positions] = frozenset(
                d.version.signature for d in (option.main, option.tail) if d is not None
            )
        for round_number in range(1, dose.rounds + 1):
            doing = option.in_round(round_number, spec.rounds)
            if doing is not None:
                contacts += doing.version.contacts
                low_hops += doing.version.low_hops
                seconds[round_number, t] = doing.version.seconds
                uses[round_number, t] = doing.uses
    if contacts > dose.contact_limit or low_hops > dose.low_hop_limit:
        return None
    masses = max(0, len(lifted_masses(options)) - 2)
    return Way(
        price=sum(o.price for o in options) + burst.price + costs.third_mass * masses,
        seconds=seconds,
        uses=uses,
        burst_items=dict(burst.items),
        burst_rounds=bursts_of(mine, person_id),
        listings=tuple(listings),
        options=options,
    )


class ChangeSearch:
    """Every answer to one change."""

    def __init__(self, core: Core, slot_s: int, asked: Restated) -> None:
        self.problem = asked.problem
        self.before = Before(core, slot_s, asked)
        self.class_price = class_price(self.problem)
        self._listed: dict[tuple[str, int], list[HarmWay]] = {}

    def ways(self, person_id: str, offset: int) -> list[HarmWay]:
        """A person's ways in a group with this offset."""
        if (person_id, offset) not in self._listed:
            self._listed[person_id, offset] = ways_of(self.problem, self.before, person_id, offset)
        return self._listed[person_id, offset]

    def least_of(
        self,
        arrangement: Arrangement,
        below: Harm | None = None,
        only: dict[str, list[HarmWay]] | None = None,
    ) -> Harm | None:
        """The least harm of an arrangement, if it is below one.

        Parameters
        ----------
        only : dict, optional
            Ways of people who are not free.
        """
        problem, form, halves = self.problem, arrangement.format, arrangement.half_of
        people = sorted(
            arrangement.offset_of,
            key=lambda p: len((only or {}).get(p) or self.ways(p, arrangement.offset_of[p])),
        )
        listed = [(only or {}).get(p) or self.ways(p, arrangement.offset_of[p]) for p in people]
        if not all(listed):
            return None
        rest = [
            (
                sum(min(w.left for w in ways) for ways in listed[i:]),
                sum(min(w.cells > 0 for w in ways) for ways in listed[i:]),
                sum(min(w.cells for w in ways) for ways in listed[i:]),
                sum(min(w.price for w in ways) for ways in listed[i:]),
            )
            for i in range(len(people) + 1)
        ]
        fixed = pairs_price(problem, arrangement) + self.class_price
        allowed = problem.spec.slot_s + self.before.overrun_s

        def go_on(index: int, chosen: dict[str, HarmWay]) -> None:
            nonlocal below
            taken = list(chosen.values())
            work = {p: way.seconds for p, way in chosen.items()}
            length = class_seconds(problem, form, halves, work)
            harm: Harm = (
                sum(w.left for w in taken) + rest[index][0],
                max(0, length - allowed),
                sum(w.cells > 0 for w in taken) + rest[index][1],
                sum(w.cells for w in taken) + rest[index][2],
                sum(w.price for w in taken)
                + rest[index][3]
                + fixed
                + versions_price(problem, dict(chosen)),
            )
            if below is not None and harm >= below:
                return
            idle: dict[str, Way] = {p: Way(0, {}, {}, {}, 0, (), ()) for p in people[index:]}
            if not kit_is_enough(problem, arrangement, {**chosen, **idle}):
                return
            if index == len(people):
                below = harm
                return
            for way in listed[index]:
                go_on(index + 1, chosen | {people[index]: way})

        start = below
        go_on(0, {})
        return below if below != start else None

    def least(self, form: ClassFormat, below: Harm | None = None) -> Harm | None:
        """The least harm over every arrangement of a format, if it is below one."""
        best: Harm | None = below
        for arrangement in arrangements(self.problem, form):
            best = self.least_of(arrangement, best) or best
        return best if best != below else None


def arrangement_of(core: Core) -> Arrangement:
    """The groups of a plan, with the offsets that its work windows show."""
    form, groups = core.class_.format, core.class_.groups
    if form is ClassFormat.TOGETHER:
        people = [p for group in groups for p in group]
        return Arrangement(form, tuple((p,) for p in people), (0,) * len(people))
    offsets: Sequence[int] = (0,) * len(groups)
    if form is not ClassFormat.PAIRS:
        shown = [w.positions for w in core.timeline if w.kind == "work" and w.positions]
        first = shown[0] if shown else tuple(range(1, len(groups) + 1))
        offsets = tuple((p - first[0]) % core.class_.positions for p in first)
    return Arrangement(form, groups, tuple(offsets))


def turned_pairs(arrangement: Arrangement) -> list[Arrangement]:
    """The same partners, whoever of them works first."""
    if arrangement.format is not ClassFormat.PAIRS:
        return [arrangement]
    ways = [[group, group[::-1]] if len(group) == 2 else [group] for group in arrangement.groups]
    return [Arrangement(arrangement.format, tuple(g), arrangement.offsets) for g in product(*ways)]
