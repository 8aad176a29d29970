"""Which muscles may not stand beside a pattern, and which roles beside a share."""

from collections.abc import Callable

from roundwright.body.anatomy import Muscle, MuscleRole
from roundwright.library.movement import Movement
from roundwright.library.movement_says import Found, says
from roundwright.library.vocabulary import Pattern

SHARE_TOLERANCE = 1e-6

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

_OF_THE_ARM = frozenset({Muscle.CHEST, Muscle.BICEPS, Muscle.TRICEPS, Muscle.LATS})

OPPOSED: dict[Pattern, frozenset[Muscle]] = {
    Pattern.SQUAT: _OF_THE_ARM,
    Pattern.HINGE: _OF_THE_ARM | {Muscle.QUADS, Muscle.ABDOMINALS},
    Pattern.LUNGE: _OF_THE_ARM,
    Pattern.STEP: _OF_THE_ARM,
    Pattern.JUMP: _OF_THE_ARM,
    Pattern.HORIZONTAL_PUSH: frozenset(
        {Muscle.LATS, Muscle.UPPER_BACK, Muscle.REAR_DELTS, Muscle.BICEPS, Muscle.QUADS}
    ),
    Pattern.VERTICAL_PUSH: frozenset({Muscle.LATS, Muscle.BICEPS, Muscle.REAR_DELTS}),
    Pattern.HORIZONTAL_PULL: frozenset({Muscle.CHEST, Muscle.TRICEPS, Muscle.FRONT_DELTS}),
    Pattern.VERTICAL_PULL: frozenset({Muscle.FRONT_DELTS, Muscle.QUADS}),
    Pattern.ELBOW_FLEXION: frozenset({Muscle.TRICEPS, Muscle.CHEST}),
    Pattern.ELBOW_EXTENSION: frozenset({Muscle.BICEPS, Muscle.LATS}),
    Pattern.TRUNK_FLEXION: frozenset({Muscle.LOW_BACK}),
    Pattern.TRUNK_EXTENSION: frozenset({Muscle.ABDOMINALS}),
}
"""None of these is a prime mover of the pattern. Our choice, from what each muscle does."""


def shares_sum_to_one(movement: Movement) -> Found:
    """Require that the muscle shares of a movement sum to one."""
    total = sum(share.share for share in movement.muscles.values())
    if abs(total - 1.0) > SHARE_TOLERANCE:
        yield says(
            movement, ("muscles",), f"{total:.6g}", "shares that sum to 1", code="library.shares"
        )


def has_a_fitting_prime_mover(movement: Movement) -> Found:
    """Require a prime mover, and one that does what the pattern is about."""
    movers = movement.prime_movers
    if not movers:
        yield says(movement, ("muscles",), "no prime mover", "at least one prime_mover")
        return
    fitting = MOVERS.get(movement.pattern)
    if fitting and not fitting & set(movers):
        words = ", ".join(m.value for m in Muscle if m in fitting)
        yield says(
            movement,
            ("muscles",),
            ", ".join(m.value for m in movers),
            f"one of {words} as prime mover of a {movement.pattern.value}",
        )


def movers_do_not_oppose_the_pattern(movement: Movement) -> Found:
    """Require that no prime mover works against what the pattern is about."""
    fitting = MOVERS.get(movement.pattern)
    if fitting and not fitting & set(movement.prime_movers):
        return  # said already: none of them fits
    wrong = [m for m in movement.prime_movers if m in OPPOSED.get(movement.pattern, ())]
    for muscle in wrong:
        yield says(
            movement,
            ("muscles", muscle.value),
            "prime_mover",
            f"helper or stabiliser in a {movement.pattern.value}, or another pattern",
        )


def roles_follow_the_shares(movement: Movement) -> Found:
    """Require that no helper does more than every prime mover, no stabiliser more than any."""
    movers = [
        each.share for each in movement.muscles.values() if each.role is MuscleRole.PRIME_MOVER
    ]
    if not movers:
        return
    limits = {
        MuscleRole.HELPER: (max(movers), "the largest"),
        MuscleRole.STABILISER: (min(movers), "the least"),
    }
    for muscle, each in movement.muscles.items():
        limit, which = limits.get(each.role, (1.0, ""))
        if each.share > limit + SHARE_TOLERANCE:
            yield says(
                movement,
                ("muscles", muscle.value),
                f"{each.role.value} {each.share:g}",
                f"a share up to {limit:g}, that of {which} prime mover",
            )


RULES: tuple[Callable[[Movement], Found], ...] = (
    shares_sum_to_one,
    has_a_fitting_prime_mover,
    movers_do_not_oppose_the_pattern,
    roles_follow_the_shares,
)
