"""What an exercise is to the class, and which sets and orders the tool may choose (P2).

Read plainly from the page on planning; one small function a sentence of it.
"""

from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import combinations
from math import ceil

from roundwright.body.anatomy import Muscle, MuscleRole
from roundwright.goals.class_wish import ClassFormat
from roundwright.library.catalogue import Catalogue
from roundwright.library.movement import Movement
from roundwright.library.vocabulary import HIP, KNEE, PULL, PUSH, Pattern
from roundwright.plan.planning_problem import PlanningProblem
from roundwright.plan.rule_table import RuleTable

TRUNK = frozenset(
    {
        Pattern.TRUNK_ANTI_EXTENSION,
        Pattern.TRUNK_ANTI_ROTATION,
        Pattern.TRUNK_ROTATION,
        Pattern.TRUNK_FLEXION,
        Pattern.TRUNK_EXTENSION,
    }
)
ROTATING = (ClassFormat.STATIONS, ClassFormat.STAGGERED)


@dataclass(frozen=True)
class Facts:
    """One exercise as P2 sees it."""

    exercise_id: str
    pattern: Pattern
    versions: frozenset[str]
    muscle: Muscle
    jumping: bool
    loaded: bool
    combination: bool
    accessory: bool
    covers: bool


def main_pattern(library: Catalogue, exercise_id: str) -> Pattern:
    return library.versions(library.lines_of_exercise(exercise_id)[0])[0].pattern


def main_muscle(library: Catalogue, exercise_id: str) -> Muscle:
    """Authored, or the most share x times over the parts' first versions."""
    combination = library.combinations.get(exercise_id)
    if combination is None:
        parts = [(exercise_id, 1)]
    else:
        if combination.main_muscle is not None:
            return combination.main_muscle
        parts = [(part.line, part.times) for part in combination.parts]
    work: dict[Muscle, Fraction] = {}
    for line, times in parts:
        for muscle, share in library.versions(line)[0].muscles.items():
            work[muscle] = work.get(muscle, Fraction(0)) + times * Fraction(str(share.share))
    most = max(work.values())
    return next(m for m in Muscle if work.get(m) == most)


def usual_versions(library: Catalogue, exercise_id: str) -> list[Movement]:
    """Of each line the hardest version of level 3 or less, else its first."""
    found = []
    for line in library.lines_of_exercise(exercise_id):
        versions = library.versions(line)
        fitting = [m for m in versions if m.level <= 3]
        found.append(fitting[-1] if fitting else versions[0])
    return found


def is_accessory(library: Catalogue, exercise_id: str) -> bool:
    """A line, not of the trunk, that works one muscle or an elbow in its usual version."""
    if exercise_id in library.combinations or main_pattern(library, exercise_id) in TRUNK:
        return False
    (usual,) = usual_versions(library, exercise_id)
    movers = [m for m, share in usual.muscles.items() if share.role is MuscleRole.PRIME_MOVER]
    return len(movers) < 2 or usual.pattern.value.startswith("elbow")


def facts_of(library: Catalogue, exercise_id: str) -> Facts:
    combination = library.combinations.get(exercise_id)
    movements: list[Movement] = [
        m for line in library.lines_of_exercise(exercise_id) for m in library.versions(line)
    ]
    held = combination is None or combination.load == "held"
    return Facts(
        exercise_id=exercise_id,
        pattern=main_pattern(library, exercise_id),
        versions=frozenset(library.lines[library.lines_of_exercise(exercise_id)[0]].versions),
        muscle=main_muscle(library, exercise_id),
        jumping=any(m.contacts_a_rep > 0 for m in movements),
        loaded=held and any(m.dumbbells_lifted > 0 for m in usual_versions(library, exercise_id)),
        combination=combination is not None,
        accessory=is_accessory(library, exercise_id),
        covers=not is_accessory(library, library.lines_of_exercise(exercise_id)[0]),
    )


def may_be_chosen(library: Catalogue, exercise_id: str, ban: Sequence[str]) -> bool:
    """P2.8 for a candidate."""
    if main_pattern(library, exercise_id) in (Pattern.CARDIO, Pattern.MOBILITY):
        return False
    return not {exercise_id, *library.lines_of_exercise(exercise_id)} & set(ban)


def _at_most(
    most: int, chosen: Sequence[Facts], kept: set[str], what: Callable[[Facts], bool]
) -> bool:
    """At most so many; where kept ones alone are more, no chosen one may add to them."""
    concerned = [f for f in chosen if what(f)]
    return len(concerned) <= most or all(f.exercise_id in kept for f in concerned)


