"""Planning problems of any size for the full loop: many exercises, many people, one rack.

People, kit and burst are those of the drawn halls of the tests; the library is that of the
tests several times over, each copy with other paces, so that no two exercises are alike.
"""

from collections.abc import Mapping

from tests.support.random_halls import a_hall_of
from tests.support.random_library import BURST_LINE, ONE_SIDED

from benchmarks.generator import Size
from roundwright.body.anatomy import Muscle
from roundwright.foundation.seeds import generator
from roundwright.goals.class_wish import ClassFormat, Count, CountUnit, Pace
from roundwright.library.catalogue import Catalogue
from roundwright.library.movement import MuscleShare
from roundwright.plan.planning_problem import Candidate, PlanningProblem

SECONDS_A_PLACE = 100
"""What the slot has for each place and round; our choice."""
PACES = (0.7, 1.3)
SWAPS = {
    Muscle.QUADS: Muscle.GLUTES,
    Muscle.HAMSTRINGS: Muscle.LOW_BACK,
    Muscle.CHEST: Muscle.TRICEPS,
    Muscle.LATS: Muscle.BICEPS,
}
"""In half of the copies another muscle of the same region does the most; our choice."""


def a_copy(library: Catalogue, n: int, seed: int) -> Catalogue:
    """Give the library once more under other names, at another pace."""
    draws = generator(seed, f"library copy {n}")
    pace = float(draws.uniform(*PACES))
    swaps = SWAPS if draws.random() < 0.5 else {}

    def named(slug: str) -> str:
        return f"{slug}_{n}"

    return Catalogue(
        movements={
            named(slug): m.model_copy(
                update={
                    "slug": named(slug),
                    "seconds_a_rep": m.seconds_a_rep * pace,
                    "muscles": _swapped(m.muscles, swaps),
                }
            )
            for slug, m in library.movements.items()
        },
        lines={
            named(slug): line.model_copy(
                update={
                    "slug": named(slug),
                    "versions": tuple(named(v) for v in line.versions),
                    "steps": (),
                }
            )
            for slug, line in library.lines.items()
        },
        combinations={
            named(slug): c.model_copy(
                update={
                    "slug": named(slug),
                    "parts": tuple(p.model_copy(update={"line": named(p.line)}) for p in c.parts),
                }
            )
            for slug, c in library.combinations.items()
        },
    )


def _swapped(
    muscles: Mapping[Muscle, MuscleShare], swaps: Mapping[Muscle, Muscle]
) -> dict[Muscle, MuscleShare]:
    """Let other muscles do what some do, where they do nothing yet."""
    new = {old: to for old, to in swaps.items() if to not in muscles}
    return {new.get(k, k): share for k, share in muscles.items()}


def a_large_planning(
    size: Size, seed: int, formats: tuple[ClassFormat, ...] = (ClassFormat.TOGETHER,)
) -> PlanningProblem:
    """Draw a planning problem of (exercises, people, places), three rounds, all to be chosen."""
    number, people, places = size
    base = a_hall_of(seed, people, places)
    spec, own = base.spec, base.library
    movements, lines = dict(own.movements), dict(own.lines)
    combinations, names = dict(own.combinations), []
    some = [name for name in (*own.lines, *own.combinations) if name != BURST_LINE]
    for n in range(-(-number // len(some))):
        copy = a_copy(own, n, seed)
        movements |= copy.movements
        lines |= copy.lines
        combinations |= copy.combinations
        names += [(name, f"{name}_{n}") for name in some]
    draws = generator(seed, "large planning counts")
    timed = spec.pace is Pace.TIMED

    def count(name: str) -> Count:
        if timed:
            unit = CountUnit.SECONDS_PER_SIDE if name in ONE_SIDED else CountUnit.SECONDS
            return Count(value=int(draws.choice((20, 30))), unit=unit)
        unit = CountUnit.REPS_PER_SIDE if name in ONE_SIDED else CountUnit.REPS
        return Count(value=int(draws.choice((6, 8, 10, 12))), unit=unit)

    slot_s = 900 + SECONDS_A_PLACE * places * spec.rounds
    library = Catalogue(movements=movements, lines=lines, combinations=combinations)
    return PlanningProblem(
        base=base.model_copy(
            update={
                "spec": spec.model_copy(update={"slot_s": slot_s, "rest_s": 60}),
                "library": library,
            }
        ),
        places=places,
        kept=(),
        candidates=tuple(
            Candidate(exercise_id=name, count=count(like)) for like, name in names[:number]
        ),
        formats=formats,
    )
