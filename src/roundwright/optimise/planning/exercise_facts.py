"""What an exercise is to the rules and prices of a set, looked up once (P2 and P3)."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

import numpy as np
from numpy.typing import NDArray

from roundwright.body.anatomy import Muscle, Side
from roundwright.library.catalogue import Catalogue
from roundwright.library.combination import Combination
from roundwright.library.movement import Movement
from roundwright.library.vocabulary import HIP, KNEE, PULL, PUSH, Demand, Pattern
from roundwright.plan.cost_table import CostTable
from roundwright.plan.problem import Problem

REFERENCE_LEVEL = 3
"""Reference versions are the hardest up to this level: what most of a room does; our choice."""
TRUNK = frozenset(
    {
        Pattern.TRUNK_ANTI_EXTENSION,
        Pattern.TRUNK_ANTI_ROTATION,
        Pattern.TRUNK_ROTATION,
        Pattern.TRUNK_FLEXION,
        Pattern.TRUNK_EXTENSION,
    }
)
"""The five trunk patterns, one of which longer classes need."""
ELBOW = frozenset({Pattern.ELBOW_FLEXION, Pattern.ELBOW_EXTENSION})
"""What bends or straightens nothing but the elbow."""
CLEAR = 2
"""The degree of a demand that counts between neighbours: 'clear'."""


@dataclass(frozen=True, slots=True)
class ExerciseFacts:
    """One exercise: what it counts as in a set, and what it asks of its neighbours.

    `versions` are those of its main line, `lines` all that it has parts of; `main_accessory`
    says whether its main line alone would be an accessory.
    """

    exercise_id: str
    pattern: Pattern
    line: str
    lines: frozenset[str]
    versions: frozenset[str]
    muscle: Muscle
    accessory: bool
    main_accessory: bool
    jumping: bool
    loaded: bool
    combination: bool
    repeats: int
    movers: frozenset[Muscle]
    grip: bool
    low_back: bool
    overhead: bool
    floor: bool

    @property
    def push_pull(self) -> int:
        """1 for a push, -1 for a pull, else 0."""
        return (self.pattern in PUSH) - (self.pattern in PULL)

    @property
    def unloaded_hip(self) -> bool:
        """Whether it is a hip exercise in which most of a room lifts nothing."""
        return self.pattern in HIP and not self.loaded

    @property
    def knee_hip(self) -> int:
        """1 for a knee exercise, -1 for a hip exercise, else 0."""
        return (self.pattern in KNEE) - (self.pattern in HIP)


def facts_of_exercise(exercise_id: str, library: Catalogue) -> ExerciseFacts:
    """Look up one exercise of the library."""
    lines = library.lines_of_exercise(exercise_id)
    versions = [m for line in lines for m in library.versions(line)]
    references = [reference_version(library.versions(line)) for line in lines]
    combination = library.combinations.get(exercise_id)

    def some(demand: Demand) -> bool:
        return any(m.demand(demand) >= CLEAR for m in references)

    main_accessory = _is_accessory(library.versions(lines[0]))
    return ExerciseFacts(
        exercise_id=exercise_id,
        pattern=library.versions(lines[0])[0].pattern,
        line=lines[0],
        lines=frozenset(lines),
        versions=frozenset(library.lines[lines[0]].versions),
        muscle=_main_muscle(exercise_id, library),
        accessory=combination is None and main_accessory,
        main_accessory=main_accessory,
        jumping=any(m.contacts_a_rep for m in versions),
        loaded=any(m.dumbbells_lifted for m in references)
        and (combination is None or combination.load == "held"),
        combination=combination is not None,
        repeats=0 if combination is None else _repeats(combination, library),
        movers=frozenset(muscle for m in references for muscle in m.prime_movers),
        grip=some(Demand.GRIP),
        low_back=some(Demand.LOW_BACK),
        overhead=some(Demand.OVERHEAD),
        floor=some(Demand.FLOOR_RISE),
    )


def strong_people(problem: Problem) -> int:
    """Count who takes part at the reference level or above, moderate only apart (P3)."""
    people = (problem.people[p] for p in problem.taking_part)
    return sum(p.level >= REFERENCE_LEVEL and not p.is_moderate_only for p in people)


def reference_version(versions: Sequence[Movement]) -> Movement:
    """Give what most of a room does: the hardest version of level 3 or less, else the first."""
    usual = [m for m in versions if m.level <= REFERENCE_LEVEL]
    return usual[-1] if usual else versions[0]


def _is_accessory(versions: Sequence[Movement]) -> bool:
    """Say whether a line works one muscle or one elbow, and is no trunk line (P2)."""
    usual = reference_version(versions)
    return versions[0].pattern not in TRUNK and (
        usual.pattern in ELBOW or len(usual.prime_movers) < 2
    )


def _repeats(combination: Combination, library: Catalogue) -> int:
    """Count the parts that bring back a line on a side it had, or another line's main muscle."""
    seen: dict[str, set[Side]] = {}
    again = 0
    for part in combination.parts:
        sides = {Side.LEFT, Side.RIGHT} if part.side is Side.BOTH else {part.side}
        again += bool(sides & seen.setdefault(part.line, set()))
        seen[part.line] |= sides
    return again + len(seen) - len({_main_muscle(line, library) for line in seen})


