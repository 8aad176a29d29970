"""How far the library reaches: of which main patterns each kind of person has a version.

Prints one row a limitation (somebody at their first class, versions of level 1
only), then 200 generated people with random age, level, screen and limitations.
Kit and load are left aside: it is about what a person may do at all.
Run: python -m tools.library_reach
"""

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from functools import cache
from statistics import median

import numpy as np

from roundwright.bootstrap.wiring import wired
from roundwright.demo.tern_quay import DEMO_CLASS, demo_hall_folder
from roundwright.foundation.seeds import DEFAULT_SEED, generator
from roundwright.hall.hall import Hall
from roundwright.library.vocabulary import Pattern
from roundwright.people.limitation import WITH_WEEKS, Amount, Concern, Limitation, LimitedSide
from roundwright.people.person import Clearance, Person
from roundwright.plan.allowed import may_do
from roundwright.plan.build_problem import build_problem, problem_person
from roundwright.plan.problem import Problem, ProblemPerson
from roundwright.plan.rule_table import RuleTable

ON = date(2026, 3, 3)
PEOPLE = 200
MOST_LIMITATIONS = 3
ONE_LIMB = (Concern.ONE_ARM, Concern.ONE_LEG)

MAIN: Mapping[str, tuple[Pattern, ...]] = {
    "squat": (Pattern.SQUAT,),
    "hinge": (Pattern.HINGE,),
    "lunge or step": (Pattern.LUNGE, Pattern.STEP),
    "push forward": (Pattern.HORIZONTAL_PUSH,),
    "push up": (Pattern.VERTICAL_PUSH,),
    "pull back": (Pattern.HORIZONTAL_PULL,),
    "pull down": (Pattern.VERTICAL_PULL,),
    "trunk": (
        Pattern.TRUNK_ANTI_EXTENSION,
        Pattern.TRUNK_ANTI_ROTATION,
        Pattern.TRUNK_ROTATION,
        Pattern.TRUNK_FLEXION,
        Pattern.TRUNK_EXTENSION,
    ),
    "burst": (Pattern.CARDIO,),
}
"""The main patterns of a class, and the patterns that count for each."""

Left = dict[str, tuple[str, ...]]
"""Versions left, by main pattern."""


@dataclass(frozen=True, slots=True)
class Someone:
    """A generated person with the limitations they are given."""

    person: Person
    limitations: tuple[Limitation, ...]


@cache
def _hall() -> Hall:
    return wired().hall(demo_hall_folder())


@cache
def _problem(highest_level_step: int) -> Problem:
    """Give a problem that holds the whole library and nobody yet."""
    hall, rules = _hall(), RuleTable(highest_level_step=highest_level_step)
    problem = build_problem(hall, DEMO_CLASS, ON, rules=rules)
    spec = problem.spec.model_copy(update={"ban": ()})
    return problem.model_copy(update={"library": hall.catalogue, "people": {}, "spec": spec})


def versions_left(someone: Someone, highest_level_step: int = 1) -> Left:
    """Give the versions that somebody may do, by main pattern, load and kit left aside.

    Parameters
    ----------
    someone : Someone
        The person with limitations.
    highest_level_step : int
        How many levels above the person's own count.
    """
    problem = _problem(highest_level_step)
    hall = _hall().model_copy(update={"limitations": someone.limitations})
    known: ProblemPerson = problem_person(hall, someone.person, ON, problem.rules)
    person_id = someone.person.person_id
    asked = problem.model_copy(update={"people": {person_id: known}})
    allowed = {
        movement.slug: movement.pattern
        for line_id in problem.library.lines
        for movement in problem.library.versions(line_id)
        if may_do(asked, person_id, line_id, movement)
    }
    return {
        name: tuple(sorted(slug for slug, pattern in allowed.items() if pattern in patterns))
        for name, patterns in MAIN.items()
    }


