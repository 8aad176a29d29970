"""Tier 1: the same exercises in the same order, everybody free, the least harm (C4).

Groups stay as tier 0 mends them, unless other groups give less by people or time: nobody
changes partner for points. So they are solved as they are first; a bound for every grouping
mostly shows that no other is needed. Where it does not, few people are gone through whole, and
of many some are exchanged within the counted work.
"""

from collections.abc import Iterator
from dataclasses import replace
from functools import cached_property

from roundwright.foundation.seeds import generator
from roundwright.goals.class_wish import ClassFormat
from roundwright.optimise.changing.at_once import AtOnce
from roundwright.optimise.changing.harm_models import (
    Aim,
    HarmLoose,
    HarmModel,
    HarmRotating,
    HarmTogether,
    Held,
)
from roundwright.optimise.changing.least_harm import Found, Question, Stages, forced_harm
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
    """

    def __init__(self, today: Today, start: AtOnce, work: Work, seed: int) -> None:
        self._today = today
        self._tables = FullTables(today)
        self._start = start
        self._form = today.problem.spec.format
        self._work = work
        self._seed = seed

    def run(self) -> Found:
        """Give the least harm; without a choice where it is tier 0's own."""
        groups = self._start.groups
        best = self._stages(groups, self._start.harm, None)
        harm = self._least(best)
        if self._form is ClassFormat.TOGETHER or not self._may_be_less(harm, best):
            return best
        bound = self._bound()
        if bound is not None and harm.order[:4] <= bound.order[:4]:
            return best
        people = len(self._today.people)
        if self._form is ClassFormat.PAIRS:
            few = people <= MOST_ENUMERATED
            return self._over(all_groupings(range(people))) if few else self._by_swaps(best)
        if people <= MOST_EXACT and self._size() <= LARGEST_EXACT:
            return self._over_arrangements(best)
        return self._by_swaps(best)

    def _least(self, found: Found) -> Harm:
        harms = [h for h in (found.harm, self._start.harm) if h is not None]
        return min(harms, key=lambda h: h.order)

    def _may_be_less(self, harm: Harm, best: Found) -> bool:
        """Say whether other groups could give less by the first four figures at all."""
        forced = forced_harm(self._every_table)
        return not best.is_proven or harm.order[:4] > forced.order[:4]

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
            forced=forced_harm([whole]),
            old=self._today.old,
            besides=self._today.class_price,
            size=(len(whole.people), whole.places),
        )
        return Stages(question, known, self._work, self._seed).run(below)

    def _bound(self) -> Harm | None:
        """Give figures that no grouping can be below, by a relaxation; None: not known."""
        in_pairs = self._form is ClassFormat.PAIRS

        def model() -> HarmModel:
            if in_pairs:
                everyone = Groups((tuple(range(len(self._today.people))),), in_pairs=True)
                return HarmTogether(self._tables.instance, everyone, kit_factor=2)
            return HarmLoose(self._tables.rotating, max(len(w.offsets) for w in self._ways))

        left = model().least(Aim.LEFT_OUT, Held(), self._work, self._seed)
        if left.ended is not Ended.OPTIMAL:
            return None
        over_s = 0
        if in_pairs:
            held = Held(left_out=left.bound)
            shortest = model().least(Aim.OVERRUN, held, self._work, self._seed)
            over_s = max(0, shortest.bound - self._today.old.overrun_s)
        most_s = self._today.old.overrun_s + over_s if in_pairs else None
        held = Held(left.bound, most_s)
        disturbed = model().least(Aim.DISTURBED, held, self._work, self._seed)
        people, cells = divmod(disturbed.bound, self._weight)
        return Harm(left_out=left.bound, overrun_s=over_s, people=people, cells=cells, price=0)

    @property
    def _weight(self) -> int:
        return len(self._today.people) * (self._today.positions + 1) + 1

    @cached_property
    def _ways(self) -> tuple[Arrangement, ...]:
        return arrangements(self._form, len(self._today.people), self._today.positions)

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
        every = forced_harm(self._every_table)
        for way in self._ways:
            question = Question(
                model=lambda _, way=way: HarmRotating(rotating, way),  # type: ignore[misc]
                instance_of=lambda groups, _: instance_of(rotating, groups),
                forced=every,
                old=self._today.old,
                besides=self._today.class_price,
                size=(len(rotating.people), rotating.positions + 1),
            )
            below = least.model_copy(update={"cells": least.cells + 1}) if is_other else least
            tried = Stages(question, None, self._work, self._seed).run(below)
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
