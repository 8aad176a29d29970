"""Sampled rosters: who of those booked comes, and how many come without booking."""

from collections.abc import Mapping
from dataclasses import dataclass

from roundwright.foundation.quantities import BP
from roundwright.foundation.seeds import generator
from roundwright.library.catalogue import Catalogue
from roundwright.plan.attendance.attendance_table import AttendanceTable
from roundwright.plan.changing.change import PersonCame, PersonLeft
from roundwright.plan.changing.restate import Restated, restate
from roundwright.plan.core import Core
from roundwright.plan.problem import Problem, ProblemPerson

WALK_IN = "walk_in_{}"
"""How the n-th walk-in is called before there is a row for them."""


@dataclass(frozen=True, slots=True)
class Roster:
    """Who comes: ids of people who booked, in order, and a number of walk-ins."""

    coming: tuple[str, ...]
    walk_ins: int

    @property
    def heads(self) -> int:
        """How many people that is."""
        return len(self.coming) + self.walk_ins


def sampled_roster(
    chances: Mapping[str, int | None],
    table: AttendanceTable,
    *,
    seed: int,
    purpose: str,
    index: int,
) -> Roster:
    """Draw who comes to one class.

    Parameters
    ----------
    chances : mapping
        Of everybody who booked and may take part: the usual chance of coming, 1/10,000;
        None where nothing is said.
    table : AttendanceTable
        What stands for None, and the mean number of walk-ins.
    seed, purpose, index
        Equal ones give an equal roster. Each index has draws of its own, so that the first
        rosters of many are those of few.

    Notes
    -----
    People come independently of one another, walk-ins as a Poisson number cut at
    `most_walk_ins`: our choice, no source. Friends who come together, and weather, are not in it.

    Examples
    --------
    >>> table = AttendanceTable(walk_ins_bp=0)
    >>> sure = {"p001": 10_000, "p002": 0}
    >>> sampled_roster(sure, table, seed=1, purpose="telling", index=0)
    Roster(coming=('p001',), walk_ins=0)
    """
    rng = generator(seed, f"attendance {purpose}", index)
    people = sorted(chances)
    drawn = rng.random(len(people))
    walk_ins = min(int(rng.poisson(table.walk_ins_bp / BP)), table.most_walk_ins)
    coming = []
    for person, luck in zip(people, drawn, strict=True):
        chance = chances[person]
        if luck * BP < (table.usual_coming_bp if chance is None else chance):
            coming.append(person)
    return Roster(tuple(coming), walk_ins)


def restated_for(
    problem: Problem, core: Core, roster: Roster, stranger: ProblemPerson, library: Catalogue
) -> Restated:
    """Give the problem of a plan with the people of a roster, all changes as one.

    Parameters
    ----------
    problem, core
        The plan, for everybody who booked.
    roster : Roster
        Who comes.
    stranger : ProblemPerson
        What planning may know of a walk-in.
    library : Catalogue
        Everything that may be put into the class.

    Returns
    -------
    Restated
        Whoever stays away or walks in is named by it.
    """
    away = [p for p in problem.taking_part if p not in roster.coming]
    changes: list[PersonLeft | PersonCame] = [PersonLeft(person=p) for p in away]
    changes += [PersonCame(person=p, known=stranger) for p in walk_ins_of(roster.walk_ins)]
    same = {k: k for k in range(1, problem.spec.positions + 1)}
    now = problem
    for change in changes:
        now = restate(now, core, change, library).problem
    if not changes:
        spec = {"format": core.class_.format, "rounds": core.class_.rounds}
        now = problem.model_copy(update={"spec": problem.spec.model_copy(update=spec)})
    return Restated(now, same, frozenset(change.person for change in changes))


def walk_ins_of(number: int) -> tuple[str, ...]:
    """Give the ids of a number of walk-ins."""
    return tuple(WALK_IN.format(n) for n in range(1, number + 1))
