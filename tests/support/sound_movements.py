"""A movement that contradicts itself nowhere; each test changes what it is about."""

from typing import Any

from roundwright.library.movement import Movement
from roundwright.library.vocabulary import Demand
from tests.support.builders import TEACHING, a_movement

PLAIN = TEACHING.model_copy(
    update={
        "set_up": "Tall.",
        "watch": "Bench, box, chair, mat, rope, band and dumbbells are dry and whole.",
    }
)
"""Words that give no demand away and name every kind of kit."""


def a_sound_movement(slug: str, **changes: Any) -> Movement:
    """Make a body-weight squat of level 2 with the demand it needs, with changes.

    Demands that are given are added to a low one at the knee.
    """
    demands = {Demand.KNEE: 1} | changes.pop("demands", {})
    kept = {name: degree for name, degree in demands.items() if degree}
    return a_movement(slug, **({"teaching": PLAIN} | changes), demands=kept)
