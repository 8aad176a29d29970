"""Who stands where, interval by interval, in each of the four formats (F9, P4)."""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import permutations, product

from roundwright.goals.class_wish import ClassFormat
from roundwright.plan.problem import Problem
from tests.brute_force.oracle_search import Group, groupings, half_of


@dataclass(frozen=True)
class Arrangement:
    """Groups of people, the offset of each group, and in pairs the half of each person."""

    format: ClassFormat
    groups: tuple[Group, ...]
    offsets: tuple[int, ...]

    @property
    def offset_of(self) -> dict[str, int]:
        """Each person's offset."""
        return {p: o for group, o in zip(self.groups, self.offsets, strict=True) for p in group}

    @property
    def half_of(self) -> dict[str, int]:
        """Each person's half of the window; outside pairs everyone works in the first."""
        if self.format is not ClassFormat.PAIRS:
            return {p: 0 for group in self.groups for p in group}
        return {p: half_of(group, p) for group in self.groups for p in group}


def even_groups(people: tuple[str, ...], number: int) -> Iterator[tuple[Group, ...]]:
    """Every way to part people in numbered groups whose sizes differ by at most one."""
    for numbers in product(range(number), repeat=len(people)):
        sizes = [numbers.count(g) for g in range(number)]
        if min(sizes) and max(sizes) - min(sizes) <= 1:
            yield tuple(
                tuple(p for p, n in zip(people, numbers, strict=True) if n == g)
                for g in range(number)
            )


def arrangements(problem: Problem, form: ClassFormat) -> Iterator[Arrangement]:
    """Every arrangement of the people who take part."""
    people, places = problem.taking_part, problem.spec.positions
    if form is ClassFormat.TOGETHER:
        yield Arrangement(form, tuple((p,) for p in people), (0,) * len(people))
    elif form is ClassFormat.PAIRS:
        for pairs in groupings(people):
            yield Arrangement(form, pairs, (0,) * len(pairs))
    elif form is ClassFormat.STATIONS:
        number = min(places, len(people))
        if problem.spec.groups not in (None, number):
            return
        for groups in even_groups(people, number):
            yield Arrangement(form, groups, tuple(range(number)))
    else:
        for number in (2, 3) if problem.spec.groups is None else (problem.spec.groups,):
            if number > min(places, len(people)):
                continue
            for groups in even_groups(people, number):
                for others in permutations(range(1, places), number - 1):
                    yield Arrangement(form, groups, (0, *others))
