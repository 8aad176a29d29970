"""Which fields of one movement may not stand together.

The bounds here are our choice; what they protect is that a limitation caps
demands, so a demand that was forgotten would let a version through.
"""

import re
from collections.abc import Callable, Iterator

from roundwright.body.anatomy import Muscle
from roundwright.library.contradiction import Contradiction
from roundwright.library.movement import Movement
from roundwright.library.vocabulary import (
    Demand,
    KitKind,
    KitUse,
    Laterality,
    Pattern,
    StrengthFamily,
)

SHARE_TOLERANCE = 1e-6
HIGHEST_KIT_MM = 3000
SHORTEST_FLOOR_MM, LONGEST_FLOOR_MM = 500, 20_000

MOVERS: dict[Pattern, frozenset[Muscle]] = {
    Pattern.SQUAT: frozenset({Muscle.QUADS, Muscle.GLUTES}),
    Pattern.HINGE: frozenset({Muscle.GLUTES, Muscle.HAMSTRINGS, Muscle.LOW_BACK}),
    Pattern.LUNGE: frozenset({Muscle.QUADS, Muscle.GLUTES, Muscle.ADDUCTORS}),
    Pattern.STEP: frozenset({Muscle.QUADS, Muscle.GLUTES, Muscle.HIP_FLEXORS}),
    Pattern.JUMP: frozenset({Muscle.QUADS, Muscle.GLUTES, Muscle.CALVES}),
    Pattern.HORIZONTAL_PUSH: frozenset({Muscle.CHEST, Muscle.TRICEPS, Muscle.FRONT_DELTS}),
    Pattern.VERTICAL_PUSH: frozenset({Muscle.FRONT_DELTS, Muscle.SIDE_DELTS, Muscle.TRICEPS}),
    Pattern.HORIZONTAL_PULL: frozenset({Muscle.LATS, Muscle.UPPER_BACK, Muscle.REAR_DELTS}),
    Pattern.VERTICAL_PULL: frozenset({Muscle.LATS, Muscle.UPPER_BACK, Muscle.BICEPS}),
    Pattern.ELBOW_FLEXION: frozenset({Muscle.BICEPS, Muscle.FOREARMS}),
    Pattern.ELBOW_EXTENSION: frozenset({Muscle.TRICEPS}),
    Pattern.TRUNK_ANTI_EXTENSION: frozenset({Muscle.ABDOMINALS, Muscle.OBLIQUES}),
    Pattern.TRUNK_ANTI_ROTATION: frozenset({Muscle.ABDOMINALS, Muscle.OBLIQUES}),
    Pattern.TRUNK_ROTATION: frozenset({Muscle.ABDOMINALS, Muscle.OBLIQUES}),
    Pattern.TRUNK_FLEXION: frozenset({Muscle.ABDOMINALS, Muscle.OBLIQUES, Muscle.HIP_FLEXORS}),
    Pattern.TRUNK_EXTENSION: frozenset({Muscle.LOW_BACK, Muscle.GLUTES, Muscle.HAMSTRINGS}),
}
"""One of these is a prime mover of the pattern; other patterns take any."""

FAMILIES: dict[Pattern, frozenset[StrengthFamily]] = {
    Pattern.SQUAT: frozenset({StrengthFamily.SQUAT}),
    Pattern.HINGE: frozenset({StrengthFamily.HINGE}),
    Pattern.LUNGE: frozenset({StrengthFamily.LUNGE_STEP}),
    Pattern.STEP: frozenset({StrengthFamily.LUNGE_STEP}),
    Pattern.HORIZONTAL_PUSH: frozenset({StrengthFamily.HORIZONTAL_PUSH}),
    Pattern.VERTICAL_PUSH: frozenset({StrengthFamily.VERTICAL_PUSH}),
    Pattern.HORIZONTAL_PULL: frozenset({StrengthFamily.HORIZONTAL_PULL}),
    Pattern.VERTICAL_PULL: frozenset({StrengthFamily.VERTICAL_PULL}),
    Pattern.ELBOW_FLEXION: frozenset({StrengthFamily.ELBOW_FLEXION}),
    Pattern.ELBOW_EXTENSION: frozenset({StrengthFamily.ELBOW_EXTENSION}),
}
"""The family that a pattern's loads are judged by; other patterns take any."""

