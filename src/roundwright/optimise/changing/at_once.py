"""Tier 0: the safe answer, in this process and without any solver (C4).

Everyone not concerned keeps every cell. The concerned get the best that is left, one after the
other, each exactly; where kit is short, those who use it give way, who loses least first.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from roundwright.foundation.errors import NoPlanError
from roundwright.foundation.seeds import DEFAULT_SEED
from roundwright.goals.class_wish import ClassFormat
from roundwright.optimise.burst_options import NO_BURST
from roundwright.optimise.changing.floor import Chosen, Floor
from roundwright.optimise.changing.ground import Ground
from roundwright.optimise.changing.makers import Makers
from roundwright.optimise.changing.mended_groups import can_be_held, mended_groups
from roundwright.optimise.changing.old_plan import (
    Marked,
    OldPlan,
    harm_of,
    overrun_before,
)
from roundwright.optimise.changing.today import Today
from roundwright.optimise.choice_value import Choice, Groups
from roundwright.optimise.instance import Instance
from roundwright.optimise.plan_core import core_of
from roundwright.plan.changing.answer import NO_HARM, Answer
from roundwright.plan.changing.change import Harm
from roundwright.plan.changing.restate import Restated
from roundwright.plan.core import Core
from roundwright.plan.document import PlanDocument
from roundwright.plan.outcome import Budget, Outcome, Status, StoppedBy
from roundwright.plan.problem import Problem

MOST_GROUPINGS = 4
"""How many ways to mend the groups are gone through to the end; our choice."""
MOST_SWEEPS = 3
"""How often those who were chosen for are gone through again; our choice."""

Taken = list[list[Marked]]


@dataclass(frozen=True, slots=True)
class AtOnce:
    """What tier 0 found: everybody's alternatives in mended groups, and the harm of it."""

    groups: Groups
    instance: Instance
    harm: Harm
    is_exact: bool

    @property
    def choice(self) -> Choice:
        """Give the choice in its own table, which holds nothing else."""
        return ((0,) * self.instance.places,) * len(self.instance.people)


def held_as(asked: Restated, before: Core) -> Restated:
    """Give what was asked in the format it can be held in: one person alone is not staggered."""
    problem = asked.problem
    form, people = before.class_.format, len(problem.taking_part)
    if not people:
        raise NoPlanError("Nobody takes part any more.")
    if can_be_held(form, people, problem.spec.positions):
        return asked
    spec = problem.spec.model_copy(update={"format": ClassFormat.TOGETHER})
    return Restated(
        problem.model_copy(update={"spec": spec}),
        asked.came_from,
        asked.persons,
        asked.positions,
        asked.open_positions,
        asked.rounds_dropped,
        asked.counts_cut,
    )


def answer_at_once(before: PlanDocument, asked: Restated, makers: Makers) -> Answer:
    """Give the safe answer.

    Raises
    ------
    NoPlanError
        Nobody takes part any more.
    """
    asked = held_as(asked, before.core)
    old = OldPlan(before.core, asked, overrun_before(before.core, before.problem.spec.slot_s))
    ground = Ground(before, old, makers)
    firm = ground.is_firm and before.core.class_.format is asked.problem.spec.format
    found = best_at_once(Today(old, makers, ground if firm else None))
    if found is None:
        found = best_at_once(Today(old, makers))
    if found is None:
        raise NoPlanError("No plan can be kept together after this change.")
    core = core_of(found.instance, found.choice, found.groups, before.core.plan_id)
    return Answer(
        problem=asked.problem,
        core=as_next(core, before.core),
        harm=found.harm,
        tier=0,
        outcome=outcome_of(
            asked.problem, found.harm, proven=found.is_exact, stopped_by=StoppedBy.PROOF
        ),
        least=found.harm if found.is_exact else NO_HARM,
    )


