"""What a class costs at least with some exercises swapped, before it is searched (C4)."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from itertools import combinations

from roundwright.goals.class_wish import Count
from roundwright.library.catalogue import Catalogue
from roundwright.optimise.changing.free_places import Pick
from roundwright.optimise.changing.makers import Makers
from roundwright.optimise.changing.old_plan import Marked, OldPlan, left_out_of
from roundwright.optimise.changing.today import Today
from roundwright.optimise.choice_value import versions_price
from roundwright.optimise.instance import Signature, role_of
from roundwright.plan.changing.restate import Restated
from roundwright.plan.core import Core
from roundwright.plan.eased_in import eased_row, own_counts
from roundwright.plan.piece_table import PIECE_LINES
from roundwright.plan.problem import Problem

MOST_VERSIONS = 6
"""Up to so many versions every set of them is looked at for a bound; our choice."""
SAMPLE = 4
"""By how many people picks are ordered before they are weighed; our choice."""

Places = frozenset[int]


@dataclass(frozen=True, slots=True)
class Elsewhere:
    """What the places that stay cost at least while nobody is disturbed there.

    `shared` are points of versions in the room; `own` by person the counts they hang on, if
    any, and points; `left_out` people and places that have nothing to do whatever is chosen.
    """

    shared: int
    own: dict[str, tuple[tuple[Count, ...] | None, int]]
    left_out: int


class SwapBounds:
    """Weighs picks of exercises for one change.

    Parameters
    ----------
    offsets : sequence of int
        How many positions groups are ahead of the first; first 0.
    """

    def __init__(
        self,
        before: Core,
        overrun_s: int,
        asked: Restated,
        library: Catalogue,
        makers: Makers,
        offsets: Sequence[int],
    ) -> None:
        self._before = before
        self._overrun_s = overrun_s
        self._asked = asked
        self._library = library
        self._makers = makers
        self._offsets = tuple(offsets)
        self._elsewheres: dict[Places, Elsewhere] = {}
        self._unswapped = self.question(asked)
        self._eased = [
            eased_row(asked.problem.people[p], asked.problem.rules) is not None
            for p in self._unswapped.people
        ]

    def question(self, restated: Restated) -> Today:
        """Give the question of a class as it is restated."""
        return Today(OldPlan(self._before, restated, self._overrun_s), self._makers)

    def with_pick(self, pick: Pick) -> Restated:
        """Give what is asked with other exercises at some places."""
        asked, places = self._asked, {e.position for e in pick}
        return replace(
            asked,
            problem=self._problem_with(pick),
            came_from={new: old for new, old in asked.came_from.items() if new not in places},
            positions=asked.positions | places,
            open_positions=(),
        )

    def left_elsewhere(self, places: Places) -> int:
        """Give how many are left out at the other places whatever is chosen."""
        return self._elsewhere(places).left_out

    def price_elsewhere(self, swapped: Problem, places: Places) -> int:
        """Give a bound for the points of all other places while nobody is disturbed there.

        Somebody who is eased in counts only where the swap leaves their own counts alone.
        """
        elsewhere = self._elsewhere(places)
        return elsewhere.shared + sum(
            points
            for person_id, (counts, points) in elsewhere.own.items()
            if counts is None or counts == _without(own_counts(swapped, person_id), places)
        )

    def least_price_elsewhere(self, places: Places) -> int:
        """Give the same for whatever is picked: without whoever is eased in."""
        elsewhere = self._elsewhere(places)
        mine = (points for counts, points in elsewhere.own.values() if counts is None)
        return elsewhere.shared + sum(mine)

    def for_some(self, pick: Pick) -> tuple[int, int]:
        """Give people left out and points that some people have at the picked places at least.

        Only people whose options hang on nothing that stands elsewhere, so that such bounds of
        several places may be added up.
        """
        today = self.question(self.with_pick(pick))
        some = [p for p, eased in enumerate(self._eased) if not eased][:SAMPLE]
        offered = [self._at(today, p, e.position - 1) for e in pick for p in some]
        return (
            sum(min(left_out_of(a) for a in options) for options in offered),
            sum(min(a.price for a in options) for options in offered),
        )

    def weigh(
        self,
        swapped: Restated,
        places: Places,
        is_reached: Callable[[int, int], bool] | None = None,
        most: int | None = None,
    ) -> tuple[int, int]:
        """Give people left out and points at least, person by person.

        Parameters
        ----------
        is_reached : callable, optional
            Says of people left out and points whether no more people need be gone through.
        most : int, optional
            So many people only.
        """
        today = self.question(swapped)
        left_out = self.left_elsewhere(places)
        price = today.class_price + self.price_elsewhere(today.problem, places)
        offered: dict[int, list[list[Marked]]] = {at: [] for at in sorted(places)}
        for p in range(len(today.people))[:most]:
            for position, before in offered.items():
                options = self._at(today, p, position - 1)
                before.append(options)
                left_out += min(left_out_of(a) for a in options)
                price += min(a.price for a in options)
            if is_reached is not None and is_reached(left_out, price):
                return left_out, price
        for options_of_all in offered.values():
            price -= sum(min(a.price for a in options) for options in options_of_all)
            price += _least_here(options_of_all, today.problem)
        return left_out, price

    def _at(self, today: Today, person: int, at: int) -> list[Marked]:
        """Give what somebody may do at a place, whichever group they are in."""
        roles = {role_of(at, offset, today.positions) for offset in self._offsets}
        return [a for role in sorted(roles) for a in today.options(person, at, role)]

    def _elsewhere(self, places: Places) -> Elsewhere:
        if places not in self._elsewheres:
            self._elsewheres[places] = self._read_elsewhere(places)
        return self._elsewheres[places]

    def _read_elsewhere(self, places: Places) -> Elsewhere:
        today = self._unswapped
        problem, shown = today.problem, dict[int, set[Signature]]()
        costs, rules = problem.costs, problem.rules
        own: dict[str, tuple[tuple[Count, ...] | None, int]] = {}
        left_out = 0
        for p, person_id in enumerate(today.people):
            eased = self._eased[p]
            masses: set[int] = set()
            points = 0
            for at in range(today.positions + 1):
                if at + 1 in places:
                    continue
                options = self._at(today, p, at)
                left_out += 0 if eased else min(left_out_of(a) for a in options)
                if today.old.counts(person_id):
                    options = [a for a in options if not a.changed] or options
                points += min(a.price for a in options)
                if len(options) == 1 and at < today.positions:
                    masses.add(options[0].mass_g)
                    if not eased:
                        shown.setdefault(at, set()).update(options[0].signatures)
            points += costs.third_mass * max(0, len(masses - {0}) - 2)
            counts = _without(own_counts(problem, person_id), places) if eased else None
            own[person_id] = (counts, points)
        shared = sum(versions_price(seen, costs, rules.most_versions) for seen in shown.values())
        return Elsewhere(shared, own, left_out)

    def _problem_with(self, pick: Pick) -> Problem:
        problem = self._asked.problem
        spec, new = problem.spec, {e.position: e for e in pick}
        exercises = tuple(new.get(e.position, e) for e in spec.exercises)
        keep = tuple(k for k in spec.keep if k.position not in new)
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


def _without(counts: tuple[Count, ...], places: Places) -> tuple[Count, ...]:
    return tuple(count for k, count in enumerate(counts, start=1) if k not in places)


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
