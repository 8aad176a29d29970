"""Tier 2: one exercise is swapped for another, the least harm over all that may stand there (C4).

Each exercise is weighed by what it must cost at least; those that cannot beat the best known
are not searched. The rest are searched as tier 1 searches, the most promising first.
"""

from dataclasses import dataclass, replace
from itertools import combinations

from roundwright.goals.class_wish import Count
from roundwright.library.catalogue import Catalogue
from roundwright.optimise.changing.makers import Makers
from roundwright.optimise.changing.mended_groups import old_offsets
from roundwright.optimise.changing.old_plan import Marked, OldPlan, left_out_of
from roundwright.optimise.changing.one_free_place import candidates_for
from roundwright.optimise.changing.one_question import Best, least_of
from roundwright.optimise.changing.today import Today
from roundwright.optimise.choice_value import versions_price
from roundwright.optimise.class_price import class_price
from roundwright.optimise.instance import Signature, role_of
from roundwright.optimise.solver import Work
from roundwright.plan.changing.restate import Restated
from roundwright.plan.core import CellState, Core
from roundwright.plan.eased_in import eased_row, own_counts
from roundwright.plan.piece_table import PIECE_LINES
from roundwright.plan.problem import PlannedExercise, Problem

Order = tuple[int, int, int, int, int]
Elsewhere = tuple[int, dict[str, tuple[tuple[Count, ...] | None, int]]]
"""Points of versions in the room; by person the own counts they hang on, if any, and points."""
MOST_VERSIONS = 6
"""Up to so many versions every set of them is looked at for a bound; our choice."""
SAMPLE = 4
"""By how many people swaps are ordered before they are weighed; our choice."""


@dataclass(frozen=True, slots=True)
class Swap:
    """The best swap: the class with it, what was asked of it, and the answer."""

    restated: Restated
    best: Best
    is_proven: bool


def places_in_need(before: Core, restated: Restated, core: Core) -> tuple[int, ...]:
    """Give where the tool is to choose: the open place, else those that newly leave somebody out.

    Parameters
    ----------
    core : Core
        The best answer with the same exercises. Who has a lock at a place is in no need there.
    """
    if restated.open_position is not None:
        return (restated.open_position,)
    locked = {(k.person, k.position) for k in restated.problem.spec.keep}
    rested = {(c.person_id, c.position) for c in before.cells if c.state is CellState.SIT_OUT}
    return tuple(
        sorted(
            {
                c.position
                for c in core.cells
                if c.state is CellState.SIT_OUT
                and (c.person_id, c.position) not in locked
                and (c.person_id, restated.came_from.get(c.position)) not in rested
            }
        )
    )


