"""The words of what a person agrees to, with their version: another wording is another version."""

from collections.abc import Mapping

WORDS_VERSION = "2026-11"
"""Which wording a consent was given to; local law may ask for more than these words."""

AGREEMENTS: Mapping[str, tuple[str, str]] = {
    "data": (
        "Names and dates",
        "You may keep my name, measures and the classes I come to, so that classes can be planned "
        "for me. I can ask for all of it, and have it deleted.",
    ),
    "health_data": (
        "Health data",
        "You may keep what I say about my health, so that nothing is planned that could hurt me. "
        "Only coaches see it. I can take this back at any time.",
    ),
    "training": (
        "Training",
        "I train by my own choice, say what hurts or changes, and stop when something is wrong. "
        "This is exercise and no medical advice.",
    ),
}
"""Each agreement by its field: a title, and what is agreed to. Our own words."""