def with_one(concern: Concern, amount: Amount, weeks: int | None = None) -> Someone:
    """Give somebody cleared at their first class with one limitation, on the left if of a limb."""
    year = {Concern.UNDER_16: 2014, Concern.AGE_65_UP: 1955}.get(concern, 1988)
    one_limb = concern in ONE_LIMB
    row = Limitation(
        person_id="p001",
        concern=concern,
        side=LimitedSide.LEFT if one_limb else LimitedSide.NONE,
        amount=amount,
        from_on=ON,
        weeks=weeks,
    )
    person = Person(
        person_id="p001",
        shown_name="One",
        birth_year=year,
        level=1,
        classes_done=0,
        clearance=Clearance.CLEARED,
    )
    return Someone(person, (row,))


def generated(index: int, seed: int = DEFAULT_SEED) -> Someone:
    """Draw one person: 12 to 88 years, any level and screen, none to three limitations."""
    draw = generator(seed, "library_reach", index)
    person_id = f"p{index:03}"
    birth_year = ON.year - int(draw.integers(12, 89))
    screens = (Clearance.CLEARED, Clearance.MODERATE_ONLY, Clearance.UNKNOWN)
    person = Person(
        person_id=person_id,
        shown_name=person_id,
        birth_year=birth_year,
        level=int(draw.integers(1, 6)),
        classes_done=int(draw.integers(0, 60)),
        clearance=screens[int(draw.choice(3, p=(0.7, 0.15, 0.15)))],
    )
    free = [c for c in Concern if c not in (Concern.UNDER_16, Concern.AGE_65_UP)]
    count = int(draw.integers(0, MOST_LIMITATIONS + 1))
    chosen = [free[int(k)] for k in draw.choice(len(free), size=count, replace=False)]
    return Someone(person, tuple(_drawn(draw, person_id, concern) for concern in chosen))


def _drawn(draw: np.random.Generator, person_id: str, concern: Concern) -> Limitation:
    weeks = int(draw.integers(1, 41)) if concern in WITH_WEEKS else None
    one_side = (LimitedSide.LEFT, LimitedSide.RIGHT)
    sides = one_side if concern in ONE_LIMB else tuple(LimitedSide)
    return Limitation(
        person_id=person_id,
        concern=concern,
        amount=tuple(Amount)[int(draw.integers(2))],
        side=sides[int(draw.integers(len(sides)))],
        from_on=ON,
        weeks=weeks,
    )


def _row(name: str, cells: Sequence[object]) -> str:
    return f"{name:<28}" + "".join(f"{cell!s:>14}" for cell in cells)


def table_of_limits() -> list[str]:
    """Give one line a limitation: how many versions of level 1 are left in each pattern."""
    lines = [_row("one limitation, level 1", tuple(MAIN))]
    for concern in Concern:
        for amount in Amount:
            left = versions_left(with_one(concern, amount), 0)
            counts = [len(left[name]) or "none" for name in MAIN]
            lines.append(_row(f"{concern.value} {amount.value}", counts))
    return lines


def table_of_people(people: Sequence[Someone]) -> list[str]:
    """Give the spread of versions left over people, and who is left without."""
    lefts = [versions_left(someone) for someone in people]
    counts = {name: sorted(len(left[name]) for left in lefts) for name in MAIN}
    lines = [_row(f"{len(people)} people", tuple(MAIN))]
    lines.append(_row("least", [found[0] for found in counts.values()]))
    lines.append(_row("median", [int(median(found)) for found in counts.values()]))
    lines.append(_row("most", [found[-1] for found in counts.values()]))
    for rows in range(MOST_LIMITATIONS + 1):
        of_them = [
            left
            for someone, left in zip(people, lefts, strict=True)
            if len(someone.limitations) == rows
        ]
        without = Counter(name for left in of_them for name in MAIN if not left[name])
        name = f"without any, {rows} limits of {len(of_them)}"
        lines.append(_row(name, [without[pattern] for pattern in MAIN]))
    return lines


def main() -> None:
    """Print both tables."""
    people = [generated(index) for index in range(PEOPLE)]
    print("\n".join([*table_of_limits(), "", *table_of_people(people)]))  # noqa: T201


if __name__ == "__main__":
    main()