def as_next(core: Core, before: Core) -> Core:
    """Give a core the number of the revision after another."""
    revision = before.revision
    return core.model_copy(update={"revision": revision + 1, "parent_revision": revision})


def outcome_of(
    problem: Problem,
    harm: Harm,
    *,
    proven: bool,
    stopped_by: StoppedBy,
    bound: int | None = None,
    seed: int = DEFAULT_SEED,
    budget: Budget = Budget.NORMAL,
    work_used: int = 0,
    versions: dict[str, str] | None = None,
) -> Outcome:
    """Say how the search of an answer ended."""
    return Outcome(
        status=Status.PROVEN if proven else Status.FOUND,
        stopped_by=stopped_by,
        cost=harm.price,
        bound=harm.price if proven else bound,
        bound_covers="set",
        overrun_s=harm.overrun_s,
        seed=seed,
        budget=budget,
        work_used=work_used,
        versions=versions or {},
    )


def best_at_once(today: Today) -> AtOnce | None:
    """Give the best over the ways to mend the groups; None where the old price can't be read."""
    besides = today.price_besides()
    if besides is None:
        return None
    best: AtOnce | None = None
    form = today.problem.spec.format
    ways = mended_groups(today.old.core, today.people, today.positions, form)
    for groups in _nearest(today, ways)[:MOST_GROUPINGS]:
        found = _Mending(today, groups).done(besides)
        if found is not None and (best is None or found.harm.order < best.harm.order):
            best = found
            if found.harm.order[:4] == (0, 0, 0, 0):
                break
    return best


def _nearest(today: Today, ways: list[Groups]) -> list[Groups]:
    """Order ways to mend the groups: newcomers apart, then partners who share what they use."""
    if len(ways) <= 1 or not ways[0].in_pairs:
        return ways
    firsts = {k for k, dose in enumerate(today.doses) if dose.is_first_timer}
    masses = {p: today.old.masses(person) for p, person in enumerate(today.people)}

    def need(groups: Groups) -> tuple[int, int]:
        crowded = sum(len(firsts.intersection(group)) > 1 for group in groups.members)
        units = 0
        for group in groups.members:
            for place in range(today.positions):
                held = {p: masses[p].get(place + 1, 0) for p in group}
                units += len({m for m in held.values() if m})
        return crowded, units

    return sorted(ways, key=need)


