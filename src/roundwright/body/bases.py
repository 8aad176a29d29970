"""Which way up a body starts, and how it is bent at first, for each base."""

import numpy as np

from roundwright.body.build import Floats
from roundwright.body.joints import ANGLES, COUNT, INDEX, NAMES, ROOT, SIDES
from roundwright.body.posture_words import Base


def _about_y(degrees: float) -> Floats:
    c, s = np.cos(np.radians(degrees)), np.sin(np.radians(degrees))
    return np.array([[c, 0, s], [0, 1, 0], [-s, 0, c]])


_SIDE_LEFT = np.array([[0.0, 0.0, 1.0], [-1.0, 0.0, 0.0], [0.0, -1.0, 0.0]])
"""Lying on the left side: head to the front of the room, face to the right of it."""
_SIDE_RIGHT = np.array([[0.0, 0.0, 1.0], [1.0, 0.0, 0.0], [0.0, 1.0, 0.0]])

TURNS: dict[Base, Floats] = {
    Base.STANDING: np.eye(3),
    Base.SEATED: np.eye(3),
    Base.KNEELING: np.eye(3),
    Base.ALL_FOURS: _about_y(80),
    Base.PRONE: _about_y(80),
    Base.SUPINE: _about_y(-88),
    Base.SIDE_LEFT: _SIDE_LEFT,
    Base.SIDE_RIGHT: _SIDE_RIGHT,
}

_BENT: dict[Base, dict[str, float]] = {
    Base.STANDING: {},
    Base.SEATED: {"hip": 85, "knee": 85},
    Base.KNEELING: {"knee": 90, "ankle": -50},
    Base.ALL_FOURS: {"hip": 85, "knee": 88, "shoulder": 80, "ankle": -50, "shoulder_out": 0},
    Base.PRONE: {"shoulder": 75, "shoulder_out": 10, "hip": 0, "knee": 2},
    Base.SUPINE: {"hip": 5, "knee": 6, "shoulder_out": 20},
    Base.SIDE_LEFT: {"hip": 5, "knee": 5},
    Base.SIDE_RIGHT: {"hip": 5, "knee": 5},
}


def resting(base: Base) -> Floats:
    """Give the freedoms of a base at rest (radians; the root at the origin)."""
    q = np.zeros(COUNT)
    for freedom, name in zip(ANGLES, NAMES[len(ROOT) :], strict=True):
        q[INDEX[name]] = np.radians(freedom.rest_deg)
    for name, degrees in _BENT[base].items():
        for side in SIDES:
            q[INDEX[f"{name}_{side}"]] = np.radians(degrees)
    return q