class TierTwo:
    """The search of one swap.

    Parameters
    ----------
    library : Catalogue
        Everything that may be put into the class.
    """

    def __init__(
        self,
        before: Core,
        overrun_s: int,
        restated: Restated,
        library: Catalogue,
        makers: Makers,
        work: Work,
        seed: int,
    ) -> None:
        self._before = before
        self._overrun_s = overrun_s
        self._asked = restated
        self._library = library
        self._makers = makers
        self._work = work
        self._seed = seed
        self._offsets = sorted({0, *old_offsets(before)})
        self._elsewheres: dict[int, Elsewhere] = {}

    def run(self, positions: tuple[int, ...], left_out: int | None) -> Swap | None:
        """Give the swap of least harm, None where no swap may be made or none is better.

        Parameters
        ----------
        positions : tuple of int
            Places of which one may be given another exercise.
        left_out : int, optional
            How many people and places are left out without a swap: fewer are sought, for an
            exercise is not taken from everybody for less. None: the place is open.
        """
        best: Swap | None = None
        limit: Order | None = None if left_out is None else (left_out, 0, 0, 0, 0)
        proven = True
        for _, price, exercise in self._weighed(positions):
            if limit is not None and (0, 0, 0, 0, price) >= limit:
                continue
            swapped = self._with(exercise)
            if limit is not None and self._weigh(swapped, exercise.position, limit) >= limit:
                continue
            if self._work.groupings_left <= 0:
                proven = False
                break
            self._work.groupings_left -= 1
            self._work.spend_round()
            today = Today(OldPlan(self._before, swapped, self._overrun_s), self._makers)
            found = least_of(today, self._work, self._seed)
            proven = proven and found.is_proven
            if limit is None or found.harm.order < limit:
                best, limit = Swap(swapped, found, found.is_proven), found.harm.order
        return None if best is None else replace(best, is_proven=proven)

    def _weighed(self, positions: tuple[int, ...]) -> list[tuple[Order, int, PlannedExercise]]:
        """Give each exercise with a quick bound, the most promising for some people first."""
        made = []
        for position in positions:
            found = candidates_for(self._asked.problem, self._library, position, self._offsets)
            for exercise in found:
                swapped = self._with(exercise)
                price = class_price(swapped.problem) + self._elsewhere(swapped.problem, position)
                some = self._weigh(swapped, position, None, SAMPLE)
                made.append((some, price, exercise))
        return sorted(made, key=lambda one: (one[0], one[2].exercise_id))

    def _weigh(
        self, swapped: Restated, position: int, limit: Order | None, most: int | None = None
    ) -> Order:
        """Give a bound for a swap, person by person; it stops where the limit is reached."""
        today = Today(OldPlan(self._before, swapped, self._overrun_s), self._makers)
        left_out, price = 0, today.class_price + self._elsewhere(today.problem, position)
        offered: list[list[Marked]] = []
        for p in range(len(today.people))[:most]:
            offered.append(self._at(today, p, position - 1))
            left_out += min(left_out_of(a) for a in offered[-1])
            price += min(a.price for a in offered[-1])
            if limit is not None and (left_out, 0, 0, 0, price) >= limit:
                return (left_out, 0, 0, 0, price)
        cheapest = sum(min(a.price for a in options) for options in offered)
        return (left_out, 0, 0, 0, price - cheapest + _least_here(offered, today.problem))

    def _at(self, today: Today, person: int, at: int) -> list[Marked]:
        """Give what somebody may do at a place, whichever group they are in."""
        roles = {role_of(at, offset, today.positions) for offset in self._offsets}
        return [a for role in sorted(roles) for a in today.options(person, at, role)]

    def _elsewhere(self, swapped: Problem, position: int) -> int:
        """Give a bound for the points of all other places while nobody is disturbed there.

        Somebody who is eased in counts only where the swap leaves their own counts alone.
        """
        if position not in self._elsewheres:
            self._elsewheres[position] = self._read_elsewhere(position)
        shared, own = self._elsewheres[position]
        return shared + sum(
            points
            for person_id, (counts, points) in own.items()
            if counts is None or counts == _without(own_counts(swapped, person_id), position)
        )

    def _read_elsewhere(self, position: int) -> Elsewhere:
        today = Today(OldPlan(self._before, self._asked, self._overrun_s), self._makers)
        problem, shown = today.problem, dict[int, set[Signature]]()
        costs, rules = problem.costs, problem.rules
        own: dict[str, tuple[tuple[Count, ...] | None, int]] = {}
        for p, person_id in enumerate(today.people):
            eased = eased_row(problem.people[person_id], rules) is not None
            masses: set[int] = set()
            points = 0
            for at in range(today.positions + 1):
                if at == position - 1:
                    continue
                options = self._at(today, p, at)
                if today.old.counts(person_id):
                    options = [a for a in options if not a.changed] or options
                points += min(a.price for a in options)
                if len(options) == 1 and at < today.positions:
                    masses.add(options[0].mass_g)
                    if not eased:
                        shown.setdefault(at, set()).update(options[0].signatures)
            points += costs.third_mass * max(0, len(masses - {0}) - 2)
            counts = _without(own_counts(problem, person_id), position) if eased else None
            own[person_id] = (counts, points)
        shared = sum(versions_price(seen, costs, rules.most_versions) for seen in shown.values())
        return shared, own

    def _with(self, exercise: PlannedExercise) -> Restated:
        asked, position = self._asked, exercise.position
        return replace(
            asked,
            problem=self._problem_with(exercise),
            came_from={new: old for new, old in asked.came_from.items() if new != position},
            positions=asked.positions | {position},
            open_position=None,
        )

    def _problem_with(self, exercise: PlannedExercise) -> Problem:
        problem = self._asked.problem
        spec = problem.spec
        exercises = tuple(
            exercise if e.position == exercise.position else e for e in spec.exercises
        )
        keep = tuple(k for k in spec.keep if k.position != exercise.position)
        now = spec.model_copy(update={"exercises": exercises, "keep": keep})
        used = {e.exercise_id for e in exercises} | set(problem.substitutes)
        used |= {k.instead for k in keep if k.instead is not None}
        used |= {
            r.exercise_id
            for r in problem.recent.exercises
            if problem.library.has_exercise(r.exercise_id)
        }
        used |= self._library.lines.keys() & set(PIECE_LINES)
        if spec.burst is not None:
            used.add(spec.burst.line)
        return problem.model_copy(
            update={"spec": now, "library": self._library.only(frozenset(used))}
        )


def _without(counts: tuple[Count, ...], position: int) -> tuple[Count, ...]:
    return counts[: position - 1] + counts[position:]


def _least_here(offered: list[list[Marked]], problem: Problem) -> int:
    """Give the least points at one place with its versions in the room, as if kit were plenty."""
    signatures = sorted({s for options in offered for a in options for s in a.signatures})
    if len(signatures) > MOST_VERSIONS:
        return sum(min(a.price for a in options) for options in offered)
    best: int | None = None
    for number in range(len(signatures) + 1):
        for shown in map(frozenset, combinations(signatures, number)):
            mine = [[a.price for a in options if a.signatures <= shown] for options in offered]
            if all(mine):
                price = sum(map(min, mine))
                price += versions_price(shown, problem.costs, problem.rules.most_versions)
                best = price if best is None else min(best, price)
    return best or 0
