"""Ways to put people into pairs: all of them for few people, good ones for many."""

from collections.abc import Iterator, Sequence

from roundwright.optimise.choice_value import Groups
from roundwright.optimise.instance import Instance

Members = tuple[tuple[int, ...], ...]


def all_groupings(people: Sequence[int]) -> Iterator[Members]:
    """Give every way to make pairs, with one group of three where the number is odd.

    The middle place of a three works alone, so each of the three may take it.
    Which of a pair works first is left to the allotment.
    """
    if len(people) == 1:
        yield (tuple(people),)
        return
    if len(people) % 2 == 0:
        yield from _matchings(tuple(people))
        return
    for i, a in enumerate(people):
        for j, b in enumerate(people[i + 1 :], start=i + 1):
            for c in people[j + 1 :]:
                rest = tuple(p for p in people if p not in (a, b, c))
                for matching in _matchings(rest):
                    for three in ((a, b, c), (b, a, c), (a, c, b)):
                        yield in_order((*matching, three))


def _matchings(people: tuple[int, ...]) -> Iterator[Members]:
    if not people:
        yield ()
        return
    first, rest = people[0], people[1:]
    for k, other in enumerate(rest):
        for matching in _matchings(rest[:k] + rest[k + 1 :]):
            yield ((first, other), *matching)


def in_order(members: Members) -> Members:
    """Order groups by their smallest person."""
    return tuple(sorted(members, key=min))


def by_load(instance: Instance) -> Groups:
    """Pair people by the loads they would like best, first-timers apart where possible."""
    ranked = sorted(range(len(instance.people)), key=lambda p: (_load_g(instance, p), p))
    firsts = [p for p in ranked if instance.doses[p].is_first_timer]
    others = [p for p in ranked if not instance.doses[p].is_first_timer]
    members: list[tuple[int, ...]] = []
    while firsts and others and len(firsts) + len(others) > 3:
        first = firsts.pop(0)
        near = min(others, key=lambda p: (abs(_load_g(instance, p) - _load_g(instance, first)), p))
        others.remove(near)
        members.append((first, near) if first < near else (near, first))
    rest = sorted(firsts + others, key=lambda p: (_load_g(instance, p), p))
    while len(rest) > 3 or len(rest) == 2:
        a, b = sorted(rest[:2])
        members.append((a, b))
        rest = rest[2:]
    if rest:
        members.append(tuple(rest))
    return Groups(in_order(tuple(members)), in_pairs=True)


def _load_g(instance: Instance, person: int) -> int:
    """Give the sum of the masses a person would take if there were enough of all."""
    return sum(
        min(options, key=lambda a: a.price).mass_g
        for options in instance.table[person][: instance.positions]
        if options
    )


def with_swapped(groups: Groups, one: int, other: int) -> Groups:
    """Give the grouping in which two people have changed places."""
    swap = {one: other, other: one}
    members = tuple(tuple(swap.get(p, p) for p in group) for group in groups.members)
    ordered = tuple(tuple(sorted(g)) if len(g) == 2 else g for g in members)
    return Groups(in_order(ordered), in_pairs=True)


def fewest_first_timer_groups(instance: Instance) -> int:
    """Give the least number of groups with two or more first-timers, over all groupings."""
    people = len(instance.people)
    groups = max(1, people // 2)
    firsts = sum(dose.is_first_timer for dose in instance.doses)
    extra = firsts - groups
    if people < 2 or extra <= 0:
        return 0
    has_three = people % 2 == 1
    return extra - 1 if has_three and extra >= 2 else extra
