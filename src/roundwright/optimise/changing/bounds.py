"""What no answer can be below, known without any solver (C4)."""

from collections.abc import Sequence

from roundwright.optimise.changing.old_plan import changed_of, left_out_of
from roundwright.optimise.instance import Instance
from roundwright.plan.changing.change import Harm


def forced_harm(instances: Sequence[Instance], besides: int) -> Harm:
    """Give figures that no choice in any of these tables can be below, each on its own.

    Parameters
    ----------
    instances : sequence of Instance
        Tables of the same people and places.
    besides : int
        Points that no choice changes.
    """
    people, places = range(len(instances[0].people)), range(instances[0].places)
    left_out = cells = disturbed = 0
    price = besides
    for p in people:
        mine = 0
        for k in places:
            here = [a for instance in instances for a in instance.table[p][k]]
            if not here:
                continue
            left_out += min(left_out_of(a) for a in here)
            mine += min(changed_of(a) for a in here)
            price += min(a.price for a in here)
        cells += mine
        disturbed += mine > 0
    return Harm(left_out=left_out, overrun_s=0, people=disturbed, cells=cells, price=price)


def later_bound(one: Harm, other: Harm) -> Harm:
    """Give the stronger of two bounds that both hold."""
    return max(one, other, key=lambda h: h.order)


def earlier_bound(one: Harm, other: Harm) -> Harm:
    """Give what no answer of either kind can be below."""
    return min(one, other, key=lambda h: h.order)
