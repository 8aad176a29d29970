"""The best way to work in pairs: who with whom, and who takes what.

Up to seven people every grouping is looked at; for more, pairing by load is
improved by swaps within the counted work. A relaxation that any grouping obeys
(all together, twice the kit) gives the bound.
"""

from dataclasses import replace

from roundwright.foundation.seeds import generator
from roundwright.optimise.allotment import Allotted, allot, cheapest
from roundwright.optimise.choice_value import Groups, first_timers_price
from roundwright.optimise.groupings import (
    all_groupings,
    by_load,
    fewest_first_timer_groups,
    with_swapped,
)
from roundwright.optimise.hasty_pairs import in_least_time, least_seconds
from roundwright.optimise.instance import Instance
from roundwright.optimise.joint_model import JointModel
from roundwright.optimise.solver import Ended, Work

MOST_ENUMERATED = 7
"""Up to so many people all groupings are looked at."""


def allot_in_pairs(
    instance: Instance, work: Work, seed: int, to_beat: tuple[int, int] | None = None
) -> Allotted:
    """Find the best grouping and choice; proven only against a bound for every grouping.

    Parameters
    ----------
    to_beat : (int, int), optional
        Overrun and price of a plan that is known. Where no pairs can beat it, the
        answer may be only a bound.
    """
    people = range(len(instance.people))
    nobody = Groups((tuple(people),), in_pairs=True)
    if any(not options for row in instance.table for options in row):
        return Allotted(Ended.INFEASIBLE, nobody)
    partners = instance.problem.costs.first_timer_pair * fewest_first_timer_groups(instance)
    bound, least_s = instance.least_price() + partners, least_seconds(instance)
    if to_beat is not None and (least_s, bound) >= to_beat:
        return Allotted(Ended.LIMIT, nobody, bound=bound, least_s=least_s)
    relaxed = JointModel(instance, nobody, kit_factor=2).least_price(work, seed)
    if relaxed.ended is Ended.INFEASIBLE:
        return Allotted(Ended.INFEASIBLE, nobody)
    bound = max(relaxed.bound + partners, bound)
    if to_beat is not None and (least_s, bound) >= to_beat:
        return Allotted(Ended.LIMIT, nobody, bound=bound, least_s=least_s)
    if len(people) <= MOST_ENUMERATED:
        return _over_all(instance, bound, work, seed)
    return _by_swaps(instance, bound, partners, work, seed)


def _over_all(instance: Instance, bound: int, work: Work, seed: int) -> Allotted:
    best: Allotted | None = None
    proven = True
    nobody = Groups((tuple(range(len(instance.people))),), in_pairs=True)
    partners = fewest_first_timer_groups(instance) * instance.problem.costs.first_timer_pair
    for members in all_groupings(range(len(instance.people))):
        groups = Groups(members, in_pairs=True)
        at_least = bound - partners + first_timers_price(instance, groups)
        if best is not None and best.rank <= (0, at_least):
            continue
        if work.groupings_left <= 0:
            proven = False
            break
        work.groupings_left -= 1
        tried = allot(instance, groups, work, seed, best.rank if best is not None else None)
        work.spend_round()
        proven = proven and tried.is_proven
        if tried.choice is not None and (best is None or tried.rank < best.rank):
            best = tried
            if best.rank <= (0, bound):
                return _marked(best, Ended.OPTIMAL, best.price)
    if best is None:
        return Allotted(Ended.INFEASIBLE if proven else Ended.LIMIT, nobody, bound=bound)
    return _marked(best, Ended.OPTIMAL if proven else Ended.LIMIT, best.price if proven else bound)


def _by_swaps(instance: Instance, bound: int, partners: int, work: Work, seed: int) -> Allotted:
    best = cheapest(instance, by_load(instance), work, seed)
    work.spend_round()
    if best.choice is not None and best.overrun_s > 0:
        return in_least_time(instance, replace(best, bound=bound), partners, work, seed)
    draws = generator(seed, "pairs:swaps")
    people = len(instance.people)
    while work.swaps_left > 0 and not _reaches(best, (0, bound)):
        one, other = (int(p) for p in draws.choice(people, size=2, replace=False))
        work.swaps_left -= 1
        if any(one in group and other in group for group in best.groups.members):
            continue
        to_beat = None if best.choice is None else best.rank
        tried = allot(instance, with_swapped(best.groups, one, other), work, seed, to_beat)
        work.spend_round()
        if best.choice is None or (tried.choice is not None and tried.rank < best.rank):
            best = tried
    if best.choice is None:
        return Allotted(Ended.LIMIT, best.groups, bound=bound)
    proven = _reaches(best, (0, bound))
    return _marked(best, Ended.OPTIMAL if proven else Ended.LIMIT, min(bound, best.price))


def _reaches(best: Allotted, bound: tuple[int, int]) -> bool:
    """Say whether nothing can be better: least overrun and least price at once."""
    return best.choice is not None and best.rank <= bound


def _marked(best: Allotted, ended: Ended, bound: int) -> Allotted:
    return Allotted(ended, best.groups, best.choice, best.overrun_s, best.price, bound)