KINDS_FOR_USE: dict[KitUse, frozenset[KitKind]] = {
    KitUse.LIFT: frozenset({KitKind.DUMBBELL, KitKind.OTHER}),
    KitUse.UNDER_HANDS: frozenset(
        {KitKind.DUMBBELL, KitKind.BENCH, KitKind.BOX, KitKind.WALL, KitKind.MAT, KitKind.OTHER}
    ),
    KitUse.STEP_ON: frozenset({KitKind.BOX, KitKind.BENCH}),
    KitUse.JUMP_ON: frozenset({KitKind.BOX}),
    KitUse.SUPPORT: frozenset(
        {KitKind.CHAIR, KitKind.BENCH, KitKind.BOX, KitKind.WALL, KitKind.MAT, KitKind.OTHER}
    ),
    KitUse.LIE_OR_SIT: frozenset(
        {KitKind.CHAIR, KitKind.BENCH, KitKind.BOX, KitKind.MAT, KitKind.OTHER}
    ),
    KitUse.PULL: frozenset({KitKind.BAND, KitKind.OTHER}),
    KitUse.SKIP: frozenset({KitKind.ROPE}),
}

Found = Iterator[Contradiction]


def _says(
    movement: Movement, path: tuple[str | int, ...], value: object, expected: str, **rest: str
) -> Contradiction:
    code = rest.pop("code", "library.consistency")
    return Contradiction(code, "movement", movement.slug, path, str(value), expected, **rest)


def _lacks(movement: Movement, demand: Demand, because: str) -> Found:
    if movement.demand(demand) == 0:
        expected = f"{demand.value} 1 or more, because {because}"
        yield _says(movement, ("demands", demand.value), 0, expected)


def shares_sum_to_one(movement: Movement) -> Found:
    """Require that the muscle shares of a movement sum to one."""
    total = sum(share.share for share in movement.muscles.values())
    if abs(total - 1.0) > SHARE_TOLERANCE:
        yield _says(
            movement, ("muscles",), f"{total:.6g}", "shares that sum to 1", code="library.shares"
        )


def has_a_fitting_prime_mover(movement: Movement) -> Found:
    """Require a prime mover, and one that does what the pattern is about."""
    movers = movement.prime_movers()
    if not movers:
        yield _says(movement, ("muscles",), "no prime mover", "at least one prime_mover")
        return
    fitting = MOVERS.get(movement.pattern)
    if fitting and not fitting & set(movers):
        words = ", ".join(m.value for m in Muscle if m in fitting)
        yield _says(
            movement,
            ("muscles",),
            ", ".join(m.value for m in movers),
            f"one of {words} as prime mover of a {movement.pattern.value}",
        )


def load_can_be_judged(movement: Movement) -> Found:
    """Require a strength family, or loads by level that do not fall, of what lifts dumbbells."""
    by_level = movement.assumed_load_by_level
    if movement.dumbbells_lifted and movement.strength_family is None and not by_level:
        yield _says(
            movement,
            ("strength_family",),
            "none",
            "a strength_family or assumed_load_by_level, because dumbbells are lifted",
        )
    if by_level is None:
        return
    path = ("assumed_load_by_level",)
    if not movement.dumbbells_lifted:
        yield _says(movement, path, "loads", "nothing, because no dumbbell is lifted")
    if not set(by_level) <= set("12345"):
        yield _says(movement, path, ", ".join(by_level), "levels '1' to '5'")
    masses = [by_level[level] for level in sorted(by_level)]
    if masses != sorted(masses) or any(mass <= 0 for mass in masses):
        yield _says(movement, path, masses, "masses above 0 that do not fall with the level")


def family_fits_the_pattern(movement: Movement) -> Found:
    """Require the family that does the movement."""
    fitting = FAMILIES.get(movement.pattern)
    family = movement.strength_family
    if family and fitting and family not in fitting:
        words = ", ".join(sorted(f.value for f in fitting))
        yield _says(
            movement, ("strength_family",), family.value, f"{words} for {movement.pattern.value}"
        )


def landings_are_demands(movement: Movement) -> Found:
    """Require impact and standing of landings, hops and jumps, and a landing of a jump."""
    kinds = {
        "there are foot contacts": movement.contacts_a_rep > 0,
        "there are low hops": movement.low_hops_a_rep > 0,
        "it is a jump": movement.pattern is Pattern.JUMP,
        "a box is jumped on": any(need.use is KitUse.JUMP_ON for need in movement.kit),
    }
    because = next((words for words, holds in kinds.items() if holds), None)
    if because:
        yield from _lacks(movement, Demand.IMPACT, because)
        yield from _lacks(movement, Demand.NEEDS_STANDING, because)
    if movement.pattern is Pattern.JUMP and movement.contacts_a_rep == 0:
        yield _says(movement, ("contacts_a_rep",), 0, "1 or more, because it is a jump")
    lands = movement.contacts_a_rep + movement.low_hops_a_rep > 0
    if movement.demand(Demand.ONE_FOOT_LANDING) and not lands:
        yield _says(
            movement,
            ("demands", "one_foot_landing"),
            movement.demand(Demand.ONE_FOOT_LANDING),
            "foot contacts or low hops, because it lands on one foot",
        )


