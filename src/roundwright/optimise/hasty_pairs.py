"""Pairs of many people in a slot that is too short: who works in which half decides the time.

How long the class lasts depends on who works first and who second, not on who is
whose partner. So people are split in two halves first, by a relaxation in which kit
is doubled (a bound for every pairing); then the halves are paired so that
partners share kit, and partners are exchanged within the counted work.
"""

from collections.abc import Sequence

import numpy as np
from scipy.optimize import linear_sum_assignment

from roundwright.foundation.seeds import generator
from roundwright.optimise.allotment import Allotted, allot, within
from roundwright.optimise.choice_value import (
    Choice,
    Groups,
    chosen,
    fixed_seconds,
    work_rows,
)
from roundwright.optimise.groupings import in_order
from roundwright.optimise.instance import Instance
from roundwright.optimise.joint_model import JointModel
from roundwright.optimise.kit_choice import KitKey
from roundwright.optimise.solver import Ended, Work

MOST_EXCHANGES = 6
"""How many exchanges of partners are tried; our choice."""
_TWO_FIRST_TIMERS = 10**6


def in_least_time(
    instance: Instance, untimed: Allotted, partners: int, work: Work, seed: int
) -> Allotted:
    """Improve pairs that overrun: least overrun, then least price.

    Parameters
    ----------
    untimed : Allotted
        The cheapest pairs known, and a bound for the price of any pairs.
    partners : int
        The least price of first-timers who are partners, over every pairing.
    """
    everyone = Groups((tuple(range(len(instance.people))),), in_pairs=True)
    shortest = JointModel(instance, everyone, kit_factor=2).least_overrun(work, seed)
    if shortest.choice is None:
        return untimed
    least_s, bound, split = shortest.bound, untimed.bound, shortest
    if shortest.ended is Ended.OPTIMAL:
        loose = JointModel(instance, everyone, kit_factor=2)
        cheapest = loose.least_price(work, seed, overrun_at_most=least_s)
        bound = max(bound, cheapest.bound + partners)
        split = cheapest if cheapest.choice is not None else shortest
    if split.choice is None:
        return untimed
    first, second = split.groups.members
    groups = partners_of(instance, split.choice, first, second)
    best = _better(untimed, within(instance, groups, least_s, work, seed))
    if best.overrun_s > least_s:
        best = _better(best, allot(instance, groups, work, seed, best.rank))
    work.spend_round()
    draws = generator(seed, "pairs:partners")
    for _ in range(MOST_EXCHANGES):
        if best.rank <= (least_s, bound) or best.overrun_s > least_s or work.swaps_left <= 0:
            break
        work.swaps_left -= 1
        one, other = (int(g) for g in draws.choice(len(groups.members), size=2, replace=False))
        exchanged = _exchanged(best.groups, one, other)
        best = _better(best, within(instance, exchanged, least_s, work, seed))
        work.spend_round()
    proven = best.rank <= (least_s, bound)
    return Allotted(
        Ended.OPTIMAL if proven else Ended.LIMIT,
        best.groups,
        best.choice,
        best.overrun_s,
        best.price,
        best.price if proven else min(untimed.bound, best.price),
    )


def least_seconds(instance: Instance) -> int:
    """Give an overrun of the slot that no pairs can be below, s.

    In each window somebody is the slowest, and as many as work in the other half
    take at least as long as that many of the quickest.
    """
    rows = list(work_rows(instance))
    everyone = Groups((tuple(range(len(instance.people))),), in_pairs=True)
    total = fixed_seconds(instance, rows, everyone)
    for round_number, place, people in rows:
        last = instance.is_last(place, round_number)
        seconds = sorted(min(a.seconds_in(last) for a in instance.table[p][place]) for p in people)
        inside = len(instance.people) // 2 - (len(instance.people) - len(people))
        total += seconds[-1] + (seconds[inside - 1] if inside > 0 else 0)
    return max(0, total - instance.problem.spec.slot_s)


def partners_of(
    instance: Instance, choice: Choice, first: Sequence[int], second: Sequence[int]
) -> Groups:
    """Pair those who work first with those who work second: least kit, first-timers apart.

    One more who works first makes a group of three.
    """
    needs = np.array([[_need(instance, choice, (a, b)) for a in first] for b in second])
    rows, columns = linear_sum_assignment(needs)
    members: list[tuple[int, ...]] = [
        (first[int(a)], second[int(b)]) for b, a in zip(rows, columns, strict=True)
    ]
    left = [p for p in first if all(p not in group for group in members)]
    for p in left:
        at = min(range(len(members)), key=lambda g: (_need(instance, choice, (*members[g], p)), g))
        members[at] = (*members[at], p)
    return Groups(in_order(tuple(members)), in_pairs=True)


def _need(instance: Instance, choice: Choice, group: tuple[int, ...]) -> int:
    """Give the units that a group holds over all places, first-timers together ruled out."""
    units = _TWO_FIRST_TIMERS * (sum(instance.doses[p].is_first_timer for p in group) >= 2)
    for place in range(instance.positions):
        halves: list[dict[KitKey, int]] = []
        for half in (group[0::2], group[1::2]):
            mine: dict[KitKey, int] = {}
            for p in half:
                for key, n in chosen(instance, choice, p, place).main_kit:
                    mine[key] = mine.get(key, 0) + n
            halves.append(mine)
        keys = halves[0].keys() | halves[1].keys()
        units += sum(max(half.get(key, 0) for half in halves) for key in keys)
    return units


def _exchanged(groups: Groups, one: int, other: int) -> Groups:
    """Let the second of two groups change places: nobody changes their half."""
    members = [list(group) for group in groups.members]
    members[one][1], members[other][1] = members[other][1], members[one][1]
    return Groups(in_order(tuple(tuple(group) for group in members)), in_pairs=True)


def _better(best: Allotted, tried: Allotted) -> Allotted:
    return tried if tried.choice is not None and tried.rank < best.rank else best