def _at_least_one(
    chosen: Sequence[Facts], kept: set[str], wanted: Sequence[frozenset[Pattern]]
) -> bool:
    """One of each wanted class of patterns, or as many as the free places can still hold."""
    have = {f.exercise_id: f.pattern for f in chosen if f.covers}
    kept_missing = sum(
        not any(p in patterns for e, p in have.items() if e in kept) for patterns in wanted
    )
    missing = sum(not any(p in patterns for p in have.values()) for patterns in wanted)
    free = len(chosen) - len(kept)
    return missing <= max(0, kept_missing - free)


def set_is_allowed(planning: PlanningProblem, exercise_ids: Sequence[str]) -> bool:
    """P2.1 to P2.6 and P2.8 to P2.10 for a set; what only kept exercises break is let pass."""
    library, rules = planning.base.library, planning.base.rules
    kept = {k.exercise_id for k in planning.kept}
    chosen = [facts_of(library, e) for e in exercise_ids]
    for shown in planning.besides:
        alike = len(set(shown)) == len(exercise_ids)
        if alike and len(set(exercise_ids) - set(shown)) < planning.others:
            return False
    for one, other in combinations(chosen, 2):
        if one.versions & other.versions and not {one.exercise_id, other.exercise_id} <= kept:
            return False
    limits: list[tuple[int, Callable[[Facts], bool]]] = [
        (rules.most_jumping, lambda f: f.jumping),
        (rules.most_new_combinations, lambda f: f.combination),
        (rules.most_accessories, lambda f: f.accessory),
    ]
    if not all(_at_most(most, chosen, kept, what) for most, what in limits):
        return False
    for line in {line for e in exercise_ids for line in library.lines_of_exercise(e)}:
        holding = {e for e in exercise_ids if line in library.lines_of_exercise(e)}
        if len(holding) > rules.most_of_a_line and not holding <= kept:
            return False
    for pattern, number in Counter(f.pattern for f in chosen).items():
        alone = all(f.exercise_id in kept for f in chosen if f.pattern is pattern)
        if number > rules.most_of_a_pattern and not alone:
            return False
    loaded_kept = sum(f.loaded for f in chosen if f.exercise_id in kept)
    reachable = loaded_kept + len(chosen) - len(kept)
    if sum(f.loaded for f in chosen) < min(ceil(len(chosen) / 2), reachable):
        return False
    return _at_least_one(chosen, kept, _wanted_patterns(rules, len(chosen)))


def _wanted_patterns(rules: RuleTable, places: int) -> list[frozenset[Pattern]]:
    wanted: list[frozenset[Pattern]] = []
    if places >= rules.least_places_for_four:
        wanted += [KNEE, HIP, PUSH, PULL]
    if places >= rules.least_places_for_trunk:
        wanted.append(TRUNK)
    return wanted


def neighbours(places: int, form: ClassFormat) -> list[tuple[int, int]]:
    """Index pairs of neighbours; where groups take turns also the last and the first.

    Of two places these are one and the same pair.
    """
    pairs = [(k, k + 1) for k in range(places - 1)]
    if form in ROTATING and places > 2:
        pairs.append((places - 1, 0))
    return pairs


def ends_of_rounds(places: int, offsets: Sequence[int]) -> set[int]:
    """Indexes of the places that some group does first or last of a round."""
    return {o % places for o in offsets} | {(places - 1 + o) % places for o in offsets}


def order_is_allowed(
    planning: PlanningProblem,
    exercise_ids: Sequence[str],
    form: ClassFormat,
    offsets: Sequence[int] = (0,),
) -> bool:
    """P2.7 for an order; two kept exercises side by side are the coach's own wish."""
    library, burst = planning.base.library, planning.base.spec.burst
    kept = {k.exercise_id for k in planning.kept}
    muscles = [main_muscle(library, e) for e in exercise_ids]
    for i, j in neighbours(len(muscles), form):
        both_kept = exercise_ids[i] in kept and exercise_ids[j] in kept
        if muscles[i] is muscles[j] and not both_kept:
            return False
    if burst is None:
        return True
    burst_muscle = main_muscle(library, burst.line)
    return not any(
        muscles[k] is burst_muscle and exercise_ids[k] not in kept
        for k in ends_of_rounds(len(muscles), offsets)
    )