def _main_muscle(exercise_id: str, library: Catalogue) -> Muscle:
    combination = library.combinations.get(exercise_id)
    if combination is None:
        parts = [(exercise_id, 1)]
    elif combination.main_muscle is not None:
        return combination.main_muscle
    else:
        parts = [(part.line, part.times) for part in combination.parts]
    work: dict[Muscle, Fraction] = {}
    for line, times in parts:
        for muscle, share in library.versions(line)[0].muscles.items():
            exact = Fraction(str(share.share)) * times
            work[muscle] = work.get(muscle, Fraction(0)) + exact
    order = list(Muscle)
    return max(work, key=lambda muscle: (work[muscle], -order.index(muscle)))


@dataclass(frozen=True, slots=True)
class Neighbours:
    """What it costs to put two exercises side by side, and what may not be.

    `price[i, j]` is alike both ways. `forbidden` and `not_at_ends` hold only where an
    exercise that is not kept is concerned: what only kept ones break is not held against
    the rest.
    """

    price: NDArray[np.int64]
    forbidden: NDArray[np.bool_]
    not_at_ends: NDArray[np.bool_]


def neighbours_of(
    exercises: Sequence[ExerciseFacts],
    kept: frozenset[int],
    burst_muscle: Muscle | None,
    costs: CostTable,
) -> Neighbours:
    """Make the tables of neighbours."""
    n = len(exercises)
    price = np.zeros((n, n), dtype=np.int64)
    forbidden = np.zeros((n, n), dtype=np.bool_)
    for i, one in enumerate(exercises):
        for j, other in enumerate(exercises):
            price[i, j] = neighbour_price(one, other, costs)
            forbidden[i, j] = one.muscle is other.muscle and not {i, j} <= kept
    not_at_ends = np.array(
        [e.muscle is burst_muscle and i not in kept for i, e in enumerate(exercises)],
        dtype=np.bool_,
    )
    return Neighbours(price, forbidden, not_at_ends)


def neighbour_price(one: ExerciseFacts, other: ExerciseFacts, costs: CostTable) -> int:
    """Price two exercises side by side."""
    return (
        costs.shared_mover * len(one.movers & other.movers)
        + costs.grip_run * (one.grip and other.grip)
        + costs.back_run * (one.low_back and other.low_back)
        + costs.overhead_run * (one.overhead and other.overhead)
        + costs.floor_change * (one.floor != other.floor)
    )


def burst_muscle_of(line: str | None, library: Catalogue) -> Muscle | None:
    """Give the main muscle of the burst line, or None without a burst."""
    return None if line is None else _main_muscle(line, library)


def facts_by_id(exercise_ids: Sequence[str], library: Catalogue) -> Mapping[str, ExerciseFacts]:
    """Look up several exercises."""
    return {e: facts_of_exercise(e, library) for e in exercise_ids}
