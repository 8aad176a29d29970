"""Where each person's next kit is when a change begins: in hand, at their place, or at the rack.

Kit stays where it was last used until somebody needs it and the rack has none left.
How long reaching for it takes is left to `changes`.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from enum import IntEnum

Key = int | str
"""One kind of kit: a dumbbell's mass in g, or an item's id."""
Units = Mapping[Key, int]


class Reach(IntEnum):
    """How far somebody reaches for their next kit, the nearest first."""

    IN_HAND = 0
    AT_THEIR_PLACE = 1
    RACK = 2


@dataclass(frozen=True, slots=True)
class KitUse:
    """What is used in one window: by person, and who of a place works in the second half."""

    by_person: Mapping[int, Units]
    second_half: frozenset[int] = frozenset()


def reaches(
    uses: Sequence[KitUse], places: Sequence[Sequence[int]], counts: Units
) -> tuple[dict[int, Reach], ...]:
    """Follow the kit through a class.

    Parameters
    ----------
    uses : sequence of KitUse
        Windows with work or a burst, in order.
    places : sequence of sequences of int
        People who keep their kit together: one each, or a pair.
    counts : mapping of Key to int
        Units that the hall has in use.

    Returns
    -------
    tuple of dict
        For each window, how far each person who works in it reaches for their kit
        before it; for the first window everything is in hand, as it was set out.

    Notes
    -----
    A place holds the larger of its two halves of each kind. Before the class kit is set out:
    window by window and place by place, what a place lacks as long as the rack has it.
    Before a window each place, in the order given, takes what it lacks: first free units
    of the rack, then units that lie unused at other places, in the order given. Within a
    place its people are served in order; whom the units that lie there are too few for
    leaves them to the next and walks to the rack.

    Examples
    --------
    Two people, one pair of 8 kg: whoever did not have it last goes for it.

    >>> eight, none = {8000: 2}, {}
    >>> turns = [KitUse({0: eight}), KitUse({1: eight}), KitUse({0: eight})]
    >>> [{p: r.name for p, r in w.items()} for w in reaches(turns, [[0], [1]], {8000: 2})]
    [{0: 'IN_HAND'}, {1: 'RACK'}, {0: 'RACK'}]
    """
    lying: list[dict[Key, int]] = [{} for _ in places]
    free = dict(counts)
    found: list[dict[int, Reach]] = []
    before: list[dict[Key, int]] = [{} for _ in places]
    all_needed = [[_needed(use, place) for place in places] for use in uses]
    for needed in all_needed:
        _set_out(needed, lying, free)
    for number, (use, needed) in enumerate(zip(uses, all_needed, strict=True)):
        reach: dict[int, Reach] = {}
        for place, held, there in zip(places, before, lying, strict=True):
            reach |= _reach(use, place, held, there)
        found.append(dict.fromkeys(reach, Reach.IN_HAND) if number == 0 else reach)
        _take(needed, lying, free)
        before = needed
    return tuple(found)


def _needed(use: KitUse, place: Sequence[int]) -> dict[Key, int]:
    most: dict[Key, int] = {}
    for second in (False, True):
        half: dict[Key, int] = {}
        for person in place:
            if (person in use.second_half) is second:
                for key, units in use.by_person.get(person, {}).items():
                    half[key] = half.get(key, 0) + units
        for key, units in half.items():
            most[key] = max(most.get(key, 0), units)
    return most


def _reach(use: KitUse, place: Sequence[int], held: Units, there: Units) -> dict[int, Reach]:
    """Serve the people of one place, each half for itself, from what lies there."""
    reach: dict[int, Reach] = {}
    for second in (False, True):
        hand, rest = dict(held), dict(there)
        for person in place:
            if person not in use.by_person or (person in use.second_half) is not second:
                continue
            farthest = Reach.IN_HAND
            for key, units in use.by_person[person].items():
                if rest.get(key, 0) < units:
                    farthest = Reach.RACK
                    continue
                rest[key] -= units
                in_hand = min(units, hand.get(key, 0))
                if in_hand:
                    hand[key] -= in_hand
                if in_hand < units:
                    farthest = max(farthest, Reach.AT_THEIR_PLACE)
            reach[person] = farthest
    return reach


def _set_out(
    needed: Sequence[Units], lying: Sequence[dict[Key, int]], free: dict[Key, int]
) -> None:
    """Lay at each place what it lacks for one window, as long as the rack has it."""
    for there, need in zip(lying, needed, strict=True):
        for key, units in need.items():
            got = min(max(0, units - there.get(key, 0)), free.get(key, 0))
            free[key] = free.get(key, 0) - got
            there[key] = there.get(key, 0) + got


def _take(needed: Sequence[Units], lying: Sequence[dict[Key, int]], free: dict[Key, int]) -> None:
    """Bring to each place what it lacks; what nobody has to spare is left lacking."""
    for mine, need in enumerate(needed):
        for key, units in need.items():
            lacking = units - lying[mine].get(key, 0)
            if lacking <= 0:
                continue
            got = min(lacking, free.get(key, 0))
            free[key] = free.get(key, 0) - got
            for other, there in enumerate(lying):
                spare = there.get(key, 0) - needed[other].get(key, 0)
                if other != mine and spare > 0 and got < lacking:
                    taken = min(spare, lacking - got)
                    there[key] -= taken
                    got += taken
            lying[mine][key] = lying[mine].get(key, 0) + got