def pattern_is_a_demand(movement: Movement) -> Found:
    """Require overhead of a press overhead, and both legs of steps, lunges and jumps."""
    if movement.pattern is Pattern.VERTICAL_PUSH:
        yield from _lacks(movement, Demand.OVERHEAD, "it is a vertical_push")
    if movement.pattern in (Pattern.LUNGE, Pattern.STEP, Pattern.JUMP):
        because = f"it is a {movement.pattern.value}"
        yield from _lacks(movement, Demand.NEEDS_BOTH_LEGS, because)


def kit_is_a_demand(movement: Movement) -> Found:
    """Require grip of lifted dumbbells, and both arms of two."""
    if movement.dumbbells_lifted:
        yield from _lacks(movement, Demand.GRIP, "a dumbbell is lifted")
    if movement.dumbbells_lifted == 2:
        yield from _lacks(movement, Demand.NEEDS_BOTH_ARMS, "two dumbbells are lifted")


def floor_is_a_demand(movement: Movement) -> Found:
    """Require getting up from the floor of lying or head low on it, unless on a bench."""
    on_bench = any(
        need.item is KitKind.BENCH and need.use is KitUse.LIE_OR_SIT for need in movement.kit
    )
    for demand in (Demand.ON_BACK, Demand.ON_FRONT, Demand.HEAD_LOW):
        if movement.demand(demand) and not on_bench:
            because = f"{demand.value} is {movement.demand(demand)}"
            yield from _lacks(movement, Demand.FLOOR_RISE, because)


def kit_fits_its_use(movement: Movement) -> Found:
    """Require kit that can be fit for its use, at most two dumbbells, a likely height."""
    for index, need in enumerate(movement.kit):
        kinds = KINDS_FOR_USE[need.use]
        if need.item not in kinds:
            words = ", ".join(kind.value for kind in KitKind if kind in kinds)
            yield _says(
                movement, ("kit", index, "item"), need.item.value, f"{words} for {need.use.value}"
            )
        if need.min_height and need.min_height > HIGHEST_KIT_MM:
            yield _says(
                movement,
                ("kit", index, "min_height"),
                f"{need.min_height} mm",
                "a height up to 3 m (write '45 cm'; a bare number is metres)",
                code="field.range",
            )
    dumbbells = sum(n.units for n in movement.kit if n.item is KitKind.DUMBBELL)
    if dumbbells > 2:
        yield _says(movement, ("kit",), f"{dumbbells} dumbbells", "at most 2 for one person")


def floor_has_a_likely_size(movement: Movement) -> Found:
    """Require a floor for one person between half a metre and twenty."""
    for name, size in (("length", movement.floor.length), ("width", movement.floor.width)):
        if not SHORTEST_FLOOR_MM <= size <= LONGEST_FLOOR_MM:
            yield _says(
                movement, ("floor", name), f"{size} mm", "0.5 m to 20 m", code="field.range"
            )


def limb_factor_is_for_one_side(movement: Movement) -> Found:
    """Require a one-sided movement where a limb factor is given."""
    if movement.limb_factor_bp is not None and movement.laterality is Laterality.BILATERAL:
        yield _says(
            movement,
            ("limb_factor_bp",),
            movement.limb_factor_bp,
            "no limb factor, because both sides work together",
        )


def lifted_share_has_a_family(movement: Movement) -> Found:
    """Require a family where a share of body mass is lifted, or nothing can judge it."""
    if movement.lifted_share and movement.strength_family is None:
        yield _says(
            movement,
            ("strength_family",),
            "none",
            "a strength_family, because a share of body mass is lifted",
        )


def teaching_names_another(movement: Movement, shown_names: dict[str, str]) -> Found:
    """Require steps and cues that do not name another movement."""
    own = movement.name.casefold()
    others = [
        name
        for slug, name in shown_names.items()
        if slug != movement.slug and name.casefold() not in own
    ]
    texts = {"steps": movement.teaching.steps, "cues": movement.teaching.cues}
    for field, sentences in texts.items():
        for index, sentence in enumerate(sentences):
            for name in others:
                if re.search(rf"\b{re.escape(name.casefold())}\b", sentence.casefold()):
                    yield _says(
                        movement,
                        ("teaching", field, index),
                        sentence,
                        f"words about this movement, not about '{name}'",
                    )


RULES: tuple[Callable[[Movement], Found], ...] = (
    shares_sum_to_one,
    has_a_fitting_prime_mover,
    load_can_be_judged,
    family_fits_the_pattern,
    landings_are_demands,
    pattern_is_a_demand,
    kit_is_a_demand,
    floor_is_a_demand,
    kit_fits_its_use,
    floor_has_a_likely_size,
    limb_factor_is_for_one_side,
    lifted_share_has_a_family,
)
