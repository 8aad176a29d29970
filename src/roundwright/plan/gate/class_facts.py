"""What an exercise is to the class as a whole: its pattern, muscle, versions that stand for it.

The gate's own reading of sections P2 and P3 of the definition. What the library does not
know gives nothing, never an error.
"""

from collections import Counter
from itertools import pairwise

from roundwright.body.anatomy import Muscle, Side
from roundwright.library.catalogue import Catalogue
from roundwright.library.movement import Movement
from roundwright.library.vocabulary import HIP, KNEE, PULL, PUSH, Pattern
from roundwright.plan.gate.reading import Reading
from roundwright.plan.gate.recount import known_versions, lines_of
from roundwright.plan.recent import RecentExercise

TRUNK = frozenset(
    {
        Pattern.TRUNK_ANTI_EXTENSION,
        Pattern.TRUNK_ANTI_ROTATION,
        Pattern.TRUNK_ROTATION,
        Pattern.TRUNK_FLEXION,
        Pattern.TRUNK_EXTENSION,
    }
)
PATTERN_SETS = {"push": PUSH, "pull": PULL, "knee": KNEE, "hip": HIP, "trunk": TRUNK}
REFERENCE_LEVEL = 3
"""A line is compared with its neighbours by its hardest version of this level (P3)."""


def exercises_of(reading: Reading) -> tuple[str, ...]:
    """Give the exercises of the class in the order of their places."""
    places = sorted(reading.problem.spec.exercises, key=lambda e: e.position)
    return tuple(place.exercise_id for place in places)


def main_line(library: Catalogue, exercise_id: str) -> str | None:
    """Give the first line of an exercise."""
    return next(iter(lines_of(library, exercise_id)), None)


def main_pattern(library: Catalogue, exercise_id: str) -> Pattern | None:
    """Give the pattern of the first version of the first line."""
    line = main_line(library, exercise_id)
    versions = known_versions(library, line) if line else ()
    return versions[0].pattern if versions else None


def main_muscle(library: Catalogue, exercise_id: str) -> Muscle | None:
    """Give the authored main muscle, or the one with most share and reps in the first versions."""
    combination = library.combinations.get(exercise_id)
    if combination is not None and combination.main_muscle is not None:
        return combination.main_muscle
    parts = [(p.line, p.times) for p in combination.parts] if combination else [(exercise_id, 1)]
    work: Counter[Muscle] = Counter()
    for line_id, times in parts:
        for movement in known_versions(library, line_id)[:1]:
            for muscle, share in movement.muscles.items():
                work[muscle] += round(share.share * 10_000) * times
    return max(work, key=lambda m: (work[m], -list(Muscle).index(m)), default=None)


def main_versions(library: Catalogue, exercise_id: str) -> frozenset[str]:
    """Give the versions of the first line of an exercise."""
    line = main_line(library, exercise_id)
    return frozenset(m.slug for m in known_versions(library, line)) if line else frozenset()


def is_accessory(library: Catalogue, exercise_id: str) -> bool:
    """Say whether a line works one muscle or bends one elbow only, and is not for the trunk."""
    if exercise_id in library.combinations or main_pattern(library, exercise_id) in TRUNK:
        return False
    return any(
        m.pattern in (Pattern.ELBOW_FLEXION, Pattern.ELBOW_EXTENSION) or len(m.prime_movers) <= 1
        for m in reference_versions(library, exercise_id)
    )


def repeated_parts(library: Catalogue, exercise_id: str) -> int:
    """Count what a combination brings back: a line on the same side, another line's main muscle."""
    combination = library.combinations.get(exercise_id)
    if combination is None:
        return 0
    parts = combination.parts
    again = sum(
        any(
            earlier.line == part.line
            and (earlier.side == part.side or Side.BOTH in (earlier.side, part.side))
            for earlier in parts[:k]
        )
        for k, part in enumerate(parts)
    )
    muscles = [main_muscle(library, line) for line in {part.line for part in parts}]
    return again + len(muscles) - len(set(muscles))


def _all_versions(library: Catalogue, exercise_id: str) -> tuple[Movement, ...]:
    lines = lines_of(library, exercise_id)
    return tuple(m for line in lines for m in known_versions(library, line))


def is_jumping(library: Catalogue, exercise_id: str) -> bool:
    """Say whether some version of one of its lines has foot contacts."""
    return any(m.contacts_a_rep for m in _all_versions(library, exercise_id))


def is_loaded(library: Catalogue, exercise_id: str) -> bool:
    """Say whether a reference version lifts a dumbbell, and a combination holds its load."""
    combination = library.combinations.get(exercise_id)
    if combination is not None and combination.load != "held":
        return False
    return any(m.dumbbells_lifted for m in reference_versions(library, exercise_id))


def reference_versions(library: Catalogue, exercise_id: str) -> tuple[Movement, ...]:
    """Give of each line the hardest version up to the reference level, else the first."""
    found: list[Movement] = []
    for line in lines_of(library, exercise_id):
        versions = known_versions(library, line)
        found += [m for m in versions if m.level <= REFERENCE_LEVEL][-1:] or versions[:1]
    return tuple(found)


def neighbour_places(reading: Reading) -> tuple[tuple[int, int], ...]:
    """Give the pairs of places done one after the other; those who rotate also close the round.

    Two places are one pair, however often they follow one another.
    """
    places = list(reading.positions())
    pairs = list(pairwise(places))
    if reading.rotates and len(places) > 2:
        pairs.append((places[-1], places[0]))
    return tuple(pairs)


def recent_within(reading: Reading, days: int) -> tuple[RecentExercise, ...]:
    """Give the hall's earlier exercises of so many days that the library knows."""
    return tuple(
        r
        for r in reading.problem.recent.exercises
        if r.days_ago <= days and reading.library.has_exercise(r.exercise_id)
    )


def number_of_each(library: Catalogue, exercise_ids: tuple[str, ...]) -> Counter[str]:
    """Count exercises by the set their main pattern is in: push, pull, knee, hip, trunk."""
    patterns = [main_pattern(library, e) for e in exercise_ids]
    return Counter(
        {name: sum(p in members for p in patterns) for name, members in PATTERN_SETS.items()}
    )


def missing_patterns(reading: Reading) -> tuple[str, ...]:
    """Give the sets of patterns that a class of so many places should have and does not.

    An accessory, or a combination that begins with one, stands for none of them.
    """
    rules, exercises = reading.problem.rules, exercises_of(reading)
    whole = tuple(
        e
        for e in exercises
        if not is_accessory(reading.library, main_line(reading.library, e) or e)
    )
    number = number_of_each(reading.library, whole)
    wanted: list[str] = []
    if len(exercises) >= rules.least_places_for_four:
        wanted += ["knee", "hip", "push", "pull"]
    if len(exercises) >= rules.least_places_for_trunk:
        wanted += ["trunk"]
    return tuple(name for name in wanted if not number[name])
