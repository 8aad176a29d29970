"""Groups after somebody came or left: as they were, with as few people moved as can be (C4)."""

from collections.abc import Sequence
from itertools import combinations, permutations

from roundwright.goals.class_wish import ClassFormat
from roundwright.optimise.choice_value import Groups, together
from roundwright.plan.core import Core, WindowKind

Members = list[list[int]]
FEWEST_GROUPS = 2
"""Staggered work has at least so many groups (P4)."""


def can_be_held(form: ClassFormat, people: int, positions: int) -> bool:
    """Say whether a format is possible at all for so many people and positions."""
    return form is not ClassFormat.STAGGERED or min(people, positions) >= FEWEST_GROUPS


def mended_groups(
    before: Core, people: Sequence[str], positions: int, form: ClassFormat
) -> list[Groups]:
    """Give the groupings that come nearest to the old one; the old one where it still stands.

    Parameters
    ----------
    before : Core
        The plan as it was.
    people : sequence of str
        Who takes part now; groups name them by index.
    positions : int
        Of a round.
    form : ClassFormat
        What the class is held in now, which is possible with so many.
    """
    index = {person: k for k, person in enumerate(people)}
    old = [[index[p] for p in group if p in index] for group in before.class_.groups]
    new = [k for k in range(len(people)) if not any(k in group for group in old)]
    if form is ClassFormat.PAIRS:
        sizes = [len(group) for group in before.class_.groups]
        shrunk = [g for g, size in zip(old, sizes, strict=True) if (len(g), size) == (2, 3)]
        return [
            Groups(tuple(sorted((tuple(g) for g in members), key=min)), in_pairs=True)
            for members in _pairs(old, new, shrunk)
        ]
    if form in (ClassFormat.STATIONS, ClassFormat.STAGGERED):
        offsets = old_offsets(before)
        ways = _rotating(form, old, new, offsets, positions)
        return [
            Groups(tuple(tuple(sorted(g)) for g in members), False, starts, form)
            for members, starts in ways
        ]
    return [together(len(people))]


def old_offsets(before: Core) -> tuple[int, ...]:
    """Give how many positions each group was ahead of the first."""
    groups, places = len(before.class_.groups), before.class_.positions
    for window in before.timeline:
        if window.kind is WindowKind.WORK and len(window.positions) == groups:
            return tuple((p - window.positions[0]) % places for p in window.positions)
    return tuple(range(groups))


def _pairs(old: Members, new: list[int], shrunk: Members) -> list[Members]:
    """Pair whoever is alone; of a three that became a pair, either may work first."""
    whole = [group for group in old if len(group) > 1]
    single = [group[0] for group in old if len(group) == 1] + new
    if len(single) > 1:
        both = [[*whole, list(pair)] for pair in permutations(single[:2])]
        return [found for members in both for found in _pairs(members, single[2:], shrunk)]
    if single:
        return _with_one(whole, single[0])
    turned = [[g[::-1] if g is group else g for g in whole] for group in shrunk]
    return [whole, *turned]


def _with_one(whole: Members, one: int) -> list[Members]:
    """Put one person into the pairs: with one of a three, or as the third of a pair."""
    if not whole:
        return [[[one]]]
    made: list[Members] = []
    threes = [group for group in whole if len(group) == 3]
    for group in threes or whole:
        others = [g for g in whole if g is not group]
        if threes:
            for left in combinations(group, 2):
                partner = next(p for p in group if p not in left)
                made += [
                    [*others, list(pair), [one, partner][::way]]
                    for pair in permutations(left)
                    for way in (1, -1)
                ]
        else:
            a, b = group
            made += [[*others, three] for three in ([a, one, b], [a, b, one], [b, a, one])]
    return made


def _rotating(
    form: ClassFormat, old: Members, new: list[int], offsets: tuple[int, ...], positions: int
) -> list[tuple[Members, tuple[int, ...]]]:
    people = sum(map(len, old)) + len(new)
    if form is ClassFormat.STATIONS:
        wanted = min(people, positions)
        made = _refilled(old, new, wanted)
        return [(members, tuple(range(wanted))) for members in made]
    wanted = min(len(old), people, positions)
    kept = [k for k, group in enumerate(old) if group or new][:wanted]
    kept = kept if len(kept) == wanted else list(range(wanted))
    first = offsets[kept[0]]
    starts = tuple((offsets[k] - first) % positions for k in kept)
    spare = [p for k, group in enumerate(old) if k not in kept for p in group]
    return [(m, starts) for m in _refilled([old[k] for k in kept], [*spare, *new], wanted)]


def _refilled(old: Members, new: list[int], wanted: int) -> list[Members]:
    """Bring groups to the wanted number and to even sizes, one move at a time."""
    groups = [list(group) for group in old]
    waiting = list(new)
    while len(groups) > wanted:
        waiting += groups.pop()
    groups += [[] for _ in range(wanted - len(groups))]
    made = [groups]
    for person in waiting:
        made = [
            [[*g, person] if k == at else g for k, g in enumerate(members)]
            for members in made
            for at in _smallest(members)
        ]
    return [even for members in made for even in _evened(members)]


def _smallest(members: Members) -> list[int]:
    least = min(map(len, members))
    return [k for k, group in enumerate(members) if len(group) == least]


def _evened(members: Members) -> list[Members]:
    sizes = [len(group) for group in members]
    if max(sizes) - min(sizes) <= 1:
        return [members]
    to = sizes.index(min(sizes))
    return [
        moved
        for k, group in enumerate(members)
        if len(group) == max(sizes)
        for person in group
        for moved in _evened(
            [
                [p for p in g if p != person] if j == k else [*g, person] if j == to else g
                for j, g in enumerate(members)
            ]
        )
    ]