class _Mending:
    """One way to mend the groups, filled step by step."""

    def __init__(self, today: Today, groups: Groups) -> None:
        self.today = today
        self.floor = Floor(today, groups)
        self.free: dict[int, set[int]] = {}
        self.is_exact = True

    def done(self, besides: int) -> AtOnce | None:
        """Fill everybody's places and count what it takes."""
        self._stay()
        self._give_way()
        self._choose()
        return self._counted(besides)

    def _stay(self) -> None:
        today, floor = self.today, self.floor
        for p, person_id in enumerate(today.people):
            named = person_id in today.old.asked.persons
            for place in range(today.positions + 1):
                stay = None if named else today.stay(p, place, floor.role(p, place))
                if stay is None:
                    self.free.setdefault(p, set()).add(place)
                else:
                    floor.put(p, place, stay)

    def _options(self, person: int, place: int) -> tuple[Marked, ...]:
        return self.today.options(person, place, self.floor.role(person, place))

    def _give_way(self) -> None:
        """Free, one by one, whoever loses least, until the kit is enough for those who stay."""
        while True:
            short = next(self._short(), None)
            if short is None:
                return
            place_of, users, over = short
            self.is_exact = False
            loss: list[tuple[tuple[int, ...], int]] = []
            for p in users:
                found = self._one_place(p, place_of[p], over)
                if found is not None:
                    loss.append((found, p))
            person = min(loss)[1] if loss else users[0]
            self.free.setdefault(person, set()).add(place_of[person])
            self.floor.put(person, place_of[person], None)

    def _short(self) -> Iterator[tuple[dict[int, int], list[int], set[tuple[int, str]]]]:
        """Give spans in which kit is short, who uses it there, and which kit it is."""
        for span in self.floor.spans:
            used = self.floor.use(span)
            over = {key for key, n in used.items() if n > self.floor.empty.counts.get(key, 0)}
            if not over:
                continue
            users = [
                p
                for p, place in span.places.items()
                if (taken := self.floor.taken[p][place]) is not None
                and over.intersection(key for key, _ in taken.kit_in(span.last))
            ]
            yield dict(span.places), users, over

    def _one_place(
        self, person: int, place: int, over: set[tuple[int, str]]
    ) -> tuple[int, ...] | None:
        """Say what giving way at one place would take from a person, against what they do."""
        taken = self.floor.taken[person]
        offers = [[a] if a is not None else [] for a in taken]
        offers[place] = [
            a
            for a in self._options(person, place)
            if not over.intersection(key for key, _ in (*a.main_kit, *a.last_kit))
        ]
        offers = [here or [_nothing(place, self.today)] for here in offers]
        found = self.floor.best_for(person, offers)
        if found is None:
            return None
        before = self.today.points(person, place, taken[place])
        left_out, overrun_s, people, cells, _ = found.rank
        new = found.taken[place]
        return (left_out, overrun_s, people, cells, new.price - before)

    def _choose(self) -> None:
        order = sorted(self.free, key=lambda p: (-len(self.free[p]), p))
        if len(order) > 1:
            self.is_exact = False
        for p in order:
            self._settle(p)
        for _ in range(MOST_SWEEPS if len(order) > 1 else 0):
            settled = [self._settle(p) for p in order]
            if not any(settled):
                return

    def _settle(self, person: int) -> bool:
        """Take the best for one person at their free places; say whether that is another one."""
        floor, free = self.floor, self.free[person]
        offers: list[tuple[Marked, ...]] = []
        for place in range(floor.empty.places):
            taken = floor.taken[person][place]
            if place in free or taken is None:
                offers.append(self._options(person, place))
            else:
                is_burst = place == self.today.positions
                still = self.today.with_landings(person, taken) if is_burst else taken
                offers.append((still,))
        found = floor.best_for(person, offers)
        if found is None:
            found = self._without_burst(person, offers)
        before = tuple(floor.taken[person])
        for place, taken in enumerate(found.taken):
            floor.put(person, place, taken)
        self.is_exact = self.is_exact and found.is_exact
        return before != found.taken

    def _without_burst(self, person: int, offers: list[tuple[Marked, ...]]) -> Chosen:
        """Let somebody go without a burst for which no kit is left: the last resort."""
        self.is_exact = False
        burst = len(offers) - 1
        found = self.floor.best_for(person, [*offers[:burst], [_nothing(burst, self.today)]])
        if found is None:
            raise NoPlanError("No plan can be kept together after this change.")
        return found

    def _counted(self, besides: int) -> AtOnce | None:
        today, floor = self.today, self.floor
        table = tuple(tuple((a,) for a in row if a is not None) for row in floor.taken)
        instance = Instance(
            today.problem,
            today.people,
            today.doses,
            table,
            today.rack.counts,
            floor.empty.offsets,
        )
        price = besides
        for p in range(len(today.people)):
            for place, a in enumerate(floor.taken[p]):
                more = today.points_still_in(p, place, a)
                if more is None:
                    return None
                price -= more
        choice = ((0,) * instance.places,) * len(instance.people)
        harm = harm_of(instance, choice, floor.groups, today.old, price + today.class_price)
        return AtOnce(floor.groups, instance, harm, self.is_exact)


def _nothing(place: int, today: Today) -> Marked:
    """Give what asks for nothing, in the place of what is not chosen yet."""
    what = NO_BURST if place == today.positions else today.sitting_out.what
    return Marked(what, 0, 0, frozenset(), 0, 0, 0, 0, (), (), 0, 0)
