"""Tier 1: the same exercises in the same order, everybody free, the least harm (C4).

Groups stay as tier 0 mends them, unless other groups give less by people or time: nobody
changes partner for points. So they are solved as they are first; a bound for every grouping
mostly shows that no other is needed. Where it does not, few people are gone through whole, and
of many some are exchanged within the counted work.
"""

from collections.abc import Callable, Iterator
from dataclasses import replace
from functools import cached_property

from roundwright.foundation.seeds import generator
from roundwright.goals.class_wish import ClassFormat
from roundwright.optimise.changing.at_once import AtOnce
from roundwright.optimise.changing.bounds import forced_harm, later_bound
from roundwright.optimise.changing.harm_models import (
    Aim,
    HarmLoose,
    HarmModel,
    HarmRotating,
    HarmTogether,
    Held,
)
from roundwright.optimise.changing.least_harm import Found, Question, Stages
from roundwright.optimise.changing.old_plan import changed_of
from roundwright.optimise.changing.today import FullTables, Today
from roundwright.optimise.choice_value import Groups
from roundwright.optimise.groupings import all_groupings, with_swapped
from roundwright.optimise.instance import Instance, Rotating
from roundwright.optimise.pairs import MOST_ENUMERATED
from roundwright.optimise.rotation import LARGEST_EXACT, MOST_EXACT, arrangements, instance_of
from roundwright.optimise.rotation_groups import swapped
from roundwright.optimise.rotation_model import Arrangement
from roundwright.optimise.solver import Ended, Work
from roundwright.plan.changing.change import Harm
from roundwright.plan.outcome import Budget

WORK = {
    Budget.QUICK: (2_000, 60, 1),
    Budget.NORMAL: (50_000, 400, 6),
    Budget.THOROUGH: (1_000_000, 4_000, 200),
}
"""Solver nodes, groupings and exchanges that a budget allows one change; our choice."""


def work_of(budget: Budget) -> Work:
    """Give the counted work of a budget."""
    nodes, groupings, swaps = WORK[budget]
    return Work(nodes_left=nodes, groupings_left=groupings, swaps_left=swaps)


