"""The best stations or staggered groups: who stands where, and who takes what.

Few people: one exact model over every grouping, for each way to place the groups.
More: what everybody would take with the kit of a whole round is dealt out to groups
so that it fits each interval, then improved by swaps within the counted work.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import combinations

from roundwright.foundation.errors import RoundwrightError
from roundwright.foundation.seeds import generator
from roundwright.goals.class_wish import ClassFormat
from roundwright.optimise.allotment import Allotted, allot, by_model
from roundwright.optimise.choice_value import Groups
from roundwright.optimise.instance import Alternative, Instance, Rotating
from roundwright.optimise.loose_rotation import LooseModel
from roundwright.optimise.rotation_groups import Dealing, by_pace, least_seconds, swapped
from roundwright.optimise.rotation_model import Arrangement, RotationModel
from roundwright.optimise.solver import Ended, Work
from roundwright.plan.number_of_groups import numbers_of_groups

MOST_EXACT = 7
"""Up to so many people every grouping is looked at, where the model is not too large."""
LARGEST_EXACT = 300
"""How many 0-1 variables the exact model may have; our choice."""
LEAST_NODES, NODES_SHARE = 40, 250
"""Exact models of all groupings get this share of the solver nodes, and not fewer; our choice."""
STARTS = 4
"""How many arrangements of many people are solved before swaps; our choice."""


def arrangements(
    form: ClassFormat, people: int, positions: int, groups: int | None = None
) -> tuple[Arrangement, ...]:
    """Give every way to place the groups; none where there are too few people or positions.

    Parameters
    ----------
    groups : int, optional
        How many groups the class says.
    """
    numbers = numbers_of_groups(form, people, positions, groups)
    if form is ClassFormat.STATIONS:
        return tuple(Arrangement(form, tuple(range(number))) for number in numbers)
    return tuple(
        Arrangement(form, (0, *others))
        for number in numbers
        for others in combinations(range(1, positions), number - 1)
    )


def allot_rotating(
    rotating: Rotating,
    form: ClassFormat,
    work: Work,
    seed: int,
    to_beat: tuple[int, int] | None = None,
) -> Allotted:
    """Find the best groups, offsets and choice; proven only against a bound for all of them.

    Parameters
    ----------
    to_beat : (int, int), optional
        Overrun and price of a plan that is known. Where no plan of this form can beat
        it, the answer may be only a bound.
    """
    people = len(rotating.people)
    ways = arrangements(form, people, rotating.positions, rotating.problem.spec.groups)
    nobody = Groups((), in_pairs=False, rotating=form)
    if not ways or any(_has_none(rotating, way) for way in ways):
        ways = tuple(way for way in ways if not _has_none(rotating, way))
        if not ways:
            return Allotted(Ended.INFEASIBLE, nobody)
    bound = min(_least_price(rotating, way) for way in ways)
    least_s = min(least_seconds(rotating, way) for way in ways)
    if to_beat is not None and (least_s, bound) >= to_beat:
        return Allotted(Ended.LIMIT, nobody, bound=bound, least_s=least_s)
    loose = LooseModel(rotating, max(len(way.offsets) for way in ways)).solve(work, seed)
    if loose.ended is Ended.INFEASIBLE:
        return Allotted(Ended.INFEASIBLE, nobody)
    bound = max(bound, loose.bound)
    if to_beat is not None and (least_s, bound) >= to_beat:
        return Allotted(Ended.LIMIT, nobody, bound=bound, least_s=least_s)
    search = _Search(rotating, ways, (least_s, bound), work, seed, to_beat)
    search.deal(loose.taken or _favourites(rotating))
    if not search.has_plan() and search.find_any():
        return Allotted(Ended.INFEASIBLE, nobody)
    affordable = _size(rotating, ways) <= LARGEST_EXACT
    if people <= MOST_EXACT and affordable and not search.is_done():
        found = search.over_all()
        if found.is_proven:
            return found
    search.by_swaps()
    return search.answer(nobody)


def _size(rotating: Rotating, ways: Sequence[Arrangement]) -> int:
    """Give how many variables the largest exact model has."""
    return max(
        sum(
            len(options)
            for p in range(len(rotating.people))
            for o in way.offsets
            for options in rotating.row(p, o)
        )
        for way in ways
    )


def _has_none(rotating: Rotating, way: Arrangement) -> bool:
    """Say whether somebody has a place without any alternative, whichever group they join."""
    return any(
        all(any(not options for options in rotating.row(p, o)) for o in way.offsets)
        for p in range(len(rotating.people))
    )


def _least_price(rotating: Rotating, way: Arrangement) -> int:
    """Give the sum of everyone's cheapest start."""
    return sum(
        min(
            sum(min(a.price for a in options) for options in row)
            for row in (rotating.row(p, o) for o in way.offsets)
            if all(row)
        )
        for p in range(len(rotating.people))
    )


def _favourites(rotating: Rotating) -> tuple[tuple[Alternative, ...], ...]:
    tables = list(rotating.by_role.values())
    return tuple(
        tuple(
            min((a for t in tables for a in t[p][k]), key=lambda a: a.price)
            for k in range(rotating.positions + 1)
        )
        for p in range(len(rotating.people))
    )


@dataclass(frozen=True, slots=True)
class _EveryGrouping:
    """The question of one arrangement with its groups left open."""

    rotating: Rotating
    arrangement: Arrangement
    price_below: int | None

    def model(self) -> RotationModel:
        """Give a fresh model."""
        return RotationModel(self.rotating, self.arrangement, self.price_below)

    def instance_of(self, groups: Groups) -> Instance:
        """Give the table of an answer's groups."""
        return instance_of(self.rotating, groups)


