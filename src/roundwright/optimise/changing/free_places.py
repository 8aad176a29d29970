"""Which exercises the tool may choose for some places while all others stay (P2)."""

from collections.abc import Iterator, Mapping, Sequence
from itertools import combinations
from math import ceil

from roundwright.goals.class_wish import ClassFormat
from roundwright.library.catalogue import Catalogue
from roundwright.library.vocabulary import HIP, KNEE, PULL, PUSH, Pattern
from roundwright.optimise.planning.exercise_facts import (
    TRUNK,
    ExerciseFacts,
    burst_muscle_of,
    facts_of_exercise,
)
from roundwright.plan.menu_table import MenuTable, default_count, may_be_proposed
from roundwright.plan.problem import PlannedExercise, Problem

ROTATING = (ClassFormat.STATIONS, ClassFormat.STAGGERED)
Pick = tuple[PlannedExercise, ...]
"""One exercise for each of some places."""


class FreePlaces:
    """The places of a class that may be given other exercises.

    Parameters
    ----------
    problem : Problem
        The class; what stands in it now is not proposed again.
    library : Catalogue
        Everything that may be put into the class.
    offsets : sequence of int
        How many positions each group is ahead of the first.
    """

    def __init__(self, problem: Problem, library: Catalogue, offsets: Sequence[int]) -> None:
        self._problem = problem
        self._library = library
        self._offsets = tuple(offsets)
        self._facts: dict[str, ExerciseFacts] = {}
        self._standing = {
            e.position: facts_of_exercise(e.exercise_id, problem.library)
            for e in problem.spec.exercises
        }
        self._proposed: tuple[str, ...] | None = None

    def candidates(self, position: int, free: frozenset[int]) -> Iterator[PlannedExercise]:
        """Give what may stand at a position with its usual count, beside all that stay.

        Parameters
        ----------
        free : frozenset of int
            Places that are given other exercises, this one among them. What only all of them
            together can meet is left to `allows`.
        """
        old = self._problem.spec.exercises[position - 1]
        work_s = old.count.value if old.count.is_timed else None
        kept, menu = self._kept(free), MenuTable()
        for exercise_id in self._may_be_proposed():
            facts = self._facts_of(exercise_id)
            new = {position: facts}
            if self._fits([facts], kept) and self._order_allows(new, kept):
                count = default_count(self._library, exercise_id, work_s, menu)
                yield PlannedExercise(position=position, exercise_id=exercise_id, count=count)

    def allows(self, pick: Pick) -> bool:
        """Say whether a whole pick holds P2, each of it being one of the candidates."""
        new = {e.position: self._facts_of(e.exercise_id) for e in pick}
        kept, rules = self._kept(frozenset(new)), self._problem.rules
        mine, others = list(new.values()), list(kept.values())
        if len(mine) > 1 and not (self._fits(mine, kept) and self._order_allows(new, kept)):
            return False
        places = len(mine) + len(others)
        loaded = sum(f.loaded for f in others)
        if loaded + sum(f.loaded for f in mine) < min(ceil(places / 2), loaded + len(mine)):
            return False
        needs = [KNEE, HIP, PUSH, PULL] if places >= rules.least_places_for_four else []
        needs += [TRUNK] if places >= rules.least_places_for_trunk else []
        missing = [need for need in needs if not any(_meets(f, need) for f in others)]
        still = sum(not any(_meets(f, need) for f in mine) for need in missing)
        return still <= max(0, len(missing) - len(mine))

    def _may_be_proposed(self) -> tuple[str, ...]:
        if self._proposed is None:
            library, spec = self._library, self._problem.spec
            taken = {e.exercise_id for e in spec.exercises}
            self._proposed = tuple(
                e
                for e in sorted((*library.lines, *library.combinations))
                if e not in taken
                and not _is_banned(e, library, spec.ban)
                and may_be_proposed(library, e)
            )
        return self._proposed

    def _facts_of(self, exercise_id: str) -> ExerciseFacts:
        if exercise_id not in self._facts:
            self._facts[exercise_id] = facts_of_exercise(exercise_id, self._library)
        return self._facts[exercise_id]

    def _kept(self, free: frozenset[int]) -> dict[int, ExerciseFacts]:
        return {k: facts for k, facts in self._standing.items() if k not in free}

    def _fits(self, new: Sequence[ExerciseFacts], kept: Mapping[int, ExerciseFacts]) -> bool:
        """Say whether nothing comes twice or too often by what is new."""
        rules, every = self._problem.rules, [*new, *kept.values()]
        for one in new:
            if any(f is not one and _overlap(f, one) for f in every):
                return False
            if sum(f.pattern is one.pattern for f in every) > rules.most_of_a_pattern:
                return False
            if any(sum(e in f.lines for f in every) > rules.most_of_a_line for e in one.lines):
                return False
            if one.jumping and sum(f.jumping for f in every) > rules.most_jumping:
                return False
            if one.accessory and sum(f.accessory for f in every) > rules.most_accessories:
                return False
            if one.combination and sum(f.combination for f in every) > rules.most_new_combinations:
                return False
        return not any(one is other for one, other in combinations(new, 2))

    def _order_allows(
        self, new: Mapping[int, ExerciseFacts], kept: Mapping[int, ExerciseFacts]
    ) -> bool:
        spec = self._problem.spec
        places = spec.positions
        turning = spec.format in ROTATING
        ends = {1, places}
        if turning:
            ends = {o % places + 1 for o in self._offsets}
            ends |= {(o - 1) % places + 1 for o in self._offsets}
        stands = {**kept, **new}
        for position, one in new.items():
            beside = {position - 1, position + 1}
            if turning:
                beside = {(k - 1) % places + 1 for k in beside}
            if any(stands[k].muscle is one.muscle for k in beside - {position} if k in stands):
                return False
            if (
                spec.burst is not None
                and position in ends
                and one.muscle is burst_muscle_of(spec.burst.line, self._problem.library)
            ):
                return False
        return True


def _overlap(one: ExerciseFacts, other: ExerciseFacts) -> bool:
    return one.line == other.line or bool(one.versions & other.versions)


def _is_banned(exercise_id: str, library: Catalogue, ban: Sequence[str]) -> bool:
    lines = library.lines_of_exercise(exercise_id)
    return bool({exercise_id, *lines}.intersection(ban)) or any(
        set(ban).issuperset(library.lines[line].versions) for line in lines
    )


def _meets(facts: ExerciseFacts, need: frozenset[Pattern]) -> bool:
    """Say whether an exercise meets a need of the set; an accessory does not."""
    return facts.pattern in need and not facts.main_accessory