class TierOne:
    """The search of one change.

    Parameters
    ----------
    today : Today
        The question.
    start : AtOnce
        The answer of tier 0 to the same question.
    hears : callable, optional
        Told of each better answer as it is found, with the bound so far.
    below : Harm, optional
        Only an answer below its first four figures is of use; what is seen not to be is given
        as it is, and its bound says nothing.
    """

    def __init__(
        self,
        today: Today,
        start: AtOnce,
        work: Work,
        seed: int,
        hears: Callable[[Found], None] | None = None,
        below: Harm | None = None,
    ) -> None:
        self._below = below
        self._hears = hears
        self._told = start.harm
        self._is_first = True
        self._today = today
        self._tables = FullTables(today)
        self._start = start
        self._form = today.problem.spec.format
        self._work = work
        self._seed = seed

    def least_possible(self) -> Harm:
        """Give a bound over all groups that is known before anything is solved."""
        return self._forced

    def run(self) -> Found:
        """Give the least harm; without a choice where it is tier 0's own."""
        groups = self._start.groups
        best = self._stages(groups, self._start.harm, self._below)
        harm = self._least(best)
        if self._form is ClassFormat.TOGETHER or not self._may_be_less(harm, best):
            return best
        bound = self._bound()
        if harm.order[:4] <= bound.order[:4]:
            return replace(best, least=later_bound(best.least or bound, bound))
        return self._bounded(self._in_other_groups(best), bound)

    def _in_other_groups(self, best: Found) -> Found:
        self._is_first = False
        people = len(self._today.people)
        if self._form is ClassFormat.PAIRS:
            few = people <= MOST_ENUMERATED
            return self._over(all_groupings(range(people))) if few else self._by_swaps(best)
        if people <= MOST_EXACT and self._size() <= LARGEST_EXACT:
            return self._over_arrangements(best)
        return self._by_swaps(best)

    def _bounded(self, found: Found, bound: Harm) -> Found:
        """Give what was found over all groups with the bound that holds for all of them."""
        return replace(found, least=self._least(found) if found.is_proven else bound)

    def _least(self, found: Found) -> Harm:
        harms = [h for h in (found.harm, self._start.harm) if h is not None]
        return min(harms, key=lambda h: h.order)

    def _may_be_less(self, harm: Harm, best: Found) -> bool:
        """Say whether other groups could give less by the first four figures at all."""
        return not best.is_proven or harm.order[:4] > self._forced.order[:4]

    @cached_property
    def _forced(self) -> Harm:
        return forced_harm(self._every_table, self._today.class_price)

    @cached_property
    def _every_table(self) -> list[Instance]:
        if self._form in (ClassFormat.STATIONS, ClassFormat.STAGGERED):
            rotating = self._tables.rotating
            people = len(self._today.people)
            return [
                Instance(rotating.problem, rotating.people, rotating.doses, table, rotating.counts)
                for table in (
                    rotating.at((offset,) * people).table for offset in range(rotating.positions)
                )
            ]
        return [self._tables.instance]

    def _stages(self, groups: Groups, known: Harm | None, below: Harm | None) -> Found:
        """Find the least harm for given groups."""
        whole = (
            self._tables.instance
            if groups.rotating is None
            else instance_of(self._tables.rotating, groups)
        )
        plain: list[Instance] = []

        def instance(only_undisturbed: bool) -> Instance:
            if not only_undisturbed:
                return whole
            if not plain:
                plain.append(_plain(whole))
            return plain[0]

        question = Question(
            model=lambda only: HarmTogether(instance(only), groups),
            instance_of=lambda _, only: instance(only),
            forced=forced_harm([whole], self._today.class_price),
            old=self._today.old,
            besides=self._today.class_price,
            size=(len(whole.people), whole.places),
        )
        return Stages(question, known, self._work, self._seed, self._tell).run(below)

    def _tell(self, found: Found) -> None:
        """Tell of what is better than all that was told of.

        Points alone count only while the groups are those of tier 0.
        """
        harm = found.harm
        if self._hears is None or harm is None:
            return
        told = self._told
        if harm.order[:4] < told.order[:4] or (self._is_first and harm.order < told.order):
            self._told = harm
            together = self._form is ClassFormat.TOGETHER
            self._hears(found if together else replace(found, least=self._forced))

    def _bound(self) -> Harm:
        """Give a bound in the order of harm over all groupings, by a relaxation."""
        in_pairs = self._form is ClassFormat.PAIRS

        def model() -> HarmModel:
            if in_pairs:
                everyone = Groups((tuple(range(len(self._today.people))),), in_pairs=True)
                return HarmTogether(self._tables.instance, everyone, kit_factor=2)
            return HarmLoose(self._tables.rotating, max(len(w.offsets) for w in self._ways))

        forced = self._forced
        left = model().least(Aim.LEFT_OUT, Held(), self._work, self._seed)
        if left.bound < forced.left_out or left.ended is not Ended.OPTIMAL:
            return forced.model_copy(update={"left_out": max(left.bound, forced.left_out)})
        over_s = 0
        if in_pairs:
            held = Held(left_out=left.bound)
            shortest = model().least(Aim.OVERRUN, held, self._work, self._seed)
            over_s = max(0, shortest.bound - self._today.old.overrun_s)
        most_s = self._today.old.overrun_s + over_s if in_pairs else None
        held = Held(left.bound, most_s)
        disturbed = model().least(Aim.DISTURBED, held, self._work, self._seed)
        people, cells = max(divmod(disturbed.bound, self._weight), (forced.people, forced.cells))
        return Harm(
            left_out=left.bound, overrun_s=over_s, people=people, cells=cells, price=forced.price
        )

    @property
    def _weight(self) -> int:
        return len(self._today.people) * (self._today.positions + 1) + 1

    @cached_property
    def _ways(self) -> tuple[Arrangement, ...]:
        today = self._today
        wished = self._tables.rotating.problem.spec.groups
        return arrangements(self._form, len(today.people), today.positions, wished)

    def _size(self) -> int:
        rotating: Rotating = self._tables.rotating
        return max(
            sum(
                len(options)
                for p in range(len(rotating.people))
                for o in way.offsets
                for options in rotating.row(p, o)
            )
            for way in self._ways
        )

    def _over(self, groupings: Iterator[tuple[tuple[int, ...], ...]]) -> Found:
        """Go through all pairs: less harm first, then of those that have it the least price."""
        best = self._stages(self._start.groups, self._start.harm, None)
        least, proven = self._least(best), best.is_proven
        is_other = False
        for members in groupings:
            if self._work.groupings_left <= 0:
                proven = False
                break
            self._work.groupings_left -= 1
            self._work.spend_round()
            groups = Groups(members, in_pairs=True)
            below = least.model_copy(update={"cells": least.cells + 1}) if is_other else least
            tried = self._stages(groups, None, below)
            proven = proven and tried.is_proven
            if tried.harm is None:
                continue
            limit = 5 if is_other else 4
            if tried.harm.order[:limit] < least.order[:limit]:
                best, least, is_other = tried, tried.harm, True
        return replace(best, ended=Ended.OPTIMAL if proven else Ended.LIMIT)

    def _over_arrangements(self, best: Found) -> Found:
        """Solve every way to place the groups, over all people in them."""
        rotating = self._tables.rotating
        least, proven, is_other = self._least(best), best.is_proven, False
        for way in self._ways:
            question = Question(
                model=lambda _, way=way: HarmRotating(rotating, way),  # type: ignore[misc]
                instance_of=lambda groups, _: instance_of(rotating, groups),
                forced=self._forced,
                old=self._today.old,
                besides=self._today.class_price,
                size=(len(rotating.people), rotating.positions + 1),
            )
            below = least.model_copy(update={"cells": least.cells + 1}) if is_other else least
            tried = Stages(question, None, self._work, self._seed, self._tell).run(below)
            self._work.spend_round()
            proven = proven and tried.is_proven
            if tried.harm is None:
                continue
            limit = 5 if is_other else 4
            if tried.harm.order[:limit] < least.order[:limit]:
                best, least, is_other = tried, tried.harm, True
        return replace(best, ended=Ended.OPTIMAL if proven else Ended.LIMIT)

    def _by_swaps(self, best: Found) -> Found:
        """Let two people of different groups change places as long as the work lasts."""
        draws = generator(self._seed, "change:swaps")
        groups, least = best.groups or self._start.groups, self._least(best)
        people = len(self._today.people)
        while self._work.swaps_left > 0 and people > 1:
            self._work.swaps_left -= 1
            self._work.spend_round()
            one, other = (int(p) for p in draws.choice(people, size=2, replace=False))
            if any(one in group and other in group for group in groups.members):
                continue
            swap = with_swapped if groups.in_pairs else swapped
            tried = self._stages(swap(groups, one, other), None, least)
            if tried.harm is not None and tried.harm.order[:4] < least.order[:4]:
                best, least, groups = tried, tried.harm, tried.groups or groups
        return replace(best, ended=Ended.LIMIT)


def _plain(instance: Instance) -> Instance:
    """Give a table of only what changes nothing that is counted."""
    table = tuple(
        tuple(tuple(a for a in options if not changed_of(a)) for options in row)
        for row in instance.table
    )
    return replace(instance, table=table)
