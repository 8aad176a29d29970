"""Which fields of one movement may not stand together: kit, floor, load and time.

The bounds here are our choice.
"""

from collections.abc import Callable

from roundwright.library.movement import Movement
from roundwright.library.movement_says import Found, says
from roundwright.library.vocabulary import (
    KitKind,
    KitUse,
    Laterality,
    Pattern,
    StrengthFamily,
)

HIGHEST_KIT_MM = 3000
TEMPO_SLACK_S = 1.0
RATE_SLACK = 1.25
SHORTEST_FLOOR_MM, LONGEST_FLOOR_MM = 500, 20_000

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


def load_can_be_judged(movement: Movement) -> Found:
    """Require a strength family, or loads by level that do not fall, of what lifts dumbbells."""
    by_level = movement.assumed_load_by_level
    if movement.dumbbells_lifted and movement.strength_family is None and not by_level:
        yield says(
            movement,
            ("strength_family",),
            "none",
            "a strength_family or assumed_load_by_level, because dumbbells are lifted",
        )
    if by_level is None:
        return
    path = ("assumed_load_by_level",)
    if not movement.dumbbells_lifted:
        yield says(movement, path, "loads", "nothing, because no dumbbell is lifted")
    if not set(by_level) <= set("12345"):
        yield says(movement, path, ", ".join(by_level), "levels '1' to '5'")
    masses = [by_level[level] for level in sorted(by_level)]
    if masses != sorted(masses) or any(mass <= 0 for mass in masses):
        yield says(movement, path, masses, "masses above 0 that do not fall with the level")


def family_fits_the_pattern(movement: Movement) -> Found:
    """Require the family that does the movement."""
    fitting = FAMILIES.get(movement.pattern)
    family = movement.strength_family
    if family and fitting and family not in fitting:
        words = ", ".join(sorted(f.value for f in fitting))
        yield says(
            movement, ("strength_family",), family.value, f"{words} for {movement.pattern.value}"
        )


def kit_fits_its_use(movement: Movement) -> Found:
    """Require kit that can be fit for its use, at most two dumbbells, a likely height."""
    for index, need in enumerate(movement.kit):
        kinds = KINDS_FOR_USE[need.use]
        if need.item not in kinds:
            words = ", ".join(kind.value for kind in KitKind if kind in kinds)
            yield says(
                movement, ("kit", index, "item"), need.item.value, f"{words} for {need.use.value}"
            )
        if need.min_height and need.min_height > HIGHEST_KIT_MM:
            yield says(
                movement,
                ("kit", index, "min_height"),
                f"{need.min_height} mm",
                "a height up to 3 m (write '45 cm'; a bare number is metres)",
                code="field.range",
            )
    dumbbells = sum(n.units for n in movement.kit if n.item is KitKind.DUMBBELL)
    if dumbbells > 2:
        yield says(movement, ("kit",), f"{dumbbells} dumbbells", "at most 2 for one person")


def floor_has_a_likely_size(movement: Movement) -> Found:
    """Require a floor for one person between half a metre and twenty."""
    for name, size in (("length", movement.floor.length), ("width", movement.floor.width)):
        if not SHORTEST_FLOOR_MM <= size <= LONGEST_FLOOR_MM:
            yield says(movement, ("floor", name), f"{size} mm", "0.5 m to 20 m", code="field.range")


def limb_factor_is_for_one_side(movement: Movement) -> Found:
    """Require a one-sided movement where a limb factor is given."""
    if movement.limb_factor_bp is not None and movement.laterality is Laterality.BILATERAL:
        yield says(
            movement,
            ("limb_factor_bp",),
            movement.limb_factor_bp,
            "no limb factor, because both sides work together",
        )


def lifted_share_has_a_family(movement: Movement) -> Found:
    """Require a family where a share of body mass is lifted, or nothing can judge it."""
    if movement.lifted_share and movement.strength_family is None:
        yield says(
            movement,
            ("strength_family",),
            "none",
            "a strength_family, because a share of body mass is lifted",
        )


def tempo_fits_the_rep(movement: Movement) -> Found:
    """Require a rep that is long enough for its tempo."""
    tempo_s = sum(int(part) for part in movement.tempo.split("-"))
    if tempo_s > movement.seconds_a_rep + TEMPO_SLACK_S:
        yield says(
            movement,
            ("tempo",),
            movement.tempo,
            f"{movement.seconds_a_rep:g} s in all, as seconds_a_rep says, "
            f"or up to {TEMPO_SLACK_S:g} s more",
        )


def rate_fits_the_rep(movement: Movement) -> Found:
    """Require a rate that fits the seconds of a rep, a quarter either way."""
    if movement.rate_a_min is None:
        return
    likely = 60 / movement.seconds_a_rep
    if not likely / RATE_SLACK <= movement.rate_a_min <= likely * RATE_SLACK:
        yield says(
            movement,
            ("rate_a_min",),
            movement.rate_a_min,
            f"about {likely:.0f}, because a rep takes {movement.seconds_a_rep:g} s",
        )


RULES: tuple[Callable[[Movement], Found], ...] = (
    load_can_be_judged,
    family_fits_the_pattern,
    kit_fits_its_use,
    floor_has_a_likely_size,
    limb_factor_is_for_one_side,
    lifted_share_has_a_family,
    tempo_fits_the_rep,
    rate_fits_the_rep,
)
