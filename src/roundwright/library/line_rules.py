"""What lines and combinations may not be, given the versions they are made of."""

from collections.abc import Callable, Iterator, Sequence
from itertools import pairwise

from roundwright.body.anatomy import Side
from roundwright.library.combination import Combination
from roundwright.library.contradiction import Contradiction
from roundwright.library.line import ProgressionLine
from roundwright.library.movement import Movement
from roundwright.library.vocabulary import Pattern

KIN: tuple[frozenset[Pattern], ...] = (
    frozenset({Pattern.SQUAT, Pattern.LUNGE, Pattern.STEP, Pattern.JUMP}),
    frozenset({Pattern.STEP, Pattern.JUMP, Pattern.CARDIO, Pattern.LOCOMOTION, Pattern.MOBILITY}),
    frozenset({Pattern.CARRY, Pattern.LOCOMOTION, Pattern.TRUNK_ANTI_ROTATION}),
    frozenset({Pattern.HORIZONTAL_PUSH, Pattern.VERTICAL_PUSH}),
    frozenset({Pattern.HORIZONTAL_PULL, Pattern.VERTICAL_PULL}),
    frozenset(
        {
            Pattern.TRUNK_ANTI_EXTENSION,
            Pattern.TRUNK_ANTI_ROTATION,
            Pattern.TRUNK_ROTATION,
            Pattern.TRUNK_FLEXION,
            Pattern.TRUNK_EXTENSION,
        }
    ),
    *(frozenset({pattern}) for pattern in Pattern),
)
"""Patterns whose movements may be steps of one line. Our choice."""

Found = Iterator[Contradiction]
Versions = Sequence[Movement]


def _of_line(
    line: ProgressionLine, path: tuple[str | int, ...], value: object, expected: str, **rest: str
) -> Contradiction:
    code = rest.pop("code", "library.line")
    return Contradiction(code, "line", line.slug, path, str(value), expected, **rest)


def levels_never_fall(line: ProgressionLine, versions: Versions) -> Found:
    """Require versions from easy to hard."""
    for easier, harder in pairwise(versions):
        if harder.level < easier.level:
            yield _of_line(
                line,
                ("versions", line.versions.index(harder.slug)),
                f"{harder.slug} (level {harder.level})",
                f"level {easier.level} or more, as {easier.slug} before it",
            )


def criteria_never_fall(line: ProgressionLine, versions: Versions) -> Found:
    """Require that a harder version asks for no fewer classes than an easier one."""
    for easier, harder in pairwise(versions):
        before, after = line.min_classes_for(easier.slug), line.min_classes_for(harder.slug)
        if after < before:
            yield _of_line(
                line,
                ("steps",),
                f"{harder.slug} after {after} classes",
                f"{before} classes or more, as for {easier.slug} before it",
                remedy="Raise min_classes of the harder version.",
            )


def landings_have_criteria(line: ProgressionLine, versions: Versions) -> Found:
    """Require criteria of a version with foot contacts: classes done, and what must be seen."""
    criteria = {step.to: step for step in line.steps}
    for version in versions:
        step = criteria.get(version.slug)
        met = step is not None and step.min_classes >= 1 and bool(step.seen)
        if version.contacts_a_rep and not met:
            yield _of_line(
                line,
                ("steps",),
                version.slug,
                "min_classes of 1 or more and what must be seen, because it has foot contacts",
                code="library.consistency",
                remedy="Add { to = ..., min_classes = ..., seen = [...] }.",
            )


def sides_fit_the_versions(combination: Combination, versions: Sequence[Versions]) -> Found:
    """Require two-sided versions for `both`, and a one-sided one for left and right."""
    for index, (part, known) in enumerate(zip(combination.parts, versions, strict=True)):
        one_sided = [v.slug for v in known if v.is_one_sided]
        if part.side is Side.BOTH and one_sided:
            value, expected = "both", f"left or right, because of {', '.join(one_sided)}"
        elif part.side is not Side.BOTH and known and not one_sided:
            value, expected = part.side.value, f"both, because every version of {part.line} is so"
        else:
            continue
        yield Contradiction(
            "library.sides",
            "combination",
            combination.slug,
            ("parts", index, "side"),
            value,
            expected,
        )


def load_can_be_held(combination: Combination, versions: Sequence[Versions]) -> Found:
    """Require a part that lifts for `held`, and unloaded versions of each part for `none`."""
    known = [v for v in versions if v]
    if len(known) < len(versions):
        return
    if combination.load == "held":
        wrong = not any(v.dumbbells_lifted for part in known for v in part)
        expected = "'none', because no part has a version that lifts"
    else:
        wrong = any(all(v.dumbbells_lifted for v in part) for part in known)
        expected = "'held', because a part has no version without dumbbells"
    if wrong:
        yield Contradiction(
            "library.consistency",
            "combination",
            combination.slug,
            ("load",),
            combination.load,
            expected,
        )


def main_muscle_works(combination: Combination, versions: Sequence[Versions]) -> Found:
    """Require that the authored main muscle works in one of the parts."""
    muscle = combination.main_muscle
    works = {m for part in versions for v in part for m in v.muscles}
    if muscle and all(versions) and muscle not in works:
        yield Contradiction(
            "library.consistency",
            "combination",
            combination.slug,
            ("main_muscle",),
            muscle.value,
            "a muscle that works in one of the parts",
        )


def versions_are_of_one_kind(line: ProgressionLine, versions: Versions) -> Found:
    """Require patterns that are steps of one idea, or one stands in for quite another."""
    patterns = {version.pattern for version in versions}
    if versions and not any(patterns <= kin for kin in KIN):
        first = versions[0].pattern
        odd = next(v for v in versions if not any({first, v.pattern} <= kin for kin in KIN))
        yield _of_line(
            line,
            ("versions", line.versions.index(odd.slug)),
            f"{odd.slug} ({odd.pattern.value})",
            f"a pattern that goes with {first.value}",
            code="library.consistency",
            remedy="Give it a line of its own.",
        )


def something_asks_more(line: ProgressionLine, versions: Versions) -> Found:
    """Require that no version asks less of everything than the easier one before it.

    In a line of cardio a seated version may follow one of its own level: the
    first version is the one that a first class gets.
    """
    for easier, harder in pairwise(versions):
        if easier.pattern is Pattern.CARDIO and easier.level == harder.level:
            continue
        before, after = _asks(easier), _asks(harder)
        keys = before.keys() | after.keys()
        rises = any(after.get(key, 0) > before.get(key, 0) for key in keys)
        if not rises and before != after:
            yield _of_line(
                line,
                ("versions", line.versions.index(harder.slug)),
                harder.slug,
                f"more of something than {easier.slug} before it: a demand, a load, a share",
            )


def _asks(version: Movement) -> dict[str, float]:
    asks: dict[str, float] = {d.value: degree for d, degree in version.demands.items() if degree}
    more = {
        "dumbbells": version.dumbbells_lifted,
        "lifted_share": version.lifted_share or 0.0,
        "landings": version.contacts_a_rep + version.low_hops_a_rep,
    }
    return asks | {key: value for key, value in more.items() if value}


LINE_RULES: tuple[Callable[[ProgressionLine, Versions], Found], ...] = (
    levels_never_fall,
    criteria_never_fall,
    landings_have_criteria,
    versions_are_of_one_kind,
    something_asks_more,
)
COMBINATION_RULES: tuple[Callable[[Combination, Sequence[Versions]], Found], ...] = (
    sides_fit_the_versions,
    load_can_be_held,
    main_muscle_works,
)