def instance_of(rotating: Rotating, groups: Groups) -> Instance:
    """Give the table in which everyone starts where their group does."""
    offset_of = {
        p: offset
        for group, offset in zip(groups.members, groups.offsets, strict=True)
        for p in group
    }
    return rotating.at([offset_of[p] for p in range(len(rotating.people))])


class _Search:
    """What is known so far of one form: the best plan, and a bound for every plan."""

    def __init__(
        self,
        rotating: Rotating,
        ways: Sequence[Arrangement],
        bounds: tuple[int, int],
        work: Work,
        seed: int,
        to_beat: tuple[int, int] | None,
    ) -> None:
        self._rotating = rotating
        self._ways = ways
        self._least_s, self._bound = bounds
        self._work = work
        self._seed = seed
        self._to_beat = to_beat
        self._best: Allotted | None = None

    def deal(self, taken: Sequence[Sequence[Alternative]]) -> None:
        """Try the arrangements in which what is taken comes nearest to fitting."""
        dealt = sorted(
            (Dealing(self._rotating, way, taken).best() for way in self._ways),
            key=lambda one: one.excess,
        )
        for k, one in enumerate(dealt):
            if self.is_done():
                return
            if k >= STARTS and self.has_plan():
                break
            self._try(one.groups)
        if self._best is None or self._best.overrun_s > self._least_s:
            for way in self._ways[:STARTS]:
                self._try(by_pace(self._rotating, way))

    def over_all(self) -> Allotted:
        """Solve every arrangement exactly, as far as it could still win.

        With a plan to beat, no answer means only that none beats it.
        """
        proven = True
        nodes = max(LEAST_NODES, self._work.nodes_left // NODES_SHARE)
        part = Work(nodes_left=nodes, groupings_left=0, swaps_left=0)
        for way in self._ways:
            known = self._known()
            if known is not None and known <= (
                least_seconds(self._rotating, way),
                max(self._bound, _least_price(self._rotating, way)),
            ):
                continue
            below = known[1] if known is not None and known[0] == 0 else None
            question = _EveryGrouping(self._rotating, way, below)
            tried = by_model(question, self._bound, 0, part, self._seed, known)
            self._work.spend_round()
            proven = proven and tried.is_proven
            self._take(tried)
            if not part.nodes_left:
                proven = proven and way is self._ways[-1]
                break
        self._work.spend_nodes(part.used)
        nobody = Groups((), in_pairs=False, rotating=self._ways[0].form)
        if self._best is None:
            ended = Ended.INFEASIBLE if proven else Ended.LIMIT
            return Allotted(ended, nobody, bound=self._bound, least_s=self._least_s)
        if not proven:
            self._try(self._best.groups)
        bound = min(self._bound, self._best.price)
        if proven and self._to_beat is None:
            bound = self._best.price
        return self._marked(Ended.OPTIMAL if proven else Ended.LIMIT, bound)

    def by_swaps(self) -> None:
        """Let two people of different groups change places as long as the work lasts."""
        draws = generator(self._seed, f"{self._ways[0].form}:swaps")
        people = len(self._rotating.people)
        if people < 2:
            return
        while self._best is not None and self._work.swaps_left > 0 and not self._is_hopeless():
            self._work.swaps_left -= 1
            one, other = (int(p) for p in draws.choice(people, size=2, replace=False))
            groups = self._best.groups
            if not any(one in group and other in group for group in groups.members):
                self._try(swapped(groups, one, other))

    def find_any(self) -> bool:
        """Look for any groups that work; say whether it is proven that there are none."""
        proven = True
        for way in self._ways:
            answer = RotationModel(self._rotating, way).any_choice(self._work, self._seed)
            proven = proven and answer.ended is Ended.INFEASIBLE
            if answer.choice is not None:
                self._try(answer.groups)
                return False
        return proven

    def has_plan(self) -> bool:
        """Say whether any plan of this form was found."""
        return self._best is not None

    def is_done(self) -> bool:
        """Say whether nothing can be better: least overrun and least price at once."""
        return self._best is not None and self._best.rank <= (self._least_s, self._bound)

    def _is_hopeless(self) -> bool:
        """Say whether swaps can gain nothing, or are far from the plan to beat."""
        return self.is_done() or (
            self._best is not None
            and self._to_beat is not None
            and self._best.overrun_s > self._to_beat[0]
        )

    def _known(self) -> tuple[int, int] | None:
        """Give overrun and price of the best plan that is known, of this form or another."""
        ranks = [] if self._best is None else [self._best.rank]
        ranks += [] if self._to_beat is None else [self._to_beat]
        return min(ranks, default=None)

    def answer(self, nobody: Groups) -> Allotted:
        """Give the best that was found, proven where it meets the bound."""
        if self._best is None:
            return Allotted(Ended.LIMIT, nobody, bound=self._bound, least_s=self._least_s)
        ended = Ended.OPTIMAL if self.is_done() else Ended.LIMIT
        return self._marked(ended, min(self._bound, self._best.price))

    def _try(self, groups: Groups) -> None:
        instance = instance_of(self._rotating, groups)
        self._take(allot(instance, groups, self._work, self._seed, self._known()))
        self._work.spend_round()

    def _take(self, tried: Allotted) -> None:
        if tried.choice is not None and (self._best is None or tried.rank < self._best.rank):
            self._best = tried

    def _marked(self, ended: Ended, bound: int) -> Allotted:
        best = self._best
        if best is None:
            raise RoundwrightError("nothing was found to be marked")
        return replace(best, ended=ended, bound=bound, least_s=self._least_s)
