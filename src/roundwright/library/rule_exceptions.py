"""Which entries of the shipped library may break a rule, and why that is right.

An exception is data: the rule's name, the entry, the reason. A test holds that
each one is still needed, so that none outlives what it was made for.
"""

from collections.abc import Mapping

EXCEPTIONS: Mapping[tuple[str, str], str] = {
    (
        "grip_has_a_reason",
        "wall_thigh_stretch",
    ): "The hand holds the foot, not a piece of kit.",
}
"""(rule, slug) to the reason."""


def is_excepted(rule: str, slug: str) -> bool:
    """Say whether an entry may break a rule."""
    return (rule, slug) in EXCEPTIONS
