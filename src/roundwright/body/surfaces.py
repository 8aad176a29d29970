"""How high things are and where a wall stands; the sizes of kit that is not described further."""

import numpy as np

from roundwright.body.build import Floats
from roundwright.body.posture import Bench, Box, Chair, Props, Wall
from roundwright.body.posture_words import Surface

MAT_M = 0.010
DUMBBELL_GRIP_M = 0.060
"""Height of the handle of a dumbbell that lies on the floor, under a hand; our choice."""
CHAIR_BACK_M = 0.42
"""Height of a chair's back above its seat; our choice."""


def heights_m(props: Props, surface: Surface, count: int) -> Floats:
    """Give the height of a level surface for each of some bodies; shape (n,)."""
    chair = props.chair or Chair()
    height = {
        Surface.FLOOR: 0.0,
        Surface.MAT: MAT_M,
        Surface.BENCH: (props.bench or Bench()).height,
        Surface.BOX: (props.box or Box()).height,
        Surface.CHAIR: chair.height,
        Surface.CHAIR_BACK: chair.height + CHAIR_BACK_M,
        Surface.DUMBBELL: DUMBBELL_GRIP_M,
    }[surface]
    return np.full(count, height)


_WALL_NORMALS = {"front": (1.0, 0.0), "back": (-1.0, 0.0), "left": (0.0, 1.0), "right": (0.0, -1.0)}


def wall_plane(props: Props, stature_m: Floats) -> tuple[Floats, Floats]:
    """Give the direction into the wall and how far it stands that way, m for each body."""
    wall = props.wall or Wall()
    ahead, left = _WALL_NORMALS[wall.side]
    return np.array([ahead, left, 0.0]), wall.away * stature_m
